/** Coolings, worked out again from the words of the rule by trying every reading as a crossing. */
import type { JudgeCase, MeasuredPoint } from '../../../app/limits/judge-case.ts';
import type { DescentCheck, HoldCheck } from '../../../app/limits/limit-set.ts';
import type { Verdict } from '../../../app/limits/verdict.ts';
import { holdTerms, stretchesOf } from './hold.ts';
import { MINUTE_MS, pointsServing, samplesOf, ticksOf, worseVerdict, type Opinion, type Sample } from './record.ts';

const LONGEST_STEP_MS = 120 * MINUTE_MS;

/** An event lies between two instants; the earlier is −Infinity where nothing tells how early it was. */
interface Between {
  readonly earliestMs: number;
  readonly latestMs: number;
}

interface Stage {
  readonly verdict: Verdict;
  readonly shortestMs: number;
  /** Of a stage that has not ended: as long as it is so far. */
  readonly longestMs: number;
  readonly hasEnded: boolean;
  readonly allowedMs: number;
}

interface Descent {
  readonly start: Between;
  /** The readings from the start on, the last one above it included where there is one. */
  readonly samples: readonly Sample[];
  readonly isRunning: boolean;
}

/** Every piece that takes part; the worst stage of the worst decides. */
export function judgeDescentAgain(check: DescentCheck, batch: JudgeCase, holds: readonly HoldCheck[], shiftTicks: number): Opinion {
  const isOpen = batch.records.process.open;
  const nothing: Opinion = { verdict: isOpen ? 'open' : 'not-proven' };
  const endMs = batch.endOfSmokingMs;
  const points = pointsServing(batch, 'piece', 'process').map((point) => ({ point, samples: samplesOf(point.readings, 'higher', batch.records.process.inMs) }));
  const startTicks = check.from === undefined ? undefined : ticksOf(check.from.value, check.from.unit) + shiftTicks;
  // After its smoking: after the mark, or after the piece itself began to fall.
  const isRead = ({ samples }: { readonly samples: readonly Sample[] }) => {
    if (startTicks === undefined) return endMs !== undefined && samples.some(({ atMs }) => atMs >= endMs);
    if (firstFall(samples, startTicks) !== undefined || (endMs !== undefined && samples.some(({ atMs }) => atMs > endMs))) return true;
    return endMs === undefined && samples.length > 0 && samples.every(({ ticks }) => ticks <= startTicks);
  };
  const others = points.filter(isRead);
  const thickest = Math.max(...others.map(({ point }) => point.thicknessMm ?? -Infinity));
  const isUntold = points.every(({ point }) => point.thicknessMm === undefined);
  // The others stand for a piece that was not read only where the thickest is among them, or no thickness tells.
  const mayBeThickest = points.some((piece) => !isRead(piece) && (piece.point.thicknessMm ?? Infinity) > thickest);
  const taking = others.length > 0 && (isUntold || !mayBeThickest) ? others : points;
  const stages = taking.flatMap(({ point, samples }) => stagesOfPiece(check, point, samples, batch, holds, shiftTicks));
  const [worst] = stages.sort((left, right) => worseVerdict(left.verdict, right.verdict) || roomOf(left) - roomOf(right));
  if (worst === undefined) return nothing;
  // Of several that are equally bad any may be shown, and of one that never began there is nothing to show.
  const asBad = stages.filter((stage) => stage.verdict === worst.verdict);
  const isTold = asBad.every((stage) => !Number.isNaN(stage.shortestMs) && (stage === worst || roomOf(stage) > roomOf(worst)));
  if (!isTold) return { verdict: worst.verdict };
  const { verdict, shortestMs, longestMs, hasEnded } = worst;
  return { verdict, shortestMinutes: shortestMs / MINUTE_MS, longestMinutes: hasEnded && longestMs !== Infinity ? longestMs / MINUTE_MS : undefined };
}

function roomOf({ allowedMs, longestMs }: Stage): number {
  return allowedMs - longestMs;
}

