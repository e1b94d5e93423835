/** A straight line through the last of a record: an estimate to warn by, never a verdict. */

const MINUTE_MS = 60_000;
/** The line goes through this much of the record (our choice: long enough to see past a door that was opened). */
export const LOOK_BACK_MS = 20 * MINUTE_MS;
/** Readings closer together than this tell no direction (our choice). */
const LEAST_SPAN_MS = 8 * MINUTE_MS;
/** Two readings further apart than this belong to no line (our choice: the widest step that still proves a cooling). */
const WIDEST_STEP_MS = 120 * MINUTE_MS;

export interface ReadAt {
  readonly atMs: number;
  readonly ticks: number;
}

export interface Trend {
  /** Of the last reading. */
  readonly lastMs: number;
  /** What was read last, in 1/9000 °C; the line is drawn on from here. */
  readonly lastTicks: number;
  readonly ticksPerMs: number;
  /** What the line goes through. */
  readonly basis: 'last-20-minutes' | 'last-two-readings';
}

/**
 * The line of least squares through the last 20 minutes of a record, or where it is read more rarely through its last two readings.
 * @param readings in order of time, one an instant
 * @returns undefined where there is too little to draw a line through
 */
export function trendOf(readings: readonly ReadAt[]): Trend | undefined {
  const last = readings.at(-1);
  if (last === undefined) return undefined;
  const recent = readings.filter((reading) => reading.atMs >= last.atMs - LOOK_BACK_MS);
  const first = recent[0];
  if (first !== undefined && last.atMs - first.atMs >= LEAST_SPAN_MS) {
    return { lastMs: last.atMs, lastTicks: last.ticks, ticksPerMs: slopeOf(recent), basis: 'last-20-minutes' };
  }
  const before = readings.findLast((reading) => reading.atMs <= last.atMs - LEAST_SPAN_MS);
  if (before === undefined || last.atMs - before.atMs > WIDEST_STEP_MS) return undefined;
  return { lastMs: last.atMs, lastTicks: last.ticks, ticksPerMs: (last.ticks - before.ticks) / (last.atMs - before.atMs), basis: 'last-two-readings' };
}

function slopeOf(readings: readonly ReadAt[]): number {
  const meanMs = meanOf(readings.map((reading) => reading.atMs));
  const meanTicks = meanOf(readings.map((reading) => reading.ticks));
  let [products, squares] = [0, 0];
  for (const { atMs, ticks } of readings) {
    products += (atMs - meanMs) * (ticks - meanTicks);
    squares += (atMs - meanMs) ** 2;
  }
  return products / squares;
}

function meanOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, one) => sum + one, 0) / numbers.length;
}

/** When the line reaches a temperature, UTC ms; Infinity where it goes the other way or nowhere. */
export function reachMs({ lastMs, lastTicks, ticksPerMs }: Trend, ticks: number): number {
  const missing = ticks - lastTicks;
  if (missing === 0) return lastMs;
  const afterMs = missing / ticksPerMs;
  return afterMs >= 0 && Number.isFinite(afterMs) ? lastMs + afterMs : Infinity;
}
