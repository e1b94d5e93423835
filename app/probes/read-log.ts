/** Reading a thermometer's log from its text: the whole way from lines to places with points. */
import { good, type Outcome } from '../measures/outcome.ts';
import type { TemperatureUnit } from '../measures/temperature.ts';
import { problemOfText } from './log-bytes.ts';
import { askDateOrder } from './log-date-order.ts';
import { findInstants, type Instants } from './log-instants.ts';
import { linesOfText, splitFields } from './log-lines.ts';
import { settleElapsedUnit } from './log-questions.ts';
import { findTimeFaults, remarkHeadings, remarkRun, remarkSwappedPlaces, remarkTimes, remarkValues, type RemarkedPlace } from './log-remarks.ts';
import { rowTimeReader } from './log-row-times.ts';
import { readRows, type LogRows, type Series } from './log-rows.ts';
import { answeredOrder, openTable, weighDates, type LogTable } from './log-table.ts';
import type { LogColumn, LogOptions, LogPlace, LogReading, LogRemark } from './log-types.ts';
import { settleUnits, type SettledSeries, type UnitEvidence } from './log-units.ts';

/**
 * Reads a log. Every line ends up as opening, blank, read or refused with a reason; a cell with a
 * word for "no reading" gives no point. Nothing that the text leaves open is guessed: while a
 * question is open there are no places. Points keep the order of the file. Linear in the text.
 * @param text decoded text of the file
 * @returns the reading, or a sentence: no log, an answer that is none, a zone that doesn't exist
 */
export function readLog(text: string, options: LogOptions = {}): Outcome<LogReading> {
  const problem = problemOfText(text, options.fileName ?? 'The file');
  if (problem !== undefined) return { ok: false, problem };
  const table = openTable(linesOfText(text), options);
  return table.ok ? readTable(table.value) : table;
}

/** A series with its name and unit. */
interface NamedSeries extends SettledSeries {
  readonly series: Series;
}

function readTable(table: LogTable): Outcome<LogReading> {
  const { lines, layout, facts, roles, answers, heading, opening, plan } = table;
  const evidence = weighDates(table, () => datesOf(table));
  const order = evidence?.settled ?? answeredOrder(evidence, answers);
  const elapsed = settleElapsedUnit(plan, answers['elapsedUnit'], heading);
  const isOrderOpen = evidence !== undefined && order === undefined;
  const rows = readRows(lines, layout, roles, rowTimeReader(elapsed.plan, order, layout.headings));
  const instants = findInstants(rows, { plan: elapsed.plan, heading, opening, timeZone: table.timeZone, answers, isOrderOpen });
  if (!instants.ok) return instants;
  const units = settleUnits(rows.series.map(evidenceOf), facts, opening, answers);
  const all = rows.series.flatMap((series, index): NamedSeries[] => {
    const settled = units.all[index];
    return settled === undefined ? [] : [{ ...settled, series }];
  });
  const questions = [
    ...(table.swapped === undefined ? [] : [table.swapped]),
    ...(evidence !== undefined && isOrderOpen ? [askDateOrder(evidence, plan.column)] : []),
    ...(elapsed.question === undefined ? [] : [elapsed.question]),
    ...instants.value.questions,
    ...units.questions,
  ];
  const outRows = rowsToRefuse(instants.value, all);
  const late = [...outRows].map(([row, reason]) => ({ line: rows.lines[row] ?? 0, reason }));
  const refusedRows = late.length === 0 ? rows.refused : [...rows.refused, ...late].toSorted((left, right) => left.line - right.line);
  const isOpen = questions.length > 0;
  const places = isOpen ? [] : all.flatMap((each) => (each.unit === undefined ? [] : [placeFrom(each, each.unit, rows, instants.value.atMs, outRows)]));
  const blankAbove = layout.dataStart - opening.length;
  return good({
    columns: columnsOfTable(table, rows.series.map(({ column }, index) => ({ column, unit: units.all[index]?.unit }))),
    questions,
    places,
    refusedRows,
    remarks: isOpen ? [] : remarksOf(table, rows, instants.value, places, outRows, evidence?.settled === undefined && evidence !== undefined),
    counts: {
      lines: lines.count,
      opening: opening.length,
      blank: rows.blank + blankAbove,
      read: rows.lines.length - outRows.size,
      refused: refusedRows.length,
    },
  });
}

