/** A place's record as spans: what counts, what does not, and why. */
import type { Span } from './finding.ts';
import type { PlaceHold, HoldRule } from './hold-rule.ts';
import type { RecordSpan } from './judge-case.ts';
import { isGap } from './readings.ts';
import type { Words } from './words.ts';

/** Stretches in, stretches out and gaps of one place, in order of time. */
export function spansOf(hold: PlaceHold, rule: HoldRule, span: RecordSpan, words: Words): Span[] {
  const pointId = hold.point.id;
  const spans: Span[] = [];
  const push = (fromMs: number, toMs: number, counts: boolean, why: string) => spans.push({ fromMs, toMs, counts, why, pointId });
  const gap = (fromMs: number, toMs: number) => push(fromMs, toMs, false, `no reading for ${words.lasting(toMs - fromMs)}`);
  const first = hold.readings[0];
  const last = hold.readings.at(-1);
  if (first === undefined || last === undefined) return spans;
  if (span.inMs !== undefined && first.atMs - span.inMs > hold.maxGapMs) gap(span.inMs, first.atMs);
  let startMs = first.atMs;
  hold.readings.forEach((reading, index) => {
    const after = hold.readings[index + 1];
    const isIn = rule.isIn(reading);
    const broken = after !== undefined && isGap(reading, after, hold.maxGapMs);
    if (after !== undefined && !broken && rule.isIn(after) === isIn) return;
    push(startMs, reading.atMs, isIn, isIn ? rule.text : `not ${rule.text}`);
    if (after === undefined) return;
    if (broken) gap(reading.atMs, after.atMs);
    startMs = after.atMs;
  });
  if (span.outMs !== undefined && span.outMs - last.atMs > hold.maxGapMs) gap(last.atMs, span.outMs);
  return spans;
}
