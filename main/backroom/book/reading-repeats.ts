/** Readings that are in the book already, or come twice: the same point, instant and ticks. */
import { spanOfInstants, type ReadingColumns } from '../../../app/probes/reading-columns.ts';

interface Known {
  readonly atMs: number;
  readonly lowTicks: number;
  readonly highTicks: number;
}

/**
 * The readings that are new, in their order.
 * @param known what the book holds between two instants, asked once and only where there is something to compare
 */
export function withoutKnown(columns: ReadingColumns, known: (span: { fromMs: number; toMs: number }) => readonly Known[]): ReadingColumns {
  const { atMs, lowTicks, cut, texts } = columns;
  if (atMs.length === 0) return columns;
  const { firstMs, lastMs, isRising } = spanOfInstants(atMs);
  const there = known({ fromMs: firstMs, toMs: lastMs });
  if (there.length === 0 && isRising) return columns;
  const seen = new Map<number, Set<number>>();
  const isNew = (at: number, low: number, cutBit: number): boolean => {
    const values = seen.get(at) ?? new Set<number>();
    seen.set(at, values);
    const value = low * 2 + cutBit;
    if (values.has(value)) return false;
    values.add(value);
    return true;
  };
  for (const one of there) isNew(one.atMs, one.lowTicks, one.highTicks - one.lowTicks);
  const left: number[] = [];
  for (let index = 0; index < atMs.length; index += 1) if (isNew(atMs[index] ?? 0, lowTicks[index] ?? 0, cut?.[index] ?? 0)) left.push(index);
  if (left.length === atMs.length) return columns;
  return {
    unit: columns.unit,
    atMs: Float64Array.from(left, (index) => atMs[index] ?? 0),
    lowTicks: Int32Array.from(left, (index) => lowTicks[index] ?? 0),
    cut: cut === null ? null : Uint8Array.from(left, (index) => cut[index] ?? 0),
    texts: 'decimals' in texts ? texts : left.map((index) => texts[index] ?? ''),
  };
}
