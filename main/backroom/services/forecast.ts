/** The forecast of a batch's soak: an estimate for its thickest and its thinnest piece. It proves nothing. */
import { equilibriumFraction } from '../../../app/brine/balance.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import { LONG_SOAK_HOURS, soakForecast, type PieceForecast, type ReachHours, type SoakedPiece, type SoakEstimate } from '../../../app/brine/soak-forecast.ts';
import type { SoakOrder } from '../../../app/brine/soak-order.ts';
import type { Forecast, PieceForecast as WirePiece } from '../../../app/contract/requests/tub.ts';
import type { StoredBatch } from '../book/stored.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { forecastGoal } from './forecast-goal.ts';
import { coefficientWords, forecastNotes } from './forecast-words.ts';
import { bathAt, brineMends, soakMarkMs, soakTemperatures } from './soak-bath.ts';
import { coefficientFor } from './soak-coefficient.ts';
import { refuseDryCure } from './soak-sample.ts';
import { fishOf } from './species.ts';

const HOUR_MS = 3_600_000;

/**
 * Forecasts the soak of a batch in its brine as it is now, at the coldest, the middle and the warmest
 * temperature that brine or place were read at: the range holds all three.
 * @throws Refusal RULE_BLOCKS for a dry cure
 */
export function forecastSoak(room: BookRoom, batch: StoredBatch): Forecast {
  refuseDryCure(batch);
  const species = fishOf(room, batch.speciesId);
  const fish = { grams: batch.fillets.grams, moistureFraction: species.moisturePercent / 100, saltFraction: species.saltPercent / 100 };
  const bath = bathAt(room, batch, Number.POSITIVE_INFINITY);
  const { yieldPercent } = batch.card.finishedEstimate;
  const goal = forecastGoal(room, batch, 100 * equilibriumFraction(fish, bath));
  const fit = coefficientFor(room, species);
  const temperatures = soakTemperatures(room, batch);
  const { coldestCelsius, warmestCelsius } = temperatures;
  const mendedMs = mendInSoakMs(batch);
  const order: Omit<SoakOrder, 'celsius'> = {
    fish, bath, thickestMm: batch.thickestMm, thinnestMm: batch.thinnestMm ?? batch.thickestMm, skin: batch.skin,
    soakHours: hoursLeft(batch, mendedMs), target: goal.target, yieldPercent, coefficient: fit,
  };
  const [cold, middle, warm] = [coldestCelsius, (coldestCelsius + warmestCelsius) / 2, warmestCelsius].map((celsius) => unwrap(soakForecast({ ...order, celsius }), 'RULE_BLOCKS'));
  if (cold === undefined || middle === undefined || warm === undefined) throw new Error('a forecast was lost');
  return {
    thickest: merge(cold.thickest, middle.thickest, warm.thickest),
    thinnest: merge(cold.thinnest, middle.thinnest, warm.thinnest),
    target: goal.words, soakHours: order.soakHours, longHours: LONG_SOAK_HOURS, yieldPercent,
    coefficient: coefficientWords(fit, species.fatPercent),
    fittedSamples: fit.samples,
    notes: forecastNotes(room, batch, temperatures, mendedMs),
  };
}

/** The last mend of the brine with the fish in it; undefined without one. */
function mendInSoakMs(batch: StoredBatch): number | undefined {
  const startMs = soakMarkMs(batch, 'start');
  return brineMends(batch).findLast((mend) => startMs !== undefined && mend.atMs > startMs)?.atMs;
}

/** What is left of the planned soak after a mend, or all of it: then too where the mend came at its end. */
function hoursLeft(batch: StoredBatch, mendedMs: number | undefined): number {
  const planned = batch.recipe.soakHours;
  const startMs = soakMarkMs(batch, 'start');
  if (mendedMs === undefined || startMs === undefined) return planned;
  const left = planned - (mendedMs - startMs) / HOUR_MS;
  return left > 0 ? left : planned;
}

function merge(cold: PieceForecast, middle: PieceForecast, warm: PieceForecast): WirePiece {
  return {
    thicknessMm: Number(plainNumber(middle.thicknessMm, 2)),
    reaches: hoursOf([cold, middle, warm].map((piece) => piece.reaches), middle.reaches),
    planned: soakedOf([cold, middle, warm].map((piece) => piece.afterSoak), middle.afterSoak),
    long: soakedOf([cold, middle, warm].map((piece) => piece.afterLongSoak), middle.afterLongSoak),
  };
}

/** Earliest of all, latest of all; null where one of them never gets there. */
function hoursOf(all: readonly (ReachHours | undefined)[], likely: ReachHours | undefined): WirePiece['reaches'] {
  const earliest = all.flatMap((hours) => hours?.earliestHours ?? []);
  const latest = all.map((hours) => hours?.latestHours ?? null);
  return {
    earliest: earliest.length === 0 ? null : Math.min(...earliest),
    likely: likely?.likelyHours ?? null,
    latest: latest.includes(null) ? null : Math.max(...latest.map((hours) => hours ?? 0)),
  };
}

function soakedOf(all: readonly SoakedPiece[], likely: SoakedPiece): WirePiece['planned'] {
  const finished = all.map((piece) => piece.finished).filter((estimate) => estimate !== undefined);
  return {
    brined: rangeOf(all.map((piece) => piece.brined), likely.brined),
    finished: likely.finished === undefined || finished.length < all.length ? null : rangeOf(finished, likely.finished),
  };
}

function rangeOf(all: readonly SoakEstimate[], likely: SoakEstimate): { percent: number; low: number; high: number } {
  return { percent: likely.percent, low: Math.min(...all.map((estimate) => estimate.lowPercent)), high: Math.max(...all.map((estimate) => estimate.highPercent)) };
}
