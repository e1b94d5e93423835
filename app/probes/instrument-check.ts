/** Checks of a thermometer: what they found, when the next one is due, and what they leave as its error. */
import { boilingPoint, type BoilingPlace } from '../heat/boiling-point.ts';
import type { Source } from '../limits/limit-set.ts';
import { differenceTicks, TICKS_PER_CELSIUS, TICKS_PER_FAHRENHEIT, type TemperatureUnit, type TickBounds } from '../measures/temperature.ts';
import { good, type Outcome } from '../measures/outcome.ts';
import { localDay } from '../measures/zone.ts';
import { biasTicks, correctionFrom, pointName, type CheckKind, type CheckPoint, type Correction } from './correction.ts';
import { ICE_POINT } from './ice-point.ts';

/** A difference as its maker prints it: 0.5 °C. */
export interface Difference {
  readonly value: string;
  readonly unit: TemperatureUnit;
}

/** What is known of an instrument from its maker. */
export interface InstrumentFacts {
  /** The smallest step it shows. */
  readonly resolution: Difference;
  /** How far its maker says it may be off; undefined where that is not known. */
  readonly accuracyClass: Difference | undefined;
  /** Which scales its dial or display has: the allowance of law depends on it. */
  readonly scale: 'C' | 'F' | 'both';
}

export interface InstrumentCheck {
  readonly atMs: number;
  readonly points: readonly [CheckPoint] | readonly [CheckPoint, CheckPoint];
}

/** How far a food thermometer may be off. The weaker texts agree: New York 10 NYCRR 14-4.91 asks ±2 °F (read). */
export const PUBLISHED_ACCURACY: { readonly celsius: Difference; readonly fahrenheit: Difference; readonly sources: readonly Source[] } = {
  celsius: { value: '1', unit: 'C' },
  fahrenheit: { value: '2', unit: 'F' },
  sources: [
    { publisher: 'State of California', title: 'Health and Safety Code', section: '114159(c)', year: null, mark: 'read' },
    { publisher: 'US Food and Drug Administration', title: 'Food Code', section: '4-203.11', year: null, mark: 'from memory' },
  ],
};

/** When a check must be made again. */
export type DueRule =
  | { readonly kind: 'same-day'; readonly timeZone: string }
  | { readonly kind: 'months'; readonly months: number; readonly timeZone: string };

export const DUE_SOURCES: Readonly<Record<DueRule['kind'], Source>> = {
  'same-day': { publisher: 'US Food and Drug Administration', title: 'Fish and Fishery Products Hazards and Controls Guidance, 4th edition', section: 'chapter 13, verification: before use each day', year: 2011, mark: 'from memory' },
  months: { publisher: 'State of Michigan', title: 'Michigan Administrative Code, Smoked Fish', section: 'R 285.569.3(2): at least yearly', year: null, mark: 'read' },
};
/** CAL-1Y: at most so many months between full checks. */
export const FULL_CHECK_MONTHS = 12;

/** A reading in ice slush. */
export function inIce(shown: TickBounds): CheckPoint {
  return { kind: 'ice', shown, reference: ICE_POINT };
}

/** A reading in boiling water; a problem for a place where no kitchen stands. */
export function inBoilingWater(shown: TickBounds, place: BoilingPlace): Outcome<CheckPoint> {
  const reference = boilingPoint(place);
  return reference.ok ? good({ kind: 'boiling', shown, reference: reference.value }) : reference;
}

/** A reading beside a reference thermometer. @param errorTicks how far the reference itself may be off */
export function besideReference(shown: TickBounds, reference: TickBounds, errorTicks: number): CheckPoint {
  return { kind: 'comparison', shown, reference: { bounds: reference, errorTicks, ground: 'reference thermometer' } };
}

export interface CheckFinding {
  /** Against the maker's class, and against what law allows a food thermometer. */
  readonly verdict: 'within-class' | 'beyond-class' | 'beyond-law' | 'class-not-known';
  /** “Reads 1.0 °F high at the ice point; its class allows 0.5 °C.” */
  readonly text: string;
}

