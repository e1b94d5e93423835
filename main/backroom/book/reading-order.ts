/** Readings from blocks, as single ones and as numbers in order of time. */
import { firstWhere } from '../../../app/measures/halving.ts';
import { textAt, type ReadingColumns } from '../../../app/probes/reading-columns.ts';
import type { ReadingNumbers, SeriesReading } from '../room.ts';
import type { Block } from './reading-blocks.ts';

/** Single readings of a block; their text is worked out only when it is asked for, since most who ask want numbers. */
export function readingsOfBlock(block: Block): SeriesReading[] {
  return Array.from(block.columns.atMs, (_at, index) => new ReadingOfBlock(block, index));
}

/** Sorted by instant; those of one instant stay as they stood. */
export function sortByInstant(readings: SeriesReading[]): SeriesReading[] {
  let beforeMs = -Infinity;
  for (const { atMs } of readings) {
    if (atMs < beforeMs) return readings.sort((left, right) => left.atMs - right.atMs);
    beforeMs = atMs;
  }
  return readings;
}

/** The one that was latest in time; of several at that instant the one kept last. */
export function lastOfBlock(block: Block): SeriesReading {
  const { atMs } = block.columns;
  let found = 0;
  for (let index = 1; index < atMs.length; index += 1) if ((atMs[index] ?? 0) >= (atMs[found] ?? 0)) found = index;
  return new ReadingOfBlock(block, found);
}

/** A place in a block: long records are kept in memory, and as numbers they take a third of what objects would. */
class ReadingOfBlock implements SeriesReading {
  private readonly block: Block;
  private readonly index: number;

  constructor(block: Block, index: number) {
    this.block = block;
    this.index = index;
  }

  get atMs(): number {
    return this.block.columns.atMs[this.index] ?? 0;
  }

  get lowTicks(): number {
    return this.block.columns.lowTicks[this.index] ?? 0;
  }

  get highTicks(): number {
    const { lowTicks, cut } = this.block.columns;
    return (lowTicks[this.index] ?? 0) + (cut === null ? 0 : (cut[this.index] ?? 0));
  }

  get instrumentId(): string | null {
    return this.block.instrumentId;
  }

  get how(): SeriesReading['how'] {
    return this.block.how;
  }

  get unit(): SeriesReading['unit'] {
    return this.block.columns.unit;
  }

  get entry(): number {
    return this.block.entrySequence;
  }

  get text(): string {
    return textAt(this.block.columns, this.index);
  }
}

/**
 * Rows and blocks as numbers in order of time; at one instant rows stand before blocks, and each as they were kept.
 * @param span both ends included
 */
export function mergeNumbers(rows: readonly SeriesReading[], blocks: readonly ReadingColumns[], span?: { readonly fromMs: number; readonly toMs: number }): ReadingNumbers {
  const total = blocks.reduce((sum, { atMs }) => sum + atMs.length, rows.length);
  const atMs = new Float64Array(total);
  const lowTicks = new Int32Array(total);
  const cut = new Uint8Array(total);
  rows.forEach((row, index) => {
    atMs[index] = row.atMs;
    lowTicks[index] = row.lowTicks;
    cut[index] = row.highTicks - row.lowTicks;
  });
  let at = rows.length;
  for (const block of blocks) {
    atMs.set(block.atMs, at);
    lowTicks.set(block.lowTicks, at);
    if (block.cut !== null) cut.set(block.cut, at);
    at += block.atMs.length;
  }
  const inOrder = isSorted(atMs) ? { atMs, lowTicks, cut } : sorted({ atMs, lowTicks, cut });
  const cutOut = span === undefined ? inOrder : within(inOrder, span);
  return { ...cutOut, cut: cutOut.cut.some((each) => each !== 0) ? cutOut.cut : null };
}

interface Numbers {
  readonly atMs: Float64Array;
  readonly lowTicks: Int32Array;
  readonly cut: Uint8Array;
}

function isSorted(values: Float64Array): boolean {
  for (let index = 1; index < values.length; index += 1) if ((values[index] ?? 0) < (values[index - 1] ?? 0)) return false;
  return true;
}

function sorted({ atMs, lowTicks, cut }: Numbers): Numbers {
  const order = Uint32Array.from(atMs, (_at, index) => index).sort((left, right) => (atMs[left] ?? 0) - (atMs[right] ?? 0) || left - right);
  return { atMs: Float64Array.from(order, (index) => atMs[index] ?? 0), lowTicks: Int32Array.from(order, (index) => lowTicks[index] ?? 0), cut: Uint8Array.from(order, (index) => cut[index] ?? 0) };
}

function within({ atMs, lowTicks, cut }: Numbers, { fromMs, toMs }: { readonly fromMs: number; readonly toMs: number }): Numbers {
  const from = firstWhere(atMs.length, (place) => (atMs[place] ?? 0) >= fromMs);
  const to = firstWhere(atMs.length, (place) => (atMs[place] ?? 0) > toMs);
  return { atMs: atMs.subarray(from, to), lowTicks: lowTicks.subarray(from, to), cut: cut.subarray(from, to) };
}
