/** Reading a thermometer's log from its text: the whole way from lines to places with points. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import type { TemperatureUnit } from '../measures/temperature.ts';
import { checkAnswers, type Answers } from './log-answers.ts';
import { problemOfText } from './log-bytes.ts';
import { askDateOrder, weighDateOrder, type DateOrderEvidence } from './log-date-order.ts';
import { gatherFacts, nameColumn, type ColumnFacts } from './log-facts.ts';
import { findInstants, type Instants } from './log-instants.ts';
import { findLayout, type LogLayout } from './log-layout.ts';
import { isBlankLine, splitFields, splitLines } from './log-lines.ts';
import { numericDateOf, type DateOrder } from './log-moments.ts';
import { profileColumns } from './log-profile.ts';
import { askSwappedHeadings, settleElapsedUnit } from './log-questions.ts';
import { remarkHeadings, remarkRun, remarkSwappedPlaces, remarkTimes, remarkValues } from './log-remarks.ts';
import { assignRoles } from './log-roles.ts';
import { rowTimeReader } from './log-row-times.ts';
import { readRows, type LogRows } from './log-rows.ts';
import type { TimePlan } from './log-time-columns.ts';
import type { LogColumn, LogOptions, LogPlace, LogQuestion, LogReading, LogRemark, LogRole } from './log-types.ts';
import { settleUnits, type SettledSeries } from './log-units.ts';

/**
 * Reads a log. Every line ends up as opening, blank, read or refused with a reason; a cell with a
 * word for "no reading" gives no point. Nothing that the text leaves open is guessed: while a
 * question is open there are no places. Points keep the order of the file. Linear in the text.
 * @param text decoded text of the file
 * @returns the reading, or a sentence: no log, an answer that is none, a zone that doesn't exist
 */
export function readLog(text: string, options: LogOptions = {}): Outcome<LogReading> {
  const fileName = options.fileName ?? 'The file';
  const answers = options.answers ?? {};
  const problem = problemOfText(text, fileName);
  if (problem !== undefined) return { ok: false, problem };
  const lines = splitLines(text);
  const layout = findLayout(lines);
  if (layout === undefined) {
    return bad(`No row of “${fileName}” has a time and a temperature.`, undefined, 'Export the log as CSV with one row for each time.');
  }
  if (layout.mixesCommas) {
    return bad(`In “${fileName}” the commas in the numbers can’t be told from those between the columns (line ${layout.dataStart + 1}).`, undefined, 'Export the log with semicolons between the columns, or with decimal points.');
  }
  const chosen = checkAnswers(answers, layout.columnCount);
  if (!chosen.ok) return chosen;
  const facts = gatherFacts(layout, profileColumns(lines, layout));
  const { roles, time } = assignRoles(facts, chosen.value);
  const swapped = askSwappedHeadings(facts, roles, chosen.value);
  const fault = faultOfRoles(fileName, facts, roles, time?.plan, swapped !== undefined);
  if (fault !== undefined || time === undefined) return fault ?? bad(`“${fileName}” has no column of times.`);
  return readTable({ lines, layout, facts, roles, plan: time.plan, swapped, answers, timeZone: options.timeZone });
}

interface Table {
  readonly lines: readonly string[];
  readonly layout: LogLayout;
  readonly facts: readonly ColumnFacts[];
  readonly roles: readonly LogRole[];
  readonly plan: TimePlan;
  readonly swapped: LogQuestion | undefined;
  readonly answers: Answers;
  readonly timeZone: string | undefined;
}

function readTable(table: Table): Outcome<LogReading> {
  const { lines, layout, facts, roles, answers } = table;
  const heading = facts[table.plan.column]?.heading ?? '';
  const opening = lines.slice(0, layout.dataStart).filter((line) => !isBlankLine(line, layout.delimiter));
  const evidence = weighDates(table);
  const order = evidence?.settled ?? answeredOrder(evidence, answers);
  const elapsed = settleElapsedUnit(table.plan, answers['elapsedUnit'], heading);
  const isOrderOpen = evidence !== undefined && order === undefined;
  const rows = readRows(lines, layout, roles, rowTimeReader(elapsed.plan, order, layout.headings));
  const instants = findInstants(rows, { plan: elapsed.plan, heading, opening, timeZone: table.timeZone, answers, isOrderOpen });
  if (!instants.ok) return instants;
  const units = settleUnits(rows.series, facts, opening, answers);
  const questions = [
    ...(table.swapped === undefined ? [] : [table.swapped]),
    ...(evidence !== undefined && isOrderOpen ? [askDateOrder(evidence, table.plan.column)] : []),
    ...(elapsed.question === undefined ? [] : [elapsed.question]),
    ...instants.value.questions,
    ...units.questions,
  ];
  const outRows = rowsToRefuse(instants.value, units.all);
  const late = [...outRows].map(([row, reason]) => ({ line: rows.lines[row] ?? 0, reason }));
  const refusedRows = late.length === 0 ? rows.refused : [...rows.refused, ...late].toSorted((left, right) => left.line - right.line);
  const isOpen = questions.length > 0;
  const places = isOpen ? [] : units.all.flatMap((each) => (each.unit === undefined ? [] : [placeFrom(each, each.unit, rows, instants.value.atMs, outRows)]));
  const blankAbove = layout.dataStart - opening.length;
  return good({
    columns: columnsFrom(table, units.all),
    questions,
    places,
    refusedRows,
    remarks: isOpen ? [] : remarksOf(table, rows, instants.value, places, outRows, evidence?.settled === undefined && evidence !== undefined),
    counts: {
      lines: lines.length,
      opening: opening.length,
      blank: rows.blank + blankAbove,
      read: rows.lines.length - outRows.size,
      refused: refusedRows.length,
    },
  });
}

