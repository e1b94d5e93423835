/** What a limit would have needed, said so that the next batch can be kept to it. */
import { heatRule, measurePlace, type HoldRule, type PlaceHold } from '../../../../app/limits/hold-rule.ts';
import type { CheckResult } from '../../../../app/limits/judge.ts';
import type { JudgeCase } from '../../../../app/limits/judge-case.ts';
import type { Check, HoldCheck } from '../../../../app/limits/limit-set.ts';
import { isGap, pointsOf } from '../../../../app/limits/readings.ts';
import { nameText, type Words } from '../../../../app/limits/words.ts';

interface Gap {
  readonly fromMs: number;
  readonly toMs: number;
}

/** The judge's own sentence; for a hold that was not shown, what every piece must do and which gaps broke the record. */
export function neededSentence(check: Check | undefined, result: CheckResult, judged: JudgeCase, words: Words): string {
  if (result.verdict === 'does-not-apply' || result.needed === '') return '';
  const isLost = result.verdict === 'misses' || result.verdict === 'not-proven';
  return check?.kind === 'hold' && isLost ? holdSentence(check, judged, words) : result.needed;
}

function holdSentence(check: HoldCheck, judged: JudgeCase, words: Words): string {
  const rule = heatRule(check, 0);
  const holds = pointsOf(judged, 'piece', 'process').map((point) => measurePlace(point, rule, judged, judged.records.process));
  const shortestGapMs = Math.min(...holds.map((hold) => hold.maxGapMs));
  const without = Number.isFinite(shortestGapMs) ? `without a gap over ${words.lasting(shortestGapMs)}` : 'without a gap';
  const gaps = holds.filter((hold) => hold.provenMs < rule.requiredMs).flatMap((hold) => gapWords(hold, rule, judged, words));
  return [`Every piece must be kept at ${rule.text} for ${words.lasting(rule.requiredMs)} ${without}.`, ...gaps].join(' ');
}

/** The widest gap of a piece that may have hidden its hold: one with a reading in at an end. */
function gapWords(hold: PlaceHold, rule: HoldRule, judged: JudgeCase, words: Words): string[] {
  const widest = gapsBesideHold(hold, rule, judged).toSorted((one, other) => other.toMs - other.fromMs - (one.toMs - one.fromMs)).at(0);
  if (widest === undefined) return [];
  return [`${ownerText(nameText('piece', hold.point.name))} record has a gap from ${words.at(widest.fromMs)} to ${words.at(widest.toMs)}.`];
}

function gapsBesideHold(hold: PlaceHold, rule: HoldRule, judged: JudgeCase): Gap[] {
  const { readings } = hold;
  const { inMs, outMs } = judged.records.process;
  const gaps: Gap[] = [];
  for (const [index, reading] of readings.entries()) {
    const before = readings[index - 1];
    if (before === undefined || !isGap(before, reading, hold.maxGapMs)) continue;
    if (rule.isIn(before) || rule.isIn(reading)) gaps.push({ fromMs: before.atMs, toMs: reading.atMs });
  }
  const [first, last] = [readings.at(0), readings.at(-1)];
  if (first !== undefined && inMs !== undefined && rule.isIn(first) && first.atMs - inMs > hold.maxGapMs) gaps.push({ fromMs: inMs, toMs: first.atMs });
  if (last !== undefined && outMs !== undefined && rule.isIn(last) && outMs - last.atMs > hold.maxGapMs) gaps.push({ fromMs: last.atMs, toMs: outMs });
  return gaps;
}

function ownerText(name: string): string {
  return name.endsWith('s') ? `${name}’` : `${name}’s`;
}
