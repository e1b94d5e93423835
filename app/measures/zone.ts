/**
 * Local times of the kitchen. The book keeps instants in UTC; a zone name (IANA) turns them into
 * what a clock on the wall showed, and back. The repeated and the missing hour of a clock change
 * are said, never guessed.
 */
import { Temporal } from 'temporal-polyfill';
import { bad, good, type Outcome } from './outcome.ts';

export interface LocalTime {
  /** `YYYY-MM-DD`. */
  readonly day: string;
  /** `HH:MM`, 24 hours. */
  readonly clock: string;
}

/** True for a zone name this computer's data knows, such as `America/Chicago`. */
export function isTimeZone(name: string): boolean {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(name);
    return true;
  } catch {
    return false;
  }
}

/** What a wall clock in the zone shows at an instant. */
export function localTime(atMs: number, timeZone: string): LocalTime {
  const zoned = Temporal.Instant.fromEpochMilliseconds(atMs).toZonedDateTimeISO(timeZone);
  return { day: zoned.toPlainDate().toString(), clock: zoned.toPlainTime().toString().slice(0, 5) };
}

/**
 * The instant of a wall-clock time.
 * @param day `YYYY-MM-DD`
 * @param clock `HH:MM` or `H:MM`, 24 hours
 * @returns UTC ms, or a sentence: not a time, not a day, or an hour that a clock change skips or repeats
 */
export function instantOf(day: string, clock: string, timeZone: string, field = 'time'): Outcome<number> {
  const match = /^(\d{1,2}):(\d{2})$/.exec(clock.trim());
  const hour = Number(match?.[1] ?? NaN);
  const minute = Number(match?.[2] ?? NaN);
  if (match === null || hour > 23 || minute > 59) return bad(`“${clock}” is not a time of day.`, field, 'Type hours and minutes, such as 14:05.');
  let plain: Temporal.PlainDateTime;
  try {
    plain = Temporal.PlainDate.from(day, { overflow: 'reject' }).toPlainDateTime({ hour, minute });
  } catch {
    return bad(`“${day}” is not a day of the calendar.`, field, 'Choose the day again.');
  }
  const early = plain.toZonedDateTime(timeZone, { disambiguation: 'earlier' });
  const late = plain.toZonedDateTime(timeZone, { disambiguation: 'later' });
  if (early.epochMilliseconds === late.epochMilliseconds) return good(early.epochMilliseconds);
  const skipped = !early.toPlainDateTime().equals(plain);
  return skipped
    ? bad(`${clock} did not happen on ${day}: the clocks went forward over it.`, field, 'Type the time the clock really showed.')
    : bad(`${clock} happened twice on ${day}: the clocks went back over it.`, field, 'Type a time outside the repeated hour and note the rest.');
}

/** The first instant of a calendar day, `YYYY-MM-DD`: midnight, the first of two, or the first hour there is where clocks skip it. */
export function startOfDay(day: string, timeZone: string): number {
  return Temporal.PlainDate.from(day).toZonedDateTime(timeZone).epochMilliseconds;
}

/** The calendar day at an instant, `YYYY-MM-DD`. */
export function localDay(atMs: number, timeZone: string): string {
  return localTime(atMs, timeZone).day;
}