/** What a check found, in words; known bias, not error. @param unit the kitchen's, for the bias */
export function findingOf(check: InstrumentCheck, facts: InstrumentFacts, unit: TemperatureUnit): CheckFinding {
  const worstTicks = Math.max(...check.points.map(largestBias));
  const reads = check.points.map((point, index) => `${index === 0 ? 'Reads' : 'reads'} ${biasText(point, unit)} at the ${pointName(point.kind)}`).join(' and ');
  const law = facts.scale === 'F' ? PUBLISHED_ACCURACY.fahrenheit : PUBLISHED_ACCURACY.celsius;
  const allows = facts.accuracyClass === undefined ? 'its class is not known' : `its class allows ${facts.accuracyClass.value} °${facts.accuracyClass.unit}`;
  if (worstTicks > ticksOf(law)) return { verdict: 'beyond-law', text: `${reads}; ${allows}, and the Food Code ${law.value} °${law.unit}. Don’t judge fish by it until it is mended.` };
  const verdict = facts.accuracyClass === undefined ? 'class-not-known' : worstTicks > ticksOf(facts.accuracyClass) ? 'beyond-class' : 'within-class';
  return { verdict, text: `${reads}; ${allows}.` };
}

/**
 * Whether a check is due. One made after `nowMs` does not count.
 * @param lastCheckMs undefined where none is on file
 */
export function isDue(lastCheckMs: number | undefined, nowMs: number, rule: DueRule): boolean {
  if (lastCheckMs === undefined || lastCheckMs > nowMs) return true;
  return localDay(nowMs, rule.timeZone) > lastGoodDay(localDay(lastCheckMs, rule.timeZone), rule);
}

/** The last day on which a check of that day still stands, `YYYY-MM-DD`; the 31st may stand for a month's end. */
function lastGoodDay(day: string, rule: DueRule): string {
  if (rule.kind === 'same-day') return day;
  const [year = '', month = '', dayOfMonth = ''] = day.split('-');
  const count = Number(year) * 12 + Number(month) - 1 + rule.months;
  return `${String(Math.floor(count / 12)).padStart(4, '0')}-${String((count % 12) + 1).padStart(2, '0')}-${dayOfMonth}`;
}

/** The latest check by `nowMs`; a full one has two points. Undefined where there is none. */
export function lastCheck(checks: readonly InstrumentCheck[], nowMs: number, asks: 'any' | 'full'): InstrumentCheck | undefined {
  return inOrder(checks).filter((check) => check.atMs <= nowMs && (asks === 'any' || check.points.length === 2)).at(-1);
}

/** What the checks say of a thermometer now: the newest point of each kind, the coldest first. An ice check of today leaves the boiling point of the full check standing. */
export function pointsInForce(checks: readonly InstrumentCheck[]): CheckPoint[] {
  const newest = new Map<CheckKind, CheckPoint>();
  for (const check of inOrder(checks)) for (const point of check.points) newest.set(point.kind, point);
  return [...newest.values()].sort((left, right) => left.reference.bounds.lowTicks - right.reference.bounds.lowTicks);
}

/** The correction by the checks on file: a line through their coldest and hottest point, an offset from one; undefined without a check. A problem where the thermometer is past correcting. */
export function correctionInForce(checks: readonly InstrumentCheck[]): Outcome<Correction | undefined> {
  const points = pointsInForce(checks);
  const [coldest] = points;
  const hottest = points.at(-1);
  if (coldest === undefined || hottest === undefined) return good(undefined);
  return correctionFrom(coldest === hottest ? [coldest] : [coldest, hottest]);
}

/** A difference in ticks, rounded up. */
export function ticksOf(difference: Difference): number {
  return differenceTicks(Number(difference.value), difference.unit);
}

/** Checks in order of time. */
export function inOrder(checks: readonly InstrumentCheck[]): InstrumentCheck[] {
  return [...checks].sort((left, right) => left.atMs - right.atMs);
}

function largestBias(point: CheckPoint): number {
  return Math.max(...biasTicks(point).map((bias) => Math.abs(bias)));
}

function biasText(point: CheckPoint, unit: TemperatureUnit): string {
  const [least, most] = biasTicks(point);
  const ticks = Math.abs(least) > Math.abs(most) ? least : most;
  if (ticks === 0) return 'true';
  const hundredths = Math.round((Math.abs(ticks) * 100) / (unit === 'F' ? TICKS_PER_FAHRENHEIT : TICKS_PER_CELSIUS));
  const size = hundredths === 0 ? 'less than 0.01' : (hundredths / 100).toFixed(hundredths % 10 === 0 ? 1 : 2);
  return `${size} °${unit} ${ticks > 0 ? 'high' : 'low'}`;
}
