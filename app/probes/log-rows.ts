/** All data rows of a log: each is blank, read, or refused with a reason. */
import type { TemperatureUnit } from '../measures/temperature.ts';
import { isThinkable, quoteCell, rememberingValueReader, unitFromWord, type NumberCell, type ValueCell } from './log-cells.ts';
import { nameColumn } from './log-facts.ts';
import type { LogLayout } from './log-layout.ts';
import { isBlankLine, splitFields, type LogLines } from './log-lines.ts';
import type { RowTime } from './log-row-times.ts';
import type { LogRole, RefusedRow } from './log-types.ts';
import { countOf } from './log-words.ts';

/** The readings of one column, or of one channel of a long file, before their unit and instants are known. */
export interface Series {
  /** The channel as written in a long file; `undefined` for a column of a wide one. */
  readonly channel: string | undefined;
  readonly column: number;
  /** Indices into the rows' arrays. */
  readonly rows: number[];
  readonly cells: NumberCell[];
  /** The unit written behind the number or in the row's unit column. */
  readonly saidUnits: (TemperatureUnit | undefined)[];
}

/** What the data rows hold; `lines`, `ms` and `kinds` have one entry a read row. */
export interface LogRows {
  readonly lines: number[];
  readonly ms: number[];
  readonly kinds: RowTime['kind'][];
  readonly series: readonly Series[];
  /** In the order of the file. */
  readonly refused: RefusedRow[];
  /** Rows by channel (long files) or all rows (wide files), in the order of the file. */
  readonly tracks: readonly (readonly number[])[];
  blank: number;
}

/** What one line of the table is. The values of a read row are those of the reader, until it reads the next. */
export type ReadRow =
  | { readonly kind: 'blank' }
  | { readonly kind: 'refused'; readonly reason: string }
  | { readonly kind: 'read'; readonly time: RowTime; readonly channel: string };

/** Reads one row after the other; each reading column has its place in `cells` and `saidUnits`. */
export interface RowReader {
  readonly readings: readonly number[];
  readonly unitColumns: readonly number[];
  readonly channelColumn: number;
  readonly cells: (NumberCell | undefined)[];
  readonly saidUnits: (TemperatureUnit | undefined)[];
  readonly readValue: (cell: string) => ValueCell;
  read(line: string): ReadRow;
}

const BLANK: ReadRow = { kind: 'blank' };

/** Makes the reader of a log's rows. */
export function rowReader(layout: LogLayout, roles: readonly LogRole[], readTime: (fields: readonly string[]) => RowTime | string): RowReader {
  const { delimiter, headings } = layout;
  const readings = roles.flatMap((role, index) => (role === 'reading' ? [index] : []));
  const channelColumn = roles.indexOf('channel');
  const reader = {
    readings, channelColumn, unitColumns: unitColumnOf(readings, roles), cells: [] as (NumberCell | undefined)[], saidUnits: [] as (TemperatureUnit | undefined)[],
    readValue: rememberingValueReader(),
    read(line: string): ReadRow {
      if (isBlankLine(line, delimiter)) return BLANK;
      const fields = splitFields(line, delimiter);
      if (fields === undefined) return { kind: 'refused', reason: 'A quote mark is opened and not closed on this line.' };
      const time = faultOfShape(fields, layout) ?? readTime(fields);
      if (typeof time === 'string') return { kind: 'refused', reason: time };
      const channel = channelColumn === -1 ? '' : (fields[channelColumn] ?? '');
      if (channelColumn !== -1 && channel === '') return { kind: 'refused', reason: `There is no name in ${nameColumn(channelColumn, headings[channelColumn] ?? '')}.` };
      const fault = fetchValues(fields, headings, reader);
      return fault === undefined ? { kind: 'read', time, channel } : { kind: 'refused', reason: fault };
    },
  };
  return reader;
}

