/**
 * Times of rows read from bytes. What stands around the clock time is read as text once, and then known again: a log
 * has many times and few days.
 */
import { areSame } from './log-byte-cells.ts';
import type { RowTime } from './log-row-times.ts';
import type { TimePlan } from './log-time-columns.ts';

export interface ByteTimes {
  /** The row's time, once all cells of its time are read. */
  ms: number;
  kind: RowTime['kind'];
  /** The columns that tell the time. */
  readonly columns: readonly number[];
  /** Reads the cell of a column of the time that begins at a byte. @returns where the time in it ends, or -1 where the row must be read as a text */
  read(column: number, from: number, to: number): number;
  /** Takes over what the row's text gave, to know the like again; by the row's fields. */
  learn(starts: Int32Array, ends: Int32Array, time: RowTime): void;
}

const FIRST_YEAR_MS = 631_152_000_000;
const LAST_YEAR_MS = 7_258_118_400_000;
const LONGEST_ELAPSED_MS = 1000 * 366 * 86_400_000;
const SPACE = 32;
const COLON = 58;

/** Makes the reader of a plan's times; `undefined` for a plan that is always read as texts. */
export function byteTimes(bytes: Uint8Array, plan: TimePlan): ByteTimes | undefined {
  if (plan.kind === 'moment') return momentTimes(bytes, plan.column);
  if (plan.kind === 'date-and-clock') return pairTimes(bytes, plan.column, plan.clockColumn);
  if (plan.kind === 'epoch') return countTimes(bytes, plan.column, plan.unitMs, 'instant', FIRST_YEAR_MS, LAST_YEAR_MS);
  if (plan.kind === 'elapsed-number' && plan.unitMs !== undefined) return countTimes(bytes, plan.column, plan.unitMs, 'elapsed', 0, LONGEST_ELAPSED_MS);
  return undefined;
}

/** A clock time in a cell, and where it ends. */
export interface FoundClock {
  ms: number;
  end: number;
}

/** A date before the clock, and perhaps an offset behind it. */
function momentTimes(bytes: Uint8Array, column: number): ByteTimes {
  const clock: FoundClock = { ms: 0, end: 0 };
  // Where in the bytes the last known cell lies: up to its clock, and behind it.
  let [known, clockFrom, tail, tailEnd] = [0, 0, 0, 0];
  let dayMs = Number.NaN;
  const times: ByteTimes = {
    ms: 0,
    kind: 'wall',
    columns: [column],
    read(_column, from, to) {
      const before = clockFrom - known;
      const at = from + before;
      if (Number.isNaN(dayMs) || at >= to || !areSame(bytes, from, at, bytes, known, clockFrom) || !readClock(bytes, at, to, clock)) return -1;
      const end = clock.end + tailEnd - tail;
      if (end > to || !areSame(bytes, clock.end, end, bytes, tail, tailEnd)) return -1;
      times.ms = dayMs + clock.ms;
      return end;
    },
    learn(starts, ends, time) {
      const from = starts[column] ?? 0;
      const to = ends[column] ?? 0;
      dayMs = Number.NaN;
      const at = clockStart(bytes, from, to);
      if (at <= from || !readClock(bytes, at, to, clock) || !isOffset(bytes, clock.end, to)) return;
      [known, clockFrom, tail, tailEnd] = [from, at, clock.end, to];
      dayMs = time.ms - clock.ms;
      times.kind = time.kind;
    },
  };
  return times;
}

/** A date in one column and a clock time in another. */
function pairTimes(bytes: Uint8Array, dateColumn: number, clockColumn: number): ByteTimes {
  const clock: FoundClock = { ms: 0, end: 0 };
  let [known, knownEnd] = [0, 0];
  let dayMs = Number.NaN;
  const times: ByteTimes = {
    ms: 0,
    kind: 'wall',
    columns: [dateColumn, clockColumn],
    read(column, from, to) {
      if (column === dateColumn) {
        const end = from + knownEnd - known;
        return Number.isNaN(dayMs) || end > to || !areSame(bytes, from, end, bytes, known, knownEnd) ? -1 : end;
      }
      if (!readClock(bytes, from, to, clock)) return -1;
      times.ms = dayMs + clock.ms;
      return clock.end;
    },
    learn(starts, ends, time) {
      dayMs = Number.NaN;
      const to = ends[clockColumn] ?? 0;
      if (!readClock(bytes, starts[clockColumn] ?? 0, to, clock) || clock.end !== to) return;
      [known, knownEnd] = [starts[dateColumn] ?? 0, ends[dateColumn] ?? 0];
      dayMs = time.ms - clock.ms;
      times.kind = time.kind;
    },
  };
  return times;
}

