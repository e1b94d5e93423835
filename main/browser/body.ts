/** Reads the body of a request up to a limit. */
import type { IncomingMessage } from 'node:http';
import { setImmediate as nextTurn } from 'node:timers/promises';

/** How much of a body that is too long is still read and thrown away, so that the sender gets its answer. */
const PATIENCE = 8;

/** Parts that have come in are taken one after the other, and everything else in this thread would wait for a whole file. */
const BYTES_A_TURN = 131_072;

/** `shared`: where other threads of the program read it too. */
type Memory = 'own' | 'shared';

/**
 * All bytes of the body; null when there are more than `limitBytes`. Of a body that is too long
 * nothing is kept, and one that never ends is cut off.
 * Rejects when the sender goes away in the middle.
 */
export async function readBody(request: IncomingMessage, limitBytes: number, memory: Memory = 'own'): Promise<Buffer | null> {
  // A file is put where it will lie as it comes in; to join its parts at the end would keep everybody waiting.
  const told = Number(request.headers['content-length'] ?? 0);
  const room = told > 0 && told <= limitBytes ? told : 0;
  const whole: Buffer = memory === 'own' ? Buffer.allocUnsafeSlow(room) : Buffer.from(new SharedArrayBuffer(room));
  const parts: Buffer[] = [];
  let [seenBytes, turnBytes] = [0, 0];
  for await (const part of request as AsyncIterable<Buffer>) {
    if (seenBytes + part.length <= whole.length) part.copy(whole, seenBytes);
    else parts.push(part);
    seenBytes += part.length;
    turnBytes += part.length;
    if (turnBytes >= BYTES_A_TURN) {
      turnBytes = 0;
      await nextTurn();
    }
    if (seenBytes > limitBytes) parts.length = 0;
    if (seenBytes > PATIENCE * limitBytes) break;
  }
  if (seenBytes > limitBytes) return null;
  return seenBytes === whole.length ? whole : Buffer.concat([whole.subarray(0, seenBytes - lengthOf(parts)), ...parts]);
}

function lengthOf(parts: readonly Buffer[]): number {
  return parts.reduce((sum, part) => sum + part.length, 0);
}
