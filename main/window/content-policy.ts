/** What a page of ours may load, and the headers that go with every file of it, for both fronts. */

export type FrontKind = 'window' | 'browser';

/**
 * The content policy of a page. The window's page asks through its preload and needs no connection
 * at all; the browser's page asks the address it came from.
 */
export function contentPolicy(front: FrontKind): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "img-src 'self' data:",
    "font-src 'self'",
    `connect-src ${front === 'window' ? "'none'" : "'self'"}`,
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; ');
}

/** Headers of every answer of a front, beside its content type. */
export function protectiveHeaders(front: FrontKind): Record<string, string> {
  return {
    'Content-Security-Policy': contentPolicy(front),
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
  };
}
