/** Holds in heat and freezings, worked out again from the words of the rule. */
import type { JudgeCase, MeasuredPoint, RecordSpan } from '../../../app/limits/judge-case.ts';
import type { FreezeCheck, HoldCheck } from '../../../app/limits/limit-set.ts';
import type { Verdict } from '../../../app/limits/verdict.ts';
import { intervalOf, MINUTE_MS, pointsServing, samplesOf, ticksOf, worseVerdict, type Opinion, type Sample } from './record.ts';
import { everyPossible, everyProven, knownSince, longestCommon, longestOf, type Stretch } from './stretches.ts';

export interface HoldTerms {
  readonly requiredMs: number;
  /** Heat: at or above, the lower of two values counts. Cold: at or below, the higher. */
  readonly side: 'heat' | 'cold';
  readonly limitTicks: number;
  readonly marks: RecordSpan;
  readonly isOpen: boolean;
  /** For places nothing after the out mark counts. */
  readonly endsAtOutMark: boolean;
  readonly piecesAsked: number;
  readonly together: boolean;
}

export interface PieceStretches {
  readonly name: string;
  readonly samples: readonly Sample[];
  readonly isIn: (sample: Sample) => boolean;
  readonly maxGapMs: number;
  /** From when its first reading speaks. */
  readonly beginsMs: number;
  readonly proven: readonly Stretch[];
  readonly possible: readonly Stretch[];
}

/** Every stretch of one piece or place. */
export function stretchesOf(point: MeasuredPoint, batch: JudgeCase, terms: HoldTerms): PieceStretches {
  const { limitTicks, marks, side } = terms;
  const samples = samplesOf(point.readings, side === 'heat' ? 'lower' : 'higher', marks.inMs, terms.endsAtOutMark ? marks.outMs : undefined);
  const isIn = (sample: Sample) => !sample.isDoubted && (side === 'heat' ? sample.ticks >= limitTicks : sample.ticks <= limitTicks);
  const usualMs = Math.max(2 * intervalOf(samples, batch), 5 * MINUTE_MS);
  const maxGapMs = batch.maxGapMs ?? Math.min(usualMs, side === 'heat' ? 12 * MINUTE_MS : terms.requiredMs / 7);
  return { name: point.name, samples, isIn, maxGapMs, beginsMs: samples[0] === undefined ? 0 : knownSince(samples[0], undefined, marks.inMs), proven: everyProven(samples, isIn, maxGapMs, marks.inMs), possible: everyPossible(samples, isIn, maxGapMs, marks) };
}

/** How long a piece's record is; below zero where it was never read. */
export function lengthOf({ samples, beginsMs }: PieceStretches): number {
  const last = samples.at(-1);
  return last === undefined ? -1 : last.atMs - beginsMs;
}

/** The verdict of some pieces or places on one hold. */
export function judgeStretches(points: readonly MeasuredPoint[], batch: JudgeCase, terms: HoldTerms): Opinion {
  const nothing: Verdict = terms.isOpen ? 'open' : 'not-proven';
  const pieces = points.map((point) => stretchesOf(point, batch, terms));
  const isLong = (piece: PieceStretches) => lengthOf(piece) >= terms.requiredMs;
  const enough = pieces.filter(isLong).length >= terms.piecesAsked;
  const judged = enough ? pieces.filter(isLong) : pieces;
  const spots = enough ? pieces.filter((piece) => !isLong(piece)) : [];
  if (judged.length === 0) return { verdict: nothing };
  const worst = worstOpinion(judged, terms, []);
  if (worst?.verdict !== 'meets') return worst ?? { verdict: nothing };
  const outMs = spots.flatMap(({ samples, isIn }) => samples.filter((sample) => !isIn(sample)).map(({ atMs }) => atMs));
  const still = worstOpinion(judged, terms, outMs);
  return still?.verdict === 'meets' ? still : { ...worst, verdict: nothing };
}

/**
 * The longest time from one sample to another that every list proves and in which no moment lies: a spot check
 * that read out takes the proof of its moment away, and a hold may run before it or after it, not over it.
 */
function longestWithout(lists: readonly (readonly Stretch[])[], samples: readonly Sample[], outMs: readonly number[]): number {
  const times = [...new Set([...samples.map(({ atMs }) => atMs), ...lists.flat().flatMap(({ fromMs, toMs }) => [fromMs, toMs])])];
  let longestMs = 0;
  for (const fromMs of times) {
    for (const toMs of times) {
      if (toMs - fromMs <= longestMs || outMs.some((atMs) => atMs >= fromMs && atMs <= toMs)) continue;
      if (lists.every((stretches) => stretches.some((stretch) => stretch.fromMs <= fromMs && stretch.toMs >= toMs))) longestMs = toMs - fromMs;
    }
  }
  return longestMs;
}

