/** Reads the body of a request up to a limit. */
import type { IncomingMessage } from 'node:http';

/** How much of a body that is too long is still read and thrown away, so that the sender gets its answer. */
const PATIENCE = 8;

/**
 * All bytes of the body; null when there are more than `limitBytes`. Of a body that is too long
 * nothing is kept, and one that never ends is cut off.
 * Rejects when the sender goes away in the middle.
 */
export async function readBody(request: IncomingMessage, limitBytes: number): Promise<Buffer<ArrayBuffer> | null> {
  const parts: Buffer[] = [];
  let seenBytes = 0;
  for await (const part of request as AsyncIterable<Buffer>) {
    seenBytes += part.length;
    if (seenBytes <= limitBytes) parts.push(part);
    else parts.length = 0;
    if (seenBytes > PATIENCE * limitBytes) break;
  }
  return seenBytes > limitBytes ? null : Buffer.concat(parts);
}
