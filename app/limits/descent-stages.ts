/** The stages of one descent: from its start, or from the target before, down to each target. */
import type { Crossing, Descent } from './descent-start.ts';
import type { Reading } from './judge-case.ts';
import { factsOfRow, placeOf } from './reading-order.ts';
import { isGap } from './readings.ts';
import { compareVerdicts, type Verdict } from './verdict.ts';

/** Two successive readings further apart than this between start and last target prove nothing. */
const WIDEST_STEP_MS = 120 * 60_000;

export interface Target {
  readonly limitTicks: number;
  readonly withinMs: number;
}

export interface Stage {
  readonly number: number;
  readonly verdict: Verdict;
  readonly withinMs: number;
  /** Latest end less earliest start; undefined where nothing tells how early it began. Above the target to the end: up to the last reading. */
  readonly longestMs: number | undefined;
  /** Earliest end less latest start. Above the target to the end: up to the last reading. */
  readonly shortestMs: number;
  readonly isReached: boolean;
  /** Where the stage ends, for the evidence. */
  readonly end: Crossing | undefined;
}

export interface DescentStages {
  readonly start: Crossing;
  readonly stages: readonly Stage[];
  /** The first step over two hours, where it keeps the check from meeting. */
  readonly wideStep: { readonly fromMs: number; readonly toMs: number } | undefined;
  readonly verdict: Verdict;
  readonly worst: Stage;
}

/**
 * Judges every stage of a descent.
 * @param targets in order, moved down by the instrument's error
 * @param isOpen the record still runs and may reach a target yet
 */
export function judgeStages(descent: Descent, targets: readonly Target[], clock: 'shared' | 'separate', isOpen: boolean): DescentStages {
  const canGoOn = isOpen && !descent.isCut;
  const { readings, from, to } = descent;
  const lastTarget = targets.at(-1);
  let end = lastTarget === undefined ? to : Math.max(from, placeOf(readings, descent.start.latestMs));
  while (end < to && (readings[end]?.highTicks ?? 0) > (lastTarget?.limitTicks ?? 0)) end += 1;
  const upTo = Math.min(end, to - 1);
  const crossings = targets.map((target) => crossingOf(target, descent, upTo));
  const wideStep = firstWideStep(descent, upTo);
  const stages = targets.map((target, number): Stage => {
    const base = clock === 'shared' || number === 0 ? descent.start : crossings[number - 1];
    return judgeStage({ number, target, base, end: crossings[number], lastMs: readings[upTo]?.atMs ?? descent.start.latestMs, canGoOn: canGoOn && wideStep === undefined });
  });
  // Between equals the later stage, nearer to the end, is told.
  const worst = stages.reduce((found, next) => ((compareVerdicts(next.verdict, found.verdict) || roomOf(next) - roomOf(found)) <= 0 ? next : found));
  const verdict = worst.verdict === 'meets' && wideStep !== undefined ? 'not-proven' : worst.verdict;
  return { start: descent.start, stages, wideStep, verdict, worst };
}

/** How much time a stage leaves: below zero when it took too long. */
export function roomOf(stage: Stage): number {
  return stage.withinMs - (stage.longestMs ?? Number.MAX_SAFE_INTEGER);
}

/** Between the last reading above the target and the next, after which all stay at or below until the last target. */
function crossingOf(target: Target, descent: Descent, upTo: number): Crossing | undefined {
  const { readings, from, start } = descent;
  let above = upTo;
  while (above >= from && (readings[above]?.highTicks ?? 0) <= target.limitTicks) above -= 1;
  // What was read before the clock began tells nothing of when, after that, it was reached.
  const early = above < from && (readings[from]?.atMs ?? start.latestMs) < start.latestMs ? 1 : 0;
  const reading: Reading | undefined = readings[Math.min(above + 1 + early, upTo)];
  if (above === upTo || reading === undefined) return undefined;
  // Nothing above it since the start: it was crossed at some time from the start on.
  const beforeMs = above < from ? start.earliestMs : Math.max(readings[above]?.atMs ?? 0, start.earliestMs ?? Number.MIN_SAFE_INTEGER);
  return { earliestMs: reading.highTicks === target.limitTicks ? reading.atMs : beforeMs, latestMs: Math.max(reading.atMs, start.latestMs) };
}

interface StageInput {
  readonly number: number;
  readonly target: Target;
  /** Where its clock starts; undefined while the target before is not reached. */
  readonly base: Crossing | undefined;
  readonly end: Crossing | undefined;
  readonly lastMs: number;
  readonly canGoOn: boolean;
}

function judgeStage({ number, target, base, end, lastMs, canGoOn }: StageInput): Stage {
  const stage = { number, withinMs: target.withinMs, isReached: end !== undefined, end };
  if (base === undefined) return { ...stage, verdict: canGoOn ? 'open' : 'not-proven', longestMs: 0, shortestMs: 0 };
  const earliestEndMs = end === undefined ? lastMs : end.earliestMs ?? base.latestMs;
  const shortestMs = Math.max(0, earliestEndMs - base.latestMs);
  const longestMs = base.earliestMs === undefined ? undefined : (end?.latestMs ?? lastMs) - base.earliestMs;
  const mayMeet = longestMs !== undefined && longestMs <= target.withinMs;
  if (shortestMs > target.withinMs) return { ...stage, verdict: 'misses', longestMs, shortestMs };
  if (end === undefined) return { ...stage, verdict: canGoOn && mayMeet ? 'open' : 'not-proven', longestMs, shortestMs };
  return { ...stage, verdict: mayMeet ? 'meets' : 'not-proven', longestMs, shortestMs };
}

function firstWideStep({ readings, from, start }: Descent, upTo: number): { fromMs: number; toMs: number } | undefined {
  const { isPlain, longestMs } = factsOfRow(readings);
  if (isPlain && longestMs <= WIDEST_STEP_MS) return undefined;
  for (let index = from + 1; index <= upTo; index += 1) {
    const before = readings[index - 1];
    const reading = readings[index];
    if (before === undefined || reading === undefined || before.atMs < (start.earliestMs ?? Number.MIN_SAFE_INTEGER)) continue;
    if (isGap(before, reading, WIDEST_STEP_MS)) return { fromMs: before.atMs, toMs: reading.atMs };
  }
  return undefined;
}
