/** A stretch of the kitchen's calendar as instants. */
import { localTime, startOfDay } from '../../../app/measures/zone.ts';
import { addDays, dayText, readDay } from '../../../app/packs/dates.ts';
import { unwrap } from '../refusal.ts';
import { refuseInput } from './field-refusal.ts';

export interface DaySpan {
  readonly fromMs: number;
  /** The first instant after it. */
  readonly toMs: number;
}

/**
 * Both days are included.
 * @throws Refusal INVALID_INPUT: no such day, an end before the beginning
 */
export function spanOfDays(fromDay: string, toDay: string, zone: string): DaySpan {
  const last = unwrap(readDay(toDay, 'toDay'));
  unwrap(readDay(fromDay, 'fromDay'));
  if (toDay < fromDay) refuseInput('The last day lies before the first.', ['toDay'], 'Change the two days round.');
  return { fromMs: startOfDay(fromDay, zone), toMs: startOfDay(dayText(addDays(last, 1)), zone) };
}

const WEEK_MS = 7 * 86_400_000;
const QUARTER_MS = 15 * 60_000;

/**
 * How far the kitchen's clock was from UTC at many instants, in ms: where a zone has the same offset at both ends of a
 * week it has it all through, since no zone changes its clocks twice within one; else it is asked for the quarter of an
 * hour, since clocks change at whole ones.
 */
export function offsetTeller(zone: string): (atMs: number) => number {
  const known = new Map<number, number>();
  const offsetAt = (atMs: number): number => {
    const before = known.get(atMs);
    if (before !== undefined) return before;
    const { day, clock } = localTime(atMs, zone);
    const offset = Date.parse(`${day}T${clock}:00Z`) - atMs;
    known.set(atMs, offset);
    return offset;
  };
  return (atMs) => {
    const weekMs = Math.floor(atMs / WEEK_MS) * WEEK_MS;
    const offset = offsetAt(weekMs);
    return offset === offsetAt(weekMs + WEEK_MS) ? offset : offsetAt(Math.floor(atMs / QUARTER_MS) * QUARTER_MS);
  };
}
