/** How fast salt goes into a species here: the usual figure, or one fitted to the kitchen's own analysed pieces. */
import type { FishSpecies } from '../../../app/brine/fish-species.ts';
import { usualCoefficient } from '../../../app/brine/uptake-coefficient.ts';
import type { SoakSample } from '../../../app/contract/requests/brine-bench.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { bathAt, brineMends, soakMarkMs, soakTemperatures } from './soak-bath.ts';
import { fitUptake, type UptakeFit, type UptakeSample } from './uptake-fit.ts';

const HOUR_MS = 3_600_000;

/**
 * The coefficient of a species, fitted to all samples of it in the book. Of a brine that was mended
 * while the fish was in it no sample after the mend counts: it soaked in two baths.
 */
export function coefficientFor(room: BookRoom, fish: FishSpecies): UptakeFit {
  const samples = room.book.shelf('soakSamples').all().flatMap((sample) => {
    const batch = room.book.shelf('batches').need(sample.batchId);
    return batch.speciesId === fish.scientificName ? (uptakeSample(room, batch, fish, sample) ?? []) : [];
  });
  return fitUptake(samples, usualCoefficient(fish.fatPercent));
}

function uptakeSample(room: BookRoom, batch: StoredBatch, fish: FishSpecies, sample: SoakSample): UptakeSample | undefined {
  const startMs = soakMarkMs(batch, 'start');
  const isMendedBefore = brineMends(batch).some((mend) => startMs !== undefined && mend.atMs > startMs && mend.atMs <= sample.takenAtMs);
  if (startMs === undefined || batch.card.cure === 'dry' || isMendedBefore) return undefined;
  const { coldestCelsius, warmestCelsius } = soakTemperatures(room, batch);
  const outMs = Math.min(sample.takenAtMs, soakMarkMs(batch, 'end') ?? sample.takenAtMs);
  const [salt, moisture] = [Number(sample.saltPercent), Number(sample.moisturePercent)];
  return {
    thicknessMm: sample.thicknessMm, skin: batch.skin, hours: (outMs - startMs) / HOUR_MS, celsius: (coldestCelsius + warmestCelsius) / 2,
    fish: { grams: batch.fillets.grams, moistureFraction: fish.moisturePercent / 100, saltFraction: fish.saltPercent / 100 },
    bath: bathAt(room, batch, startMs),
    measuredWaterPhasePercent: (100 * salt) / (salt + moisture),
  };
}
