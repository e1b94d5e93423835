/** What the cells of each column look like, over a sample of the data rows from the whole file. */
import { readNumber, usualValue } from './log-cells.ts';
import { shapeOf, type CellShape, type LogLayout } from './log-layout.ts';
import { isBlankLine, splitFields, type LogLines } from './log-lines.ts';

export interface ColumnProfile {
  readonly shapes: Readonly<Record<CellShape, number>>;
  /** Cells that are neither blank nor a word for "no reading". */
  readonly filled: number;
  readonly rows: number;
  /** The different cells, up to 65. */
  readonly distinct: ReadonlySet<string>;
  /** The numbers of the first sampled rows, in order. */
  readonly numbers: readonly number[];
  /** The first filled cells, up to 200. */
  readonly first: readonly string[];
}

const HEAD_ROWS = 250;
const SPREAD_ROWS = 250;

/** Profiles every column from the first rows and others spread over the file. */
export function profileColumns(lines: LogLines, layout: LogLayout): readonly ColumnProfile[] {
  const drafts = Array.from({ length: layout.columnCount }, () => ({
    shapes: { blank: 0, missing: 0, number: 0, moment: 0, date: 0, clock: 0, unit: 0, text: 0 } as Record<CellShape, number>,
    distinct: new Set<string>(),
    numbers: [] as number[],
    first: [] as string[],
  }));
  let rows = 0;
  for (const fields of sampleRows(lines, layout)) {
    rows += 1;
    drafts.forEach((draft, index) => {
      const cell = fields[index] ?? '';
      const shape = shapeOf(cell);
      draft.shapes[shape] += 1;
      if (cell === '') return;
      if (draft.distinct.size <= 64) draft.distinct.add(cell);
      if (draft.first.length < 200) draft.first.push(cell);
      if (shape === 'number') draft.numbers.push(usualValue(cell) ?? readNumber(cell)?.value ?? 0);
    });
  }
  return drafts.map((draft) => ({ ...draft, rows, filled: rows - draft.shapes.blank - draft.shapes.missing }));
}

/** Whether at least half of a column's filled cells have one of the shapes. */
export function isMostly(profile: ColumnProfile, ...shapes: readonly CellShape[]): boolean {
  const count = shapes.reduce((sum, shape) => sum + profile.shapes[shape], 0);
  return count > 0 && count * 2 >= profile.filled;
}

/** Whether at least a quarter of a column's filled cells have a shape of time: nothing else looks like one, and rows may be spoilt. */
export function holdsTimes(profile: ColumnProfile, shape: 'moment' | 'date' | 'clock'): boolean {
  return profile.shapes[shape] > 0 && profile.shapes[shape] * 4 >= profile.filled;
}

function sampleRows(lines: LogLines, layout: LogLayout): readonly (readonly string[])[] {
  const rows: (readonly string[])[] = [];
  const step = Math.max(1, Math.floor((lines.count - layout.dataStart - HEAD_ROWS) / SPREAD_ROWS));
  for (let index = layout.dataStart; index < lines.count; index += rows.length < HEAD_ROWS ? 1 : step) {
    const line = lines.lineAt(index);
    if (isBlankLine(line, layout.delimiter)) continue;
    const fields = splitFields(line, layout.delimiter);
    if (fields !== undefined && fields.length >= Math.min(2, layout.usualCount) && fields.length <= layout.columnCount) rows.push(fields);
  }
  return rows;
}
