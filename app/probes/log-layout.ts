/** Where the table of a log lies in its text: delimiter, headings, units row, first data row, number of fields. */
import { readValueCell, unitFromWord, usualValue } from './log-cells.ts';
import { hintFromHeading, isUnitsRow } from './log-headings.ts';
import { DELIMITERS, isBlankLine, splitFields, type Delimiter, type LogLines } from './log-lines.ts';
import { momentShape } from './log-moments.ts';

export type CellShape = 'blank' | 'missing' | 'number' | 'moment' | 'date' | 'clock' | 'unit' | 'text';

export interface LogLayout {
  readonly delimiter: Delimiter;
  /** Index (from 0) of the first data line. */
  readonly dataStart: number;
  readonly headings: readonly string[];
  /** Cells of a units row under the headings; empty when there is none. */
  readonly units: readonly string[];
  readonly columnCount: number;
  /** The number of fields most rows have; it may be less than the headings where rows leave off empty ends. */
  readonly usualCount: number;
  /** Commas stand both between the columns and in the numbers, without quote marks. */
  readonly mixesCommas: boolean;
}

/** Lines looked at to find the table; a logger's opening words are shorter than that. */
const SAMPLE_LINES = 400;
const LONGEST_SAMPLE_LINE = 20_000;
const MOST_COLUMNS = 500;
const MOST_SPOILT_ROWS = 50;
const ELAPSED = /^(?:\d{1,3}(?:d|[.\s])\s*)?\d{1,4}:\d{2}(?::\d{2}(?:[.,]\d{1,9})?)?$/;

interface Row {
  readonly lineIndex: number;
  readonly fields: readonly string[];
  readonly kind: RowKind;
}

/** `timed`: a date or clock time beside a number; `numbers`: two numbers or more, the first may be a time; `words`: neither. */
type RowKind = 'timed' | 'numbers' | 'words';

/** What cells look like, as far as they were looked at: the same ones come again and again. */
const known = new Map<string, CellShape>();
const MOST_KNOWN = 10_000;
const LONGEST_KNOWN = 40;

/** What a cell looks like, not whether it is right: `2026-13-45 05:31` is a moment here. */
export function shapeOf(cell: string): CellShape {
  const before = known.get(cell);
  if (before !== undefined) return before;
  const shape = lookAt(cell);
  if (known.size >= MOST_KNOWN) known.clear();
  if (cell.length <= LONGEST_KNOWN) known.set(cell, shape);
  return shape;
}

function lookAt(cell: string): CellShape {
  if (cell === '') return 'blank';
  if (usualValue(cell) !== undefined) return 'number';
  if (unitFromWord(cell) !== undefined) return 'unit';
  const value = readValueCell(cell).kind;
  if (value === 'missing' || value === 'number') return value;
  return momentShape(cell) ?? (cell.length < 40 && ELAPSED.test(cell) ? 'clock' : 'text');
}

/** Finds the table, or `undefined` when no line has a time and a number. */
export function findLayout(lines: LogLines): LogLayout | undefined {
  const forced = /^"?sep=(.)"?\s*$/i.exec(lines.count === 0 ? '' : lines.lineAt(0))?.[1];
  let best: { score: number; even: number; rows: readonly Row[]; delimiter: Delimiter } | undefined;
  // Each line is looked at with every delimiter, and made a text once.
  const sample = rememberLines(lines);
  for (const delimiter of DELIMITERS) {
    if (forced !== undefined && DELIMITERS.some((each) => each === forced) && delimiter !== forced) continue;
    const rows = sampleRows(sample, delimiter);
    const score = rows.filter((row) => row.kind === 'timed').length * 10 + rows.filter((row) => row.kind === 'numbers').length;
    const even = mostUsual(rows.filter((row) => row.kind !== 'words').map((row) => row.fields.length)).times;
    if (score > 0 && (best === undefined || score > best.score || (score === best.score && even > best.even))) {
      best = { score, even, rows, delimiter };
    }
  }
  return best === undefined ? undefined : layoutFrom(best.rows, best.delimiter);
}

function rememberLines(lines: LogLines): LogLines {
  const texts: string[] = [];
  return { count: lines.count, lineAt: (index) => (texts[index] ??= lines.lineAt(index)) };
}

function sampleRows(lines: LogLines, delimiter: Delimiter): readonly Row[] {
  const rows: Row[] = [];
  for (let lineIndex = 0; lineIndex < lines.count && rows.length < SAMPLE_LINES; lineIndex += 1) {
    const line = lines.lineAt(lineIndex);
    if (line.length > LONGEST_SAMPLE_LINE || isBlankLine(line, delimiter)) continue;
    // A row with an open quote mark is refused later; here it is only to be known for a data row.
    const fields = splitFields(line, delimiter) ?? splitFields(line.replaceAll('"', ''), delimiter) ?? [];
    rows.push({ lineIndex, fields, kind: fields.length > MOST_COLUMNS ? 'words' : kindOfRow(fields) });
  }
  return rows;
}

