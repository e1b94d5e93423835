/** Spot checks: what a short record of one piece takes from the hold that the others keep. */
import type { HoldRule, PlaceHold } from './hold-rule.ts';
import { placeAfter, placeOf } from './reading-order.ts';
import type { Stretch } from './stretches.ts';

/** An out reading of a spot check. */
export interface SpotOut {
  readonly hold: PlaceHold;
  readonly atMs: number;
  /** As it counts: the lower value in heat, the higher in cold. */
  readonly ticks: number;
}

/** Every out reading of the spot checks. */
export function outsOf(spots: readonly PlaceHold[], rule: HoldRule): SpotOut[] {
  return spots.flatMap((hold) => hold.readings.filter((reading) => !rule.isIn(reading))
    .map((reading): SpotOut => ({ hold, atMs: reading.atMs, ticks: rule.worse === 'lower' ? reading.lowTicks : reading.highTicks })));
}

/**
 * Stretches without what touches an out reading of a spot check: each goes on up to the last reading before it,
 * and begins again at the first one after. A stretch that no out reading touches stays whole.
 * @param holds the pieces whose readings show where a stretch ends: the one that kept it, or all that kept it together
 */
export function cutAround(stretches: readonly Stretch[], holds: readonly PlaceHold[], outs: readonly SpotOut[]): readonly Stretch[] {
  return outs.reduce<readonly Stretch[]>((left, { atMs }) => left.flatMap((stretch) => (touches(stretch, atMs) ? besides(stretch, holds, atMs) : [stretch])), stretches);
}

/** Whether an instant lies inside a stretch, its ends included. */
export function touches({ fromMs, toMs }: Stretch, atMs: number): boolean {
  return fromMs <= atMs && atMs <= toMs;
}

function besides({ fromMs, toMs }: Stretch, holds: readonly PlaceHold[], atMs: number): Stretch[] {
  const beforeMs = Math.max(...holds.map(({ readings }) => readings[placeOf(readings, atMs) - 1]?.atMs ?? -Infinity));
  const afterMs = Math.min(...holds.map(({ readings }) => readings[placeAfter(readings, atMs)]?.atMs ?? Infinity));
  return [{ fromMs, toMs: beforeMs }, { fromMs: afterMs, toMs }].filter((part) => part.fromMs <= part.toMs);
}
