/**
 * A long log all of whose rows are plain, read in one pass: its table is found in its head, the rows are read by it, and then
 * the whole is looked at once more, as the general reader samples it, to see that the table is the same.
 */
import { textOf, indexLines, type ByteLines } from './log-byte-lines.ts';
import { tasksOf, type ByteRows } from './log-byte-rows.ts';
import { ByteTracks, type ByteTrack } from './log-byte-tracks.ts';
import type { LogLines } from './log-lines.ts';
import type { DateOrder } from './log-moments.ts';
import { areInstantsOf, basesOf, instantsByClock, linesOf } from './log-plain-instants.ts';
import { KEPT, ROWS_A_START, scanRows, type PlainRows } from './log-plain-rows.ts';
import { plainTimes, type PlainTimes } from './log-plain-times.ts';
import type { RowTime } from './log-row-times.ts';
import { rowReader, type RowReader } from './log-rows.ts';
import { openTable, type LogTable } from './log-table.ts';
import type { LogOptions } from './log-types.ts';

/** The head holds all that the table is found by: four hundred lines, and some. */
const HEAD_BYTES = 65_536;
const FEWEST_HEAD_LINES = 420;

/** The rows of a plain log as they were found; their times are still to be understood. */
export interface PlainLog {
  readonly table: LogTable;
  /** For each stretch of rows with one date the cell that it stands in. */
  readonly dates: readonly string[];
  /**
   * The rows with their instants, once the order of the dates is known.
   * @param instantOf all of an hour have one offset; NaN where an instant can't be told from the row alone
   * @returns `undefined` where one can't, or where a date is none
   */
  finish(order: DateOrder | undefined, instantOf: (ms: number, kind: RowTime['kind']) => number): ByteRows | undefined;
}

/**
 * Reads a log of plain rows.
 * @param markOf which decimal mark a table's numbers have
 * @returns `undefined` where the log is short, or a row isn't plain: then the reader of single rows looks
 */
export function readPlainLog(bytes: Uint8Array, options: LogOptions, markOf: (table: LogTable, readings: readonly number[]) => string): PlainLog | undefined {
  const head = bytes.length <= HEAD_BYTES ? undefined : indexLines(bytes.subarray(0, bytes.lastIndexOf(10, HEAD_BYTES) + 1));
  const opened = head === undefined || head.count < FEWEST_HEAD_LINES ? undefined : openTable(head, options);
  if (head === undefined || opened === undefined || !opened.ok) return undefined;
  const { layout, roles, plan } = opened.value;
  const delimiter = layout.delimiter.charCodeAt(0);
  const times = plainTimes(bytes, plan, delimiter);
  const reader = rowReader(layout, roles, () => '');
  const tasks = times === undefined ? undefined : tasksOf(layout.columnCount, reader, times);
  if (times === undefined || tasks === undefined || layout.usualCount !== layout.columnCount || !isOneOrMany(tasks, reader)) return undefined;
  const isLong = reader.channelColumn !== -1;
  const from = head.starts[layout.dataStart] ?? 0;
  // A third more than there are if the rows are as long as those of the head.
  const capacity = 64 + Math.ceil(((bytes.length - from) / (head.bytes.length - from)) * (head.count - layout.dataStart) * (4 / 3));
  const channels = opened.value.facts[reader.channelColumn]?.profile.distinct.size ?? 1;
  const tracks = new ByteTracks(bytes, reader.readings, isLong, isLong ? Math.ceil(capacity / channels) : 0);
  const rows = scanRows({ bytes, from, tasks, delimiter, mark: markOf(opened.value, reader.readings).charCodeAt(0), times, tracks }, isLong, capacity);
  const whole = rows === undefined ? undefined : openTable(textsOf(head, layout.dataStart, bytes, rows), options, layout);
  if (rows === undefined || whole === undefined || !whole.ok || !isSame(opened.value, whole.value)) return undefined;
  return {
    table: whole.value,
    dates: times.days.map(({ from: cellFrom, to }) => textOf(bytes, cellFrom, to)),
    finish: (order, instantOf) => understand(whole.value, rows, times, tracks.all, order, instantOf),
  };
}

/** Whether the rows are of a kind that is read here: readings alone, or one reading and its channel. */
function isOneOrMany(tasks: Int32Array, { unitColumns, channelColumn, readings }: RowReader): boolean {
  if (unitColumns.some((column) => column !== -1) || readings.length === 0) return false;
  return channelColumn === -1 || (readings.length === 1 && tasks[channelColumn] === KEPT);
}

function isSame(one: LogTable, other: LogTable): boolean {
  return JSON.stringify([one.roles, one.plan]) === JSON.stringify([other.roles, other.plan]);
}

/** The lines of the head above the table, and those of the rows. */
function textsOf(head: ByteLines, dataStart: number, bytes: Uint8Array, { count, starts }: PlainRows): LogLines {
  return {
    count: dataStart + count,
    lineAt(index) {
      if (index < dataStart) return head.lineAt(index);
      const row = index - dataStart;
      if (row >= count) return '';
      let from = starts[Math.floor(row / ROWS_A_START)] ?? 0;
      for (let before = row % ROWS_A_START; before > 0; before -= 1) from = bytes.indexOf(10, from) + 1;
      let to = bytes.indexOf(10, from);
      if (to === -1) to = bytes.length;
      return textOf(bytes, from, bytes[to - 1] === 13 ? to - 1 : to);
    },
  };
}

function understand(
  table: LogTable, rows: PlainRows, { days }: PlainTimes, tracks: readonly ByteTrack[],
  order: DateOrder | undefined, instantOf: (ms: number, kind: RowTime['kind']) => number,
): ByteRows | undefined {
  const { count } = rows;
  const bases = basesOf(table, rows, days, order, instantOf);
  if (bases === undefined) return undefined;
  const firstLine = table.layout.dataStart + 1;
  const atMs: Float64Array[] = [];
  const lines: Int32Array[] = [];
  for (const track of tracks) {
    for (const series of track.series) {
      const before = atMs.at(-1);
      atMs.push(before !== undefined && areInstantsOf(before, series, rows, bases) ? before : instantsByClock(series, rows, bases));
      lines.push(series.rows === null && lines[0]?.length === series.count ? lines[0] : linesOf(series, firstLine));
    }
    countTimes(track, atMs.at(-1), lines.at(-1));
  }
  return { count, tracks, atMs, lines, refused: [], blank: 0 };
}

/** As `countTime` for each of a channel's rows. */
function countTimes(track: ByteTrack, atMs: ArrayLike<number> = [], lines: ArrayLike<number> = []): void {
  let [last, up, down] = [Number.NaN, 0, 0];
  for (let index = 0; index < atMs.length; index += 1) {
    const at = atMs[index] ?? 0;
    if (at > last) up += 1;
    else if (at < last) {
      down += 1;
      track.backward.push(lines[index] ?? 0);
    } else if (at === last) track.repeated.push(lines[index] ?? 0);
    last = at;
  }
  track.up = up;
  track.down = down;
}
