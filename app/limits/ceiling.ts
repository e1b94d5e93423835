/** Ceilings: every reading of a place at or below a limit, no gap, and where asked a time that is not gone over. */
import { compareNames, plainFinding, worstBy, type Finding, type JudgeContext, type PlaceFinding, type Span } from './finding.ts';
import type { JudgeCase, MeasuredPoint, Reading, RecordSpan } from './judge-case.ts';
import type { CeilingCheck } from './limit-set.ts';
import { betweenMarks, isGap, limitTicks, maxGapMs, mergeReadings, pointsOf, spanOf, type GapRule } from './readings.ts';
import type { Verdict } from './verdict.ts';
import { figureText, nameText, type Words } from './words.ts';

const MINUTE_MS = 60_000;

/** What one ceiling asks of one place. */
export interface CeilingRule {
  readonly limitTicks: number;
  /** Where the record is judged from the first reading at or below this; the law's own limit, error or not. */
  readonly chilledTicks?: number | undefined;
  /** Where it is known when the fish was chilled: the record is judged from here instead. */
  readonly chilledMs?: number | undefined;
  readonly text: string;
  readonly gap: GapRule;
  readonly timeLimitMs?: number | undefined;
  readonly span: RecordSpan;
  readonly isOpen: boolean;
}

interface PlaceCeiling extends PlaceFinding {
  readonly spans: readonly Span[];
  readonly overTicks: number;
}

/** The ceiling of its places; `shiftTicks` moves it down by the instrument's error. */
export function judgeCeiling(check: CeilingCheck, judged: JudgeCase, context: JudgeContext, shiftTicks: number): Finding {
  const span = spanOf(judged, check.record);
  const isOpen = span.open && span.outMs === undefined;
  const law = limitTicks(check.limit) - (check.below === true ? 1 : 0);
  const rule: CeilingRule = {
    limitTicks: law - shiftTicks,
    chilledTicks: check.stretch === 'once-chilled' ? law : undefined,
    chilledMs: check.stretch === 'once-chilled' ? judged.chilledMs : undefined,
    text: check.below === true ? `below ${figureText(check.limit)}` : `${figureText(check.limit)} or below`,
    gap: { kind: check.gap },
    timeLimitMs: check.minutes === undefined ? undefined : check.minutes * MINUTE_MS,
    span, isOpen,
  };
  return judgePlacesBelow(pointsOf(judged, check.reads, check.record), rule, judged, context.words);
}

/** A ceiling over several places; the worst decides. */
export function judgePlacesBelow(points: readonly MeasuredPoint[], rule: CeilingRule, judged: JudgeCase, words: Words): Finding {
  if (points.length === 0) {
    const over = timeOver(rule, [], judged);
    if (over === 'over') return plainFinding('misses', timeText('The record', rule, [], words), neededText(rule, words));
    return plainFinding(rule.isOpen ? 'open' : 'not-proven', 'Nothing was measured for this.', neededText(rule, words));
  }
  const places = points.map((point) => judgePlaceBelow(point, rule, judged, words));
  const worst = worstBy(places, (left, right) => right.overTicks - left.overTicks || compareNames(left.name, right.name));
  return {
    verdict: worst.verdict,
    reason: worst.text,
    needed: worst.verdict === 'meets' ? '' : neededText(rule, words),
    spans: worst.spans,
    places: places.map(({ name, pointId, verdict, text }) => ({ name, pointId, verdict, text })),
  };
}

function judgePlaceBelow(point: MeasuredPoint, rule: CeilingRule, judged: JudgeCase, words: Words): PlaceCeiling {
  const merged = betweenMarks(mergeReadings(point.readings, 'higher'), rule.span.inMs, point.role === 'piece' ? undefined : rule.span.outMs);
  const readings = sinceChilled(merged, rule);
  const name = nameText(point.role, point.name);
  const found = (verdict: Verdict, text: string): PlaceCeiling => ({
    name: point.name, pointId: point.id, verdict, text,
    spans: spansOf(point, merged, readings, rule, judged, words),
    overTicks: readings.reduce((high, reading) => Math.max(high, reading.highTicks), Number.MIN_SAFE_INTEGER),
  });
  if (readings.some((reading) => reading.highTicks > rule.limitTicks)) {
    const peak = readings.reduce((high, next) => (next.highTicks > high.highTicks ? next : high));
    return found('misses', `${name} read ${words.degrees(peak.highTicks)} at ${words.at(peak.atMs)}, not ${rule.text}.`);
  }
  if (timeOver(rule, merged, judged) === 'over') return found('misses', timeText(name, rule, merged, words));
  if (readings.length === 0) return found(rule.isOpen ? 'open' : 'not-proven', `${name}: no reading${merged.length === 0 ? '' : ' since it was chilled'}.`);
  const gap = firstGap(merged, readings, rule, judged);
  if (gap !== undefined) return found('not-proven', `${name}: no reading from ${words.at(gap.fromMs)} to ${words.at(gap.toMs)}, so a higher one may be hidden.`);
  const all = `${name}: every reading ${rule.text}`;
  if (rule.isOpen) return found('open', `${all} so far.`);
  // One reading is an instant and no stretch, whatever the marks around it, unless it covers one.
  if (readings.every((reading) => readings.length === 1 && (reading.coversSinceMs ?? reading.atMs) >= reading.atMs)) return found('not-proven', `${name}: a single reading proves no stretch of time.`);
  if (timeOver(rule, merged, judged) === 'unknown') return found('not-proven', `${all}, but the marks in and out are missing, so the time is not known.`);
  return found('meets', `${all}${rule.timeLimitMs === undefined ? '' : `, ${words.part(lastingMs(rule, merged), rule.timeLimitMs)}`}.`);
}

