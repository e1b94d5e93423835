/**
 * Rows that are plain from the first to the last, read in one pass over their bytes: each number's digits go straight to
 * where they are kept. Whatever else a row may hold is left to the reader of single rows.
 */
import { isDoubtful, LARGEST_DIGITS } from './log-byte-cells.ts';
import type { ByteSeries } from './log-byte-series.ts';
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

/** Of each row: where it begins, and its clock time. */
export interface PlainRows {
  count: number;
  starts: Int32Array<ArrayBuffer>;
  clockMs: Int32Array<ArrayBuffer>;
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

/** More channels than any logger has: a file with more is read another way. */
const MOST_TRACKS = 255;

/** Reads all rows of a long log: one number each, and the channel it is of. @returns `undefined` where one isn't plain */
export function scanLong(table: PlainTable, capacity: number): PlainRows | undefined {
  const { bytes, tasks, delimiter, mark, times, tracks } = table;
  const { length } = bytes;
  const columns = tasks.length;
  const rows = openRows(capacity);
  let { starts, clockMs } = rows;
  let codes = new Int32Array(capacity);
  let trackOf = new Uint8Array(capacity);
  let row = 0;
  for (let at = table.from; at < length; row += 1) {
    if (row === starts.length) {
      growRows(rows);
      ({ starts, clockMs } = rows);
      codes = grown(codes);
      trackOf = grownBytes(trackOf);
    }
    starts[row] = at;
    for (let column = 0; column < columns; column += 1) {
      const task = tasks[column] ?? IGNORED;
      if (task >= 0) at = readNumber(bytes, at, mark, codes, row);
      else if (task === TIME) at = times.read(column, at, row);
      else if (task === IGNORED) at = skipCell(bytes, at, delimiter);
      else {
        const from = at;
        at = skipCell(bytes, at, delimiter);
        const track = at !== -1 && isTrim(bytes, from, at) ? tracks.indexAt(from, at) : MOST_TRACKS;
        if (track >= MOST_TRACKS) return undefined;
        trackOf[row] = track;
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
  shareOut(tracks.all.flatMap(({ series }) => series), codes, trackOf, row);
  return rows;
}

/** Gives each channel its readings, in the order of the rows. */
function shareOut(all: readonly ByteSeries[], codes: Int32Array, trackOf: Uint8Array, count: number): void {
  const counts = new Int32Array(MOST_TRACKS);
  for (let row = 0; row < count; row += 1) counts[trackOf[row] ?? 0] = (counts[trackOf[row] ?? 0] ?? 0) + 1;
  for (const [index, series] of all.entries()) {
    series.count = counts[index] ?? 0;
    series.codes = new Int32Array(series.count);
    series.rows = new Int32Array(series.count);
  }
  const codesOf = all.map((series) => series.codes);
  const rowsOf = all.flatMap((series) => series.rows ?? []);
  counts.fill(0);
  for (let row = 0; row < count; row += 1) {
    const track = trackOf[row] ?? 0;
    const place = counts[track] ?? 0;
    counts[track] = place + 1;
    const own = codesOf[track];
    const ownRows = rowsOf[track];
    if (own === undefined || ownRows === undefined) continue;
    own[place] = codes[row] ?? 0;
    ownRows[place] = row;
  }
}

function openRows(capacity: number): PlainRows {
  return { count: 0, starts: new Int32Array(capacity), clockMs: new Int32Array(capacity) };
}

function growRows(rows: PlainRows): void {
  rows.starts = grown(rows.starts);
  rows.clockMs = grown(rows.clockMs);
}

function growSeries(series: ByteSeries): Int32Array<ArrayBuffer> {
  series.codes = grown(series.codes);
  return series.codes;
}

function grown(values: Int32Array): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(values.length * 2);
  larger.set(values);
  return larger;
}

function grownBytes(values: Uint8Array): Uint8Array<ArrayBuffer> {
  const larger = new Uint8Array(values.length * 2);
  larger.set(values);
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
