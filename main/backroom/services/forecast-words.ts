/** What a forecast rests on, in sentences. */
import { plainNumber } from '../../../app/brine/rounding.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { soakMarkMs, type SoakTemperatures } from './soak-bath.ts';
import { unevenCaution } from './soak-thickness.ts';
import type { UptakeFit } from './uptake-fit.ts';
import { sayInstant } from './when.ts';

/** Which coefficient, how sure, and how it is known. */
export function coefficientWords(fit: UptakeFit, fatPercent: number): string {
  const figure = `${plainNumber(fit.squareMetresPerSecond * 1e10, 2)} × 10⁻¹⁰ m²/s at 4 °C, may be ${plainNumber(fit.lowFactor, 2)} to ${plainNumber(fit.highFactor, 2)} times that`;
  const leftOut = fit.leftOut === 0 ? '' : ` ${fit.leftOut} more ${fit.leftOut === 1 ? 'tells' : 'tell'} nothing of the speed and ${fit.leftOut === 1 ? 'is' : 'are'} left out.`;
  if (fit.ground === 'usual') {
    return `The usual figure for a fish of ${plainNumber(fatPercent, 1)} % fat: ${figure} (computed from brining times by thickness, Whelan, Smoking Salmon & Trout, read as an extract; range common practice). No sample of this kitchen stands behind it.${leftOut}`;
  }
  const ground = fit.samples < 3 ? 'with so few samples the range is the usual one (common practice)' : 'range from the scatter of the samples, two standard errors to either side (computed)';
  return `Fitted to ${fit.samples} of this kitchen’s own ${fit.samples === 1 ? 'sample' : 'samples'} by least squares: ${figure}; ${ground}.${leftOut}`;
}

/** What to remember beside the figures. */
export function forecastNotes(room: BookRoom, batch: StoredBatch, temperatures: SoakTemperatures, mendedMs: number | undefined): string[] {
  const { coldestCelsius, warmestCelsius, ground } = temperatures;
  const range = coldestCelsius === warmestCelsius ? `${plainNumber(coldestCelsius, 1)} °C` : `${plainNumber(coldestCelsius, 1)} to ${plainNumber(warmestCelsius, 1)} °C`;
  const startMs = soakMarkMs(batch, 'start');
  return [
    'An estimate proves nothing and satisfies no check: only a laboratory tells the salt of the finished fish.',
    `Reckoned at ${range}: ${ground}.`,
    'The long soak of 48 h, turned once at 24 h, is common practice without a source. It is left in the cold, and thin pieces become much saltier than thick ones.',
    ...unevenCaution(batch.thickestMm, batch.thinnestMm),
    ...(batch.thinnestMm === null ? ['The thinnest piece is not known: both figures are of the thickest.'] : []),
    ...(mendedMs === undefined ? [] : [`The brine was mended with the fish in it: hours count from ${sayInstant(room, mendedMs)}, as if nothing had gone in before. It may be saltier than this says.`]),
    ...(startMs === undefined ? ['The soak has not started: hours count from when it does.'] : []),
  ];
}
