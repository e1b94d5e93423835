/** The rows of a log read from its bytes; a row that is anything but plain is read as a text by the general reader. */
import type { TemperatureUnit } from '../measures/temperature.ts';
import { NOT_PLAIN, findFieldEnd, plainCodeAt, splitBytes, trimEnd, trimStart, type CellEnd } from './log-byte-cells.ts';
import { textOf, type ByteLines } from './log-byte-lines.ts';
import { addCell, addCode, addUnit, byRow, instantsOfSeries } from './log-byte-series.ts';
import type { ByteTimes } from './log-byte-times.ts';
import { ByteTracks, ByteUnits, countTime, type ByteTrack } from './log-byte-tracks.ts';
import { IGNORED, KEPT, TIME } from './log-plain-rows.ts';
import { isThinkable, type NumberCell } from './log-cells.ts';
import type { LogLayout } from './log-layout.ts';
import type { RowReader } from './log-rows.ts';
import type { RowTime } from './log-row-times.ts';
import type { RefusedRow } from './log-types.ts';

export interface ByteRows {
  readonly count: number;
  readonly tracks: readonly ByteTrack[];
  /** The instants of each series, those of one track after those of the other; channels that were read together share theirs. */
  readonly atMs: readonly Float64Array[];
  /** Likewise the line of each reading, from 1. */
  readonly lines: readonly Int32Array[];
  readonly refused: readonly RefusedRow[];
  readonly blank: number;
}

/** Room for as many at first, of each channel of a long log. */
const FEW_READINGS = 64;

interface ByteTable {
  readonly lines: ByteLines;
  readonly layout: LogLayout;
  readonly reader: RowReader;
  readonly times: ByteTimes;
  /** The byte of the decimal mark. */
  readonly mark: number;
  /** The instant of a row's time; NaN where it can't be told from the row alone. */
  instantOf(ms: number, kind: RowTime['kind']): number;
}

/**
 * Reads all rows.
 * @returns `undefined` where a time can't be resolved by itself: the clocks changed over it
 */
export function readByteRows(table: ByteTable): ByteRows | undefined {
  return new ByteRowReader(table).readAll();
}

class ByteRowReader {
  private readonly table: ByteTable;
  private readonly bytes: Uint8Array;
  private readonly delimiter: number;
  private readonly tasks: Int32Array;
  private readonly saysUnits: boolean;
  private readonly tracks: ByteTracks;
  private readonly units: ByteUnits;
  private readonly atMs: Float64Array;
  private readonly lines: Int32Array;
  private readonly refused: RefusedRow[] = [];
  private rows = 0;
  private blank = 0;
  // Of the row being read: the fields that are kept, and the readings.
  private readonly starts: Int32Array;
  private readonly ends: Int32Array;
  private readonly end: CellEnd = { at: 0 };
  private readonly codes: Int32Array;
  private readonly odd: (NumberCell | undefined)[];
  private readonly said: (TemperatureUnit | undefined)[];

  constructor(table: ByteTable) {
    const { lines, layout, reader, times } = table;
    const most = lines.count - layout.dataStart;
    this.table = table;
    this.bytes = lines.bytes;
    this.delimiter = layout.delimiter.charCodeAt(0);
    this.tasks = tasksOf(layout.columnCount, reader, times);
    this.saysUnits = reader.unitColumns.some((column) => column !== -1);
    this.tracks = new ByteTracks(lines.bytes, reader.readings, reader.channelColumn !== -1, reader.channelColumn === -1 ? most : FEW_READINGS);
    this.units = new ByteUnits(lines.bytes);
    this.atMs = new Float64Array(most);
    this.lines = new Int32Array(most);
    this.starts = new Int32Array(layout.columnCount + 4);
    this.ends = new Int32Array(layout.columnCount + 4);
    this.codes = new Int32Array(reader.readings.length);
    this.odd = reader.readings.map(() => undefined);
    this.said = reader.readings.map(() => undefined);
  }

  readAll(): ByteRows | undefined {
    const { lines, layout } = this.table;
    for (let index = layout.dataStart; index < lines.count; index += 1) {
      const isSpecial = lines.special.has(index);
      const track = isSpecial ? undefined : this.readPlain(index);
      const isResolved = track === undefined ? this.readText(index, !isSpecial) : this.keepPlain(index, track);
      if (!isResolved) return undefined;
    }
    const { rows: count, tracks: { all: tracks }, refused, blank } = this;
    const series = tracks.flatMap((track) => track.series);
    const ofRows = this.lines.subarray(0, count);
    return { count, tracks, atMs: instantsOfSeries(series, this.atMs.subarray(0, count)), lines: series.map((one) => byRow(one, ofRows)), refused, blank };
  }

  /** Reads a row's cells and tells its channel; `undefined` where the row must be read as a text. */
  private readPlain(index: number): ByteTrack | undefined {
    const { channelColumn } = this.table.reader;
    if (!this.readCells(index) || (this.saysUnits && !this.readUnits())) return undefined;
    return channelColumn === -1 ? this.tracks.all[0] : this.tracks.at(this.starts[channelColumn] ?? 0, this.ends[channelColumn] ?? 0);
  }

