/** The readings of one column or channel as they are gathered from bytes, and as columns in the end. */
import type { TemperatureUnit } from '../measures/temperature.ts';
import { NOT_PLAIN, plainCodeOfText, textOfCode, ticksPerStep, valueOfCode } from './log-byte-cells.ts';
import type { NumberCell } from './log-cells.ts';
import type { UnitEvidence } from './log-units.ts';
import type { ReadingColumns } from './reading-columns.ts';

const FAHRENHEIT_ZERO_TICKS = -160_000;

export interface ByteSeries extends UnitEvidence {
  count: number;
  saidFahrenheit: number;
  saidCelsius: number;
  /** The row of each reading; null as long as every row has one. */
  rows: Int32Array<ArrayBuffer> | null;
  codes: Int32Array<ArrayBuffer>;
  /** Numbers that are not plain, by their index. */
  readonly odd: Map<number, NumberCell>;
}

/** @param capacity how many readings there is room for at first */
export function openByteSeries(channel: string | undefined, column: number, capacity: number): ByteSeries {
  const series: ByteSeries = {
    channel, column, count: 0, saidFahrenheit: 0, saidCelsius: 0, odd: new Map(),
    rows: null, codes: new Int32Array(capacity),
    span: () => spanOf(series),
  };
  return series;
}

/** Adds a reading by its code. */
export function addCode(series: ByteSeries, row: number, code: number): void {
  const { count } = series;
  if (count === series.codes.length) series.codes = doubled(series.codes);
  if (series.rows !== null || row !== count) noteRow(series, row);
  series.codes[count] = code;
  series.count = count + 1;
}

function noteRow(series: ByteSeries, row: number): void {
  series.rows ??= firstRows(series);
  if (series.rows.length < series.codes.length) {
    const larger = new Int32Array(series.codes.length);
    larger.set(series.rows);
    series.rows = larger;
  }
  series.rows[series.count] = row;
}

/** The rows of a series that had a reading in every row until now. */
function firstRows({ count, codes }: ByteSeries): Int32Array<ArrayBuffer> {
  const rows = new Int32Array(codes.length);
  for (let index = 0; index < count; index += 1) rows[index] = index;
  return rows;
}

/** Adds a reading that was read as a text. */
export function addCell(series: ByteSeries, row: number, cell: NumberCell, mark: number): void {
  const code = plainCodeOfText(cell.text, mark);
  if (code === NOT_PLAIN) series.odd.set(series.count, cell);
  addCode(series, row, code);
}

/** Counts the unit that a reading says itself. */
export function addUnit(series: ByteSeries, unit: TemperatureUnit | undefined): void {
  if (unit === 'F') series.saidFahrenheit += 1;
  else if (unit === 'C') series.saidCelsius += 1;
}

/** Readings as columns, with the lowest and highest tick of them. */
interface SpannedColumns {
  readonly columns: ReadingColumns;
  readonly lowest: number;
  readonly highest: number;
}

/** The instants of each series; channels that were read together share theirs. */
export function instantsOfSeries(all: readonly ByteSeries[], ofRows: Float64Array): readonly Float64Array[] {
  const found: Float64Array[] = [];
  for (const series of all) {
    const before = found.at(-1);
    const isShared = before !== undefined && series.count < ofRows.length && areOf(before, series, ofRows);
    found.push(isShared ? before : byRow(series, ofRows));
  }
  return found;
}

function areOf(instants: Float64Array, { count, rows }: ByteSeries, ofRows: Float64Array): boolean {
  if (instants.length !== count) return false;
  for (let index = 0; index < count; index += 1) if (instants[index] !== ofRows[rows === null ? index : (rows[index] ?? 0)]) return false;
  return true;
}

/**
 * The readings in a unit; they lie where the codes lay, which are gone then. Ticks beyond 32 bits are not in the columns, but show in the highest and lowest.
 * @param atMs of each reading
 */
