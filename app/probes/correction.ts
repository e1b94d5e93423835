/**
 * What a check of a thermometer says about its readings: an offset from one point, a straight line through two.
 * Computed exactly, as fractions of ticks, and cut to the ticks on both sides. Readings themselves are never
 * changed: of the raw and the corrected value the less favourable decides.
 */
import type { KnownTemperature } from '../heat/boiling-point.ts';
import type { Reading } from '../limits/judge-case.ts';
import { differenceTicks, formatDegrees, TICKS_PER_CELSIUS, type TickBounds } from '../measures/temperature.ts';
import { bad, good, type Outcome } from '../measures/outcome.ts';

export type CheckKind = 'ice' | 'boiling' | 'comparison';

/** What a thermometer showed where the temperature was known. */
export interface CheckPoint {
  readonly kind: CheckKind;
  readonly shown: TickBounds;
  readonly reference: KnownTemperature;
}

/** True = reference + (shown − its reading there) × reference span / shown span; all in ticks. */
interface CorrectionLine {
  readonly shownTicks: number;
  readonly referenceTicks: number;
  readonly shownSpanTicks: number;
  readonly referenceSpanTicks: number;
}

export interface Correction {
  readonly kind: 'offset' | 'two-point';
  /** One line, or the few that points between two ticks allow. */
  readonly lines: readonly CorrectionLine[];
}

/** Beyond these a thermometer is replaced, not corrected (common practice). */
const LARGEST_BIAS_TICKS = differenceTicks(2, 'C');
const LEAST_SPAN_TICKS = 30 * TICKS_PER_CELSIUS;
const LARGEST_SLOPE_PARTS_PER_HUNDRED = 3;

/**
 * The correction that one check gives, or two points of one.
 * @returns a problem where the thermometer is past correcting, or two points lie too close to draw a line
 */
export function correctionFrom(points: readonly [CheckPoint] | readonly [CheckPoint, CheckPoint]): Outcome<Correction> {
  const off = points.find((point) => Math.max(...biasTicks(point).map(Math.abs)) > LARGEST_BIAS_TICKS);
  if (off !== undefined) {
    return bad(`It is off by more than ${formatDegrees(LARGEST_BIAS_TICKS, 'C', 0)} °C at the ${pointName(off.kind)}.`, 'shown', 'Replace the thermometer; a correction this large is not to be trusted.');
  }
  const [first, second] = points;
  if (second === undefined) return good({ kind: 'offset', lines: distinct(corners(first.shown, first.reference.bounds).map(([shown, reference]) => line(shown, reference, 1, 1))) });
  const [low, high] = first.reference.bounds.lowTicks <= second.reference.bounds.lowTicks ? [first, second] : [second, first];
  if (high.reference.bounds.lowTicks - low.reference.bounds.highTicks < LEAST_SPAN_TICKS) {
    return bad('The two points of the check lie less than 30 °C apart.', 'reference', 'Check once in ice and once in boiling water.');
  }
  const lines = distinct(corners(low.shown, low.reference.bounds).flatMap(([shown, reference]) => corners(high.shown, high.reference.bounds).map(([shownHigh, referenceHigh]) => line(shown, reference, shownHigh - shown, referenceHigh - reference))));
  if (lines.some((one) => Math.abs(one.referenceSpanTicks - one.shownSpanTicks) * 100 > LARGEST_SLOPE_PARTS_PER_HUNDRED * one.shownSpanTicks)) {
    return bad('Between the two points it gains or loses more than 3 %.', 'shown', 'Replace the thermometer.');
  }
  return good({ kind: 'two-point', lines });
}

/**
 * What each point of a check shifts a reading by, however much that is: for a thermometer past correcting, whose
 * readings count with all that its points leave possible.
 */
export function offsetsOf(points: readonly CheckPoint[]): Correction {
  return { kind: 'offset', lines: distinct(points.flatMap((point) => corners(point.shown, point.reference.bounds).map(([shown, reference]) => line(shown, reference, 1, 1)))) };
}

/** A reading corrected: the ticks on both sides of the exact value. */
export function correctTicks(correction: Correction, raw: TickBounds): TickBounds {
  return {
    lowTicks: Math.min(...correction.lines.map((one) => floorOnLine(one, raw.lowTicks))),
    // Counted downwards, rounding down rounds up.
    highTicks: Math.max(...correction.lines.map((one) => 0 - floorOnLine(negated(one), -raw.highTicks))),
  };
}

/** Bounds that cover both the raw and the corrected value, so that a minimum and a maximum each meet the less favourable. */
export function coverTicks(correction: Correction | undefined, raw: TickBounds): TickBounds {
  if (correction === undefined) return raw;
  const corrected = correctTicks(correction, raw);
  return { lowTicks: Math.min(raw.lowTicks, corrected.lowTicks), highTicks: Math.max(raw.highTicks, corrected.highTicks) };
}

/** The same readings as the judge wants them; instants and remarks stay. */
export function coverReadings(correction: Correction | undefined, readings: readonly Reading[]): Reading[] {
  return readings.map((reading) => ({ ...reading, ...coverTicks(correction, reading) }));
}

/** By how much the thermometer shows too much at a point, least and most, in ticks; below zero too little. */
export function biasTicks(point: CheckPoint): [least: number, most: number] {
  const { shown, reference: { bounds } } = point;
  return [shown.lowTicks - bounds.highTicks, shown.highTicks - bounds.lowTicks];
}

/** “ice point”, “boiling point”, “comparison”. */
export function pointName(kind: CheckKind): string {
  return kind === 'comparison' ? 'comparison' : `${kind} point`;
}

function line(shownTicks: number, referenceTicks: number, shownSpanTicks: number, referenceSpanTicks: number): CorrectionLine {
  return { shownTicks, referenceTicks, shownSpanTicks, referenceSpanTicks };
}

/** Every pair of a side of one and a side of the other. */
function corners(left: TickBounds, right: TickBounds): [number, number][] {
  return sides(left).flatMap((one) => sides(right).map((other): [number, number] => [one, other]));
}

function sides({ lowTicks, highTicks }: TickBounds): number[] {
  return lowTicks === highTicks ? [lowTicks] : [lowTicks, highTicks];
}

function distinct(lines: readonly CorrectionLine[]): CorrectionLine[] {
  return [...new Map(lines.map((one) => [Object.values(one).join(' '), one])).values()];
}

function floorOnLine(one: CorrectionLine, ticks: number): number {
  return one.referenceTicks + floorRatio(ticks - one.shownTicks, one.referenceSpanTicks, one.shownSpanTicks);
}

/** The line for temperatures counted downwards. */
function negated(one: CorrectionLine): CorrectionLine {
  return { ...one, shownTicks: -one.shownTicks, referenceTicks: -one.referenceTicks };
}

/** `left × right / divisor` rounded down, without ever leaving whole numbers; the divisor is above zero. */
function floorRatio(left: number, right: number, divisor: number): number {
  const product = left * right;
  if (Number.isSafeInteger(product)) return (product - (((product % divisor) + divisor) % divisor)) / divisor;
  const exact = BigInt(left) * BigInt(right);
  const wide = BigInt(divisor);
  return Number((exact - (((exact % wide) + wide) % wide)) / wide);
}
