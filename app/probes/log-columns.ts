/** A log as columns of numbers: from its bytes directly where they are plain, else by way of the general reader. */
import { TICKS_PER_FAHRENHEIT } from '../measures/temperature.ts';
import { instantsOf } from './log-byte-instants.ts';
import { NOT_PLAIN, plainCodeOfText } from './log-byte-cells.ts';
import { indexLines, textOf, type ByteLines } from './log-byte-lines.ts';
import { readByteRows, type ByteRows } from './log-byte-rows.ts';
import { columnsOfSeries } from './log-byte-series.ts';
import { byteTimes } from './log-byte-times.ts';
import { LARGEST_LOG_BYTES } from './log-bytes.ts';
import { readPlainLog } from './log-plain.ts';
import { splitFields } from './log-lines.ts';
import { momentShape, numericDateOf } from './log-moments.ts';
import { settleElapsedUnit } from './log-questions.ts';
import { remarkHeadings, remarkTimes, type RemarkedPlace } from './log-remarks.ts';
import { rowTimeReader } from './log-row-times.ts';
import { rowReader } from './log-rows.ts';
import { shapeOfTable } from './log-shape.ts';
import { answeredOrder, openTable, weighDates, type LogTable } from './log-table.ts';
import type { LogOptions, LogPlace, LogReading } from './log-types.ts';
import { settleUnits } from './log-units.ts';
import { columnsOfTable, remarkReadings } from './read-log.ts';
import { columnsOf, textAt, type ReadingColumns } from './reading-columns.ts';

/** A measuring point of a file; line and reading go together by index. */
export interface ColumnPlace {
  readonly name: string;
  readonly column: number;
  readonly columns: ReadingColumns;
  /** Line in the file, from 1. */
  readonly lines: Int32Array;
}

/** As `LogReading`, with the readings as columns of numbers, and what the file's shape is. */
export interface ColumnLog extends Omit<LogReading, 'places'> {
  readonly places: readonly ColumnPlace[];
  readonly shape: string;
  /** The sheet of a workbook that was read. */
  readonly sheet?: string;
}

/** Ticks are kept in 32 bits; no thermometer reaches this, and the general reader says so of each row. */
const LARGEST_DEGREES = 200_000;
const LARGEST_TICKS = LARGEST_DEGREES * TICKS_PER_FAHRENHEIT;

/** A log of the general reader as columns. A number that no thermometer shows is refused with its row. */
export function columnsOfLog(log: LogReading, shape: string): ColumnLog {
  const wild = new Map<number, string>();
  for (const { name, values, lines, texts } of log.places) {
    values.forEach((value, index) => {
      if (Math.abs(value) > LARGEST_DEGREES) wild.set(lines[index] ?? 0, `“${texts[index]}” in “${name}” is no temperature.`);
    });
  }
  const places = log.places.map((place) => placeAsColumns(place, wild));
  if (wild.size === 0) return { ...log, places, shape };
  const late = [...wild].map(([line, reason]) => ({ line, reason }));
  return {
    ...log, places, shape, refusedRows: [...log.refusedRows, ...late].toSorted((left, right) => left.line - right.line),
    counts: { ...log.counts, read: log.counts.read - wild.size, refused: log.counts.refused + wild.size },
  };
}

function placeAsColumns(place: LogPlace, wild: ReadonlyMap<number, string>): ColumnPlace {
  const rows = place.atMs.map((atMs, index) => ({
    atMs, lowTicks: place.lowTicks[index] ?? 0, highTicks: place.highTicks[index] ?? 0, text: place.texts[index] ?? '', line: place.lines[index] ?? 0,
  })).filter(({ line }) => !wild.has(line));
  return { name: place.name, column: place.column, columns: columnsOf(rows, place.unit), lines: Int32Array.from(rows, ({ line }) => line) };
}

/**
 * Reads a log's bytes without making a text of every cell. What it gives is what the general reader gives.
 * @returns `undefined` where the general reader must look: questions, faults, and all that is not plain
 */
export function readLogBytes(bytes: Uint8Array, options: LogOptions): ColumnLog | undefined {
  if (bytes.length > LARGEST_LOG_BYTES) return undefined;
  return readPlainRows(bytes, options) ?? readByRows(bytes, options);
}

/** As `readLogBytes`, of a long log all of whose rows are plain. */
export function readPlainRows(bytes: Uint8Array, options: LogOptions): ColumnLog | undefined {
  const log = readPlainLog(bytes, options, markOf);
  if (log === undefined || !isUsual(log.table)) return undefined;
  const { table } = log;
  const evidence = weighDates(table, () => log.dates);
  const order = evidence?.settled ?? answeredOrder(evidence, table.answers);
  const instantOf = instantsOf(table);
  if (instantOf === undefined || (evidence !== undefined && order === undefined)) return undefined;
  const rows = log.finish(order, instantOf);
  const readings = table.roles.flatMap((role, index) => (role === 'reading' ? [index] : []));
  return rows === undefined ? undefined : finish(table, rows, markOf(table, readings), evidence !== undefined && evidence.settled === undefined);
}

