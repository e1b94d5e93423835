/**
 * Calendar days. Everything is arithmetic on the days themselves, never on instants, so that no
 * time zone can move a date on a label.
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';

const DAY_MS = 86_400_000;
const MONTHS = ['JAN', 'FEB', 'MAR', 'APR', 'MAY', 'JUN', 'JUL', 'AUG', 'SEP', 'OCT', 'NOV', 'DEC'] as const;

export interface CalendarDay {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  readonly day: number;
}

/**
 * Reads a day of this century written as ISO 8601 has it.
 * @param text such as `2026-07-14`
 * @param field the input key to name in a problem
 * @returns the day, or a sentence: wrong form, no such day, not in 2000 to 2099 (lot codes carry two digits of the year)
 */
export function readDay(text: string, field?: string): Outcome<CalendarDay> {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text.trim());
  if (match === null) return bad(`“${text}” is not a date.`, field, 'Write it as year, month, day: 2026-07-14.');
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  if (year < 2000 || year > 2099) return bad(`The year ${year} can’t be right.`, field, 'Check the date: it must lie in 2000 to 2099.');
  const found = { year, month, day };
  if (isoFrom(daysSinceEpoch(found)) !== match[0]) return bad(`There is no day ${match[0]}.`, field, 'Check the month and the day.');
  return good(found);
}

/** A day as ISO 8601 text, `2026-07-14`. */
export function dayText(day: CalendarDay): string {
  return isoFrom(daysSinceEpoch(day));
}

/** Day of the year, 1 for 1 January, 365 or 366 for 31 December. */
export function dayOfYear(day: CalendarDay): number {
  return daysSinceEpoch(day) - daysSinceEpoch({ year: day.year, month: 1, day: 1 }) + 1;
}

/** The day with this number in its year, or undefined where the year has no such day. */
export function dayFromOrdinal(year: number, ordinal: number): CalendarDay | undefined {
  const found = dayFromCount(daysSinceEpoch({ year, month: 1, day: 1 }) + ordinal - 1);
  return ordinal >= 1 && found.year === year ? found : undefined;
}

/** The day so many days later (earlier when negative). */
export function addDays(day: CalendarDay, days: number): CalendarDay {
  return dayFromCount(daysSinceEpoch(day) + days);
}

/** Days from one day to another; negative when the second lies before the first. */
export function daysBetween(from: CalendarDay, to: CalendarDay): number {
  return daysSinceEpoch(to) - daysSinceEpoch(from);
}

/** A day for a label, `14 JUL 2026`: the month in letters, so that day and month can't be changed round. */
export function dayInWords(day: CalendarDay): string {
  return `${twoDigits(day.day)} ${monthWord(day)} ${day.year}`;
}

/** A stretch of days for a label: `11-12 JUL 2026`, `30 JUN-02 JUL 2026`, or both in full across a year. */
export function daysInWords(from: CalendarDay, to: CalendarDay): string {
  if (daysBetween(from, to) === 0) return dayInWords(from);
  if (from.year !== to.year) return `${dayInWords(from)}-${dayInWords(to)}`;
  const start = from.month === to.month ? twoDigits(from.day) : `${twoDigits(from.day)} ${monthWord(from)}`;
  return `${start}-${dayInWords(to)}`;
}

function monthWord(day: CalendarDay): string {
  const word = MONTHS[day.month - 1];
  if (word === undefined) throw new Error(`no month ${day.month}`);
  return word;
}

function twoDigits(value: number): string {
  return String(value).padStart(2, '0');
}

function daysSinceEpoch(day: CalendarDay): number {
  return Date.UTC(day.year, day.month - 1, day.day) / DAY_MS;
}

function isoFrom(count: number): string {
  return new Date(count * DAY_MS).toISOString().slice(0, 10);
}

function dayFromCount(count: number): CalendarDay {
  const date = new Date(count * DAY_MS);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}
