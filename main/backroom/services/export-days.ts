/** A stretch of the kitchen's calendar as instants. */
import { instantOf, localDay, localTime } from '../../../app/measures/zone.ts';
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

/** Midnight, or the first hour there is where clocks skip it. */
function startOfDay(day: string, zone: string): number {
  for (const clock of ['00:00', '01:00', '02:00']) {
    const found = instantOf(day, clock, zone);
    if (found.ok) return found.value;
  }
  return unwrap(instantOf(day, '03:00', zone));
}

const WEEK_MS = 7 * 86_400_000;

/**
 * Names the calendar day of many instants: where a zone has the same offset at both ends of a week it has it all through,
 * since no zone changes its clocks twice within one; elsewhere each instant is asked about by itself.
 */
export function dayNamer(zone: string): (atMs: number) => string {
  const offsets = new Map<number, number>();
  const offsetAt = (week: number): number => {
    const known = offsets.get(week);
    if (known !== undefined) return known;
    const { day, clock } = localTime(week * WEEK_MS, zone);
    const offset = Date.parse(`${day}T${clock}:00Z`) - week * WEEK_MS;
    offsets.set(week, offset);
    return offset;
  };
  return (atMs) => {
    const week = Math.floor(atMs / WEEK_MS);
    const offset = offsetAt(week);
    return offset === offsetAt(week + 1) ? new Date(atMs + offset).toISOString().slice(0, 10) : localDay(atMs, zone);
  };
}
