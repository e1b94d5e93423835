/** Where nothing was measured: the step of a record that is usual in it, and from which step on it has a gap. */

const MINUTE_MS = 60_000;
/** A step longer than two usual ones is a gap, but none shorter than this (our choice: a logger may skip a beat). */
const LEAST_GAP_MS = 5 * MINUTE_MS;
/** So many steps, spread evenly over a record, stand for all of them. */
const STEPS_LOOKED_AT = 2001;

/**
 * The step between readings that is usual in a record: the lower median of its steps, of a long record of 2001 spread evenly over it.
 * @param atMs sorted instants, UTC ms
 * @returns ms; 0 where there are no two readings at different instants
 */
export function usualStepOf(atMs: Float64Array): number {
  const count = atMs.length - 1;
  const stride = Math.max(1, Math.floor(count / STEPS_LOOKED_AT));
  const steps: number[] = [];
  for (let index = 1; index <= count; index += stride) {
    const step = (atMs[index] ?? 0) - (atMs[index - 1] ?? 0);
    if (step > 0) steps.push(step);
  }
  steps.sort((one, other) => one - other);
  return steps[Math.floor((steps.length - 1) / 2)] ?? 0;
}

/** From which step on, in ms, nothing joins two readings of this record. */
export function gapMsOf(atMs: Float64Array): number {
  return Math.max(2 * usualStepOf(atMs), LEAST_GAP_MS);
}
