/** A hold measured on one piece or place: how long it is proven to have lasted, and how long it may have. */
import type { JudgeCase, MeasuredPoint, Reading, RecordSpan } from './judge-case.ts';
import type { FreezeCheck, HoldCheck } from './limit-set.ts';
import { betweenMarks, limitTicks, maxGapMs, mergeReadings, spanMs, type GapRule } from './readings.ts';
import { findStretches, lengthOf, longest, type Stretches } from './stretches.ts';
import { figureText } from './words.ts';

const MINUTE_MS = 60_000;

export interface HoldRule {
  /** The limit as it is compared, so that a rule asked again is known. */
  readonly ticks: number;
  readonly requiredMs: number;
  /** “145 °F or above”, as the law has it. */
  readonly text: string;
  readonly worse: 'lower' | 'higher';
  readonly gap: GapRule;
  /** Whether it satisfies the limit; one in doubt never does until a person has decided. */
  isIn(reading: Reading): boolean;
}

export interface PlaceHold {
  readonly point: MeasuredPoint;
  /** Merged, in order, between the marks. */
  readonly readings: readonly Reading[];
  readonly recordMs: number;
  readonly maxGapMs: number;
  readonly stretches: Stretches;
  readonly provenMs: number;
  readonly possibleMs: number;
}

/** A minimum: at or above the limit, moved up by the instrument's error. */
export function heatRule(check: HoldCheck, shiftTicks: number): HoldRule {
  const ticks = limitTicks(check.limit) + shiftTicks;
  return {
    ticks,
    requiredMs: check.minutes * MINUTE_MS,
    text: `${figureText(check.limit)} or above`,
    worse: 'lower',
    gap: { kind: 'heat-hold' },
    isIn: (reading) => reading.doubt === undefined && reading.lowTicks >= ticks,
  };
}

/** Its mirror, a maximum: at or below the limit, moved down by the instrument's error. */
export function freezeRule(check: FreezeCheck, shiftTicks: number, limit = check.limit): HoldRule {
  const ticks = limitTicks(limit) - shiftTicks;
  const requiredMs = check.minutes * MINUTE_MS;
  return {
    ticks,
    requiredMs,
    text: `${figureText(limit)} or below`,
    worse: 'higher',
    gap: { kind: 'freeze-hold', requiredMs },
    isIn: (reading) => reading.doubt === undefined && reading.highTicks <= ticks,
  };
}

/**
 * Measures a rule on one point.
 * @param span its marks; readings before the in mark never count, for a place none after the out mark either
 */
export function measurePlace(point: MeasuredPoint, rule: HoldRule, judged: JudgeCase, span: RecordSpan): PlaceHold {
  // The hold, the count of probes and the start of cooling all ask for the same.
  const measured = measuredOf.get(point) ?? new Map<string, PlaceHold>();
  measuredOf.set(point, measured);
  const key = [rule.worse, rule.ticks, rule.requiredMs, rule.gap.kind, judged.maxGapMs, judged.nominalIntervalMs, span.inMs, span.outMs].join(' ');
  const hold = measured.get(key) ?? measure(point, rule, judged, span);
  measured.set(key, hold);
  return hold;
}

const measuredOf = new WeakMap<MeasuredPoint, Map<string, PlaceHold>>();

function measure(point: MeasuredPoint, rule: HoldRule, judged: JudgeCase, span: RecordSpan): PlaceHold {
  const readings = betweenMarks(mergeReadings(point.readings, rule.worse), span.inMs, point.role === 'piece' ? undefined : span.outMs);
  const longestStep = maxGapMs(rule.gap, readings, judged);
  const stretches = findStretches(readings, { isIn: (reading) => rule.isIn(reading), maxGapMs: longestStep, inMs: span.inMs, outMs: span.outMs });
  return {
    point, readings, recordMs: spanMs(readings), maxGapMs: longestStep, stretches,
    provenMs: lengthOf(longest(stretches.proven)),
    possibleMs: lengthOf(longest(stretches.possible)),
  };
}

/** A piece's completed holds in order of time: proven stretches that last long enough. */
export function completedHolds(hold: PlaceHold, requiredMs: number) {
  return hold.stretches.proven.filter((stretch) => lengthOf(stretch) >= requiredMs);
}
