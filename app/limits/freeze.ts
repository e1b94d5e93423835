/** Freezing against parasites: at or below a limit without a break, where asked only from frozen solid on. */
import { compareNames, worstBy, type Finding, type JudgeContext } from './finding.ts';
import { judgePlaces, type HoldOptions } from './hold.ts';
import { freezeRule } from './hold-rule.ts';
import type { JudgeCase, MeasuredPoint } from './judge-case.ts';
import type { FreezeCheck } from './limit-set.ts';
import { limitTicks, pointsOf } from './readings.ts';
import { isNeverCold, judgeUntilSolid, type SolidStage } from './until-solid.ts';
import { compareVerdicts, type Verdict } from './verdict.ts';
import { figureText } from './words.ts';

const MINUTE_MS = 60_000;

/** The freezing of a batch's pieces, or of its freezer; `shiftTicks` moves the limits down by the instrument's error. */
export function judgeFreeze(check: FreezeCheck, judged: JudgeCase, context: JudgeContext, shiftTicks: number): Finding {
  const pieces = pointsOf(judged, 'piece', 'freezer');
  const freezers = pointsOf(judged, 'store', 'freezer');
  const isCore = pieces.length > 0 || check.reads === 'pieces';
  const points = isCore ? pieces : freezers;
  const options: HoldOptions = { words: context.words, together: false, enough: 1, spotChecks: isCore };
  const span = judged.records.freezer;
  if (check.untilSolid === undefined) return judgePlaces(points, freezeRule(check, shiftTicks), judged, span, options);

  const stage: SolidStage = {
    judged, words: context.words, limit: check.untilSolid,
    limitTicks: limitTicks(check.untilSolid) - shiftTicks, requiredMs: check.minutes * MINUTE_MS,
  };
  if (judged.frozenMs === undefined) return withoutMark(check, points, stage, judgePlaces(points, freezeRule(check, shiftTicks), judged, span, options));
  const frozenMs = judged.frozenMs;
  const kept = judgePlaces(points, freezeRule(check, shiftTicks), judged, { ...span, inMs: Math.max(frozenMs, span.inMs ?? frozenMs) }, options);
  if (points.length === 0) return kept;
  // A core can't be colder than its freezer, but lags behind it: where the freezer was recorded, it shows the stage until solid.
  const shown = isCore && freezers.length > 0 ? freezers : points;
  const solid = worstBy(shown.map((point) => judgeUntilSolid(point, frozenMs, stage)), (left, right) => compareNames(left.reason, right.reason));
  if (solid.verdict === 'meets' || compareVerdicts(solid.verdict, kept.verdict) >= 0) return kept;
  return { ...kept, verdict: solid.verdict, reason: `${solid.reason} ${kept.reason}`, needed: solid.needed };
}

/** Without the frozen-solid mark nothing can meet; it misses only where no mark could have helped. */
function withoutMark(check: FreezeCheck, points: readonly MeasuredPoint[], stage: SolidStage, found: Finding): Finding {
  const span = stage.judged.records.freezer;
  const isOpen = span.open && span.outMs === undefined;
  const isLost = found.verdict === 'misses' || points.some((point) => isNeverCold(point, stage));
  const verdict: Verdict = isOpen ? 'open' : isLost ? 'misses' : 'not-proven';
  return {
    ...found, verdict, provenMs: 0,
    reason: `When the fish was frozen solid is not marked. ${found.reason}`,
    needed: `The time it was frozen solid; ${figureText(check.limit)} or below from then for ${stage.words.lasting(stage.requiredMs)}.`,
  };
}
