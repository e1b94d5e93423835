/** The readings of one column or channel as they are gathered from bytes, and as columns in the end. */
import type { TemperatureUnit } from '../measures/temperature.ts';
import { NOT_PLAIN, plainCodeOfText, textOfCode, ticksPerStep, valueOfCode } from './log-byte-cells.ts';
import type { NumberCell } from './log-cells.ts';
import type { UnitEvidence } from './log-units.ts';
import type { PlainTexts, ReadingColumns } from './reading-columns.ts';

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
  series.rows ??= Int32Array.from({ length: series.codes.length }, (_, index) => index);
  if (series.rows.length < series.codes.length) {
    const larger = new Int32Array(series.codes.length);
    larger.set(series.rows);
    series.rows = larger;
  }
  series.rows[series.count] = row;
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

/** The readings in a unit; instants by row. Ticks beyond 32 bits are not in the columns, but show in the highest and lowest. */
export function columnsOfSeries(series: ByteSeries, unit: TemperatureUnit, mark: '.' | ',', atMs: Float64Array): SpannedColumns {
  const { count, codes, odd } = series;
  const steps = ticksPerStep(unit);
  const zero = unit === 'F' ? FAHRENHEIT_ZERO_TICKS : 0;
  const lowTicks = new Int32Array(count);
  const decimals = (codes[0] ?? 0) & 3;
  let [lowest, highest, others] = [Infinity, -Infinity, 0];
  for (let index = 0; index < count; index += 1) {
    const code = codes[index] ?? 0;
    if (code === NOT_PLAIN) continue;
    others |= (code & 3) ^ decimals;
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
  const isUniform = others === 0 && odd.size === 0;
  const texts: PlainTexts | readonly string[] = isUniform ? { decimals, mark: decimals === 0 ? '.' : mark } : textsOf(series, mark);
  return { columns: { unit, atMs: byRow(series, atMs), lowTicks, cut, texts }, lowest, highest };
}

/** What each reading's row has; the same array where every row has a reading. */
export function byRow<V extends Float64Array | Int32Array>({ rows, count }: ByteSeries, ofRows: V): V {
  if (count === ofRows.length) return ofRows;
  const picked = ofRows.slice(0, count);
  if (rows !== null) for (let index = 0; index < count; index += 1) picked[index] = ofRows[rows[index] ?? 0] ?? 0;
  // A slice of an array of one kind is an array of that kind.
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

function doubled(values: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(Math.max(64, values.length * 2));
  larger.set(values);
  return larger;
}