export function columnsOfSeries(series: ByteSeries, unit: TemperatureUnit, mark: '.' | ',', atMs: Float64Array): SpannedColumns {
  const { count, codes, odd } = series;
  const alike = ticksAlike(series, unit);
  if (alike !== undefined) {
    const { lowTicks, decimals, lowest, highest } = alike;
    return { columns: { unit, atMs, lowTicks, cut: null, texts: { decimals, mark: decimals === 0 ? '.' : mark } }, lowest, highest };
  }
  const steps = ticksPerStep(unit);
  const zero = unit === 'F' ? FAHRENHEIT_ZERO_TICKS : 0;
  const lowTicks = new Int32Array(count);
  let [lowest, highest] = [Infinity, -Infinity];
  for (let index = 0; index < count; index += 1) {
    const code = codes[index] ?? 0;
    if (code === NOT_PLAIN) continue;
    const ticks = (code >> 2) * (steps[code & 3] ?? 0) + zero;
    lowTicks[index] = ticks;
    if (ticks < lowest) lowest = ticks;
    if (ticks > highest) highest = ticks;
  }
  let cut: Uint8Array | null = null;
  for (const [index, cell] of odd) {
    const ticks = cell.ticksIn(unit);
    lowTicks[index] = ticks.lowTicks;
    lowest = Math.min(lowest, ticks.lowTicks);
    highest = Math.max(highest, ticks.highTicks);
    if (ticks.highTicks === ticks.lowTicks) continue;
    cut ??= new Uint8Array(count);
    cut[index] = 1;
  }
  return { columns: { unit, atMs, lowTicks, cut, texts: textsOf(series, mark) }, lowest, highest };
}

/** The ticks of readings that all have as many decimals; `undefined` where one is written otherwise. */
function ticksAlike({ count, codes, odd }: ByteSeries, unit: TemperatureUnit): { lowTicks: Int32Array; decimals: number; lowest: number; highest: number } | undefined {
  if (odd.size > 0) return undefined;
  const first = codes[0] ?? 0;
  const decimals = first & 3;
  const step = ticksPerStep(unit)[decimals] ?? 0;
  const zero = unit === 'F' ? FAHRENHEIT_ZERO_TICKS : 0;
  let [least, most, others] = [first, first, 0];
  for (let index = 0; index < count; index += 1) {
    const code = codes[index] ?? 0;
    others |= code ^ first;
    if (code < least) least = code;
    else if (code > most) most = code;
  }
  if ((others & 3) !== 0) return undefined;
  for (let index = 0; index < count; index += 1) codes[index] = ((codes[index] ?? 0) >> 2) * step + zero;
  return { lowTicks: codes.subarray(0, count), decimals, lowest: (least >> 2) * step + zero, highest: (most >> 2) * step + zero };
}

/** What each reading's row has; the same array where every row has a reading. */
export function byRow<V extends Float64Array | Int32Array>({ rows, count }: ByteSeries, ofRows: V): V {
  if (count === ofRows.length) return ofRows;
  if (rows === null) return ofRows.slice(0, count) as V;
  const picked = ofRows instanceof Float64Array ? new Float64Array(count) : new Int32Array(count);
  for (let index = 0; index < count; index += 1) picked[index] = ofRows[rows[index] ?? 0] ?? 0;
  // It is of the kind that was given.
  return picked as V;
}

function spanOf({ count, codes, odd }: ByteSeries): readonly [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (let index = 0; index < count; index += 1) {
    const code = codes[index] ?? 0;
    const value = code === NOT_PLAIN ? (odd.get(index)?.value ?? 0) : valueOfCode(code);
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
}

/** A log has few different numbers: each text is made once. */
function textsOf({ count, codes, odd }: ByteSeries, mark: '.' | ','): readonly string[] {
  const known = new Map<number, string>();
  return Array.from({ length: count }, (_, index) => {
    const code = codes[index] ?? 0;
    if (code === NOT_PLAIN) return odd.get(index)?.text ?? '';
    const before = known.get(code);
    if (before !== undefined) return before;
    const text = textOfCode(code, mark);
    known.set(code, text);
    return text;
  });
}

/** The same numbers with room for as many more. */
export function doubled(values: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(Math.max(64, values.length * 2));
  larger.set(values);
  return larger;
}