/** The columns as they are told: a unit where all of a column's readings have one. */
export function columnsOfTable({ facts, roles }: LogTable, all: readonly { readonly column: number; readonly unit: TemperatureUnit | undefined }[]): readonly LogColumn[] {
  return facts.map(({ index, heading }) => {
    const units = new Set(all.filter((each) => each.column === index).map((each) => each.unit));
    const [unit] = units;
    return { index, heading, role: roles[index] ?? 'ignore', unit: units.size === 1 && unit !== undefined ? unit : null };
  });
}

function* datesOf({ lines, layout, plan }: LogTable): Generator<string> {
  for (let index = layout.dataStart; index < lines.count; index += 1) {
    const cell = splitFields(lines.lineAt(index), layout.delimiter)?.[plan.column];
    if (cell !== undefined && cell !== '') yield cell;
  }
}

function evidenceOf({ channel, column, cells, saidUnits }: Series): UnitEvidence {
  let saidFahrenheit = 0;
  let saidCelsius = 0;
  for (const unit of saidUnits) {
    if (unit === 'F') saidFahrenheit += 1;
    else if (unit === 'C') saidCelsius += 1;
  }
  return {
    channel, column, count: cells.length, saidFahrenheit, saidCelsius,
    span: () => cells.reduce<readonly [number, number]>(([low, high], { value }) => [Math.min(low, value), Math.max(high, value)], [Infinity, -Infinity]),
  };
}

/** Rows refused after all rows are read: times left out on a person's word, and units that differ from their column's. */
function rowsToRefuse(instants: Instants, all: readonly NamedSeries[]): ReadonlyMap<number, string> {
  const refused = new Map(instants.refused);
  for (const { series, unit, name } of all) {
    series.saidUnits.forEach((said, index) => {
      if (said === undefined || unit === undefined || said === unit) return;
      refused.set(series.rows[index] ?? 0, `“${series.cells[index]?.text} °${said}” is in °${said}; the rest of “${name}” is in °${unit}. Export the log in one unit.`);
    });
  }
  return refused;
}

function placeFrom(settled: NamedSeries, unit: TemperatureUnit, rows: LogRows, atMs: readonly number[], refused: ReadonlyMap<number, string>): LogPlace {
  const { series, name } = settled;
  const place = { name, unit, column: series.column, atMs: [] as number[], texts: [] as string[], values: [] as number[], lowTicks: [] as number[], highTicks: [] as number[], lines: [] as number[] };
  series.cells.forEach((cell, index) => {
    const row = series.rows[index] ?? 0;
    if (refused.has(row)) return;
    const ticks = cell.ticksIn(unit);
    place.atMs.push(atMs[row] ?? 0);
    place.texts.push(cell.text);
    place.values.push(cell.value);
    place.lowTicks.push(ticks.lowTicks);
    place.highTicks.push(ticks.highTicks);
    place.lines.push(rows.lines[row] ?? 0);
  });
  return place;
}

function remarksOf(table: LogTable, rows: LogRows, instants: Instants, places: readonly LogPlace[], refused: ReadonlyMap<number, string>, orderWasChosen: boolean): readonly LogRemark[] {
  const tracks = instants.tracks.map((track) => track.filter((row) => !refused.has(row)));
  const remarked = places.map((place): RemarkedPlace => ({ ...place, highTicksAt: (index) => place.highTicks[index] ?? 0, textAt: (index) => place.texts[index] ?? '' }));
  return [
    ...remarkHeadings(table.facts, table.roles),
    ...remarkTimes(findTimeFaults(tracks, instants.atMs, rows.lines)),
    ...remarkReadings(remarked, orderWasChosen),
  ];
}

/** What is to be remarked of readings alone. */
export function remarkReadings(places: readonly RemarkedPlace[], orderWasChosen: boolean): readonly LogRemark[] {
  return [...remarkValues(places), ...remarkSwappedPlaces(places), ...(orderWasChosen ? remarkRun(places) : [])];
}
