/** Days, clock times and counts as they stand in the sentences about a log. */
import { DAY_MS } from './log-moments.ts';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** A day in words (14 Jul 2026) from wall time in milliseconds. */
export function describeDay(wallMs: number): string {
  const day = new Date(Math.floor(wallMs / DAY_MS) * DAY_MS);
  return `${day.getUTCDate()} ${MONTHS[day.getUTCMonth()] ?? ''} ${day.getUTCFullYear()}`;
}

/** A moment in words (14 Jul 2026 05:31:10) from wall time in milliseconds. */
export function describeWall(wallMs: number): string {
  return `${describeDay(wallMs)} ${new Date(wallMs).toISOString().slice(11, 19)}`;
}

/** "1 row", "2 rows": a count with its noun. */
export function countOf(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
