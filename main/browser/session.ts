/** The one-time key in the address and the cookie it is exchanged for. */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

export interface Session {
  /** Goes into the printed address; good for one exchange. */
  readonly key: string;
  /** Exchanges the key for the `Set-Cookie` header; null for a wrong key or the second time. */
  redeem(given: string): string | null;
  /** Whether a `Cookie` header carries this session's cookie. */
  admits(cookieHeader: string | undefined): boolean;
}

/** Compares without telling by its time where two texts differ. */
function areEqual(one: string, other: string): boolean {
  const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(one), digest(other));
}

/** The value of one cookie in a `Cookie` header; undefined when it isn't there. */
function readCookie(header: string, name: string): string | undefined {
  for (const pair of header.split(';')) {
    const at = pair.indexOf('=');
    if (at > 0 && pair.slice(0, at).trim() === name) return pair.slice(at + 1).trim();
  }
  return undefined;
}

/**
 * Starts a session for the program at `port`. The port is in the cookie's name because browsers
 * share cookies between the ports of one host, and two books may be open at once.
 */
export function startSession(port: number): Session {
  const key = randomBytes(24).toString('base64url');
  const ticket = randomBytes(32).toString('base64url');
  const cookieName = `alderbook-${port}`;
  let isRedeemed = false;
  return {
    key,
    redeem(given) {
      const isRight = areEqual(given, key);
      if (!isRight || isRedeemed) return null;
      isRedeemed = true;
      return `${cookieName}=${ticket}; HttpOnly; SameSite=Strict; Path=/`;
    },
    admits(cookieHeader) {
      const given = cookieHeader === undefined ? undefined : readCookie(cookieHeader, cookieName);
      return given !== undefined && areEqual(given, ticket);
    },
  };
}