/** The worst piece, or what all have in common, around the moments at which a spot check read out. */
function worstOpinion(judged: readonly PieceStretches[], terms: HoldTerms, outMs: readonly number[]): Opinion | undefined {
  if (terms.together) return commonOpinion(judged, terms, outMs);
  const each = judged.map((piece) => opinionOn(outMs.length === 0 ? longestOf(piece.proven) : longestWithout([piece.proven], piece.samples, outMs), longestOf(piece.possible), terms, piece.samples.length === 0));
  const [worst] = each.sort((left, right) => worseVerdict(left.verdict, right.verdict)
    || (left.provenMinutes ?? 0) - (right.provenMinutes ?? 0) || (left.possibleMinutes ?? 0) - (right.possibleMinutes ?? 0));
  return worst;
}

/** Heat: the core of every piece at or above a limit for so long. */
export function judgeHoldAgain(check: HoldCheck, batch: JudgeCase, terms: { readonly piecesAsked: number; readonly together: boolean }, shiftTicks: number): Opinion {
  return judgeStretches(pointsServing(batch, 'piece', 'process'), batch, holdTerms(check, batch, terms, shiftTicks));
}

/** What a hold in heat asks. The chamber's out mark ends it, whatever still runs. */
export function holdTerms(check: HoldCheck, batch: JudgeCase, terms: { readonly piecesAsked: number; readonly together: boolean }, shiftTicks: number): HoldTerms {
  const marks = batch.records.process;
  return {
    ...terms, requiredMs: check.minutes * MINUTE_MS, side: 'heat', limitTicks: ticksOf(check.limit.value, check.limit.unit) + shiftTicks,
    marks, isOpen: marks.open && marks.outMs === undefined, endsAtOutMark: false,
  };
}

/** Cold: pieces where there are any, else the store; the time of a freezing until solid begins with frozen solid. */
export function judgeFreezeAgain(check: FreezeCheck, batch: JudgeCase, shiftTicks: number): Opinion {
  const given = batch.records.freezer;
  const pieces = pointsServing(batch, 'piece', 'freezer');
  const readsStore = check.reads === 'pieces-or-store' && pieces.length === 0;
  const startMs = check.untilSolid === undefined ? given.inMs : Math.max(given.inMs ?? -Infinity, batch.frozenMs ?? -Infinity);
  return judgeStretches(readsStore ? pointsServing(batch, 'store', 'freezer') : pieces, batch, {
    requiredMs: check.minutes * MINUTE_MS, side: 'cold', limitTicks: ticksOf(check.limit.value, check.limit.unit) - shiftTicks,
    marks: { ...given, inMs: startMs === -Infinity ? undefined : startMs }, isOpen: given.open && given.outMs === undefined, endsAtOutMark: readsStore,
    // Only a piece can be a spot check; each freezer has a record of its own.
    piecesAsked: readsStore ? Infinity : 1, together: false,
  });
}

function opinionOn(provenMs: number, possibleMs: number, terms: HoldTerms, isUnread: boolean): Opinion {
  const figures = { provenMinutes: provenMs / MINUTE_MS, possibleMinutes: possibleMs / MINUTE_MS };
  if (isUnread) return { verdict: terms.isOpen ? 'open' : 'not-proven' };
  if (provenMs >= terms.requiredMs) return { verdict: 'meets', ...figures };
  if (terms.isOpen) return { verdict: 'open', ...figures };
  return { verdict: possibleMs >= terms.requiredMs ? 'not-proven' : 'misses', ...figures };
}

/** One stretch of all pieces at once; a piece that was never read proves nothing and rules nothing out. */
function commonOpinion(pieces: readonly PieceStretches[], terms: HoldTerms, outMs: readonly number[]): Opinion {
  const read = pieces.filter(({ samples }) => samples.length > 0);
  const lists = pieces.map(({ proven }) => proven);
  const commonMs = outMs.length === 0 ? longestOf(longestCommon(lists)) : longestWithout(lists, pieces.flatMap(({ samples }) => samples), outMs);
  const provenMs = read.length < pieces.length ? 0 : commonMs;
  return opinionOn(provenMs, longestOf(longestCommon(read.map(({ possible }) => possible))), terms, read.length === 0);
}
