/** Descents: every piece cooled from a start to its targets in time, by the bounds its readings prove. */
import { compareNames, plainFinding, worstBy, type Finding, type JudgeContext, type PlaceFinding, type Span } from './finding.ts';
import { findDescents, type DescentRecord } from './descent-start.ts';
import { judgeStages, roomOf, type DescentStages, type Target } from './descent-stages.ts';
import { descentNeeded, descentText } from './descent-words.ts';
import { completedHolds, heatRule, measurePlace } from './hold-rule.ts';
import type { JudgeCase, MeasuredPoint, Reading } from './judge-case.ts';
import type { DescentCheck } from './limit-set.ts';
import { factsOfRow } from './reading-order.ts';
import { betweenMarks, limitTicks, mergeReadings, pointsOf } from './readings.ts';
import type { Stretch } from './stretches.ts';
import type { Verdict } from './verdict.ts';
import { figureText, nameText } from './words.ts';

const MINUTE_MS = 60_000;

/** One piece's cooling, judged. */
export interface PieceDescent {
  readonly point: MeasuredPoint;
  readonly readings: readonly Reading[];
  readonly record: DescentRecord;
  /** Whether it was seen to fall to the start or below, in a descent or before a later hold. */
  readonly hasFallen: () => boolean;
  readonly descents: readonly DescentStages[];
  readonly verdict: Verdict;
  /** The worst stage of the worst descent; undefined where none has begun. */
  readonly worst: DescentStages | undefined;
}

/** The cooling of the batch's pieces; `shiftTicks` moves the start up and the targets down by the instrument's error. */
export function judgeDescent(check: DescentCheck, judged: JudgeCase, context: JudgeContext, shiftTicks: number): Finding {
  const { words } = context;
  const isOpen = judged.records.process.open;
  const all = pointsOf(judged, 'piece', 'process').map((point) => measureDescent(check, point, judged, context, shiftTicks));
  const pieces = takingPart(all, judged);
  if (pieces.every((piece) => piece.readings.length === 0)) {
    const reason = all.length === 0 ? 'Nothing was measured for this.' : 'There is no reading of the cooling.';
    return { ...plainFinding(isOpen ? 'open' : 'not-proven', reason, descentNeeded(check, undefined, words)), shortestMs: 0, longestMs: 0 };
  }
  const worst = worstBy(pieces, (left, right) => roomIn(left) - roomIn(right) || shortestIn(right) - shortestIn(left) || compareNames(left.point.name, right.point.name));
  const stage = worst.worst?.worst;
  return {
    verdict: worst.verdict,
    reason: descentText(check, worst, words),
    needed: worst.verdict === 'meets' ? '' : descentNeeded(check, worst, words),
    spans: worst.descents.flatMap((stages) => spansOf(check, worst.point, stages)),
    places: all.map((piece): PlaceFinding => pieces.includes(piece)
      ? { name: piece.point.name, pointId: piece.point.id, verdict: piece.verdict, text: descentText(check, piece, words), shortestMs: piece.worst?.worst.shortestMs, longestMs: piece.worst?.worst.longestMs }
      : { name: piece.point.name, pointId: piece.point.id, verdict: 'does-not-apply', text: `${nameText('piece', piece.point.name)} was not measured after smoking; others were.` }),
    requiredMs: stage?.withinMs,
    shortestMs: stage?.shortestMs ?? 0,
    longestMs: stage === undefined ? 0 : stage.longestMs,
  };
}

/** A reading in doubt counts as real; where leaving it out is worse, it does not help either. */
export function judgeDoubtedDescent(check: DescentCheck, judged: JudgeCase, context: JudgeContext, shiftTicks: number): Finding {
  const found = judgeDescent(check, judged, context, shiftTicks);
  if (!judged.points.some((point) => point.role === 'piece' && factsOfRow(point.readings).hasDoubt)) return found;
  const points = judged.points.map((point) => ({ ...point, readings: point.readings.filter((reading) => reading.doubt === undefined) }));
  return worstBy([found, judgeDescent(check, { ...judged, points }, context, shiftTicks)], () => 0);
}

