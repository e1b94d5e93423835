/** What checks leave open of a thermometer: its error, kept apart from the bias that they found. */
import { differenceTicks, TICKS_PER_CELSIUS } from '../measures/temperature.ts';
import { biasTicks, type CheckKind, type CheckPoint } from './correction.ts';
import { inOrder, pointsInForce, ticksOf, type InstrumentCheck, type InstrumentFacts } from './instrument-check.ts';

/** Of a thermometer that nothing is known of (common practice). */
export const UNKNOWN_ERROR_TICKS = differenceTicks(2, 'F');
/** A point this cold speaks for the cold end. */
const COLD_END_TICKS = 10 * TICKS_PER_CELSIUS;
/** A point this hot speaks for the hot end: 145 °F is 62.8 °C. */
const HOT_END_TICKS = 60 * TICKS_PER_CELSIUS;

export interface RemainingError {
  /** The step it shows: half of it open when it was checked, half when it is read. */
  readonly resolutionTicks: number;
  /** How far what it was checked against may be off: weather at the boiling point, the reference thermometer. */
  readonly referenceTicks: number;
  /** The largest change from one check to the next at one point; undefined until a point was checked twice. */
  readonly driftTicks: number | undefined;
  /** What the judge moves limits by. */
  readonly totalTicks: number;
  /** How it comes about, in words. */
  readonly ground: string;
}

/**
 * The error that remains after correcting.
 * @param checks those that still speak for the instrument (since it was mended, say), in any order
 * @param use `cold` needs a point at the cold end; `hot`, which runs from fish in to cooled, one at each end
 */
export function remainingError(checks: readonly InstrumentCheck[], facts: InstrumentFacts, use: 'cold' | 'hot'): RemainingError {
  const ordered = inOrder(checks);
  const points = pointsInForce(checks);
  const resolutionTicks = ticksOf(facts.resolution);
  if (points.length === 0) return { resolutionTicks, referenceTicks: 0, driftTicks: undefined, totalTicks: UNKNOWN_ERROR_TICKS, ground: 'no check on file, so 2 °F' };
  const referenceTicks = Math.max(...points.map((point) => point.reference.errorTicks));
  const drifts = points.map((point) => driftAt(point.kind, ordered));
  const known = drifts.filter((drift) => drift !== undefined);
  const driftTicks = known.length === 0 ? undefined : Math.max(...known);
  const sumTicks = resolutionTicks + referenceTicks + (driftTicks ?? 0);
  const open = [...(isBracketed(points, use) ? [] : [`not checked at ${use === 'hot' ? 'both ends' : 'the cold end'}`]), ...(known.length < drifts.length ? ['checked once, so its drift is not known'] : [])];
  if (open.length === 0) return { resolutionTicks, referenceTicks, driftTicks, totalTicks: sumTicks, ground: 'its step, what it was checked against, and its drift between checks' };
  const assumed = facts.accuracyClass === undefined ? { ticks: UNKNOWN_ERROR_TICKS, text: '2 °F' } : { ticks: ticksOf(facts.accuracyClass), text: `its class, ${facts.accuracyClass.value} °${facts.accuracyClass.unit}` };
  return { resolutionTicks, referenceTicks, driftTicks, totalTicks: Math.max(sumTicks, assumed.ticks), ground: `${open.join('; ')}: ${assumed.text} at least` };
}

function isBracketed(points: readonly CheckPoint[], use: 'cold' | 'hot'): boolean {
  const isCold = points.some(({ reference }) => reference.bounds.highTicks <= COLD_END_TICKS);
  return use === 'cold' ? isCold : isCold && points.some(({ reference }) => reference.bounds.lowTicks >= HOT_END_TICKS);
}

/** The largest change of bias between successive checks of one kind; undefined for fewer than two. */
function driftAt(kind: CheckKind, ordered: readonly InstrumentCheck[]): number | undefined {
  const biases = ordered.flatMap((check) => check.points.filter((point) => point.kind === kind).map(biasTicks));
  if (biases.length < 2) return undefined;
  return biases.slice(1).reduce((largest, [least, most], index) => {
    const [leastBefore, mostBefore] = biases[index] ?? [least, most];
    return Math.max(largest, most - leastBefore, mostBefore - least);
  }, 0);
}
