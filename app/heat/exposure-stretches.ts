/** A fish's history cut into stretches: what is known of the temperature in each, and how much may lie in a range. */
import type { Reading } from '../limits/judge-case.ts';
import { intervalMs, isGap } from '../limits/readings.ts';
import type { TickRange } from './straight-line.ts';

const MINUTE_MS = 60_000;

/** One step of the work, from its start to its end, with whatever was read in it. */
export interface ExposureStep {
  readonly kind: 'receiving' | 'trimming' | 'soak' | 'drying' | 'tempering' | 'smoking' | 'cooling' | 'packing' | 'store' | 'other';
  /** As on screen. */
  readonly name: string;
  readonly fromMs: number;
  /** For a step still running: now. */
  readonly toMs: number;
  /** In any order; none where nothing was measured. Readings outside the step take no part. */
  readonly readings: readonly Reading[];
  readonly nominalIntervalMs?: number | undefined;
  readonly maxGapMs?: number | undefined;
  /** A cooling that began after the completed hold. */
  readonly afterCompletedHold?: boolean | undefined;
}

/** A length of time with the coldest and the hottest that its ends may have been. */
export interface HistoryStretch {
  readonly fromMs: number;
  readonly toMs: number;
  readonly lowTicks: number;
  readonly highTicks: number;
  /** The hottest that was certainly reached at an end. */
  readonly provenHighTicks: number;
  /** `ends`: read at both ends. `one-end`: beside a mark. `nothing`: no temperature tells of it. */
  readonly known: 'ends' | 'one-end' | 'nothing';
}

/** Shortest and longest time in a range, in ms. */
export interface TimeBounds {
  readonly shortestMs: number;
  readonly longestMs: number;
}

interface Interval {
  readonly fromMs: number;
  readonly toMs: number;
}

/** The stretches of one step, in order; together they fill it. Some last no time: a single reading still tells how hot it was. */
export function stretchesOf(step: ExposureStep): HistoryStretch[] {
  const readings = mergeToHull(step.readings.filter((reading) => reading.atMs >= step.fromMs && reading.atMs <= step.toMs));
  const longestMs = longestStepMs(readings, step);
  const first = readings[0];
  const last = readings.at(-1);
  if (first === undefined || last === undefined) return step.toMs > step.fromMs ? [unknown(step.fromMs, step.toMs)] : [];
  const found: HistoryStretch[] = [];
  const isCovered = first.coversSinceMs !== undefined && first.coversSinceMs <= step.fromMs;
  found.push(isCovered ? between(step.fromMs, first.atMs, [first], 'ends') : edge(step.fromMs, first.atMs, first, longestMs));
  readings.forEach((after, index) => {
    const before = readings[index - 1];
    if (before === undefined) return;
    found.push(isGap(before, after, longestMs) ? unknown(before.atMs, after.atMs) : between(before.atMs, after.atMs, [before, after], 'ends'));
  });
  found.push(edge(last.atMs, step.toMs, last, longestMs));
  return found;
}

/** The time between the first step's start and the last one's end that no step covers: nothing tells of it. */
export function timeBetween(steps: readonly ExposureStep[]): HistoryStretch[] {
  const found: HistoryStretch[] = [];
  let coveredMs: number | undefined;
  for (const step of [...steps].sort((left, right) => left.fromMs - right.fromMs)) {
    if (coveredMs !== undefined && step.fromMs > coveredMs) found.push(unknown(coveredMs, step.fromMs));
    coveredMs = Math.max(coveredMs ?? step.toMs, step.toMs);
  }
  return found;
}

/**
 * Shortest and longest time inside a range, its limits excluded. The longest counts a stretch when either end
 * may be inside, when its ends lie on opposite sides, and when nothing is known of it; the shortest only when
 * both ends are certainly inside. Time that two steps share counts once.
 */
export function timeInside(stretches: readonly HistoryStretch[], { aboveTicks, belowTicks }: TickRange): TimeBounds {
  const possible = stretches.filter((stretch) => stretch.highTicks > aboveTicks && stretch.lowTicks < belowTicks);
  const certain = stretches.filter((stretch) => stretch.known === 'ends' && stretch.lowTicks > aboveTicks && stretch.highTicks < belowTicks);
  return { shortestMs: unionMs(certain), longestMs: unionMs(possible) };
}

/** The longest step that is no gap: 120 min where readings come every 15 min or more, else twice the interval, at least 5 min. */
function longestStepMs(readings: readonly Reading[], step: ExposureStep): number {
  if (step.maxGapMs !== undefined) return step.maxGapMs;
  const interval = intervalMs(readings, step.nominalIntervalMs) ?? 0;
  return interval >= 15 * MINUTE_MS ? 120 * MINUTE_MS : Math.max(2 * interval, 5 * MINUTE_MS);
}

/** In order; two values at one instant become one with both as its bounds. */
function mergeToHull(readings: readonly Reading[]): Reading[] {
  const merged: Reading[] = [];
  for (const reading of [...readings].sort((left, right) => left.atMs - right.atMs)) {
    const before = merged.at(-1);
    if (before?.atMs !== reading.atMs) {
      merged.push(reading);
      continue;
    }
    const covers = [before.coversSinceMs, reading.coversSinceMs].filter((value) => value !== undefined);
    merged[merged.length - 1] = {
      atMs: reading.atMs,
      lowTicks: Math.min(before.lowTicks, reading.lowTicks),
      highTicks: Math.max(before.highTicks, reading.highTicks),
      coversSinceMs: covers.length === 0 ? undefined : Math.min(...covers),
    };
  }
  return merged;
}

function edge(fromMs: number, toMs: number, reading: Reading, longestMs: number): HistoryStretch {
  return toMs - fromMs > longestMs ? unknown(fromMs, toMs) : between(fromMs, toMs, [reading], 'one-end');
}

function between(fromMs: number, toMs: number, ends: readonly Reading[], known: HistoryStretch['known']): HistoryStretch {
  return { fromMs, toMs, lowTicks: Math.min(...ends.map((end) => end.lowTicks)), highTicks: Math.max(...ends.map((end) => end.highTicks)), provenHighTicks: Math.max(...ends.map((end) => end.lowTicks)), known };
}

function unknown(fromMs: number, toMs: number): HistoryStretch {
  return { fromMs, toMs, lowTicks: -Infinity, highTicks: Infinity, provenHighTicks: -Infinity, known: 'nothing' };
}

/** Length of the union. */
function unionMs(intervals: readonly Interval[]): number {
  let sum = 0;
  let endMs = -Infinity;
  for (const { fromMs, toMs } of [...intervals].sort((left, right) => left.fromMs - right.fromMs)) {
    if (toMs <= endMs) continue;
    sum += toMs - Math.max(fromMs, endMs);
    endMs = toMs;
  }
  return sum;
}