function faultOfRoles(fileName: string, facts: readonly ColumnFacts[], roles: readonly LogRole[], plan: TimePlan | undefined, isSwapped: boolean): ReturnType<typeof bad> | undefined {
  const remedy = 'Say what each column holds, or export the log with times and temperatures.';
  if (plan === undefined) return bad(`“${fileName}” has no column of times.`, undefined, remedy);
  if (plan.kind === 'date-only') {
    const where = nameColumn(plan.column, facts[plan.column]?.heading ?? '');
    return bad(`“${fileName}” has dates in ${where} but no clock times.`, undefined, 'Export the log with the time of each reading.');
  }
  if (!roles.includes('reading') && !isSwapped) return bad(`“${fileName}” has times but no column of temperatures.`, undefined, remedy);
  return undefined;
}

/** What the whole column says of its date order; `undefined` when its dates aren't three bare figures. */
function weighDates(table: Table): DateOrderEvidence | undefined {
  const { plan, facts, lines, layout } = table;
  if (plan.kind !== 'moment' && plan.kind !== 'date-and-clock') return undefined;
  const shown = facts[plan.column]?.profile.first ?? [];
  if (!shown.some((cell) => numericDateOf(cell) !== undefined)) return undefined;
  return weighDateOrder(datesOf(lines, layout, plan.column));
}

function* datesOf(lines: readonly string[], layout: LogLayout, column: number): Generator<string> {
  for (let index = layout.dataStart; index < lines.length; index += 1) {
    const cell = splitFields(lines[index] ?? '', layout.delimiter)?.[column];
    if (cell !== undefined && cell !== '') yield cell;
  }
}

function answeredOrder(evidence: DateOrderEvidence | undefined, answers: Answers): DateOrder | undefined {
  return evidence?.possible.find((order) => order === answers['dateOrder']);
}

/** Rows refused after all rows are read: times left out on a person's word, and units that differ from their column's. */
function rowsToRefuse(instants: Instants, all: readonly SettledSeries[]): ReadonlyMap<number, string> {
  const refused = new Map(instants.refused);
  for (const { series, unit, name } of all) {
    series.saidUnits.forEach((said, index) => {
      if (said === undefined || unit === undefined || said === unit) return;
      refused.set(series.rows[index] ?? 0, `“${series.cells[index]?.text} °${said}” is in °${said}; the rest of “${name}” is in °${unit}. Export the log in one unit.`);
    });
  }
  return refused;
}

function placeFrom(settled: SettledSeries, unit: TemperatureUnit, rows: LogRows, atMs: readonly number[], refused: ReadonlyMap<number, string>): LogPlace {
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

function columnsFrom(table: Table, all: readonly SettledSeries[]): readonly LogColumn[] {
  return table.facts.map(({ index, heading }) => {
    const units = new Set(all.filter((each) => each.series.column === index).map((each) => each.unit));
    const [unit] = units;
    return { index, heading, role: table.roles[index] ?? 'ignore', unit: units.size === 1 && unit !== undefined ? unit : null };
  });
}

function remarksOf(table: Table, rows: LogRows, instants: Instants, places: readonly LogPlace[], refused: ReadonlyMap<number, string>, orderWasChosen: boolean): readonly LogRemark[] {
  const tracks = instants.tracks.map((track) => track.filter((row) => !refused.has(row)));
  return [
    ...remarkHeadings(table.facts, table.roles),
    ...remarkTimes(tracks, instants.atMs, rows.lines),
    ...remarkValues(places),
    ...remarkSwappedPlaces(places),
    ...(orderWasChosen ? remarkRun(places) : []),
  ];
}
