/**
 * Times of plain rows: what stands around the clock time is looked at only where it changes, and understood when all
 * rows are read, since the order of a column's dates may show in its last row.
 */
import { clockStart, isOffset, readClock, type FoundClock } from './log-byte-times.ts';
import { skipCell } from './log-plain-cells.ts';
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
    if (lastLength > 0 && isSame(view, from, last, lastLength) && endsCell(bytes, from + lastLength, delimiter)) return from + lastLength;
    if (before === -1 || !isSame(view, from, this.known, before)) return this.look(from, row);
    const clockMs = readTwelve(view, from + before);
    let at = from + before + TWELVE_BYTES;
    if (clockMs === -1) return this.look(from, row);
    for (let behind = 0; behind < this.tailLength; behind += 1, at += 1) if (bytes[at] !== bytes[this.tail + behind]) return this.look(from, row);
    if (!endsCell(bytes, at, delimiter)) return this.look(from, row);
    this.clockMs = clockMs;
    this.last = from;
    this.lastLength = at - from;
    return at;
  }

  /** Takes a cell for the first of its kind. */
  private look(from: number, row: number): number {
    const { bytes, clock } = this;
    const to = skipCell(bytes, from, this.delimiter);
    if (to === -1) return -1;
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
  private readonly view: DataView;
  private known = 0;
  private length = -1;

  constructor(bytes: Uint8Array, dateColumn: number, clockColumn: number, delimiter: number) {
    this.bytes = bytes;
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.columns = [dateColumn, clockColumn];
    this.dateColumn = dateColumn;
    this.delimiter = delimiter;
  }

  read(column: number, from: number, row: number): number {
    const { bytes, view, delimiter, known, length, clock } = this;
    if (column !== this.dateColumn) {
      const clockMs = readTwelve(view, from);
      if (clockMs !== -1 && endsCell(bytes, from + TWELVE_BYTES, delimiter)) {
        this.clockMs = clockMs;
        return from + TWELVE_BYTES;
      }
      const to = skipCell(bytes, from, delimiter);
      if (to === -1 || !readClock(bytes, from, to, clock) || clock.end !== to) return -1;
      this.clockMs = clock.ms;
      return to;
    }
    if (length > 0 && isSame(view, from, known, length) && endsCell(bytes, from + length, delimiter)) return from + length;
    const to = skipCell(bytes, from, delimiter);
    // A blank at its end is no part of a date.
    if (to <= from || bytes[from] === 32 || bytes[to - 1] === 32) return -1;
    this.known = from;
    this.length = to - from;
    this.days.push({ fromRow: row, from, to });
    return to;
  }
}

/** Whether two stretches of bytes are the same, four at a time and the last four, in which times differ, first. */
function isSame(view: DataView, from: number, other: number, length: number): boolean {
  if (from + length > view.byteLength) return false;
  if (length < 4) {
    for (let at = 0; at < length; at += 1) if (view.getUint8(from + at) !== view.getUint8(other + at)) return false;
    return true;
  }
  for (let at = length - 4; at > 0; at -= 4) if (view.getInt32(from + at, true) !== view.getInt32(other + at, true)) return false;
  return view.getInt32(from, true) === view.getInt32(other, true);
}

const TWELVE_BYTES = 8;
/** In the two words of `05:31:10`, little-endian: `05:3` and `1:10`. */
const FIRST_BITS = 0xf0ff_f0f0 | 0;
const FIRST = 0x303a_3030;
const SECOND_BITS = 0xf0f0_fff0 | 0;
const SECOND = 0x3030_3a30;

/** Reads `05:31:10`, of a day of 24 hours. @returns its milliseconds, or -1 where it is anything else */
function readTwelve(view: DataView, at: number): number {
  if (at + TWELVE_BYTES > view.byteLength) return -1;
  const first = view.getInt32(at, true);
  const second = view.getInt32(at + 4, true);
  if ((first & FIRST_BITS) !== FIRST || (second & SECOND_BITS) !== SECOND) return -1;
  const hour = pairOf(first & 15, (first >> 8) & 15);
  const minute = pairOf((first >> 24) & 15, second & 15);
  const seconds = pairOf((second >> 16) & 15, (second >> 24) & 15);
  return hour > 23 || minute > 59 || seconds > 59 ? -1 : ((hour * 60 + minute) * 60 + seconds) * 1000;
}

/** Two digits as a number; a large one where one isn't a digit: the characters behind 9 have its upper bits too. */
function pairOf(tens: number, ones: number): number {
  return tens > 9 || ones > 9 ? 100 : tens * 10 + ones;
}

/** Whether a cell ends here: at a delimiter, with its line or with the file. */
function endsCell(bytes: Uint8Array, at: number, delimiter: number): boolean {
  const byte = bytes[at] ?? 10;
  return byte === delimiter || byte === 10 || byte === 13;
}
