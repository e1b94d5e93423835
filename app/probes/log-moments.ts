/**
 * Dates and clock times as loggers write them. A moment without an offset is "wall time": the
 * milliseconds of its calendar figures as if they were UTC, to be resolved with a time zone later.
 */

/** How the figures of a numeric date follow one another when the year isn't written first with four digits. */
export type DateOrder = 'day-first' | 'month-first' | 'year-first';

export const DAY_MS = 86_400_000;
const MINUTE_MS = 60_000;
const LONGEST_MOMENT = 64;

const CLOCK = /(?:^|[\sT,;])(\d{1,4}):(\d{1,2})(?::(\d{1,2})(?:[.,:](\d{1,9}))?)?(?:\s*([AaPp])\.?[Mm]\.?)?(?=$|[\sZz+\-[UG,;])/;
const ZONE = /^\s*(Z|UTC|GMT)?\s*(?:([+-])(\d{1,2}):?(\d{2})?)?(?:\[[^\]]*\])?/i;
const COMPACT = /^(\d{4})(\d{2})(\d{2})[T ]?(\d{2})(\d{2})(\d{2})?(?:[.,](\d{1,9}))?((?:Z|[+-]\d{2}:?(?:\d{2})?)?)$/i;
const YEAR_FIRST = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/;
const NUMERIC = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})$/;
const DAY_MONTH_NAME = /^(?:[A-Za-z]{3,9},?\s+)?(\d{1,2})(?:st|nd|rd|th)?[-\s.]*([A-Za-z]{3,9})[-\s.,]*(\d{4}|\d{2})$/;
const MONTH_NAME_DAY = /^(?:[A-Za-z]{3,9},?\s+)?([A-Za-z]{3,9})[-\s.]+(\d{1,2})(?:st|nd|rd|th)?,?[-\s]+(\d{4})$/;
const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

type MomentShape = 'moment' | 'date' | 'clock';

interface Pieces {
  readonly date: string | undefined;
  readonly clock: RegExpExecArray | undefined;
  /** Minutes east of UTC when written. */
  readonly offsetMinutes: number | undefined;
}

/** A read moment: an instant when its offset was written or is known, else wall time. */
export interface Moment {
  readonly ms: number;
  readonly isInstant: boolean;
}

/** Three figures of a date whose order must be decided from the whole column. */
export interface NumericDate {
  readonly first: number;
  readonly second: number;
  readonly last: number;
  readonly lastDigits: number;
  readonly mark: string;
}

/** What a cell looks like, whether or not such a date or clock time exists. */
export function momentShape(cell: string): MomentShape | undefined {
  const pieces = takeApart(cell);
  if (pieces === undefined) return undefined;
  if (pieces.date === undefined) return 'clock';
  if (!isDateShaped(pieces.date)) return undefined;
  return pieces.clock === undefined ? 'date' : 'moment';
}

/** The three figures of a cell's date when their order isn't evident from the cell itself. */
export function numericDateOf(cell: string): NumericDate | undefined {
  const match = NUMERIC.exec(takeApart(cell)?.date ?? '');
  if (match === null) return undefined;
  const [, first = '', mark = '', second = '', last = ''] = match;
  return { first: Number(first), second: Number(second), last: Number(last), lastDigits: last.length, mark };
}

/**
 * Reads a cell with a date and a clock time.
 * @param order for numeric dates; `undefined` while undecided: then it is enough that one order gives a date
 * @returns the moment, or why there is none
 */
export function readMoment(cell: string, order: DateOrder | undefined): Moment | string {
  const pieces = takeApart(cell);
  if (pieces?.date === undefined) return 'is not a date with a clock time';
  if (pieces.clock === undefined) return isDateShaped(pieces.date) ? 'has no clock time' : 'is not a date with a clock time';
  const dayMs = readDateText(pieces.date, order);
  if (typeof dayMs === 'string') return dayMs;
  const clockMs = clockFrom(pieces.clock);
  if (typeof clockMs === 'string') return clockMs;
  const { offsetMinutes } = pieces;
  return offsetMinutes === undefined
    ? { ms: dayMs + clockMs, isInstant: false }
    : { ms: dayMs + clockMs - offsetMinutes * MINUTE_MS, isInstant: true };
}

/** Reads a cell with a date only: milliseconds of its midnight as wall time, or why not. A clock time of zero behind it is let pass. */
export function readDate(cell: string, order: DateOrder | undefined): number | string {
  const pieces = takeApart(cell);
  if (pieces?.date === undefined) return 'is not a date';
  if (pieces.clock !== undefined && clockFrom(pieces.clock) !== 0) return 'is not a date alone';
  return readDateText(pieces.date, order);
}

/** Reads a cell with a clock time only: milliseconds after midnight and a written offset in minutes, or why not. */
export function readClock(cell: string): { readonly ms: number; readonly offsetMinutes: number | undefined } | string {
  const pieces = takeApart(cell);
  if (pieces?.clock === undefined || pieces.date !== undefined) return 'is not a clock time';
  const ms = clockFrom(pieces.clock);
  return typeof ms === 'string' ? ms : { ms, offsetMinutes: pieces.offsetMinutes };
}

