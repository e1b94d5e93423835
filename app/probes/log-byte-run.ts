/**
 * Rows that are plain from end to end, read at one go: each number's digits go straight to where they are kept. The first
 * row that is anything else ends the run and is left to the reader of single rows.
 */
import type { ByteLines } from './log-byte-lines.ts';
import { addCode, type ByteSeries } from './log-byte-series.ts';
import type { ByteTimes } from './log-byte-times.ts';
import { countTime, type ByteTracks } from './log-byte-tracks.ts';
import { isDoubtful, NOT_PLAIN, trimEnd, trimStart, type CellEnd } from './log-byte-cells.ts';
import type { RowTime } from './log-row-times.ts';

/** What is done with a column's cells; from zero up: the reading of that number. */
export const TIME = -1;
export const KEPT = -2;
export const IGNORED = -3;

export interface PlainRun {
  readonly lines: ByteLines;
  readonly tasks: Int32Array;
  readonly delimiter: number;
  /** The byte of the decimal mark. */
  readonly mark: number;
  readonly times: ByteTimes;
  readonly tracks: ByteTracks;
  /** Filled, a row each. */
  readonly atMs: Float64Array;
  readonly lineOf: Int32Array;
  instantOf(ms: number, kind: RowTime['kind']): number;
}

/** How far a run came: the row after it, and how many rows were kept by then. */
export interface RunEnd {
  index: number;
  rows: number;
}

/** Whether runs can be had of such rows: times and numbers alone, or one number and its channel. */
export function runKindOf(tasks: Int32Array, hasChannel: boolean): 'wide' | 'long' | undefined {
  const isPlain = tasks.every((task) => task === TIME || task >= 0 || (hasChannel && task === KEPT));
  if (!isPlain) return undefined;
  if (!hasChannel) return 'wide';
  return tasks.filter((task) => task === KEPT).length === 1 && tasks.filter((task) => task >= 0).length === 1 ? 'long' : undefined;
}

/** Reads on from a row of a wide log; every series has a reading of each row before it. */
export function readWideRun(run: PlainRun, series: readonly ByteSeries[], end: RunEnd): void {
  const { lines: { bytes, starts, ends, special, count }, tasks, delimiter, mark, times, tracks } = run;
  const track = tracks.all[0];
  const columns = tasks.length;
  const codes = series.map((one) => one.codes);
  const cell: CellEnd = { at: 0 };
  let row = end.rows;
  let index = end.index;
  rows: for (; track !== undefined && index < count && !special.has(index); index += 1) {
    const to = ends[index] ?? 0;
    let at = starts[index] ?? 0;
    for (let column = 0; column < columns; column += 1) {
      const task = tasks[column] ?? 0;
      if (task < 0) {
        at = times.read(column, at, to);
        if (at === -1) break rows;
      } else {
        const code = numberAt(bytes, at, to, mark, cell);
        const kept = codes[task];
        if (code === NOT_PLAIN || kept === undefined) break rows;
        kept[row] = code;
        at = cell.at;
      }
      if (column + 1 === columns ? at !== to : at >= to || bytes[at] !== delimiter) break rows;
      at += 1;
    }
    const atMs = run.instantOf(times.ms, times.kind);
    if (Number.isNaN(atMs)) break;
    run.atMs[row] = atMs;
    run.lineOf[row] = index + 1;
    countTime(track, times.ms, atMs, index + 1);
    row += 1;
  }
  for (const one of series) one.count = row;
  end.index = index;
  end.rows = row;
}

/** Reads on from a row of a long log. */
export function readLongRun(run: PlainRun, end: RunEnd): void {
  const { lines: { bytes, starts, ends, special, count }, tasks, delimiter, mark, times, tracks } = run;
  const columns = tasks.length;
  const cell: CellEnd = { at: 0 };
  let row = end.rows;
  let index = end.index;
  rows: for (; index < count && !special.has(index); index += 1) {
    const to = ends[index] ?? 0;
    let at = starts[index] ?? 0;
    let [code, nameFrom, nameTo] = [NOT_PLAIN, 0, 0];
    for (let column = 0; column < columns; column += 1) {
      const task = tasks[column] ?? 0;
      if (task === TIME) {
        at = times.read(column, at, to);
        if (at === -1) break rows;
      } else if (task === KEPT) {
        nameFrom = at;
        while (at < to && bytes[at] !== delimiter) at += 1;
        nameTo = at;
      } else {
        code = numberAt(bytes, at, to, mark, cell);
        if (code === NOT_PLAIN) break rows;
        at = cell.at;
      }
      if (column + 1 === columns ? at !== to : at >= to || bytes[at] !== delimiter) break rows;
      at += 1;
    }
    const atMs = run.instantOf(times.ms, times.kind);
    if (Number.isNaN(atMs)) break;
    const from = trimStart(bytes, nameFrom, nameTo);
    const track = tracks.at(from, trimEnd(bytes, from, nameTo));
    const series = track?.series[0];
    if (track === undefined || series === undefined) break;
    run.atMs[row] = atMs;
    run.lineOf[row] = index + 1;
    countTime(track, times.ms, atMs, index + 1);
    addCode(series, row, code);
    row += 1;
  }
  end.index = index;
  end.rows = row;
}

const LARGEST_DIGITS = 500_000_000;

/** As `plainCodeAt`, of a number whose cell's end is looked at by the caller. */
function numberAt(bytes: Uint8Array, from: number, to: number, mark: number, end: CellEnd): number {
  let at = from;
  let byte = bytes[at] ?? 0;
  const isNegative = byte === 45;
  if (isNegative) {
    at += 1;
    byte = bytes[at] ?? 0;
  }
  const start = at;
  let digits = 0;
  // Behind the line stands its ending, or nothing: neither is a digit.
  while (byte >= 48 && byte <= 57) {
    digits = digits * 10 + byte - 48;
    at += 1;
    byte = bytes[at] ?? 0;
  }
  const whole = at - start;
  if (whole === 0 || whole > 6 || (whole > 1 && bytes[start] === 48) || (digits > 126 && isDoubtful(digits, isNegative))) return NOT_PLAIN;
  let decimals = 0;
  if (byte === mark && at < to) {
    at += 1;
    const first = at;
    byte = bytes[at] ?? 0;
    while (byte >= 48 && byte <= 57) {
      digits = digits * 10 + byte - 48;
      at += 1;
      byte = bytes[at] ?? 0;
    }
    decimals = at - first;
    if (decimals === 0 || decimals > 3) return NOT_PLAIN;
  }
  if (digits > LARGEST_DIGITS || (isNegative && digits === 0)) return NOT_PLAIN;
  end.at = at;
  return (isNegative ? -digits : digits) * 4 + decimals;
}