/** Reads every line from the first data row on. Linear in the length of the text. */
export function readRows(lines: LogLines, layout: LogLayout, roles: readonly LogRole[], readTime: (fields: readonly string[]) => RowTime | string): LogRows {
  const reader = rowReader(layout, roles, readTime);
  const series = new Map<string, readonly Series[]>();
  const tracks = new Map<string, number[]>();
  const rows = { lines: [] as number[], ms: [] as number[], kinds: [] as RowTime['kind'][], refused: [] as RefusedRow[], blank: 0 };
  function openChannel(channel: string | undefined): readonly Series[] {
    const fresh = reader.readings.map((column): Series => ({ channel, column, rows: [], cells: [], saidUnits: [] }));
    series.set(channel ?? '', fresh);
    tracks.set(channel ?? '', []);
    return fresh;
  }
  if (reader.channelColumn === -1) openChannel(undefined);
  for (let index = layout.dataStart; index < lines.count; index += 1) {
    const read = reader.read(lines.lineAt(index));
    if (read.kind === 'blank') {
      rows.blank += 1;
      continue;
    }
    if (read.kind === 'refused') {
      rows.refused.push({ line: index + 1, reason: read.reason });
      continue;
    }
    const { time, channel } = read;
    const row = rows.lines.push(index + 1) - 1;
    rows.ms.push(time.ms);
    rows.kinds.push(time.kind);
    const targets = series.get(channel) ?? openChannel(channel);
    tracks.get(channel)?.push(row);
    targets.forEach((target, each) => {
      const cell = reader.cells[each];
      if (cell === undefined) return;
      target.rows.push(row);
      target.cells.push(cell);
      target.saidUnits.push(reader.saidUnits[each]);
    });
  }
  return Object.assign(rows, { series: [...series.values()].flat(), tracks: [...tracks.values()] });
}

function faultOfShape(fields: readonly string[], layout: LogLayout): string | undefined {
  const { columnCount, usualCount, headings, delimiter } = layout;
  const count = fields.length;
  if (count === columnCount || count === usualCount) return repeatsHeadings(fields, headings) ? 'This row repeats the headings.' : undefined;
  const filled = count > columnCount ? fields.findLastIndex((field) => field !== '') + 1 : count;
  if (count > columnCount && filled <= columnCount) return undefined;
  const amount = `This row has ${countOf(count, 'field')} where ${headings.length > 0 ? `the headings have ${columnCount}` : `the others have ${usualCount}`}.`;
  return count > columnCount && delimiter === ',' ? `${amount} Numbers with a decimal comma must stand in quote marks in a file with commas.` : amount;
}

function repeatsHeadings(fields: readonly string[], headings: readonly string[]): boolean {
  return fields[0] === headings[0] && fields.length > 1 && fields.every((field, index) => field === (headings[index] ?? '')) && fields.some((field) => field !== '');
}

function fetchValues(fields: readonly string[], headings: readonly string[], { readings, unitColumns, readValue, cells, saidUnits }: Omit<RowReader, 'read'>): string | undefined {
  for (let each = 0; each < readings.length; each += 1) {
    const column = readings[each] ?? 0;
    const text = fields[column] ?? '';
    const cell = readValue(text);
    cells[each] = undefined;
    if (cell.kind === 'blank' || cell.kind === 'missing') continue;
    if (cell.kind === 'other') return `${quoteCell(text)} in ${nameColumn(column, headings[column] ?? '')} is not a number.`;
    if (!isThinkable(cell)) return `${quoteCell(text)} in ${nameColumn(column, headings[column] ?? '')} is no temperature.`;
    const unitColumn = unitColumns[each] ?? -1;
    const unitText = unitColumn === -1 ? '' : (fields[unitColumn] ?? '');
    const unit = unitText === '' ? undefined : unitFromWord(unitText);
    if (unitText !== '' && unit === undefined) return `${quoteCell(unitText)} in ${nameColumn(unitColumn, headings[unitColumn] ?? '')} is neither °F nor °C.`;
    if (unit !== undefined && cell.unit !== undefined && unit !== cell.unit) return `${quoteCell(text)} in ${nameColumn(column, headings[column] ?? '')} is in °${cell.unit}, but the row says °${unit}.`;
    cells[each] = cell;
    saidUnits[each] = cell.unit ?? unit;
  }
  return undefined;
}

/** The unit column of each reading column: the only one there is, else the nearest to its right. */
function unitColumnOf(readings: readonly number[], roles: readonly LogRole[]): readonly number[] {
  const units = roles.flatMap((role, index) => (role === 'unit' ? [index] : []));
  if (units.length <= 1) return readings.map(() => units[0] ?? -1);
  return readings.map((column) => units.find((unit) => unit > column) ?? -1);
}
