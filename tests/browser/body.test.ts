import type { IncomingMessage } from 'node:http';
import { Readable } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { readBody } from '../../main/browser/body.ts';

const PART_BYTES = 65_536;

/** A request all of whose parts are there at once, as they are when the sender is quicker than we. */
function requestOf(parts: readonly Buffer[]): IncomingMessage {
  const length = parts.reduce((sum, part) => sum + part.length, 0);
  return Object.assign(Readable.from(parts, { objectMode: true }), { headers: { 'content-length': String(length) } }) as unknown as IncomingMessage;
}

describe('The body of a request', () => {
  it('is taken in turns, between which everything else goes on', async () => {
    const parts = Array.from({ length: 64 }, (_, part) => Buffer.alloc(PART_BYTES, part));
    let turns = 0;
    let isDone = false;
    const count = (): void => {
      turns += 1;
      if (!isDone) setImmediate(count);
    };
    setImmediate(count);
    const whole = await readBody(requestOf(parts), 33_000_000, 'shared');
    isDone = true;
    expect(whole?.equals(Buffer.concat(parts))).toBe(true);
    expect(whole?.buffer).toBeInstanceOf(SharedArrayBuffer);
    // Four MB, 128 kB a turn.
    expect(turns).toBeGreaterThanOrEqual(32);
  });
});
