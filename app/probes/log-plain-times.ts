/**
 * Times of plain rows: what stands around the clock time is looked at only where it changes, and understood when all
 * rows are read, since the order of a column's dates may show in its last row.
 */
import { clockStart, isOffset, readClock, type FoundClock } from './log-byte-times.ts';
import type { TimePlan } from './log-time-columns.ts';

/** Rows that follow each other with the same date, and the same offset behind the clock time. */
export interface DaySpan {
  readonly fromRow: number;
  /** Where the first row's cell with the date lies in the bytes. */
  readonly from: number;
  readonly to: number;
}

/** Reads the cells of a row's time; the clock time is then in `clockMs`. */
export interface PlainTimes {
  readonly columns: readonly number[];
  clockMs: number;
  readonly days: DaySpan[];
  /** @returns where the cell that begins at a byte ends, or -1 where it isn't plain */
  read(column: number, from: number, row: number): number;
}

const COLON = 58;

/** Makes the reader of a plan's times; `undefined` for a plan that is none of dates and clock times. */
export function plainTimes(bytes: Uint8Array, plan: TimePlan, delimiter: number): PlainTimes | undefined {
  if (plan.kind === 'moment') return new MomentTimes(bytes, plan.column, delimiter);
  return plan.kind === 'date-and-clock' ? new PairTimes(bytes, plan.column, plan.clockColumn, delimiter) : undefined;
}

/** A date and a clock time in one cell, and perhaps an offset behind them. */
class MomentTimes implements PlainTimes {
  readonly columns: readonly number[];
  readonly days: DaySpan[] = [];
  clockMs = 0;
  private readonly bytes: Uint8Array;
  private readonly delimiter: number;
  private readonly clock: FoundClock = { ms: 0, end: 0 };
  private readonly view: DataView;
  // Of the cell that was looked at last: where it begins, how much stands before its clock time, and what behind.
  private known = 0;
  private before = -1;
  private tail = 0;
  private tailLength = 0;
  // Of the cell that was read last; in a long file the next is often the same.
  private last = 0;
  private lastLength = -1;

  constructor(bytes: Uint8Array, column: number, delimiter: number) {
    this.bytes = bytes;
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.columns = [column];
    this.delimiter = delimiter;
  }

  read(_column: number, from: number, row: number): number {
    const { bytes, view, before, last, lastLength, delimiter } = this;
    // From the right a time differs sooner.
    if (lastLength > 0 && bytes[from + lastLength - 1] === bytes[last + lastLength - 1] && isSame(view, from, last, lastLength) && endsCell(bytes, from + lastLength, delimiter)) return from + lastLength;
    if (before === -1 || !isSame(view, from, this.known, before)) return this.look(from, row);
    let at = readTwelve(bytes, from + before, this.clock);
    if (at === -1) return this.look(from, row);
    for (let behind = 0; behind < this.tailLength; behind += 1, at += 1) if (bytes[at] !== bytes[this.tail + behind]) return this.look(from, row);
    if (!endsCell(bytes, at, delimiter)) return this.look(from, row);
    this.clockMs = this.clock.ms;
    this.last = from;
    this.lastLength = at - from;
    return at;
  }

  /** Takes a cell for the first of its kind. */
  private look(from: number, row: number): number {
    const { bytes, clock } = this;
    const to = findCellEnd(bytes, from, this.delimiter);
    const at = clockStart(bytes, from, to);
    if (at <= from || !readClock(bytes, at, to, clock) || !isOffset(bytes, clock.end, to)) return -1;
    this.known = from;
    this.before = at - from;
    this.tail = clock.end;
    this.tailLength = to - clock.end;
    this.clockMs = clock.ms;
    this.last = from;
    this.lastLength = to - from;
    this.days.push({ fromRow: row, from, to });
    return to;
  }
}

/** A date in one column and a clock time in another. */
class PairTimes implements PlainTimes {
  readonly columns: readonly number[];
  readonly days: DaySpan[] = [];
  clockMs = 0;
  private readonly bytes: Uint8Array;
  private readonly delimiter: number;
  private readonly dateColumn: number;
  private readonly clock: FoundClock = { ms: 0, end: 0 };
  private known = 0;
  private length = -1;

  constructor(bytes: Uint8Array, dateColumn: number, clockColumn: number, delimiter: number) {
    this.bytes = bytes;
    this.columns = [dateColumn, clockColumn];
    this.dateColumn = dateColumn;
    this.delimiter = delimiter;
  }

  read(column: number, from: number, row: number): number {
    const { bytes, delimiter, known, length, clock } = this;
    if (column !== this.dateColumn) {
      const at = readTwelve(bytes, from, clock);
      const to = at !== -1 && endsCell(bytes, at, delimiter) ? at : findCellEnd(bytes, from, delimiter);
      if (to !== at && (!readClock(bytes, from, to, clock) || clock.end !== to)) return -1;
      this.clockMs = clock.ms;
      return to;
    }
    let same = 0;
    while (same < length && bytes[from + same] === bytes[known + same]) same += 1;
    if (same === length && endsCell(bytes, from + same, delimiter)) return from + same;
    const to = findCellEnd(bytes, from, delimiter);
    // A blank at its end is no part of a date.
    if (to === from || bytes[from] === 32 || bytes[to - 1] === 32) return -1;
    this.known = from;
    this.length = to - from;
    this.days.push({ fromRow: row, from, to });
    return to;
  }
}

/** Whether two stretches of bytes are the same, four at a time. */
function isSame(view: DataView, from: number, other: number, length: number): boolean {
  if (from + length > view.byteLength) return false;
  let at = 0;
  for (; at + 4 <= length; at += 4) if (view.getInt32(from + at) !== view.getInt32(other + at)) return false;
  for (; at < length; at += 1) if (view.getUint8(from + at) !== view.getUint8(other + at)) return false;
  return true;
}

/** Reads `05:31:10`, of a day of 24 hours. @returns where it ends, or -1 where it is anything else */
function readTwelve(bytes: Uint8Array, at: number, found: FoundClock): number {
  const hour = pairOf(bytes, at);
  const minute = pairOf(bytes, at + 3);
  const second = pairOf(bytes, at + 6);
  if (bytes[at + 2] !== COLON || bytes[at + 5] !== COLON || hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 || second > 59) return -1;
  found.ms = ((hour * 60 + minute) * 60 + second) * 1000;
  return at + 8;
}

/** Two digits as a number; below zero where they are none. */
function pairOf(bytes: Uint8Array, at: number): number {
  const tens = (bytes[at] ?? 0) - 48;
  const ones = (bytes[at + 1] ?? 0) - 48;
  return tens < 0 || tens > 9 || ones < 0 || ones > 9 ? -1 : tens * 10 + ones;
}

/** Whether a cell ends here: at a delimiter, with its line or with the file. */
function endsCell(bytes: Uint8Array, at: number, delimiter: number): boolean {
  const byte = bytes[at] ?? 10;
  return byte === delimiter || byte === 10 || byte === 13;
}

function findCellEnd(bytes: Uint8Array, from: number, delimiter: number): number {
  let at = from;
  while (!endsCell(bytes, at, delimiter)) at += 1;
  return at;
}
