/** Judging one check against one batch's record. */
import { judgeCeiling } from './ceiling.ts';
import { fitOf } from './conditions.ts';
import { judgeDoubtedDescent } from './descent.ts';
import { plainFinding, type Finding, type JudgeContext, type PlaceFinding, type Span } from './finding.ts';
import { judgeFreeze } from './freeze.ts';
import { judgeFilm, judgeLabel, judgeRetention } from './keeping.ts';
import { judgeHold } from './hold.ts';
import type { JudgeCase } from './judge-case.ts';
import { findCheck, type Check, type CheckKind, type Gate, type HoldCheck, type LimitBook, type Question, type Source } from './limit-set.ts';
import { judgeBrineReuse, judgeFrozenBeforeSeal, judgePackBan, judgeReview } from './pack-rules.ts';
import { judgeCalibration, judgePermission } from './presence.ts';
import { judgeProbeCount } from './probe-count.ts';
import { judgeRaw } from './raw.ts';
import { doubtRemark, entryRemark } from './readings.ts';
import { judgeNitriteMaximum, judgeNitriteNone, judgeTotalSalt, judgeWaterPhaseSalt } from './salt.ts';
import { judgeBrineStart, judgeSoakRoom } from './soak.ts';
import type { Verdict } from './verdict.ts';
import type { Words } from './words.ts';

const MINUTE_MS = 60_000;
/** The hold that a cooling judged alone starts after. */
const USUAL_HOLD = 'HOT-145-30';
const PAPER: readonly CheckKind[] = ['presence', 'review', 'retention', 'permission', 'calibration', 'label', 'film'];

export interface CheckResult {
  /** The check, or the question a set gives no figure for. */
  readonly checkId: string;
  readonly title: string;
  readonly question: Question;
  readonly gate: Gate;
  readonly kind: CheckKind;
  readonly verdict: Verdict;
  /** A plain sentence with the figures. */
  readonly reason: string;
  /** What would have been needed, or still is; empty when met. */
  readonly needed: string;
  readonly requiredMinutes?: number | undefined;
  readonly provenMinutes?: number | undefined;
  readonly possibleMinutes?: number | undefined;
  readonly shortestMinutes?: number | undefined;
  readonly longestMinutes?: number | undefined;
  readonly spans: readonly Span[];
  /** Every piece or place with its own share. */
  readonly pieces: readonly PlaceFinding[];
  /** Undefined where the set gives no figure, and for a scheduled process. */
  readonly source?: Source | undefined;
  /** A relaxing check whose conditions are not known: no part of a group. */
  readonly takesNoPart: boolean;
  /** A minimum that keeping the pack frozen stands in for. */
  readonly frozenStandsIn: boolean;
}

/** Whether a check is of a record on paper, which readings, samples and marks can't answer. */
export function isPaper(check: Check): boolean {
  return PAPER.includes(check.kind) && !(check.kind === 'permission' && check.proof === 'species');
}

/** The context of a check judged alone. */
export function aloneContext(book: LimitBook, words: Words): JudgeContext {
  return { words, alone: true, holds: holdsNamed(book, [USUAL_HOLD]), together: false, probesAsked: 1 };
}

/** The holds among some check ids. */
export function holdsNamed(book: LimitBook, checkIds: readonly string[]): HoldCheck[] {
  return checkIds.flatMap((id) => {
    const check = findCheck(book, id);
    return check?.kind === 'hold' ? [check] : [];
  });
}

/** Judges one check: its conditions, the record as it stands, and again with every limit moved to the strict side by the instrument's error. */
export function judgeCheck(check: Check, judged: JudgeCase, context: JudgeContext, source: Source | undefined = check.sources[0]): CheckResult {
  const fit = fitOf(check.conditions, judged);
  if (fit.fit === 'contradicted') return resultOf(check, plainFinding('does-not-apply', `Does not apply: ${fit.why}.`), source);
  const found = judgeKind(check, judged, context, 0);
  if (fit.fit === 'not-given' && check.relaxes === true) {
    // Whatever the record shows, a relaxation is never taken on something that isn't known.
    return resultOf(check, { ...found, verdict: 'not-proven', reason: `${capital(fit.why)}. ${found.reason}`, takesNoPart: true }, source);
  }
  const isClose = found.verdict === 'meets' && judged.errorTicks > 0 && judgeKind(check, judged, context, judged.errorTicks).verdict !== 'meets';
  const told = judged.points.filter((point) => found.places.some((place) => place.name === point.name && place.pointId === point.id));
  const remark = `${entryRemark(told)}${doubtRemark(told)}`;
  return resultOf(check, {
    ...found,
    verdict: isClose ? 'meets-within-error' : found.verdict,
    reason: `${found.reason}${isClose ? ' Within the thermometer’s error.' : ''}${remark}`,
  }, source);
}

function judgeKind(check: Check, judged: JudgeCase, context: JudgeContext, shiftTicks: number): Finding {
  switch (check.kind) {
    case 'hold': return judgeHold(check, judged, context, shiftTicks);
    case 'freeze': return judgeFreeze(check, judged, context, shiftTicks);
    case 'ceiling': return check.record === 'raw' || check.record === 'thaw' ? judgeRaw(check, judged, context, shiftTicks) : judgeCeiling(check, judged, context, shiftTicks);
    case 'descent': return judgeDoubtedDescent(check, judged, context, shiftTicks);
    case 'probe-count': return judgeProbeCount(check, judged, context);
    case 'brine-start': return judgeBrineStart(check, judged, context, shiftTicks);
    case 'soak-room': return judgeSoakRoom(check, judged, context, shiftTicks);
    case 'water-phase-salt': return judgeWaterPhaseSalt(check, judged);
    case 'total-salt': return judgeTotalSalt(check, judged);
    case 'nitrite-maximum': return judgeNitriteMaximum(check, judged, context);
    case 'nitrite-none': return judgeNitriteNone(check, judged, context);
    case 'unmeasured': return plainFinding('not-proven', `No record of ours holds a ${check.what}.`, `A ${check.what}.`);
    case 'frozen-before-seal': return judgeFrozenBeforeSeal(check, judged, context);
    case 'pack-ban': return judgePackBan(check, judged);
    case 'no-figure': return plainFinding('no-figure', `${check.title}: no figure, so nothing is proven.`, 'A figure of your own, from your process authority.');
    case 'presence': return judgeBrineReuse(check, judged, context);
    case 'review': return judgeReview(check, judged, context);
    case 'permission': return judgePermission(check, judged, context);
    case 'calibration': return judgeCalibration(check, judged, context);
    case 'retention': return judgeRetention(check, judged);
    case 'label': return judgeLabel(check, judged, context);
    case 'film': return judgeFilm(check, judged);
  }
}

function resultOf(check: Check, found: Finding, source: Source | undefined): CheckResult {
  const minutes = (ms: number | undefined) => (ms === undefined ? undefined : ms / MINUTE_MS);
  return {
    checkId: check.id, title: check.title, question: check.question, gate: check.gate, kind: check.kind,
    verdict: found.verdict, reason: found.reason, needed: found.needed,
    requiredMinutes: minutes(found.requiredMs), provenMinutes: minutes(found.provenMs), possibleMinutes: minutes(found.possibleMs),
    shortestMinutes: minutes(found.shortestMs), longestMinutes: minutes(found.longestMs),
    spans: found.spans, pieces: found.places, source,
    takesNoPart: found.takesNoPart === true,
    frozenStandsIn: 'frozenStandsIn' in check && check.frozenStandsIn,
  };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
