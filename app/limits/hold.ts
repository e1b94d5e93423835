/** Holds: a minimum (or, for freezing, a maximum) kept without a break, piece by piece or as one common stretch. */
import { spansOf } from './evidence.ts';
import { compareNames, worstBy, type Finding, type JudgeContext, type PlaceFinding } from './finding.ts';
import { heatRule, measurePlace, type HoldRule, type PlaceHold } from './hold-rule.ts';
import { breakText, missedText, neededText } from './hold-words.ts';
import type { JudgeCase, RecordSpan } from './judge-case.ts';
import type { HoldCheck } from './limit-set.ts';
import { pointsOf } from './readings.ts';
import { intersect, lengthOf, longest, type Stretch } from './stretches.ts';
import type { Verdict } from './verdict.ts';
import { nameText, type Words } from './words.ts';

/** The hold of the batch's pieces; `shiftTicks` moves the limit up by the instrument's error. */
export function judgeHold(check: HoldCheck, judged: JudgeCase, context: JudgeContext, shiftTicks: number): Finding {
  return judgePlaces(pointsOf(judged, 'piece', 'process'), heatRule(check, shiftTicks), judged, judged.records.process, {
    words: context.words, together: context.together, enough: context.probesAsked, spotChecks: true,
  });
}

export interface HoldOptions {
  readonly words: Words;
  readonly together: boolean;
  /** How many other pieces must carry a full record before a short one is a spot check. */
  readonly enough: number;
  readonly spotChecks: boolean;
}

/** Any hold over any places: each its own unbroken hold, or one common stretch; the worst decides. */
export function judgePlaces(points: readonly (Parameters<typeof measurePlace>[0])[], rule: HoldRule, judged: JudgeCase, span: RecordSpan, options: HoldOptions): Finding {
  const isOpen = span.open && span.outMs === undefined;
  const all = points.map((point) => measurePlace(point, rule, judged, span));
  const full = all.filter((hold) => hold.recordMs >= rule.requiredMs);
  const isSpot = (hold: PlaceHold) => options.spotChecks && hold.recordMs < rule.requiredMs && full.length >= options.enough;
  const holds = all.filter((hold) => !isSpot(hold));
  const spots = all.filter(isSpot);
  if (holds.every((hold) => hold.readings.length === 0)) return unread(points.length, rule, isOpen);

  const uncut = decide(holds, rule, options, isOpen);
  // A hold that runs on one side of a spot check's out reading is still a hold.
  const cut = uncut.verdict === 'meets' && spots.length > 0 ? decide(holds.map((hold) => cutAt(hold, outsOf(spots, rule))), rule, options, isOpen) : uncut;
  const { pieces, worstPiece, common, ...decided } = cut.verdict === 'meets' ? cut : uncut;
  const stretches = common === undefined ? pieces.map(({ hold }) => longest(hold.stretches.proven)) : [common.proven];
  const spoiled = cut.verdict === uncut.verdict ? undefined : spoilingSpot(spots, stretches, rule);
  const verdict: Verdict = cut.verdict === uncut.verdict ? uncut.verdict : isOpen ? 'open' : 'not-proven';
  const words = options.words;
  const told = spoiled === undefined
    ? common === undefined ? breakText(worstPiece.hold, rule, verdict, words) : togetherText(common, decided, rule, verdict, worstPiece.hold, words)
    : `${nameText(spoiled.hold.point.role, spoiled.hold.point.name)} was only spot-checked and read ${words.degrees(lowTicks(spoiled, rule))} at ${words.at(spoiled.atMs)}, inside the others’ hold.`;
  return {
    verdict,
    reason: told,
    needed: neededText(rule, verdict, decided.provenMs, words),
    spans: spansOf(worstPiece.hold, rule, span, words),
    places: [
      ...pieces.map(({ hold, verdict: own }): PlaceFinding => ({
        name: hold.point.name, pointId: hold.point.id, verdict: own, text: breakText(hold, rule, own, words), provenMs: hold.provenMs, possibleMs: hold.possibleMs,
      })),
      ...spots.map((hold): PlaceFinding => ({
        name: hold.point.name, pointId: hold.point.id, verdict: 'does-not-apply', text: 'A spot check: it proves and breaks nothing by itself.', provenMs: hold.provenMs, possibleMs: hold.possibleMs,
      })),
    ],
    requiredMs: rule.requiredMs, provenMs: decided.provenMs, possibleMs: decided.possibleMs,
  };
}

/** The verdict of some pieces, with the worst of them and what they have in common. */
function decide(holds: readonly PlaceHold[], rule: HoldRule, options: HoldOptions, isOpen: boolean) {
  const pieces = holds.map((hold) => ({ hold, ...verdictOf(hold.provenMs, hold.possibleMs, hold.readings.length === 0, rule, isOpen) }));
  const worstPiece = worstBy(pieces, ({ hold: left }, { hold: right }) => left.provenMs - right.provenMs || left.possibleMs - right.possibleMs || compareNames(left.point.name, right.point.name));
  const common = options.together && holds.length > 1 ? commonOf(holds) : undefined;
  const decided = common === undefined
    ? { verdict: worstPiece.verdict, provenMs: worstPiece.hold.provenMs, possibleMs: worstPiece.hold.possibleMs }
    : { ...verdictOf(lengthOf(common.proven), common.possibleMs, false, rule, isOpen), provenMs: lengthOf(common.proven), possibleMs: common.possibleMs };
  return { pieces, worstPiece, common, ...decided };
}

