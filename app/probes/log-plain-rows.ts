/**
 * Rows that are plain from the first to the last, read in one pass over their bytes: each number's digits go straight to
 * where they are kept. Whatever else a row may hold is left to the reader of single rows.
 */
import { doubled, type ByteSeries } from './log-byte-series.ts';
import type { ByteTracks } from './log-byte-tracks.ts';
import { isTrim, lineEnd, readNumber, skipCell } from './log-plain-cells.ts';
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
  readonly count: number;
  readonly starts: Int32Array;
  readonly clockMs: Int32Array;
}

/** More channels than any logger has: a file with more is read another way. */
const MOST_TRACKS = 255;

/**
 * Reads all rows. Of a long log each row has one number, and the channel it is of.
 * @param isLong whether a column names the channel
 * @param capacity how many rows there is room for at first
 * @returns `undefined` where a row isn't plain; the readings themselves are then in the series of the tracks
 */
export function scanRows(table: PlainTable, isLong: boolean, capacity: number): PlainRows | undefined {
  const { bytes, tasks, delimiter, mark, times, tracks } = table;
  const { length } = bytes;
  const columns = tasks.length;
  let room = openRoom(tracks, isLong, capacity);
  let { starts, clockMs, trackOf, codes } = room;
  let row = 0;
  for (let at = table.from; at < length; row += 1) {
    if (row === starts.length) {
      room = enlarge(room);
      ({ starts, clockMs, trackOf, codes } = room);
    }
    starts[row] = at;
    for (let column = 0; column < columns; column += 1) {
      const task = tasks[column] ?? IGNORED;
      if (task >= 0) {
        const kept = codes[task];
        if (kept === undefined) return undefined;
        at = readNumber(bytes, at, mark, kept, row);
      } else if (task === TIME) {
        at = times.read(column, at, row);
      } else {
        at = task === KEPT ? readChannel(table, at, trackOf, row) : skipCell(bytes, at, delimiter);
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
  const all = tracks.all.flatMap(({ series }) => series);
  if (isLong) shareOut(all, codes[0] ?? new Int32Array(0), trackOf, row);
  else for (const [index, series] of all.entries()) Object.assign(series, { codes: codes[index], count: row });
  return { count: row, starts, clockMs };
}

/** Notes the place of a row's channel among the tracks. @returns where its name ends; -1 where it is none, or has blanks at its ends */
function readChannel({ bytes, delimiter, tracks }: PlainTable, from: number, trackOf: Uint8Array, row: number): number {
  const to = skipCell(bytes, from, delimiter);
  const track = to !== -1 && isTrim(bytes, from, to) ? tracks.indexAt(from, to) : MOST_TRACKS;
  if (track >= MOST_TRACKS) return -1;
  trackOf[row] = track;
  return to;
}

/** Where rows are kept while they are read; the numbers by reading, of a long log all in one, with the place of their channel. */
interface Room {
  readonly starts: Int32Array<ArrayBuffer>;
  readonly clockMs: Int32Array<ArrayBuffer>;
  readonly trackOf: Uint8Array<ArrayBuffer>;
  readonly codes: readonly Int32Array<ArrayBuffer>[];
}

function openRoom({ all: [track] }: ByteTracks, isLong: boolean, capacity: number): Room {
  return {
    starts: new Int32Array(capacity), clockMs: new Int32Array(capacity), trackOf: new Uint8Array(isLong ? capacity : 0),
    codes: isLong ? [new Int32Array(capacity)] : (track?.series ?? []).map(() => new Int32Array(capacity)),
  };
}

function enlarge({ starts, clockMs, trackOf, codes }: Room): Room {
  const tracks = new Uint8Array(trackOf.length * 2);
  tracks.set(trackOf);
  return { starts: doubled(starts), clockMs: doubled(clockMs), trackOf: tracks, codes: codes.map(doubled) };
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