/** From when the fish was chilled, where that is asked: known, else the first reading at or below the law's limit. */
function sinceChilled(readings: readonly Reading[], { chilledTicks, chilledMs }: CeilingRule): readonly Reading[] {
  if (chilledMs !== undefined) return betweenMarks(readings, chilledMs);
  if (chilledTicks === undefined) return readings;
  const start = readings.findIndex((reading) => reading.highTicks <= chilledTicks);
  // Never at or below: then the whole record counts, and it is over.
  return start <= 0 ? readings : readings.slice(start);
}

/** Where the judged record begins: at the in mark, or when the fish is known to have been chilled, the later. Undefined where its first reading begins it. */
function beginMs(readings: readonly Reading[], { span, chilledMs, chilledTicks }: CeilingRule): number | undefined {
  if (chilledMs !== undefined) return Math.max(chilledMs, span.inMs ?? chilledMs);
  // It runs from the first reading at or below the limit: what lies before that is shown, read or not, and is no gap of it.
  const first = readings[0];
  return chilledTicks !== undefined && first !== undefined && first.highTicks <= chilledTicks ? undefined : span.inMs;
}

function lastingMs(rule: CeilingRule, readings: readonly Reading[]): number {
  const fromMs = rule.span.inMs ?? readings[0]?.atMs;
  const toMs = rule.span.outMs ?? readings.at(-1)?.atMs;
  return fromMs === undefined || toMs === undefined ? 0 : Math.max(0, toMs - fromMs);
}

/** Both marks tell the time; without them readings alone can show it is over, and where they may stand for marks also that it is not. */
function timeOver(rule: CeilingRule, readings: readonly Reading[], judged: JudgeCase): 'over' | 'within' | 'unknown' {
  if (rule.timeLimitMs === undefined) return 'within';
  if (lastingMs(rule, readings) > rule.timeLimitMs) return 'over';
  const isMarked = rule.span.inMs !== undefined && rule.span.outMs !== undefined;
  return isMarked || judged.readingsStandForMarks === true ? 'within' : 'unknown';
}

function timeText(name: string, rule: CeilingRule, readings: readonly Reading[], words: Words): string {
  return `${name}: ${words.lasting(lastingMs(rule, readings))} from in to out, over the ${words.lasting(rule.timeLimitMs ?? 0)} allowed.`;
}

function neededText(rule: CeilingRule, words: Words): string {
  const time = rule.timeLimitMs === undefined ? '' : `, ${words.lasting(rule.timeLimitMs)} at most from in to out`;
  return `Every reading ${rule.text}${time}, without a gap.`;
}

/** The first stretch without readings: at the in mark, between readings, at the out mark. */
function firstGap(merged: readonly Reading[], readings: readonly Reading[], rule: CeilingRule, judged: JudgeCase) {
  return gapsOf(merged, readings, rule, judged)[0];
}

function gapsOf(merged: readonly Reading[], readings: readonly Reading[], rule: CeilingRule, judged: JudgeCase): { fromMs: number; toMs: number }[] {
  const longestMs = maxGapMs(rule.gap, merged, judged);
  const gaps: { fromMs: number; toMs: number }[] = [];
  const first = readings[0];
  const last = readings.at(-1);
  if (first === undefined || last === undefined) return gaps;
  const fromMs = beginMs(readings, rule);
  if (fromMs !== undefined && first.atMs - fromMs > longestMs) gaps.push({ fromMs, toMs: first.atMs });
  readings.slice(1).forEach((reading, index) => {
    const before = readings[index];
    if (before !== undefined && isGap(before, reading, longestMs)) gaps.push({ fromMs: before.atMs, toMs: reading.atMs });
  });
  if (rule.span.outMs !== undefined && rule.span.outMs - last.atMs > longestMs) gaps.push({ fromMs: last.atMs, toMs: rule.span.outMs });
  return gaps;
}

function spansOf(point: MeasuredPoint, merged: readonly Reading[], readings: readonly Reading[], rule: CeilingRule, judged: JudgeCase, words: Words): Span[] {
  const spans: Span[] = [];
  const push = (fromMs: number, toMs: number, counts: boolean, why: string) => spans.push({ fromMs, toMs, counts, why, pointId: point.id });
  const first = readings[0];
  const [firstMerged, lastMerged] = [merged[0], merged.at(-1)];
  const chilledMs = beginMs(readings, rule) ?? first?.atMs ?? lastMerged?.atMs;
  const shownMs = rule.chilledTicks === undefined ? firstMerged?.atMs : rule.span.inMs ?? firstMerged?.atMs;
  if (shownMs !== undefined && chilledMs !== undefined && shownMs < chilledMs) push(shownMs, chilledMs, false, 'before it was chilled; shown, not judged');
  if (first === undefined) return spans;
  const gaps = gapsOf(merged, readings, rule, judged);
  const gapStarts = new Set(gaps.map((gap) => gap.fromMs));
  let startMs = first.atMs;
  readings.forEach((reading, index) => {
    const isOver = reading.highTicks > rule.limitTicks;
    const after = readings[index + 1];
    const isBroken = gapStarts.has(reading.atMs);
    if (after !== undefined && !isBroken && after.highTicks > rule.limitTicks === isOver) return;
    push(startMs, reading.atMs, !isOver, isOver ? `not ${rule.text}` : rule.text);
    if (after !== undefined) startMs = after.atMs;
  });
  for (const gap of gaps) push(gap.fromMs, gap.toMs, false, `no reading for ${words.lasting(gap.toMs - gap.fromMs)}`);
  return spans.sort((left, right) => left.fromMs - right.fromMs || left.toMs - right.toMs);
}
