/** A record the plain way: what was read when, what is a gap, how far apart readings may be. */
import type { EarlyRecordKind, JudgeCase, MeasuredPoint, MeasuredRole, Reading, RecordKind } from '../../../app/limits/judge-case.ts';
import type { Verdict } from '../../../app/limits/verdict.ts';

export const MINUTE_MS = 60_000;

/** What a second opinion comes to. A figure that it leaves out is not compared. */
export interface Opinion {
  readonly verdict: Verdict;
  readonly provenMinutes?: number | undefined;
  readonly possibleMinutes?: number | undefined;
  readonly shortestMinutes?: number | undefined;
  readonly longestMinutes?: number | undefined;
}

/** What is known at one instant: the value that counts, and whether a doubt hangs over one of its readings. */
export interface Sample {
  readonly atMs: number;
  readonly ticks: number;
  readonly isDoubted: boolean;
  readonly coversSinceMs: number | undefined;
}

const WORST_FIRST: readonly Verdict[] = ['misses', 'not-proven', 'open', 'meets-within-error', 'meets'];

/** Below zero when `left` is the worse verdict. */
export function worseVerdict(left: Verdict, right: Verdict): number {
  return WORST_FIRST.indexOf(left) - WORST_FIRST.indexOf(right);
}

/** Every instant that was read within the bounds, in order of time, each with the worse of its values. */
export function samplesOf(readings: readonly Reading[], worse: 'lower' | 'higher', fromMs = -Infinity, toMs = Infinity): Sample[] {
  const counted = readings.filter(({ atMs }) => atMs >= fromMs && atMs <= toMs);
  const instants = [...new Set(counted.map(({ atMs }) => atMs))].sort((left, right) => left - right);
  return instants.map((atMs) => {
    const here = counted.filter((reading) => reading.atMs === atMs);
    const covers = here.flatMap(({ coversSinceMs }) => (coversSinceMs === undefined ? [] : [coversSinceMs]));
    return {
      atMs,
      ticks: worse === 'lower' ? Math.min(...here.map(({ lowTicks }) => lowTicks)) : Math.max(...here.map(({ highTicks }) => highTicks)),
      isDoubted: here.some(({ doubt }) => doubt !== undefined),
      coversSinceMs: covers.length === 0 ? undefined : Math.min(...covers),
    };
  });
}

/** Whether nothing is known between two instants that follow each other. */
export function isGapBetween(beforeMs: number, after: Sample, maxGapMs: number): boolean {
  if (after.coversSinceMs !== undefined && after.coversSinceMs <= beforeMs) return false;
  return after.atMs - beforeMs > maxGapMs;
}

/** The nominal interval: as given, else the lower median of the steps above zero; 0 where there is none. */
export function intervalOf(samples: readonly Sample[], batch: JudgeCase): number {
  if (batch.nominalIntervalMs !== undefined) return batch.nominalIntervalMs;
  const steps: number[] = [];
  for (let index = 1; index < samples.length; index += 1) steps.push((samples[index]?.atMs ?? 0) - (samples[index - 1]?.atMs ?? 0));
  steps.sort((left, right) => left - right);
  // Of an even number the lower one of the middle two.
  return steps.length === 0 ? 0 : (steps[Math.ceil(steps.length / 2) - 1] ?? 0);
}

/** The pieces or places of a role that serve a record; one name is one piece, whatever stood in it. */
export function pointsServing(batch: JudgeCase, role: MeasuredRole, record: RecordKind | EarlyRecordKind): MeasuredPoint[] {
  const serving = batch.points.filter((point) => point.role === role && (point.record === undefined || point.record === record));
  const names = [...new Set(serving.map(({ name }) => name))];
  return names.map((name) => {
    const same = serving.filter((point) => point.name === name);
    const known = same.flatMap(({ thicknessMm }) => (thicknessMm === undefined ? [] : [thicknessMm]));
    return { name, role, readings: same.flatMap(({ readings }) => readings), ...(known.length === 0 ? {} : { thicknessMm: Math.max(...known) }) };
  });
}

/** °F as ticks of 1/5000 °F, counted from 0 °C. */
export function ticksOf(value: string, unit: 'F' | 'C'): number {
  const degrees = Number(value);
  return Math.round(unit === 'F' ? (degrees - 32) * 5000 : degrees * 9000);
}