  private readCells(index: number): boolean {
    const { bytes, delimiter, tasks, end } = this;
    const { lines, layout, mark } = this.table;
    const to = lines.ends[index] ?? 0;
    let from = lines.starts[index] ?? 0;
    let count = 0;
    for (; count < tasks.length; count += 1) {
      const task = tasks[count] ?? 0;
      if (task >= 0) {
        const code = plainCodeAt(bytes, from, to, delimiter, mark, end);
        this.codes[task] = code;
        if (code === NOT_PLAIN && !this.readOdd(task, from, to)) return false;
      } else if (!this.readOther(task, count, from, to)) {
        return false;
      }
      if (end.at >= to) return count + 1 === layout.columnCount || (count + 1 === layout.usualCount && this.leaveEmpty(count + 1));
      from = end.at + 1;
    }
    return false;
  }

  /** A number that isn't plain, or a word for none; false where the cell is neither. */
  private readOdd(task: number, from: number, to: number): boolean {
    const { bytes, end } = this;
    this.odd[task] = undefined;
    end.at = findFieldEnd(bytes, from, to, this.delimiter);
    const start = trimStart(bytes, from, end.at);
    const stop = trimEnd(bytes, from, end.at);
    if (start >= stop) return true;
    const cell = this.table.reader.readValue(textOf(bytes, start, stop));
    if (cell.kind === 'other' || (cell.kind === 'number' && (cell.unit !== undefined || !isThinkable(cell)))) return false;
    if (cell.kind === 'number') this.odd[task] = cell;
    return true;
  }

  private readOther(task: number, column: number, from: number, to: number): boolean {
    const { bytes, delimiter, end } = this;
    if (task === TIME) {
      end.at = this.table.times.read(column, from, to);
      return end.at !== -1 && (end.at >= to || bytes[end.at] === delimiter);
    }
    end.at = findFieldEnd(bytes, from, to, delimiter);
    if (task === KEPT) {
      const start = trimStart(bytes, from, end.at);
      this.starts[column] = start;
      this.ends[column] = trimEnd(bytes, start, end.at);
    }
    return true;
  }

  /** Fields that a shorter row leaves off are empty; false where its time is among them. */
  private leaveEmpty(from: number): boolean {
    for (let column = from; column < this.tasks.length; column += 1) {
      const task = this.tasks[column] ?? 0;
      if (task === TIME) return false;
      if (task === KEPT) this.starts[column] = this.ends[column] = 0;
      if (task < 0) continue;
      this.codes[task] = NOT_PLAIN;
      this.odd[task] = undefined;
    }
    return true;
  }

  /** The units that the row says of its numbers; false where one of them is none. */
  private readUnits(): boolean {
    const { unitColumns } = this.table.reader;
    for (let each = 0; each < unitColumns.length; each += 1) {
      const column = unitColumns[each] ?? -1;
      if (column === -1 || (this.codes[each] === NOT_PLAIN && this.odd[each] === undefined)) continue;
      const unit = this.units.at(this.starts[column] ?? 0, this.ends[column] ?? 0);
      if (unit === 'none') return false;
      this.said[each] = unit;
    }
    return true;
  }

  private beginRow(track: ByteTrack, ms: number, kind: RowTime['kind'], line: number): boolean {
    const at = this.table.instantOf(ms, kind);
    if (Number.isNaN(at)) return false;
    this.atMs[this.rows] = at;
    this.lines[this.rows] = line;
    countTime(track, ms, at, line);
    this.rows += 1;
    return true;
  }

  private keepPlain(index: number, track: ByteTrack): boolean {
    const { times, mark } = this.table;
    if (!this.beginRow(track, times.ms, times.kind, index + 1)) return false;
    const row = this.rows - 1;
    for (let each = 0; each < this.codes.length; each += 1) {
      const series = track.series[each];
      const code = this.codes[each] ?? 0;
      const cell = code === NOT_PLAIN ? this.odd[each] : undefined;
      if (series === undefined || (code === NOT_PLAIN && cell === undefined)) continue;
      if (cell === undefined) addCode(series, row, code);
      else addCell(series, row, cell, mark);
      if (this.saysUnits && this.table.reader.unitColumns[each] !== -1) addUnit(series, this.said[each]);
    }
    return true;
  }

  /** Reads a row as the general reader does; false where its time can't be resolved. */
  private readText(index: number, isAscii: boolean): boolean {
    const { lines, reader, times, mark } = this.table;
    const read = reader.read(lines.lineAt(index));
    if (read.kind === 'blank') this.blank += 1;
    else if (read.kind === 'refused') this.refused.push({ line: index + 1, reason: read.reason });
    if (read.kind !== 'read') return true;
    if (isAscii) {
      splitBytes(this.bytes, lines.starts[index] ?? 0, lines.ends[index] ?? 0, this.delimiter, this.starts, this.ends);
      times.learn(this.starts, this.ends, read.time);
    }
    const track = reader.channelColumn === -1 ? this.tracks.all[0] : this.tracks.named(read.channel);
    if (track === undefined || !this.beginRow(track, read.time.ms, read.time.kind, index + 1)) return false;
    track.series.forEach((series, each) => {
      const cell = reader.cells[each];
      if (cell === undefined) return;
      addCell(series, this.rows - 1, cell, mark);
      addUnit(series, reader.saidUnits[each]);
    });
    return true;
  }
}

/** What is done with the cells of each column. */
export function tasksOf(columnCount: number, { readings, unitColumns, channelColumn }: Pick<RowReader, 'readings' | 'unitColumns' | 'channelColumn'>, times: { readonly columns: readonly number[] }): Int32Array {
  const tasks = new Int32Array(columnCount).fill(IGNORED);
  for (const column of [...unitColumns, channelColumn]) if (column !== -1) tasks[column] = KEPT;
  readings.forEach((column, each) => {
    tasks[column] = each;
  });
  for (const column of times.columns) tasks[column] = TIME;
  return tasks;
}