/** One piece's descents and their stages. */
export function measureDescent(check: DescentCheck, point: MeasuredPoint, judged: JudgeCase, context: JudgeContext, shiftTicks: number): PieceDescent {
  const span = judged.records.process;
  const readings = betweenMarks(mergeReadings(point.readings, 'higher'), span.inMs);
  const startTicks = check.from === undefined ? undefined : limitTicks(check.from) + shiftTicks;
  const targets = check.targets.map((target): Target => ({ limitTicks: limitTicks(target.limit) - shiftTicks, withinMs: target.minutes * MINUTE_MS }));
  const record = findDescents(readings, startTicks, holdsOf(point, judged, context), judged);
  const descents = record.descents.map((descent) => judgeStages(descent, targets, check.clock, span.open));
  const pending: Verdict = span.open ? 'open' : 'not-proven';
  // Where the mark itself starts the clock, a reading at that very moment is one of the cooling.
  const hasFallen = () => startTicks === undefined ? descents.length > 0 : readings.some((reading, index) => reading.lowTicks <= startTicks && (readings[index - 1]?.lowTicks ?? startTicks) > startTicks);
  if (descents.length === 0) return { point, readings, record, hasFallen, descents, verdict: pending, worst: undefined };
  const worst = worstBy(descents, (left, right) => roomOf(left.worst) - roomOf(right.worst));
  const verdict = record.isHot ? worstBy([worst, { verdict: pending }], () => 0).verdict : worst.verdict;
  return { point, readings, record, hasFallen, descents, verdict, worst };
}

/** The completed holds of a piece; of several holds that would do, the first that the piece completed. */
function holdsOf(point: MeasuredPoint, judged: JudgeCase, context: JudgeContext): readonly Stretch[] {
  for (const check of context.holds) {
    // The hold's own limit is not this check's and stays where the law has it.
    const rule = heatRule(check, 0);
    const holds = completedHolds(measurePlace(point, rule, judged, judged.records.process), rule.requiredMs);
    if (holds.length > 0) return holds;
  }
  return [];
}

/**
 * The pieces that take part: one without a reading after its smoking ended is left out when another,
 * the thickest included, has one. Where no thickness is recorded at all, the pieces count as alike;
 * where only some are, an unmeasured one may be the thickest and stays in.
 */
function takingPart(pieces: readonly PieceDescent[], judged: JudgeCase): readonly PieceDescent[] {
  const cooled = pieces.filter((piece) => wasRead(piece, judged));
  if (cooled.length === 0 || cooled.length === pieces.length) return pieces;
  const known = pieces.flatMap((piece) => piece.point.thicknessMm ?? []);
  if (known.length === 0) return cooled;
  const thickest = Math.max(...known);
  const hasThickest = cooled.some((piece) => piece.point.thicknessMm === thickest);
  return hasThickest ? pieces.filter((piece) => cooled.includes(piece) || piece.point.thicknessMm === undefined) : pieces;
}

/** Whether a piece has a reading after its smoking ended: after the mark, or an observed fall below the start. */
function wasRead(piece: PieceDescent, judged: JudgeCase): boolean {
  if (piece.readings.length === 0) return false;
  const markMs = judged.endOfSmokingMs ?? judged.records.process.outMs;
  const last = piece.readings.at(-1);
  if (markMs !== undefined && last !== undefined && last.atMs > markMs) return true;
  const hasFallen = piece.record.descents.some((descent) => (descent.readings[descent.from]?.atMs ?? descent.start.latestMs) < descent.start.latestMs);
  // One that cooled, was heated again and kept its hold is still hot: it is not done because others are.
  return hasFallen || piece.hasFallen() || (markMs === undefined && !piece.record.isHot);
}

function shortestIn(piece: PieceDescent): number {
  return piece.worst?.worst.shortestMs ?? 0;
}

function roomIn(piece: PieceDescent): number {
  return piece.worst === undefined ? Number.MIN_SAFE_INTEGER : roomOf(piece.worst.worst);
}

function spansOf(check: DescentCheck, point: MeasuredPoint, { start, stages }: DescentStages): Span[] {
  const startMs = start.earliestMs ?? start.latestMs;
  return stages.flatMap((stage): Span[] => {
    const target = check.targets[stage.number];
    if (target === undefined || stage.end === undefined) return [];
    const base = check.clock === 'shared' || stage.number === 0 ? startMs : stages[stage.number - 1]?.end?.earliestMs ?? startMs;
    const isMet = stage.verdict === 'meets';
    return [{ fromMs: base, toMs: stage.end.latestMs, counts: isMet, why: `to ${figureText(target.limit)}`, pointId: point.id }];
  });
}