/** The instants at which spot checks read out, in order. */
function outsOf(spots: readonly PlaceHold[], rule: HoldRule): number[] {
  return spots.flatMap((hold) => hold.readings.filter((reading) => !rule.isIn(reading)).map((reading) => reading.atMs)).sort((left, right) => left - right);
}

/** A piece's hold without what touches one of some instants: up to its last reading before, and from its first one after. */
function cutAt(hold: PlaceHold, instants: readonly number[]): PlaceHold {
  const proven = instants.reduce<readonly Stretch[]>((stretches, atMs) => stretches.flatMap((stretch): readonly Stretch[] => {
    if (atMs < stretch.fromMs || atMs > stretch.toMs) return [stretch];
    const inside = hold.readings.filter((reading) => reading.atMs >= stretch.fromMs && reading.atMs <= stretch.toMs);
    const before = inside.findLast((reading) => reading.atMs < atMs);
    const after = inside.find((reading) => reading.atMs > atMs);
    return [...(before === undefined ? [] : [{ fromMs: stretch.fromMs, toMs: before.atMs }]), ...(after === undefined ? [] : [{ fromMs: after.atMs, toMs: stretch.toMs }])];
  }), hold.stretches.proven);
  return { ...hold, stretches: { ...hold.stretches, proven }, provenMs: lengthOf(longest(proven)) };
}

function verdictOf(provenMs: number, possibleMs: number, isUnread: boolean, rule: HoldRule, isOpen: boolean): { verdict: Verdict } {
  if (provenMs >= rule.requiredMs) return { verdict: 'meets' };
  if (isOpen) return { verdict: 'open' };
  // A piece that was never read may have been anything: it proves no miss.
  return { verdict: isUnread || possibleMs >= rule.requiredMs ? 'not-proven' : 'misses' };
}

function unread(count: number, rule: HoldRule, isOpen: boolean): Finding {
  const reason = count === 0 ? 'Nothing was measured for this.' : 'There is no reading of it in the record.';
  return { verdict: isOpen ? 'open' : 'not-proven', reason, needed: `${rule.text}, recorded without a break.`, spans: [], places: [], requiredMs: rule.requiredMs, provenMs: 0, possibleMs: 0 };
}

interface Common {
  readonly proven: Stretch | undefined;
  readonly possibleMs: number;
}

/** The longest stretch that all pieces share. A piece without a reading proves nothing and rules nothing out. */
function commonOf(holds: readonly PlaceHold[]): Common {
  const share = (listOf: (hold: PlaceHold) => readonly Stretch[], from: readonly PlaceHold[]) =>
    longest(from.slice(1).reduce<readonly Stretch[]>((shared, hold) => intersect(shared, listOf(hold)), from[0] === undefined ? [] : listOf(from[0])));
  return {
    proven: share((hold) => hold.stretches.proven, holds),
    possibleMs: lengthOf(share((hold) => hold.stretches.possible, holds.filter((hold) => hold.readings.length > 0))),
  };
}

function togetherText(common: Common, decided: { provenMs: number }, rule: HoldRule, verdict: Verdict, worstHold: PlaceHold, words: Words): string {
  const shared = common.proven === undefined ? 'no time' : `${words.part(decided.provenMs, rule.requiredMs)} (${words.at(common.proven.fromMs)} to ${words.at(common.proven.toMs)})`;
  if (verdict === 'meets') return `All pieces together at ${rule.text} from ${words.at(common.proven?.fromMs ?? 0)} to ${words.at(common.proven?.toMs ?? 0)}, ${words.lasting(decided.provenMs)} proven.`;
  if (verdict === 'open') return `All pieces together at ${rule.text}: ${shared} so far. ${breakText(worstHold, rule, verdict, words)}`;
  if (verdict === 'not-proven') return `All pieces together at ${rule.text}: ${shared} proven; gaps hide the rest.`;
  return `All pieces together at ${rule.text}: ${shared}. ${missedText(worstHold, rule, words)}`;
}

/** The first out reading of a spot check inside a hold of the others, its ends included. */
function spoilingSpot(spots: readonly PlaceHold[], stretches: readonly (Stretch | undefined)[], rule: HoldRule) {
  const isInside = (atMs: number) => stretches.some((stretch) => stretch !== undefined && atMs >= stretch.fromMs && atMs <= stretch.toMs);
  const spoiling = spots.flatMap((hold) => hold.readings.filter((reading) => isInside(reading.atMs) && !rule.isIn(reading)).map((reading) => ({ hold, atMs: reading.atMs, reading })));
  return spoiling.sort((left, right) => left.atMs - right.atMs || compareNames(left.hold.point.name, right.hold.point.name))[0];
}

function lowTicks(spoiled: { reading: { lowTicks: number; highTicks: number } }, rule: HoldRule): number {
  return rule.worse === 'lower' ? spoiled.reading.lowTicks : spoiled.reading.highTicks;
}
