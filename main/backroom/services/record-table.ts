/** The printed table of readings: each reading while they are few, else a row a stretch with the lowest and the highest of it. */
import type { ReadingTable } from '../../../app/contract/requests/record.ts';
import { sha256Hex } from '../book/canonical.ts';
import type { ReadingNumbers } from '../room.ts';
import type { MeasuredPoint } from './record-series.ts';

/** More rows than these nobody reads on paper: ten pages. */
export const MOST_ROWS = 500;
/** Minutes a row may stand for: as fine as the rows allow. */
const STRETCHES = [1, 2, 5, 10, 15, 30, 60, 120, 240, 480, 1440];
const MINUTE_MS = 60_000;

type Cell = ReadingTable['rows'][number]['cells'][number];

/** @param points those of the load are its columns; of every point it says how many readings the book holds */
export function tableOf(points: readonly MeasuredPoint[]): ReadingTable {
  const columns = points.filter(({ isOfLoad }) => isOfLoad);
  const stretchMinutes = countMoments(columns) <= MOST_ROWS ? null : stretchFor(columns);
  const stretchMs = stretchMinutes === null ? 1 : stretchMinutes * MINUTE_MS;
  const rows = new Map<number, Cell[]>();
  for (const [column, { numbers }] of columns.entries()) {
    for (let index = 0; index < numbers.atMs.length; index += 1) {
      const fromMs = Math.floor((numbers.atMs[index] ?? 0) / stretchMs) * stretchMs;
      const cells = rows.get(fromMs) ?? columns.map((): Cell => null);
      rows.set(fromMs, cells);
      cells[column] = widen(cells[column] ?? null, numbers, index);
    }
  }
  return {
    pointIds: columns.map(({ pointId }) => pointId), stretchMinutes,
    rows: [...rows].sort(([one], [other]) => one - other).map(([fromMs, cells]) => ({ fromMs, cells })),
    points: points.map(({ pointId, name, numbers }) => ({ pointId, name, ...summaryOf(numbers), digest: digestOf(numbers) })),
  };
}

/** Stops counting where there are too many. */
function countMoments(columns: readonly MeasuredPoint[]): number {
  const moments = new Set<number>();
  for (const { numbers } of columns) {
    for (const atMs of numbers.atMs) {
      moments.add(atMs);
      if (moments.size > MOST_ROWS) return moments.size;
    }
  }
  return moments.size;
}

/** The finest stretch whose rows are few enough, by the rows that have a reading. */
function stretchFor(columns: readonly MeasuredPoint[]): number {
  const fits = (minutes: number): boolean => {
    const rows = new Set<number>();
    for (const { numbers } of columns) {
      for (const atMs of numbers.atMs) rows.add(Math.floor(atMs / (minutes * MINUTE_MS)));
      if (rows.size > MOST_ROWS) return false;
    }
    return true;
  };
  return STRETCHES.find(fits) ?? STRETCHES.at(-1) ?? 1;
}

function widen(cell: Cell, { lowTicks, cut }: ReadingNumbers, index: number): Cell {
  const low = lowTicks[index] ?? 0;
  const high = low + (cut?.[index] ?? 0);
  if (cell === null) return { lowTicks: low, highTicks: high, readings: 1 };
  return { lowTicks: Math.min(cell.lowTicks, low), highTicks: Math.max(cell.highTicks, high), readings: cell.readings + 1 };
}

function summaryOf({ atMs, lowTicks, cut }: ReadingNumbers): Omit<ReadingTable['points'][number], 'pointId' | 'name' | 'digest'> {
  let [lowest, highest] = [Infinity, -Infinity];
  for (let index = 0; index < lowTicks.length; index += 1) {
    lowest = Math.min(lowest, lowTicks[index] ?? Infinity);
    highest = Math.max(highest, (lowTicks[index] ?? -Infinity) + (cut?.[index] ?? 0));
  }
  const isRead = atMs.length > 0;
  return {
    readings: atMs.length, firstAtMs: atMs[0] ?? null, lastAtMs: atMs.at(-1) ?? null, lowestTicks: isRead ? lowest : null, highestTicks: isRead ? highest : null,
  };
}

/** SHA-256 of float64 little-endian triples: instant in ms, low and high tick. */
function digestOf({ atMs, lowTicks, cut }: ReadingNumbers): string {
  const view = new DataView(new ArrayBuffer(atMs.length * 24));
  for (let index = 0; index < atMs.length; index += 1) {
    const low = lowTicks[index] ?? 0;
    view.setFloat64(index * 24, atMs[index] ?? 0, true);
    view.setFloat64(index * 24 + 8, low, true);
    view.setFloat64(index * 24 + 16, low + (cut?.[index] ?? 0), true);
  }
  return sha256Hex(new Uint8Array(view.buffer));
}
