/**
 * Values that stop moving: a line that goes dead in the middle of a rise, as a gateway does that repeats its
 * last value; and one value shown for hours on end.
 */
import type { PointRole } from '../limits/judge-case.ts';
import { greatestDivisor } from './number-bytes.ts';
import { celsius, doubtOver, middleStepMs, MINUTE_MS, type Doubt, type DoubtRecord, type Sample } from './doubt-record.ts';

const FLAT_MS = 15 * MINUTE_MS;
const FLAT_READINGS = 4;
/** At the pace it had, it would have moved by at least so many of its own steps; at the top of a curve it would by 7. */
const STEPS_MISSED = 20;
/** The pace is taken over so many steps and intervals, and as many before them: a probe that settles or a curve that bends slows down. */
const STEPS_OF_PACE = 10;
const INTERVALS_OF_PACE = 4;
const SLOWEST_SHARE = 0.6;
const FASTEST_SHARE = 1.7;
/** Water in fish freezes here, and the temperature stands still while it does. */
const FREEZING_TICKS = { low: celsius(-4), high: celsius(1) };
/** So long one value is odd even where nothing moved before: a chamber over a fire never stands still, a freezer may. */
const STUCK_MS: Readonly<Record<PointRole, number>> = { piece: 1440 * MINUTE_MS, chamber: 240 * MINUTE_MS, room: 720 * MINUTE_MS, brine: 1440 * MINUTE_MS, store: 1440 * MINUTE_MS };
/** An instrument with a coarser step than this hides small movements, and is given three times as long. */
const FINE_TICKS = celsius(0.15);
const COARSE_TIMES = 3;
const TENTH_TICKS = celsius(0.1);
/** A pause longer than so many intervals tells nothing of the pace. */
const PAUSE_INTERVALS = 3;
const STUCK_READINGS = 24;
const LONGEST_INTERVAL_MS = 60 * MINUTE_MS;

interface Run {
  readonly from: number;
  readonly to: number;
}

/** Doubts, in order of time. */
export function findFlat(samples: readonly Sample[], record: DoubtRecord): Doubt[] {
  if (record.how !== 'logged') return [];
  const interval = middleStepMs(samples);
  if (interval === undefined || interval > LONGEST_INTERVAL_MS) return [];
  const shortestMs = Math.min(FLAT_MS, STUCK_MS[record.role]);
  const runs = runsOf(samples, interval * PAUSE_INTERVALS, shortestMs);
  if (runs.length === 0) return [];
  const step = stepOf(samples);
  return runs.flatMap((run) => {
    const [first, last] = [samples[run.from], samples[run.to]];
    if (first === undefined || last === undefined) return [];
    const lengthMs = last.atMs - first.atMs;
    const count = run.to - run.from + 1;
    const { words } = record;
    const shows = () => `It showed ${words.degrees(first.ticks)} from ${words.at(first.atMs)} to ${words.at(last.atMs)} to the last digit`;
    const stuckMs = STUCK_MS[record.role] * (step !== undefined && step <= FINE_TICKS ? 1 : COARSE_TIMES);
    if (lengthMs > stuckMs && count >= STUCK_READINGS) return [doubtOver('stuck', first, last, `${shows()}, ${words.lasting(lengthMs)}: it may be stuck.`)];
    const isFreezing = first.ticks > FREEZING_TICKS.low && first.ticks < FREEZING_TICKS.high;
    const isDead = record.role === 'piece' && !isFreezing && step !== undefined && lengthMs > FLAT_MS && count >= FLAT_READINGS && steadyPace(samples, run.from, step, interval) * lengthMs >= STEPS_MISSED * step;
    return isDead ? [doubtOver('flat-line', first, last, `${shows()}, after moving steadily before: the last value may have been repeated.`)] : [];
  });
}

/** Runs of one value that last longer than some time; a pause, or readings already in doubt, ends a run. */
function runsOf(samples: readonly Sample[], pauseMs: number, shortestMs: number): Run[] {
  const runs: Run[] = [];
  let from = 0;
  samples.forEach((sample, position) => {
    const next = samples[position + 1];
    if (next?.ticks === sample.ticks && next.atMs - sample.atMs <= pauseMs) return;
    if (sample.atMs - (samples[from]?.atMs ?? sample.atMs) > shortestMs) runs.push({ from, to: position });
    from = position + 1;
  });
  return runs;
}

/** The pace up to a reading, in ticks a millisecond, either way; 0 where it was changing, or had turned. */
function steadyPace(samples: readonly Sample[], position: number, step: number, intervalOfMs: number): number {
  const late = moveBefore(samples, position, step * STEPS_OF_PACE, intervalOfMs);
  const early = late === undefined ? undefined : moveBefore(samples, late.from, step * STEPS_OF_PACE, intervalOfMs);
  if (late === undefined || early === undefined) return 0;
  const share = late.pace / early.pace;
  return share >= SLOWEST_SHARE && share <= FASTEST_SHARE ? Math.abs(late.pace) : 0;
}

/** The shortest way back from a reading to one so many ticks and some intervals away, without a pause. */
function moveBefore(samples: readonly Sample[], position: number, ticks: number, intervalOfMs: number): { from: number; pace: number } | undefined {
  const end = samples[position];
  for (let at = position - 1; at >= 0; at -= 1) {
    const sample = samples[at];
    const after = samples[at + 1];
    if (end === undefined || sample === undefined || after === undefined || after.atMs - sample.atMs > intervalOfMs * PAUSE_INTERVALS) return undefined;
    const elapsedMs = end.atMs - sample.atMs;
    if (elapsedMs >= intervalOfMs * INTERVALS_OF_PACE && Math.abs(end.ticks - sample.ticks) >= ticks) return { from: at, pace: (end.ticks - sample.ticks) / elapsedMs };
  }
  return undefined;
}

/**
 * The step the instrument shows, in ticks: what all changes are multiples of, but not less than the smallest
 * change where that is fine, since a number cut to ticks has lost its multiples. Undefined where nothing changed.
 */
function stepOf(samples: readonly Sample[]): number | undefined {
  let smallest: number | undefined;
  let divisor = 0;
  samples.forEach((sample, position) => {
    const before = samples[position - 1];
    const change = before === undefined ? 0 : Math.abs(sample.ticks - before.ticks);
    if (change === 0) return;
    smallest = Math.min(smallest ?? change, change);
    if (divisor === 0 || change % divisor !== 0) divisor = greatestDivisor(divisor, change);
  });
  return smallest === undefined ? undefined : Math.max(divisor, Math.min(smallest, TENTH_TICKS));
}