/** A stage whose clock has not begun. */
function unbegun(verdict: Verdict): Stage {
  return { verdict, shortestMs: Number.NaN, longestMs: Number.NaN, hasEnded: false, allowedMs: 0 };
}

function stagesOfPiece(check: DescentCheck, point: MeasuredPoint, samples: readonly Sample[], batch: JudgeCase, holds: readonly HoldCheck[], shiftTicks: number): Stage[] {
  const isOpen = batch.records.process.open;
  const descents = check.from === undefined ? descentFromMark(samples, batch) : descentsFrom(ticksOf(check.from.value, check.from.unit) + shiftTicks, point, samples, batch, holds);
  if (descents === undefined) return [unbegun(isOpen ? 'open' : 'not-proven')];
  return descents.flatMap((descent) => stagesOf(check, descent, shiftTicks));
}

/** A clock that starts at the end-of-smoking mark itself. */
function descentFromMark(samples: readonly Sample[], batch: JudgeCase): Descent[] | undefined {
  const markMs = batch.endOfSmokingMs;
  if (markMs === undefined) return undefined;
  const before = samples.filter(({ atMs }) => atMs < markMs).at(-1);
  const after = samples.filter(({ atMs }) => atMs >= markMs);
  if (after.length === 0) return undefined;
  return [{ start: { earliestMs: markMs, latestMs: markMs }, samples: before === undefined ? after : [before, ...after], isRunning: batch.records.process.open }];
}

/** One descent after each completed hold; without one, the first fall anywhere, or from the mark. */
function descentsFrom(startTicks: number, point: MeasuredPoint, samples: readonly Sample[], batch: JudgeCase, holds: readonly HoldCheck[]): Descent[] | undefined {
  const isOpen = batch.records.process.open;
  const completed = completedHolds(point, batch, holds);
  if (completed.length > 0) {
    return completed.flatMap(({ toMs }, index): Descent[] => {
      const next = completed[index + 1];
      const part = samples.filter(({ atMs }) => atMs >= toMs && (next === undefined || atMs < next.fromMs));
      const fall = firstFall(part, startTicks);
      if (fall !== undefined) return [{ ...fall, isRunning: isOpen && next === undefined }];
      // Nothing fell between two holds: there was no descent. After the last hold it is still to come.
      return next === undefined ? [{ start: { earliestMs: Number.NaN, latestMs: Number.NaN }, samples: [], isRunning: isOpen }] : [];
    });
  }
  const [first] = samples;
  if (first === undefined) return undefined;
  const fall = firstFall(samples, startTicks);
  if (fall !== undefined) return [{ ...fall, isRunning: isOpen }];
  if (samples.some(({ ticks }) => ticks > startTicks)) return undefined;
  if (first.ticks === startTicks) return [{ start: { earliestMs: first.atMs, latestMs: first.atMs }, samples, isRunning: isOpen }];
  const markMs = batch.endOfSmokingMs;
  const earliestMs = markMs === undefined ? -Infinity : Math.min(markMs, first.atMs);
  return [{ start: { earliestMs, latestMs: first.atMs }, samples, isRunning: isOpen }];
}

/** The longest rows of in readings that are long enough: a new one begins only after the one before has ended. */
function completedHolds(point: MeasuredPoint, batch: JudgeCase, holds: readonly HoldCheck[]): { fromMs: number; toMs: number }[] {
  return holds.flatMap((hold) => {
    const terms = holdTerms(hold, batch, { piecesAsked: 1, together: false }, 0);
    const proven = stretchesOf(point, batch, terms).proven;
    const whole = proven.filter((one) => !proven.some((other) => other !== one && other.fromMs <= one.fromMs && other.toMs >= one.toMs));
    return whole.filter(({ fromMs, toMs }) => toMs - fromMs >= terms.requiredMs);
  }).sort((left, right) => left.fromMs - right.fromMs);
}

