/** Holds: a minimum (or, for freezing, a maximum) kept without a break, piece by piece or as one common stretch. */
import { spansOf } from './evidence.ts';
import { compareNames, worstBy, type Finding, type JudgeContext, type PlaceFinding } from './finding.ts';
import { heatRule, measurePlace, type HoldRule, type PlaceHold } from './hold-rule.ts';
import { breakText, missedText, neededText } from './hold-words.ts';
import type { JudgeCase, RecordSpan } from './judge-case.ts';
import type { HoldCheck } from './limit-set.ts';
import { pointsOf } from './readings.ts';
import { cutAround, outsOf, touches, type SpotOut } from './spot-checks.ts';
import { intersectAll, lengthOf, longest, type Stretch } from './stretches.ts';
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

  const uncut = decide(holds, [], rule, options, isOpen);
  const outs = outsOf(spots, rule);
  // A hold that runs on one side of a spot check's out reading is still a hold.
  const cut = uncut.verdict === 'meets' ? decide(holds, outs, rule, options, isOpen) : uncut;
  const { pieces, worstPiece, common, ...decided } = cut.verdict === 'meets' ? cut : uncut;
  const isSpoiled = cut.verdict !== uncut.verdict;
  const verdict: Verdict = !isSpoiled ? uncut.verdict : isOpen ? 'open' : 'not-proven';
  const words = options.words;
  const told = isSpoiled ? spoiledText(outs, common === undefined ? pieces.map(({ hold }) => longest(hold.stretches.proven)) : [common.proven], words)
    : common === undefined ? breakText(worstPiece.hold, rule, verdict, words) : togetherText(common, decided, rule, verdict, worstPiece.hold, words);
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

/** The verdict of some pieces around the out readings of spot checks, with the worst of them and what they have in common. */
function decide(holds: readonly PlaceHold[], outs: readonly SpotOut[], rule: HoldRule, options: HoldOptions, isOpen: boolean) {
  const common = options.together && holds.length > 1 ? commonOf(holds, outs) : undefined;
  // Kept together it is the common stretch that is cut, and a piece's own is shown whole.
  const own = common === undefined ? holds.map((hold) => cutHold(hold, outs)) : holds;
  const pieces = own.map((hold) => ({ hold, ...verdictOf(hold.provenMs, hold.possibleMs, hold.readings.length === 0, rule, isOpen) }));
  const worstPiece = worstBy(pieces, ({ hold: left }, { hold: right }) => left.provenMs - right.provenMs || left.possibleMs - right.possibleMs || compareNames(left.point.name, right.point.name));
  const decided = common === undefined
    ? { verdict: worstPiece.verdict, provenMs: worstPiece.hold.provenMs, possibleMs: worstPiece.hold.possibleMs }
    : { ...verdictOf(lengthOf(common.proven), common.possibleMs, false, rule, isOpen), provenMs: lengthOf(common.proven), possibleMs: common.possibleMs };
  return { pieces, worstPiece, common, ...decided };
}

function cutHold(hold: PlaceHold, outs: readonly SpotOut[]): PlaceHold {
  const proven = cutAround(hold.stretches.proven, [hold], outs);
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
function commonOf(holds: readonly PlaceHold[], outs: readonly SpotOut[]): Common {
  const read = holds.filter((hold) => hold.readings.length > 0);
  return {
    proven: longest(cutAround(intersectAll(holds.map((hold) => hold.stretches.proven)), holds, outs)),
    possibleMs: lengthOf(longest(intersectAll(read.map((hold) => hold.stretches.possible)))),
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
function spoiledText(outs: readonly SpotOut[], stretches: readonly (Stretch | undefined)[], words: Words): string {
  const inside = outs.filter(({ atMs }) => stretches.some((stretch) => stretch !== undefined && touches(stretch, atMs)));
  const [first] = inside.toSorted((left, right) => left.atMs - right.atMs || compareNames(left.hold.point.name, right.hold.point.name));
  if (first === undefined) throw new Error('a hold was cut, and no spot check lies inside it');
  return `${nameText(first.hold.point.role, first.hold.point.name)} was only spot-checked and read ${words.degrees(first.ticks)} at ${words.at(first.atMs)}, inside the others’ hold.`;
}