/** Whole numbers since 1970 or since the start. */
function countTimes(bytes: Uint8Array, column: number, unitMs: number, kind: RowTime['kind'], fromMs: number, beforeMs: number): ByteTimes {
  const times: ByteTimes = {
    ms: 0,
    kind,
    columns: [column],
    read(_column, from, to) {
      let count = 0;
      let at = from;
      for (; at < to && isDigit(bytes[at]); at += 1) count = count * 10 + digitAt(bytes, at);
      times.ms = Math.round(count * unitMs);
      return at === from || at - from > 15 || times.ms < fromMs || times.ms >= beforeMs ? -1 : at;
    },
    learn: () => undefined,
  };
  return times;
}

/** Where the clock time in a cell begins: alone, or behind a space or a T; -1 without one. */
export function clockStart(bytes: Uint8Array, from: number, to: number): number {
  let colon = from;
  while (colon < to && bytes[colon] !== COLON) colon += 1;
  let start = colon;
  while (start > from && isDigit(bytes[start - 1])) start -= 1;
  if (colon === to || start === colon) return -1;
  return start === from || bytes[start - 1] === SPACE || bytes[start - 1] === 84 ? start : -1;
}

/** Reads `5:31`, `05:31:10`, `05:31:10.500` or `5:31:10 AM`. */
export function readClock(bytes: Uint8Array, from: number, to: number, found: FoundClock): boolean {
  let at = from;
  let hour = 0;
  while (at < to && isDigit(bytes[at])) {
    hour = hour * 10 + digitAt(bytes, at);
    at += 1;
  }
  if (at === from || at - from > 2 || at + 3 > to || bytes[at] !== COLON) return false;
  const minute = pairAt(bytes, at + 1);
  at += 3;
  let seconds = 0;
  let fraction = 0;
  if (at < to && bytes[at] === COLON) {
    seconds = pairAt(bytes, at + 1);
    at += 3;
    if (at < to && bytes[at] === 46) {
      at += 1;
      const first = at;
      for (let scale = 100; at < to && isDigit(bytes[at]); at += 1, scale /= 10) if (scale >= 1) fraction += digitAt(bytes, at) * scale;
      if (at === first || at - first > 9) return false;
    }
  }
  if (at > to || minute < 0 || seconds < 0 || minute > 59 || seconds > 59) return false;
  const half = halfDayAt(bytes, at, to);
  if (half >= 0) {
    if (hour < 1 || hour > 12) return false;
    hour = (hour % 12) + half;
    at += bytes[at] === SPACE ? 3 : 2;
  } else if (hour > 23) {
    return false;
  }
  found.ms = ((hour * 60 + minute) * 60 + seconds) * 1000 + fraction;
  found.end = at;
  return true;
}

/** Hours to add for `AM` or `PM`, with or without a space before it; -1 where neither stands there. */
function halfDayAt(bytes: Uint8Array, from: number, to: number): number {
  const at = bytes[from] === SPACE ? from + 1 : from;
  if (at + 2 > to) return -1;
  const letter = (bytes[at] ?? 0) | 32;
  if ((letter !== 97 && letter !== 112) || ((bytes[at + 1] ?? 0) | 32) !== 109) return -1;
  return letter === 112 ? 12 : 0;
}

/** Nothing, `Z`, or an offset such as `+02:00`. */
export function isOffset(bytes: Uint8Array, from: number, to: number): boolean {
  if (to === from) return true;
  if (to - from === 1) return bytes[from] === 90;
  return to - from === 6 && (bytes[from] === 43 || bytes[from] === 45) && pairAt(bytes, from + 1) >= 0 && bytes[from + 3] === COLON && pairAt(bytes, from + 4) >= 0;
}

function isDigit(byte: number | undefined): boolean {
  return byte !== undefined && byte >= 48 && byte <= 57;
}

function digitAt(bytes: Uint8Array, at: number): number {
  return (bytes[at] ?? 0) - 48;
}

/** Two digits as a number, or below zero where they are none. */
function pairAt(bytes: Uint8Array, at: number): number {
  const tens = digitAt(bytes, at);
  const ones = digitAt(bytes, at + 1);
  return tens < 0 || tens > 9 || ones < 0 || ones > 9 ? -1 : tens * 10 + ones;
}
