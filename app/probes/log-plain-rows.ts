/**
 * Rows that are plain from the first to the last, read in one pass over their bytes: each number's digits go straight to
 * where they are kept. Whatever else a row may hold is left to the reader of single rows.
 */
import { addCode, doubled } from './log-byte-series.ts';
import type { ByteTracks } from './log-byte-tracks.ts';
import { isTrim, lineEnd, PlainNumbers, skipCell } from './log-plain-cells.ts';
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

/** The rows that were read. */
export interface PlainRows {
  readonly count: number;
  /** Where every so many rows the next one begins. */
  readonly starts: readonly number[];
  /** Of each row its clock time. */
  readonly clockMs: Int32Array;
}

/** Of so many rows it is noted where the first one begins. */
export const ROWS_A_START = 16;
/** Rows that are read at one go: one long loop would be compiled anew for each file, since it is never begun twice. */
const ROWS_AT_A_GO = 512;
/** More channels than any logger has: a file with more is read another way. */
const MOST_TRACKS = 255;

/**
 * Reads all rows. Of a long log each row has one number, and the channel it is of.
 * @param isLong whether a column names the channel
 * @param capacity how many rows there is room for at first
 * @returns `undefined` where a row isn't plain; the readings themselves are then in the series of the tracks
 */
export function scanRows(table: PlainTable, isLong: boolean, capacity: number): PlainRows | undefined {
  const scan = new PlainScan(table, isLong, capacity);
  while (scan.at < table.bytes.length) if (!scan.readSome()) return undefined;
  scan.finish();
  return scan;
}

/** What is done with a cell, or with readings that stand beside each other. */
interface Step {
  readonly task: number;
  readonly column: number;
  /** Where the readings are kept. */
  readonly lists: Int32Array<ArrayBuffer>[];
}

class PlainScan implements PlainRows {
  at: number;
  count = 0;
  readonly starts: number[] = [];
  clockMs: Int32Array<ArrayBuffer>;
  private readonly table: PlainTable;
  private readonly isLong: boolean;
  private readonly numbers: PlainNumbers;
  /** The numbers by reading and row; of a long log that of the row being read. */
  private codes: Int32Array<ArrayBuffer>[];
  private steps: readonly Step[];
  private track = 0;

  constructor(table: PlainTable, isLong: boolean, capacity: number) {
    const { bytes, delimiter, mark, tracks, tasks } = table;
    this.table = table;
    this.isLong = isLong;
    this.at = table.from;
    this.numbers = new PlainNumbers(bytes, delimiter, mark);
    this.clockMs = new Int32Array(capacity);
    const lists = isLong ? 1 : (tracks.all[0]?.series.length ?? 0);
    const room = isLong ? 1 : capacity;
    // All in one piece of memory, since each piece is looked after by itself.
    const all = new Int32Array(lists * room);
    this.codes = Array.from({ length: lists }, (_, list) => all.subarray(list * room, (list + 1) * room));
    this.steps = stepsOf(tasks, this.codes);
  }

  /** Reads some more rows. @returns false where one isn't plain */
  readSome(): boolean {
    if (this.count === this.clockMs.length) this.enlarge();
    const { table: { bytes, delimiter, times }, numbers, steps, starts, clockMs, isLong } = this;
    const { length } = bytes;
    const last = Math.min(this.count + ROWS_AT_A_GO, clockMs.length);
    let { at, count: row } = this;
    for (; at < length && row < last; row += 1) {
      if (row % ROWS_A_START === 0) starts.push(at);
      for (let index = 0; ; ) {
        const step = steps[index];
        if (step === undefined) return false;
        const { task } = step;
        if (task >= 0) at = numbers.read(at, step.lists, isLong ? 0 : row);
        else if (task === TIME) at = times.read(step.column, at, row);
        else at = task === KEPT ? this.readChannel(at) : skipCell(bytes, at, delimiter);
        if (at === -1) return false;
        index += 1;
        if (index === steps.length) break;
        if (bytes[at] !== delimiter) return false;
        at += 1;
      }
      clockMs[row] = times.clockMs;
      at = lineEnd(bytes, at);
      if (at === -1 || (isLong && !this.keep(row))) return false;
    }
    this.at = at;
    this.count = row;
    return true;
  }

  /** Gives the columns of a wide log their readings. */
  finish(): void {
    const { isLong, table: { tracks }, codes, count } = this;
    if (!isLong) for (const [index, series] of (tracks.all[0]?.series ?? []).entries()) Object.assign(series, { codes: codes[index], count });
  }

  /** Notes the place of a row's channel among the tracks; they come round in turn. @returns where its name ends; -1 where it is none, or has blanks at its ends */
  private readChannel(from: number): number {
    const { bytes, delimiter, tracks: { all }, tracks } = this.table;
    const next = this.track + 1 < all.length ? this.track + 1 : 0;
    const name = all[next]?.name;
    if (name !== undefined) {
      let same = 0;
      while (same < name.length && bytes[from + same] === name[same]) same += 1;
      const byte = bytes[from + same] ?? 10;
      if (same === name.length && (byte === delimiter || byte === 10 || byte === 13)) {
        this.track = next;
        return from + same;
      }
    }
    const to = skipCell(bytes, from, delimiter);
    this.track = to !== -1 && isTrim(bytes, from, to) ? tracks.indexAt(from, to) : MOST_TRACKS;
    return this.track >= MOST_TRACKS ? -1 : to;
  }

  /** Gives the row's number to its channel. */
  private keep(row: number): boolean {
    const series = this.table.tracks.all[this.track]?.series[0];
    if (series === undefined) return false;
    addCode(series, row, this.codes[0]?.[0] ?? 0);
    return true;
  }

  private enlarge(): void {
    this.clockMs = doubled(this.clockMs);
    if (this.isLong) return;
    this.codes = this.codes.map(doubled);
    this.steps = stepsOf(this.table.tasks, this.codes);
  }
}

function stepsOf(tasks: Int32Array, codes: readonly Int32Array<ArrayBuffer>[]): Step[] {
  const steps: Step[] = [];
  for (const [column, task] of tasks.entries()) {
    const last = steps.at(-1);
    const list = codes[task];
    if (list === undefined) steps.push({ task, column, lists: [] });
    else if (last !== undefined && last.task >= 0) last.lists.push(list);
    else steps.push({ task, column, lists: [list] });
  }
  return steps;
}
