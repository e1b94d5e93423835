/**
 * Rows that are plain from the first to the last, read in one pass over their bytes: each number's digits go straight to
 * where they are kept. Whatever else a row may hold is left to the reader of single rows.
 */
import { isDoubtful, LARGEST_DIGITS } from './log-byte-cells.ts';
import { addCode, type ByteSeries } from './log-byte-series.ts';
import type { ByteTracks } from './log-byte-tracks.ts';
import type { PlainTimes } from './log-plain-times.ts';

/** What is done with a column's cells; from zero up: the reading of that number. */
export const TIME = -1;
export const KEPT = -2;
export const IGNORED = -3;

export interface PlainTable {
  readonly bytes: Uint8Array;
  /** Where the first row begins. */
  readonly from: number;
  /** What is done with each column's cells. */
  readonly tasks: Int32Array;
  readonly delimiter: number;
  /** The byte of the decimal mark. */
  readonly mark: number;
  readonly times: PlainTimes;
  readonly tracks: ByteTracks;
}

/** Of each row: where it begins, its clock time, and in a long file the place of its channel among the tracks. */
export interface PlainRows {
  count: number;
  starts: Int32Array<ArrayBuffer>;
  clockMs: Float64Array<ArrayBuffer>;
}

/** Reads all rows of a wide log. @returns `undefined` where one isn't plain */
export function scanWide(table: PlainTable, capacity: number): PlainRows | undefined {
  const { bytes, tasks, delimiter, mark, times } = table;
  const { length } = bytes;
  const columns = tasks.length;
  const series = table.tracks.all[0]?.series ?? [];
  let codes = series.map((one) => one.codes);
  const rows = openRows(capacity);
  let { starts, clockMs } = rows;
  let row = 0;
  for (let at = table.from; at < length; row += 1) {
    if (row === starts.length) {
      growRows(rows);
      ({ starts, clockMs } = rows);
      codes = series.map((one) => growSeries(one));
    }
    starts[row] = at;
    for (let column = 0; column < columns; column += 1) {
      const task = tasks[column] ?? IGNORED;
      if (task >= 0) {
        at = readNumber(bytes, at, mark, codes[task] ?? rows.starts, row);
      } else {
        at = task === TIME ? times.read(column, at, row) : skipCell(bytes, at, delimiter);
      }
      if (at === -1) return undefined;
      if (column + 1 === columns) break;
      if (bytes[at] !== delimiter) return undefined;
      at += 1;
    }
    clockMs[row] = times.clockMs;
    at = lineEnd(bytes, at);
    if (at === -1) return undefined;
  }
  rows.count = row;
  for (const one of series) one.count = row;
  return rows;
}

/** Reads all rows of a long log: one number each, and the channel it is of. @returns `undefined` where one isn't plain */
export function scanLong(table: PlainTable, capacity: number): PlainRows | undefined {
  const { bytes, tasks, delimiter, mark, times, tracks } = table;
  const { length } = bytes;
  const columns = tasks.length;
  const rows = openRows(capacity);
  const code = new Int32Array(1);
  let { starts, clockMs } = rows;
  let row = 0;
  for (let at = table.from; at < length; row += 1) {
    if (row === starts.length) {
      growRows(rows);
      ({ starts, clockMs } = rows);
    }
    starts[row] = at;
    let series: ByteSeries | undefined;
    for (let column = 0; column < columns; column += 1) {
      const task = tasks[column] ?? IGNORED;
      if (task >= 0) {
        at = readNumber(bytes, at, mark, code, 0);
      } else if (task === TIME) {
        at = times.read(column, at, row);
      } else {
        const from = at;
        at = skipCell(bytes, at, delimiter);
        if (task === KEPT && at !== -1 && isTrim(bytes, from, at)) series = tracks.at(from, at)?.series[0];
      }
      if (at === -1) return undefined;
      if (column + 1 === columns) break;
      if (bytes[at] !== delimiter) return undefined;
      at += 1;
    }
    if (series === undefined) return undefined;
    addCode(series, row, code[0] ?? 0);
    clockMs[row] = times.clockMs;
    at = lineEnd(bytes, at);
    if (at === -1) return undefined;
  }
  rows.count = row;
  return rows;
}

function openRows(capacity: number): PlainRows {
  return { count: 0, starts: new Int32Array(capacity), clockMs: new Float64Array(capacity) };
}

function growRows(rows: PlainRows): void {
  const { starts, clockMs } = rows;
  rows.starts = new Int32Array(starts.length * 2);
  rows.starts.set(starts);
  rows.clockMs = new Float64Array(clockMs.length * 2);
  rows.clockMs.set(clockMs);
}

function growSeries(series: ByteSeries): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(series.codes.length * 2);
  larger.set(series.codes);
  series.codes = larger;
  return larger;
}

/** Where the next line begins, from the end of a line's last cell; -1 where it doesn't end there. */
function lineEnd(bytes: Uint8Array, at: number): number {
  if (at === bytes.length) return at;
  const next = bytes[at] === 13 ? at + 1 : at;
  return bytes[next] === 10 ? next + 1 : -1;
}

/** Where a cell that isn't read ends; -1 where it holds a quote mark, a control character or one beyond ASCII. */
function skipCell(bytes: Uint8Array, from: number, delimiter: number): number {
  let at = from;
  for (; at < bytes.length; at += 1) {
    const byte = bytes[at] ?? 0;
    if (byte === delimiter || byte === 10 || byte === 13) break;
    if (byte < 32 || byte === 34 || byte > 126) return -1;
  }
  return at;
}

function isTrim(bytes: Uint8Array, from: number, to: number): boolean {
  return to > from && bytes[from] !== 32 && bytes[to - 1] !== 32;
}

/** Keeps a number as `plainCodeAt` codes it. @returns where it ends, which the caller looks at; -1 where it isn't plain */
function readNumber(bytes: Uint8Array, from: number, mark: number, codes: Int32Array, place: number): number {
  let at = from;
  let digit = (bytes[at] ?? 0) - 48;
  const isNegative = digit === -3;
  if (isNegative) {
    at += 1;
    digit = (bytes[at] ?? 0) - 48;
  }
  const start = at;
  let digits = 0;
  while (digit >= 0 && digit <= 9) {
    digits = digits * 10 + digit;
    at += 1;
    digit = (bytes[at] ?? 0) - 48;
  }
  const whole = at - start;
  if (whole === 0 || whole > 6 || (whole > 1 && bytes[start] === 48) || (digits > 126 && isDoubtful(digits, isNegative))) return -1;
  let decimals = 0;
  if (digit + 48 === mark) {
    const first = at + 1;
    at = first;
    digit = (bytes[at] ?? 0) - 48;
    while (digit >= 0 && digit <= 9) {
      digits = digits * 10 + digit;
      at += 1;
      digit = (bytes[at] ?? 0) - 48;
    }
    decimals = at - first;
    if (decimals === 0 || decimals > 3) return -1;
  }
  if (digits > LARGEST_DIGITS || (isNegative && digits === 0)) return -1;
  codes[place] = (isNegative ? -digits : digits) * 4 + decimals;
  return at;
}
