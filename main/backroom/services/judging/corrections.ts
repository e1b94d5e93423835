/**
 * What the checks of thermometers make of their readings. A reading itself is never changed: it counts with bounds
 * that cover its raw value, what the last check before it makes of it, and what the first check after it does, so
 * that a minimum and a maximum each meet the least favourable of them.
 */
import { firstWhere } from '../../../../app/measures/halving.ts';
import { correctTicks, offsetsOf, type Correction } from '../../../../app/probes/correction.ts';
import { correctionInForce, pointsInForce, type InstrumentCheck } from '../../../../app/probes/instrument-check.ts';
import type { TickBounds } from '../../../../app/measures/temperature.ts';
import type { BookRoom, SeriesReading } from '../../room.ts';
import { checksOf } from '../instrument-checks.ts';

/** The checks of each thermometer by its id, in order of time; plain data, so that a judgement can keep it and be judged again. */
export type Corrections = Readonly<Record<string, readonly InstrumentCheck[]>>;

/** From one check to the next: the corrections that speak for the readings in between. */
interface Stretch {
  readonly corrections: readonly Correction[];
}

/** Worked out once for a set of checks, however many readings ask. */
const stretches = new WeakMap<readonly InstrumentCheck[], (Stretch | undefined)[]>();

/** The checks of some thermometers; those that were never checked are left out. */
export function correctionsOf(room: BookRoom, instrumentIds: readonly string[]): Corrections {
  return Object.fromEntries(instrumentIds.map((id) => [id, checksOf(room.book, id)] as const).filter(([, checks]) => checks.length > 0));
}

/** Bounds of a reading that cover its raw value and what the checks of its thermometer make of it. */
export function coverReading(corrections: Corrections, { instrumentId, atMs, lowTicks, highTicks }: SeriesReading): TickBounds {
  const checks = instrumentId === null ? undefined : corrections[instrumentId];
  if (checks === undefined) return { lowTicks, highTicks };
  return stretchAt(checks, atMs).corrections.reduce<TickBounds>((covered, correction) => {
    const corrected = correctTicks(correction, { lowTicks, highTicks });
    return { lowTicks: Math.min(covered.lowTicks, corrected.lowTicks), highTicks: Math.max(covered.highTicks, corrected.highTicks) };
  }, { lowTicks, highTicks });
}

function stretchAt(checks: readonly InstrumentCheck[], atMs: number): Stretch {
  const known = stretches.get(checks) ?? [];
  stretches.set(checks, known);
  const after = firstWhere(checks.length, (place) => (checks[place]?.atMs ?? 0) > atMs);
  const found = known[after] ?? { corrections: [checks.slice(0, after), checks.slice(0, after + 1)].flatMap(correctionBy) };
  known[after] = found;
  return found;
}

/** Where a thermometer is past correcting, its readings count with all that its check leaves possible. */
function correctionBy(checks: readonly InstrumentCheck[]): Correction[] {
  const correction = correctionInForce(checks);
  if (!correction.ok) return [offsetsOf(pointsInForce(checks))];
  return correction.value === undefined ? [] : [correction.value];
}
