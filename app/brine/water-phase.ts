/** Water-phase salt: salt over salt and water, by weight. Sugar, fat and spirit are in neither. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { plainNumber } from './rounding.ts';

/** Water-phase salt as a fraction of any two like amounts (grams, per cent); 0 where there is neither. */
export function waterPhaseFraction(salt: number, water: number): number {
  return salt + water === 0 ? 0 : salt / (salt + water);
}

/** Salt per water of a water-phase fraction below 1: k = c ÷ (1 − c). */
export function saltPerWater(fraction: number): number {
  return fraction / (1 - fraction);
}

/**
 * Water-phase salt in per cent, 100 × salt ÷ (salt + moisture).
 * Ontario Ministry of Agriculture, Fish Plant Guidelines, F.B.14.14 Salting (read).
 * @param saltPercent of the fish, by weight
 * @param moisturePercent of the same fish
 * @returns unrounded, or a problem naming the argument
 */
export function waterPhasePercent(saltPercent: number, moisturePercent: number): Outcome<number> {
  const fault = compositionFault(saltPercent, moisturePercent);
  return fault ?? good(100 * waterPhaseFraction(saltPercent, moisturePercent));
}

/** Why these can't be the salt and moisture of one fish, naming `saltPercent` or `moisturePercent` under `within`; undefined if they can. */
export function compositionFault(saltPercent: number, moisturePercent: number, within = ''): Extract<Outcome<never>, { ok: false }> | undefined {
  if (!(saltPercent >= 0 && saltPercent <= 100)) return bad(`A fish with ${plainNumber(saltPercent, 2)} % salt can’t be.`, `${within}saltPercent`, 'Give the salt in per cent of the fish’s weight, such as 0.15 for raw fish.');
  if (!(moisturePercent > 0 && moisturePercent <= 100)) return bad(`A fish with ${plainNumber(moisturePercent, 2)} % moisture can’t be.`, `${within}moisturePercent`, 'Give the moisture in per cent of the fish’s weight, such as 72.');
  if (saltPercent + moisturePercent > 100) return bad(`Salt and moisture come to ${plainNumber(saltPercent + moisturePercent, 2)} % of the fish.`, `${within}moisturePercent`, 'Together they can’t be over 100 %.');
  return undefined;
}