/** From the last reading above to the first at or below; a reading exactly there is the start. */
function firstFall(samples: readonly Sample[], startTicks: number): Pick<Descent, 'start' | 'samples'> | undefined {
  for (let index = 1; index < samples.length; index += 1) {
    const above = samples[index - 1];
    const below = samples[index];
    if (above === undefined || below === undefined || above.ticks <= startTicks || below.ticks > startTicks) continue;
    const earliestMs = below.ticks === startTicks ? below.atMs : above.atMs;
    return { start: { earliestMs, latestMs: below.atMs }, samples: samples.slice(index - 1) };
  }
  return undefined;
}

function stagesOf(check: DescentCheck, { start, samples, isRunning }: Descent, shiftTicks: number): Stage[] {
  const last = samples.at(-1);
  const limits = check.targets.map(({ limit }) => ticksOf(limit.value, limit.unit) - shiftTicks);
  const lastLimit = limits.at(-1);
  const unreached: Verdict = isRunning ? 'open' : 'not-proven';
  if (last === undefined || lastLimit === undefined || Number.isNaN(start.latestMs)) {
    return [unbegun(unreached)];
  }
  const falling = samples.filter(({ atMs }) => atMs >= start.latestMs);
  const endIndex = falling.findIndex(({ ticks }) => ticks <= lastLimit);
  const watched = endIndex < 0 ? falling : falling.slice(0, endIndex + 1);
  const reached = limits.map((limit) => crossingOf(limit, watched, samples, start));
  const isStepped = hasWideStep(samples, start, reached.at(-1)?.latestMs ?? last.atMs);
  let clock: Between | undefined = start;
  const stages = check.targets.map(({ minutes }, index): Stage => {
    const allowedMs = minutes * MINUTE_MS;
    const end = reached[index];
    const from: Between | undefined = check.clock === 'shared' ? start : clock;
    clock = end;
    if (from === undefined) return unbegun(isStepped ? 'not-proven' : unreached);
    return stageOf(from, end, last.atMs, { allowedMs, isRunning: isRunning && !isStepped });
  });
  // What would meet is not proven across a wide step.
  const wouldMeet = stages.every(({ verdict }) => verdict === 'meets');
  return wouldMeet && isStepped ? stages.map((stage) => ({ ...stage, verdict: 'not-proven' })) : stages;
}

/** Where a limit was crossed for good; undefined while the record ends above it. */
function crossingOf(limitTicks: number, watched: readonly Sample[], samples: readonly Sample[], start: Between): Between | undefined {
  for (let index = 0; index < watched.length; index += 1) {
    const here = watched[index];
    if (here === undefined || !watched.slice(index).every(({ ticks }) => ticks <= limitTicks)) continue;
    if (here.ticks === limitTicks) return { earliestMs: here.atMs, latestMs: here.atMs };
    const above = samples.filter(({ atMs, ticks }) => atMs < here.atMs && ticks > limitTicks).at(-1);
    return { earliestMs: Math.max(above?.atMs ?? -Infinity, start.earliestMs), latestMs: here.atMs };
  }
  return undefined;
}

function stageOf(from: Between, end: Between | undefined, lastMs: number, terms: { readonly allowedMs: number; readonly isRunning: boolean }): Stage {
  const { allowedMs, isRunning } = terms;
  const shortestMs = Math.max(0, (end?.earliestMs ?? lastMs) - from.latestMs);
  const longestMs = (end?.latestMs ?? lastMs) - from.earliestMs;
  const stage = { shortestMs, longestMs, hasEnded: end !== undefined, allowedMs };
  if (shortestMs > allowedMs) return { verdict: 'misses', ...stage };
  if (longestMs > allowedMs) return { verdict: 'not-proven', ...stage };
  if (end !== undefined) return { verdict: 'meets', ...stage };
  return { verdict: isRunning ? 'open' : 'not-proven', ...stage };
}

/** Two successive readings too far apart, anywhere from the start to the last target or the end of the record. */
function hasWideStep(samples: readonly Sample[], start: Between, endMs: number): boolean {
  return samples.some((after, index) => {
    const before = samples[index - 1];
    return before !== undefined && before.atMs >= start.earliestMs && after.atMs <= endMs && after.atMs - before.atMs > LONGEST_STEP_MS;
  });
}
