/** The bath of a batch at a moment, and how cold it was kept. */
import { COLD_BRINE_CELSIUS } from '../../../app/brine/card.ts';
import type { Bath } from '../../../app/brine/balance.ts';
import { mixtureOf } from '../../../app/brine/ingredients.ts';
import type { Mend } from '../../../app/contract/requests/brine-bench.ts';
import { TICKS_PER_CELSIUS } from '../../../app/measures/temperature.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { weighedLines } from './brine-card-ingredients.ts';
import { withinSoak } from './judging/points.ts';

/** What the uptake is known for; a bath is brought to the nearer end. */
const COLDEST_CELSIUS = 0;
const WARMEST_CELSIUS = 30;

/** In °C; `ground` says in words where they come from. */
export interface SoakTemperatures {
  readonly coldestCelsius: number;
  readonly warmestCelsius: number;
  readonly ground: string;
}

/** Salt and water of the brine at a moment: of the card, or where it was mended after that, as it was found to be before. */
export function bathAt(room: BookRoom, batch: StoredBatch, atMs: number): Bath {
  const next = brineMends(batch).find((mend) => mend.atMs > atMs);
  if (next === undefined) return mixtureOf(weighedLines(room, batch));
  const { totalGrams, percentByWeight, waterPhasePercent } = next.before;
  const saltGrams = (totalGrams * percentByWeight) / 100;
  return { saltGrams, waterGrams: waterPhasePercent === 0 ? totalGrams : saltGrams * (100 / waterPhasePercent - 1) };
}

/** Mends that changed the brine, oldest first; freshening does nothing to it. */
export function brineMends(batch: Pick<StoredBatch, 'mends'>): readonly Mend[] {
  return batch.mends.filter((mend) => mend.kind !== 'too-salty').toSorted((one, other) => one.atMs - other.atMs);
}

/** When the soak began or ended; undefined while it hasn't. */
export function soakMarkMs(batch: Pick<StoredBatch, 'soak'>, what: 'start' | 'end'): number | undefined {
  return batch.soak.find((event) => event.what === what)?.atMs;
}

/** The coldest and the warmest that brine or room were read at in the soak; 38 °F for both before anything was read. */
export function soakTemperatures(room: BookRoom, batch: StoredBatch): SoakTemperatures {
  const brine = batch.soak.flatMap((event) => event.brineTicks ?? []);
  const typedRoom = batch.soak.flatMap((event) => event.roomTicks ?? []);
  const placeReadings = batch.brinePlaceId === null ? [] : withinSoak(batch, room.book.readings(batch.brinePlaceId));
  const ticks = [...brine, ...typedRoom];
  for (const { lowTicks, highTicks } of placeReadings) ticks.push(lowTicks, highTicks);
  if (ticks.length === 0) return { coldestCelsius: COLD_BRINE_CELSIUS, warmestCelsius: COLD_BRINE_CELSIUS, ground: 'a brine kept at 38 °F: nothing has been read yet' };
  const celsius = (value: number): number => Math.min(WARMEST_CELSIUS, Math.max(COLDEST_CELSIUS, value / TICKS_PER_CELSIUS));
  return {
    coldestCelsius: celsius(ticks.reduce((least, value) => Math.min(least, value))),
    warmestCelsius: celsius(ticks.reduce((most, value) => Math.max(most, value))),
    ground: placeReadings.length > 0 ? 'the brine and its place as read in this soak' : 'the brine as read in this soak',
  };
}
