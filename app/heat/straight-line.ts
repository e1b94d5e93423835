/**
 * Estimates that take the temperature between two readings as a straight line. They may be shown beside a
 * verdict, marked as estimates; no verdict rests on them.
 */
import type { Reading } from '../limits/judge-case.ts';
import { isGap, mergeReadings } from '../limits/readings.ts';

/** Open at both ends; Infinity where it has no end. */
export interface TickRange {
  readonly aboveTicks: number;
  readonly belowTicks: number;
}

/**
 * About how long the record was inside a range, in ms; its gaps are left out.
 * @param readings in any order; of two values at one instant the higher counts
 */
export function estimateInsideMs(readings: readonly Reading[], range: TickRange, maxGapMs: number): number {
  const ordered = mergeReadings(readings, 'higher');
  return ordered.reduce((sum, after, index) => {
    const before = ordered[index - 1];
    if (before === undefined || isGap(before, after, maxGapMs)) return sum;
    return sum + (after.atMs - before.atMs) * shareInside(before.highTicks, after.highTicks, range);
  }, 0);
}

/** About when the record last fell through a temperature, in UTC ms; undefined where it ends above it or never was. */
export function estimateFallMs(readings: readonly Reading[], ticks: number): number | undefined {
  const ordered = mergeReadings(readings, 'higher');
  for (let index = ordered.length - 1; index > 0; index -= 1) {
    const [before, after] = [ordered[index - 1], ordered[index]];
    if (before === undefined || after === undefined || after.highTicks > ticks) return undefined;
    if (before.highTicks > ticks) return before.atMs + ((after.atMs - before.atMs) * (before.highTicks - ticks)) / (before.highTicks - after.highTicks);
  }
  return undefined;
}

function shareInside(fromTicks: number, toTicks: number, { aboveTicks, belowTicks }: TickRange): number {
  const low = Math.min(fromTicks, toTicks);
  const high = Math.max(fromTicks, toTicks);
  if (low === high) return low > aboveTicks && low < belowTicks ? 1 : 0;
  return Math.max(0, Math.min(high, belowTicks) - Math.max(low, aboveTicks)) / (high - low);
}