function kindOfRow(fields: readonly string[]): RowKind {
  // A row that isn't cut by this delimiter: its one field needn't be looked at.
  if (fields.length < 2) return 'words';
  let times = 0;
  let numbers = 0;
  let missing = 0;
  for (const field of fields) {
    const shape = shapeOf(field);
    if (shape === 'number') numbers += 1;
    else if (shape === 'missing') missing += 1;
    else if (shape === 'moment' || shape === 'date' || shape === 'clock') times += 1;
  }
  if (times > 0) return numbers + missing > 0 ? 'timed' : 'words';
  return numbers >= 2 || (numbers === 1 && missing > 0) ? 'numbers' : 'words';
}

function layoutFrom(rows: readonly Row[], delimiter: Delimiter): LogLayout {
  const timed = rows.filter((row) => row.kind === 'timed');
  const numeric = rows.filter((row) => row.kind === 'numbers');
  const data = timed.length * 5 >= numeric.length ? timed : numeric;
  const usualCount = mostUsual(data.map((row) => row.fields.length)).value;
  const first = rows.findIndex((row) => row.kind === data[0]?.kind && row.fields.length === usualCount);
  const timeIndex = rows[first]?.fields.findIndex((field) => isTimeShaped(field, data === timed)) ?? 0;
  const start = findStart(rows, first, timeIndex, data === timed, usualCount);
  const above = rows.slice(0, start);
  const { headings, units } = headingsAbove(above, usualCount);
  return {
    delimiter,
    dataStart: rows[start]?.lineIndex ?? 0,
    headings,
    units,
    columnCount: Math.max(trimEnd(headings).length, usualCount),
    usualCount,
    mixesCommas: delimiter === ',' && areDecimalsSplit(above.at(-1), rows[first]),
  };
}

/** Decimal commas were taken for delimiters: more fields than headings, and not a decimal point in them. */
function areDecimalsSplit(above: Row | undefined, data: Row | undefined): boolean {
  if (above === undefined || data === undefined || above.fields.length < 2 || !above.fields.every(isWordShaped)) return false;
  const surplus = data.fields.length - above.fields.length;
  const numbers = data.fields.filter((field) => shapeOf(field) === 'number');
  return surplus > 0 && surplus <= above.fields.length && numbers.every((field) => /^[-+]?\d+$/.test(field));
}

/**
 * The first data row: the first good one, or a spoilt one above it. Rows with a time where the
 * data have theirs belong to the data; so does every other row under the headings.
 */
function findStart(rows: readonly Row[], first: number, timeIndex: number, timed: boolean, usualCount: number): number {
  let start = first;
  for (let index = first - 1; index >= Math.max(0, first - MOST_SPOILT_ROWS); index -= 1) {
    const fields = rows[index]?.fields ?? [];
    const timeCell = fields[timeIndex] ?? '';
    if (isTimeShaped(timeCell, timed) && fields.length > 1 && (timed || fields.length === usualCount)) {
      start = index;
      continue;
    }
    if (fields.length >= Math.max(2, usualCount - 1) && (isTimeHint(timeCell) || fields.every(isWordShaped))) return index + 1;
  }
  return start;
}

function headingsAbove(rows: readonly Row[], usualCount: number): { headings: readonly string[]; units: readonly string[] } {
  const nearest = rows.at(-1)?.fields ?? [];
  const next = rows.at(-2)?.fields ?? [];
  // A line of two fields above a wide table is the logger speaking of itself, not its headings.
  if (nearest.length < (usualCount > 3 ? usualCount - 1 : usualCount)) return { headings: [], units: [] };
  if (!isUnitsRow(nearest)) {
    const isHeading = nearest.every(isWordShaped) || nearest.some((field) => isTimeHint(field));
    return { headings: isHeading ? nearest : [], units: [] };
  }
  return next.length === nearest.length ? { headings: next, units: nearest } : { headings: nearest, units: nearest };
}

/** Channels may be headed by bare numbers; then the heading over the times tells the row for what it is. */
function isTimeHint(field: string): boolean {
  const hint = hintFromHeading(field);
  return hint === 'time' || hint === 'elapsed';
}

function isTimeShaped(field: string, timed: boolean): boolean {
  const shape = shapeOf(field);
  return timed ? shape === 'moment' || shape === 'date' || shape === 'clock' : shape === 'number';
}

function isWordShaped(field: string): boolean {
  const shape = shapeOf(field);
  return shape === 'text' || shape === 'unit' || shape === 'blank';
}

function trimEnd(fields: readonly string[]): readonly string[] {
  let end = fields.length;
  while (end > 0 && fields[end - 1] === '') end -= 1;
  return fields.slice(0, end);
}

function mostUsual(counts: readonly number[]): { value: number; times: number } {
  const tally = new Map<number, number>();
  let best = { value: 0, times: 0 };
  for (const count of counts) {
    const times = (tally.get(count) ?? 0) + 1;
    tally.set(count, times);
    if (times > best.times || (times === best.times && count > best.value)) best = { value: count, times };
  }
  return best;
}