/** The midnight of a calendar day as wall time, or `undefined` when there is no such day (years 1900 to 2199). */
export function dayMsFrom(year: number, month: number, day: number): number | undefined {
  if (year < 1900 || year > 2199 || month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return undefined;
  return Date.UTC(year, month - 1, day);
}

function takeApart(cell: string): Pieces | undefined {
  if (cell.length > LONGEST_MOMENT || cell.length < 3) return undefined;
  // Narrow and hard spaces stand before AM and PM in some exports.
  const text = /[\u00A0\u2009\u202F]/.test(cell) ? cell.replace(/[\u00A0\u2009\u202F]/g, ' ') : cell;
  const compact = COMPACT.exec(text);
  if (compact !== null && (compact[6] !== undefined || text.includes('T'))) return fromCompact(compact);
  const clock = CLOCK.exec(text);
  if (clock === null) return { date: text, clock: undefined, offsetMinutes: undefined };
  const behind = text.slice(clock.index + clock[0].length);
  const zone = ZONE.exec(behind);
  const offset = zone === null ? undefined : offsetFrom(zone);
  if (offset === 'impossible') return undefined;
  const before = text.slice(0, clock.index).trim().replace(/[,;]$/, '');
  const after = behind.slice(zone === null ? 0 : zone[0].length).replace(/^[\s,;]+/, '');
  if (before !== '' && after !== '') return undefined;
  const date = before === '' ? after : before;
  return { date: date === '' ? undefined : date, clock, offsetMinutes: offset };
}

function fromCompact(match: RegExpExecArray): Pieces | undefined {
  const [, year, month, day, hour, minute, second = '00', fraction = '0', zoneText = ''] = match;
  const clock = CLOCK.exec(`${hour}:${minute}:${second}.${fraction}`);
  const zone = ZONE.exec(zoneText);
  const offset = zone === null ? undefined : offsetFrom(zone);
  if (clock === null || offset === 'impossible') return undefined;
  return { date: `${year}-${month}-${day}`, clock, offsetMinutes: offset };
}

function offsetFrom(zone: RegExpExecArray): number | undefined | 'impossible' {
  const [, name, sign, hours, minutes = '0'] = zone;
  if (hours === undefined) return name === undefined ? undefined : 0;
  const total = Number(hours) * 60 + Number(minutes);
  if (total > 18 * 60 || Number(minutes) > 59) return 'impossible';
  return sign === '-' ? -total : total;
}

function clockFrom(clock: RegExpExecArray): number | string {
  const [, hourText = '', minuteText = '', secondText = '0', fraction = '', half] = clock;
  let hour = Number(hourText);
  const minute = Number(minuteText);
  const second = Number(secondText);
  const exists = minute < 60 && second < 60 && (half === undefined ? hour < 24 : hour >= 1 && hour <= 12);
  if (!exists || minuteText.length !== 2) return 'has a clock time that doesn’t exist';
  if (half !== undefined) hour = (hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
  return ((hour * 60 + minute) * 60 + second) * 1000 + Number(`${fraction}000`.slice(0, 3));
}

function isDateShaped(text: string): boolean {
  if (YEAR_FIRST.test(text) || NUMERIC.test(text)) return true;
  const named = DAY_MONTH_NAME.exec(text)?.[2] ?? MONTH_NAME_DAY.exec(text)?.[1];
  return named !== undefined && monthFromName(named) > 0;
}

function readDateText(text: string, order: DateOrder | undefined): number | string {
  const yearFirst = YEAR_FIRST.exec(text);
  if (yearFirst !== null) return orReason(dayMsFrom(Number(yearFirst[1]), Number(yearFirst[3]), Number(yearFirst[4])));
  const numeric = NUMERIC.exec(text);
  if (numeric !== null) {
    const [, first = '', , second = '', last = ''] = numeric;
    if (order !== undefined) return orReason(orderedDayMs(Number(first), Number(second), Number(last), last.length, order));
    const orders: readonly DateOrder[] = ['day-first', 'month-first', 'year-first'];
    return orReason(orders.map((each) => orderedDayMs(Number(first), Number(second), Number(last), last.length, each)).find((each) => each !== undefined));
  }
  const dayName = DAY_MONTH_NAME.exec(text);
  if (dayName !== null) return orReason(dayMsFrom(fullYear(Number(dayName[3]), dayName[3]?.length ?? 0), monthFromName(dayName[2] ?? ''), Number(dayName[1])));
  const nameDay = MONTH_NAME_DAY.exec(text);
  if (nameDay !== null) return orReason(dayMsFrom(Number(nameDay[3]), monthFromName(nameDay[1] ?? ''), Number(nameDay[2])));
  return 'is not a date';
}

/** The midnight of three figures read in an order, or `undefined` when that is no day. */
export function orderedDayMs(first: number, second: number, last: number, lastDigits: number, order: DateOrder): number | undefined {
  if (order === 'year-first') return lastDigits === 2 ? dayMsFrom(fullYear(first, 2), second, last) : undefined;
  const year = fullYear(last, lastDigits);
  return order === 'day-first' ? dayMsFrom(year, second, first) : dayMsFrom(year, first, second);
}

/** Two-digit years: 00 to 69 are 20xx, 70 to 99 are 19xx (common practice, as in POSIX strptime). */
function fullYear(year: number, digits: number): number {
  if (digits !== 2) return year;
  return year < 70 ? 2000 + year : 1900 + year;
}

function orReason(dayMs: number | undefined): number | string {
  return dayMs ?? 'has a date that doesn’t exist';
}

function monthFromName(name: string): number {
  return MONTHS.indexOf(name.slice(0, 3).toLowerCase()) + 1;
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}
