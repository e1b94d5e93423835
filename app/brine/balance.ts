/**
 * Mass balance of salt and water between fish and brine, and of a brine with itself.
 * Fractions are by weight. It is assumed throughout that salt and water alone are exchanged, that
 * neither bath nor fish gains or loses weight of water in the soak, and that nothing else leaves the
 * fish; at equilibrium the water-phase salt of bath and fish is the same (A. Zugarramurdi and
 * H. M. Lupín, 1980, build on that equilibrium; read in abstract).
 */
import { saltPerWater, waterPhaseFraction } from './water-phase.ts';

/** Raw fish: weight, and mass fractions of water and of its own salt. */
export interface RawFish {
  readonly grams: number;
  readonly moistureFraction: number;
  readonly saltFraction: number;
}

/** Salt and water of a bath in grams. */
export interface Bath {
  readonly saltGrams: number;
  readonly waterGrams: number;
}

/** Fish after the soak. */
export interface BrinedFish {
  readonly grams: number;
  readonly saltGrams: number;
  readonly waterGrams: number;
}

/** Water-phase salt fraction that fish and bath come to if left long enough. */
export function equilibriumFraction(fish: RawFish, bath: Bath): number {
  const salt = fish.grams * fish.saltFraction + bath.saltGrams;
  return waterPhaseFraction(salt, fish.grams * fish.moistureFraction + bath.waterGrams);
}

/**
 * The fish when its soak has gone part of the way to equilibrium.
 * @param approach how far, 0 (not begun) to 1 (equilibrium)
 */
export function brinedFish(fish: RawFish, bath: Bath, approach = 1): BrinedFish {
  const waterGrams = fish.grams * fish.moistureFraction;
  const ownGrams = fish.grams * fish.saltFraction;
  const atEquilibrium = saltPerWater(equilibriumFraction(fish, bath)) * waterGrams;
  const saltGrams = ownGrams + approach * (atEquilibrium - ownGrams);
  return { grams: fish.grams - ownGrams + saltGrams, saltGrams, waterGrams };
}

/**
 * Water-phase salt fraction of the finished fish; drying and smoking take water alone.
 * @param yieldFraction finished over brined weight, above 0 up to 1
 * @returns undefined when the loss is all the water the fish has, or more
 */
export function finishedFraction(brined: BrinedFish, yieldFraction: number): number | undefined {
  const waterGrams = brined.waterGrams - (1 - yieldFraction) * brined.grams;
  return waterGrams > 0 ? waterPhaseFraction(brined.saltGrams, waterGrams) : undefined;
}

/**
 * Water-phase salt fraction before drying and smoking that ends at `target` after them.
 * @param target finished water-phase salt fraction, 0 to below 1
 * @param yieldFraction finished over brined weight, above 0 up to 1
 * @returns undefined when the loss is all the water of the fish, or more
 */
export function fractionBeforeSmoking(fish: RawFish, target: number, yieldFraction: number): number | undefined {
  const loss = 1 - yieldFraction;
  const perWater = saltPerWater(target);
  // salt = k·(water − loss·(dry + water + salt)), solved for salt, per gram of raw fish
  const salt = (perWater * (fish.moistureFraction - loss * (1 - fish.saltFraction))) / (1 + perWater * loss);
  return fish.moistureFraction > loss * (1 - fish.saltFraction) ? waterPhaseFraction(salt, fish.moistureFraction) : undefined;
}

/**
 * Salt fraction of the whole brine that brings fish to a water-phase salt at equilibrium.
 * @param target water-phase salt fraction wanted in the fish, 0 to below 1
 * @param ratio brine to fish by weight, above 0
 * @param otherSolidsFraction of the brine that is neither salt nor water, such as sugar
 * @returns may be below 0 (fish or target too weak) or above what water can hold: the caller judges
 */
export function brineFractionFor(fish: Omit<RawFish, 'grams'>, target: number, ratio: number, otherSolidsFraction = 0): number {
  const perWater = saltPerWater(target);
  return (perWater * (fish.moistureFraction + ratio * (1 - otherSolidsFraction)) - fish.saltFraction) / (ratio * (1 + perWater));
}

/** Water-phase salt fraction of an equilibrium dry cure with nothing lost; `curePerFish` is salt over raw fish by weight. */
export function dryCureFraction(fish: Omit<RawFish, 'grams'>, curePerFish: number): number {
  return waterPhaseFraction(curePerFish + fish.saltFraction, fish.moistureFraction);
}

/** Salt over raw fish by weight for an equilibrium dry cure to a water-phase salt fraction; below 0 when the fish has more already. */
export function dryCureFor(fish: Omit<RawFish, 'grams'>, target: number): number {
  return saltPerWater(target) * fish.moistureFraction - fish.saltFraction;
}

/** Grams of dry salt that strengthen a brine of salt and water; both fractions of the whole brine, `to` at least `from`. */
export function saltToStrengthen(brineGrams: number, from: number, to: number): number {
  return (brineGrams * (to - from)) / (1 - to);
}

/** Grams of water that weaken a brine of salt and water; `to` above 0 and at most `from`. */
export function waterToWeaken(brineGrams: number, from: number, to: number): number {
  return (brineGrams * (from - to)) / to;
}

/** Salt fraction of two brines poured together. */
export function blendedFraction(firstGrams: number, first: number, secondGrams: number, second: number): number {
  return (firstGrams * first + secondGrams * second) / (firstGrams + secondGrams);
}

/**
 * What brings a brine back to weight and strength after fish went through it.
 * @param carriedGrams brine that left with the fish
 * @param fraction salt fraction of that brine
 * @param absorbedSaltGrams salt the fish took up
 * @param releasedWaterGrams water the fish gave up
 * @returns grams to add; water below 0 when the fish gave up more than was carried off
 */
export function makeUp(carriedGrams: number, fraction: number, absorbedSaltGrams: number, releasedWaterGrams: number): Bath {
  return { saltGrams: carriedGrams * fraction + absorbedSaltGrams, waterGrams: carriedGrams * (1 - fraction) - releasedWaterGrams };
}
