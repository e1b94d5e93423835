/** From the clock times of plain rows to instants: all rows of a day have one base, and days nearly always one offset. */
import type { ByteSeries } from './log-byte-series.ts';
import { splitFields } from './log-lines.ts';
import type { DateOrder } from './log-moments.ts';
import type { PlainRows } from './log-plain-rows.ts';
import type { DaySpan } from './log-plain-times.ts';
import { rowTimeReader, type RowTime } from './log-row-times.ts';
import type { LogTable } from './log-table.ts';

const HOUR_MS = 3_600_000;

/** Rows that follow each other, and the instant to which their clock times are added. */
interface Base {
  readonly fromRow: number;
  readonly ms: number;
}

/**
 * The instants to which the clock times of rows are added, in the order of the rows.
 * @param instantOf all of an hour have one offset; NaN where an instant can't be told from the row alone
 * @returns `undefined` where one can't, or where a date is none
 */
export function basesOf(
  { lines, layout, plan }: LogTable, { count, clockMs }: PlainRows, days: readonly DaySpan[],
  order: DateOrder | undefined, instantOf: (ms: number, kind: RowTime['kind']) => number,
): readonly Base[] | undefined {
  const readTime = rowTimeReader(plan, order, layout.headings);
  const bases: Base[] = [];
  let known: number | undefined;
  for (const [index, { fromRow }] of days.entries()) {
    const time = readTime(splitFields(lines.lineAt(layout.dataStart + fromRow), layout.delimiter) ?? []);
    if (typeof time === 'string') return undefined;
    const dayMs = time.ms - (clockMs[fromRow] ?? 0);
    const offsetMs = offsetOfRows(clockMs, fromRow, days[index + 1]?.fromRow ?? count, dayMs, (ms) => ms - instantOf(ms, time.kind));
    // Mostly they differ by the same all through, and then have one order. Where not, the reader of single rows looks: it counts the order of what was written too.
    if (offsetMs === undefined || offsetMs !== (known ?? offsetMs)) return undefined;
    known = offsetMs;
    bases.push({ fromRow, ms: dayMs - offsetMs });
  }
  return bases;
}

/** By how much what rows of a day have written and their instants differ; `undefined` where it isn't the same in every hour, or can't be told. */
function offsetOfRows(clockMs: Int32Array, fromRow: number, toRow: number, dayMs: number, offsetOf: (ms: number) => number): number | undefined {
  const offsetMs = offsetOf(dayMs + (clockMs[fromRow] ?? 0));
  let [hourFromMs, hourToMs] = [0, 0];
  for (let row = fromRow; row < toRow; row += 1) {
    const clock = clockMs[row] ?? 0;
    if (clock >= hourFromMs && clock < hourToMs) continue;
    // Not a number is not itself: the first row says so where an instant can't be told.
    if (offsetOf(dayMs + clock) !== offsetMs) return undefined;
    hourFromMs = Math.floor(clock / HOUR_MS) * HOUR_MS;
    hourToMs = hourFromMs + HOUR_MS;
  }
  return offsetMs;
}

/** The instant of each reading of a series. */
export function instantsByClock({ rows, count }: ByteSeries, { clockMs }: PlainRows, bases: readonly Base[]): Float64Array {
  const atMs = new Float64Array(count);
  let index = 0;
  for (const [day, { ms }] of bases.entries()) {
    const to = bases[day + 1]?.fromRow ?? Infinity;
    for (; index < count; index += 1) {
      const row = rows === null ? index : (rows[index] ?? 0);
      if (row >= to) break;
      atMs[index] = ms + (clockMs[row] ?? 0);
    }
  }
  return atMs;
}

/** Whether these are the instants of a series too. */
export function areInstantsOf(atMs: Float64Array, { rows, count }: ByteSeries, { clockMs }: PlainRows, bases: readonly Base[]): boolean {
  if (atMs.length !== count) return false;
  if (rows === null) return true;
  let index = 0;
  for (const [day, { ms }] of bases.entries()) {
    const to = bases[day + 1]?.fromRow ?? Infinity;
    for (; index < count; index += 1) {
      const row = rows[index] ?? 0;
      if (row >= to) break;
      if (atMs[index] !== ms + (clockMs[row] ?? 0)) return false;
    }
  }
  return true;
}

/** The line of each reading of a series. @param firstLine that of the first row */
export function linesOf({ rows, count }: ByteSeries, firstLine: number): Int32Array {
  const lines = new Int32Array(count);
  for (let index = 0; index < count; index += 1) lines[index] = firstLine + (rows === null ? index : (rows[index] ?? 0));
  return lines;
}
