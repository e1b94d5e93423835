/** A row of readings as one digest of its numbers, for telling whether a judgement still stands. */
import type { Reading } from '../../../../app/limits/judge-case.ts';
import { canonicalJson, sha256Hex } from '../../book/canonical.ts';

/** How a reading came in, as a number of its digest. */
const ENTERED = { 'at-once': 0, late: 1, paper: 2 } as const;

/** Rows are never changed, and every set that a batch is judged by asks for the digest of the same ones. */
const digests = new WeakMap<readonly Reading[], string>();

/** The digest of all that is judged of a row of readings. */
export function digestOfRow(readings: readonly Reading[]): string {
  const digest = digests.get(readings) ?? digestAnew(readings);
  digests.set(readings, digest);
  return digest;
}

function digestAnew(readings: readonly Reading[]): string {
  const numbers = new Float64Array(readings.length * 4);
  let at = 0;
  for (const { atMs, lowTicks, highTicks, entered } of readings) {
    numbers[at++] = atMs;
    numbers[at++] = lowTicks;
    numbers[at++] = highTicks;
    numbers[at++] = ENTERED[entered ?? 'at-once'];
  }
  // Few readings cover a span or are in doubt, so only those are told apart by more than their numbers.
  const besides = readings.flatMap(({ coversSinceMs, doubt }, index) =>
    coversSinceMs === undefined && doubt === undefined ? [] : [[index, coversSinceMs ?? null, doubt ?? null]]);
  return sha256Hex(canonicalJson([sha256Hex(new Uint8Array(numbers.buffer)), besides]));
}
