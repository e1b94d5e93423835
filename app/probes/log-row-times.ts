/** The time of one row, by the file's plan. */
import { nameColumn } from './log-facts.ts';
import { quoteCell, readNumber } from './log-cells.ts';
import { DAY_MS, readClock, readDate, readMoment, type DateOrder, type Moment } from './log-moments.ts';
import type { TimePlan } from './log-time-columns.ts';

/**
 * A row's time: an instant (UTC ms), wall time to be resolved with a zone, milliseconds since the
 * log's start, or milliseconds since midnight of a day not told.
 */
export interface RowTime {
  readonly ms: number;
  readonly kind: 'instant' | 'wall' | 'elapsed' | 'clock';
}

const MINUTE_MS = 60_000;
/** Days from 30 Dec 1899, where spreadsheets begin, to 1 Jan 1970. */
const SERIAL_EPOCH_DAYS = 25_569;
const FIRST_YEAR_MS = 631_152_000_000;
const LAST_YEAR_MS = 7_258_118_400_000;
const ELAPSED = /^(?:(\d{1,3})(?:d|[.\s])\s*)?(\d{1,4}):(\d{2})(?::(\d{2}))?(?:[.,](\d{1,9}))?$/;

/**
 * Makes the reader of a row's time.
 * @param order of numeric dates; `undefined` while undecided
 * @param headings to name the column in a reason
 * @returns a function from a row's fields to its time, or to the reason why it has none
 */
export function rowTimeReader(plan: TimePlan, order: DateOrder | undefined, headings: readonly string[]): (fields: readonly string[]) => RowTime | string {
  const where = nameColumn(plan.column, headings[plan.column] ?? '');
  let lastCell: string | undefined;
  let lastRead: RowTime | string = '';
  return (fields) => {
    const cell = fields[plan.column] ?? '';
    if (plan.kind === 'date-and-clock') return readPair(plan, cell, fields[plan.clockColumn] ?? '', order, headings);
    // Long files repeat a time once a channel.
    if (cell === lastCell) return lastRead;
    lastCell = cell;
    lastRead = cell === '' ? `There is no time in ${where}.` : readCell(plan, cell, order, where);
    return lastRead;
  };
}

function readCell(plan: Exclude<TimePlan, { kind: 'date-and-clock' }>, cell: string, order: DateOrder | undefined, where: string): RowTime | string {
  switch (plan.kind) {
    case 'moment':
      return placeMoment(readMoment(cell, order), plan.offsetMinutes, cell, where);
    case 'date-only':
      return sentence(cell, where, 'has no clock time');
    case 'clock-only': {
      const clock = readClock(cell);
      return typeof clock === 'string' ? sentence(cell, where, clock) : { ms: clock.ms, kind: 'clock' };
    }
    case 'elapsed-clock':
      return readElapsedClock(cell, plan.parts ?? 'hours-minutes', where);
    default:
      return readCount(plan, cell, where);
  }
}

function readCount(plan: Extract<TimePlan, { kind: 'epoch' | 'serial' | 'elapsed-number' }>, cell: string, where: string): RowTime | string {
  const number = readNumber(cell);
  if (number === undefined || number.unit !== undefined) return sentence(cell, where, 'is not a time');
  if (plan.kind === 'elapsed-number') {
    if (number.value < 0) return sentence(cell, where, 'is before the start');
    const ms = Math.round(number.value * (plan.unitMs ?? 1000));
    return ms < 1000 * 366 * DAY_MS ? { ms, kind: 'elapsed' } : sentence(cell, where, 'is no elapsed time');
  }
  const ms = Math.round(plan.kind === 'epoch' ? number.value * plan.unitMs : (number.value - SERIAL_EPOCH_DAYS) * DAY_MS);
  if (ms < FIRST_YEAR_MS || ms >= LAST_YEAR_MS) return sentence(cell, where, 'is not a time between 1990 and 2199');
  if (plan.kind === 'epoch') return { ms, kind: 'instant' };
  return plan.offsetMinutes === undefined ? { ms, kind: 'wall' } : { ms: ms - plan.offsetMinutes * MINUTE_MS, kind: 'instant' };
}

function readPair(plan: Extract<TimePlan, { kind: 'date-and-clock' }>, dateCell: string, clockCell: string, order: DateOrder | undefined, headings: readonly string[]): RowTime | string {
  const dateWhere = nameColumn(plan.column, headings[plan.column] ?? '');
  const clockWhere = nameColumn(plan.clockColumn, headings[plan.clockColumn] ?? '');
  if (dateCell === '') return `There is no date in ${dateWhere}.`;
  if (clockCell === '') return `There is no clock time in ${clockWhere}.`;
  const dayMs = readDate(dateCell, order);
  if (typeof dayMs === 'string') return sentence(dateCell, dateWhere, dayMs);
  const clock = readClock(clockCell);
  if (typeof clock === 'string') return sentence(clockCell, clockWhere, clock);
  const offset = clock.offsetMinutes ?? plan.offsetMinutes;
  return offset === undefined ? { ms: dayMs + clock.ms, kind: 'wall' } : { ms: dayMs + clock.ms - offset * MINUTE_MS, kind: 'instant' };
}

function placeMoment(moment: Moment | string, offsetMinutes: number | undefined, cell: string, where: string): RowTime | string {
  if (typeof moment === 'string') return sentence(cell, where, moment);
  if (moment.isInstant) return { ms: moment.ms, kind: 'instant' };
  return offsetMinutes === undefined ? { ms: moment.ms, kind: 'wall' } : { ms: moment.ms - offsetMinutes * MINUTE_MS, kind: 'instant' };
}

function readElapsedClock(cell: string, parts: 'hours-minutes' | 'minutes-seconds' | 'three', where: string): RowTime | string {
  const match = cell.length > 40 ? null : ELAPSED.exec(cell);
  if (match === null) return sentence(cell, where, 'is not an elapsed time');
  const [, days = '0', first = '', second = '', third, fraction = ''] = match;
  const fractionMs = Number(`${fraction}000`.slice(0, 3));
  const isShort = third === undefined && parts === 'minutes-seconds';
  const [hours, minutes, seconds] = isShort ? [0, Number(first), Number(second)] : [Number(first), Number(second), Number(third ?? '0')];
  if (seconds > 59 || (!isShort && minutes > 59)) return sentence(cell, where, 'is an elapsed time that doesn’t exist');
  return { ms: Number(days) * DAY_MS + ((hours * 60 + minutes) * 60 + seconds) * 1000 + fractionMs, kind: 'elapsed' };
}

function sentence(cell: string, where: string, what: string): string {
  return `${quoteCell(cell)} in ${where} ${what}.`;
}