function readByRows(bytes: Uint8Array, options: LogOptions): ColumnLog | undefined {
  const lines = indexLines(bytes);
  const opened = lines === undefined ? undefined : openTable(lines, options);
  if (lines === undefined || opened === undefined || !opened.ok) return undefined;
  const table = opened.value;
  const { layout, answers, plan, heading } = table;
  if (!isUsual(table)) return undefined;
  const evidence = weighDates(table, () => datesOf(table, lines));
  const order = evidence?.settled ?? answeredOrder(evidence, answers);
  const elapsed = settleElapsedUnit(plan, answers['elapsedUnit'], heading);
  const times = byteTimes(bytes, elapsed.plan);
  if (times === undefined || elapsed.question !== undefined || (evidence !== undefined && order === undefined)) return undefined;
  const instantOf = instantsOf({ ...table, plan: elapsed.plan });
  if (instantOf === undefined) return undefined;
  const reader = rowReader(layout, table.roles, rowTimeReader(elapsed.plan, order, layout.headings));
  const mark = markOf(table, reader.readings);
  const rows = readByteRows({ lines, layout, reader, times, mark: mark.charCodeAt(0), instantOf });
  return rows === undefined || rows.count === 0 ? undefined : finish(table, rows, mark, evidence !== undefined && evidence.settled === undefined);
}

/** Whether nothing is to be asked of the headings. */
function isUsual({ swapped, layout, plan }: LogTable): boolean {
  const heading = layout.headings[plan.column] ?? '';
  return swapped === undefined && momentShape(heading) === undefined && !/^\d/.test(heading);
}

function finish(table: LogTable, rows: ByteRows, mark: '.' | ',', orderWasChosen: boolean): ColumnLog | undefined {
  const { lines, layout, facts, opening, answers } = table;
  if (rows.tracks.some(({ up, down }) => down >= 3 && down > 3 * up)) return undefined;
  const series = rows.tracks.flatMap((track) => track.series);
  const units = settleUnits(series, facts, opening, answers);
  if (units.questions.length > 0) return undefined;
  const places: ColumnPlace[] = [];
  const remarked: RemarkedPlace[] = [];
  for (const [index, one] of series.entries()) {
    const settled = units.all[index];
    const unit = settled?.unit;
    const [atMs, ofLines] = [rows.atMs[index], rows.lines[index]];
    if (settled === undefined || unit === undefined || atMs === undefined || ofLines === undefined || (unit === 'F' ? one.saidCelsius : one.saidFahrenheit) > 0) return undefined;
    const { columns, lowest, highest } = columnsOfSeries(one, unit, mark, atMs);
    if (Math.max(-lowest, highest) > LARGEST_TICKS) return undefined;
    const place = { name: settled.name, column: one.column, columns, lines: ofLines };
    places.push(place);
    remarked.push({ ...remarkedOf(place), range: [lowest, highest] });
  }
  const refused = rows.refused.length;
  return {
    columns: columnsOfTable(table, series.map(({ column }, index) => ({ column, unit: units.all[index]?.unit }))),
    questions: [], places, refusedRows: rows.refused, shape: shapeOfTable(table),
    remarks: [
      ...remarkHeadings(facts, table.roles),
      ...remarkTimes({ backward: rows.tracks.flatMap(({ backward }) => backward), repeated: rows.tracks.flatMap(({ repeated }) => repeated) }),
      ...remarkReadings(remarked, orderWasChosen),
    ],
    counts: { lines: lines.count, opening: opening.length, blank: rows.blank + layout.dataStart - opening.length, read: rows.count, refused },
  };
}

function remarkedOf({ name, columns, lines }: ColumnPlace): RemarkedPlace {
  const { unit, atMs, lowTicks, cut } = columns;
  return { name, unit, atMs, lowTicks, lines, highTicksAt: (index) => (lowTicks[index] ?? 0) + (cut?.[index] ?? 0), textAt: (index) => textAt(columns, index) };
}

/** The dates of a column, each only where it differs from the one before. */
function* datesOf({ layout, plan }: LogTable, lines: ByteLines): Generator<string> {
  const { bytes } = lines;
  const delimiter = layout.delimiter.charCodeAt(0);
  let [known, knownEnd] = [0, 0];
  for (let index = layout.dataStart; index < lines.count; index += 1) {
    let from = lines.starts[index] ?? 0;
    const end = lines.ends[index] ?? 0;
    for (let column = 0; column < plan.column && from < end; from += 1) if (bytes[from] === delimiter) column += 1;
    let to = from;
    while (to < end && bytes[to] !== delimiter && bytes[to] !== 32) to += 1;
    const isSpecial = lines.special.has(index);
    if (!isSpecial && to > from && to - from === knownEnd - known && isRepeat(bytes, from, to, known)) continue;
    const cell = splitFields(lines.lineAt(index), layout.delimiter)?.[plan.column];
    if (cell === undefined || cell === '') continue;
    // What stands before the first space is known again only where it is the date itself.
    if (!isSpecial && numericDateOf(cell) !== undefined && numericDateOf(textOf(bytes, from, to)) !== undefined) [known, knownEnd] = [from, to];
    yield cell;
  }
}

function isRepeat(bytes: Uint8Array, from: number, to: number, known: number): boolean {
  for (let at = from, other = known; at < to; at += 1, other += 1) if (bytes[at] !== bytes[other]) return false;
  return true;
}

/** The mark that the first number with decimals has. */
function markOf({ layout, lines }: LogTable, readings: readonly number[]): '.' | ',' {
  if (layout.delimiter === ',') return '.';
  const last = Math.min(lines.count, layout.dataStart + 100);
  for (let index = layout.dataStart; index < last; index += 1) {
    const fields = splitFields(lines.lineAt(index), layout.delimiter) ?? [];
    for (const column of readings) {
      const cell = fields[column] ?? '';
      if (cell.includes(',') && plainCodeOfText(cell, 44) !== NOT_PLAIN) return ',';
      if (cell.includes('.') && plainCodeOfText(cell, 46) !== NOT_PLAIN) return '.';
    }
  }
  return '.';
}
