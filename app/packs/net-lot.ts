/**
 * Whether the packs of a lot hold what they declare: the average of a sample, and no pack short by more
 * than the maximum allowable variation. NIST Handbook 133, 1.2 (read), Tables 2-1 and 2-5 (from memory,
 * except the row of 0.18 to 0.26 lb, read); the factors of Table 2-1 worked out again as t(0.975, n−1)/√n (computed).
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { fractionFromNumber, isAbove } from './exact-decimal.ts';

/** Up to and including so many grams, the variation in grams. */
const VARIATIONS: readonly (readonly [uptoGrams: number, grams: number])[] = [
  [54, 3.6], [81, 5.4], [117, 7.2], [154, 9], [208, 10.8], [263, 12.7], [317, 14.5], [381, 16.3], [426, 18.1], [489, 19.9], [571, 21.7], [635, 23.5], [698, 25.4],
  [771, 27.2], [852, 29], [970, 31.7], [1120, 35.3], [1250, 39], [1450, 42.6], [1760, 49.9], [2130, 54.4], [2630, 63.5], [3080, 68], [3580, 77.1], [4260, 86.1], [5300, 99.7],
];
/** To this weight the variation is a tenth of what is declared. */
const TENTH_TO_GRAMS = 36;
/** By the number of packs sampled. */
const FACTORS: ReadonlyMap<number, number> = new Map([
  [2, 8.985], [3, 2.484], [4, 1.591], [5, 1.242], [6, 1.05], [7, 0.925], [8, 0.836], [9, 0.769], [10, 0.715], [11, 0.672], [12, 0.635], [24, 0.422], [48, 0.291],
]);
/** Packs of a sample that may be short by more than the variation: one of 48, else none. */
const LARGEST_SAMPLE = 48;
/** A scale shows steps of at most a sixth of the variation: Handbook 133, 2 (read). */
const STEPS_IN_VARIATION = 6;

/**
 * The maximum allowable variation of a pack.
 * @returns grams, or a sentence: zero or less, more than 5.3 kg
 */
export function allowableVariationGrams(declaredGrams: number): Outcome<number> {
  if (!Number.isFinite(declaredGrams) || declaredGrams <= 0) return bad(`A declared weight of ${declaredGrams} g can’t be.`, 'declaredGrams', 'Enter what the label declares.');
  if (declaredGrams <= TENTH_TO_GRAMS) return good(declaredGrams / 10);
  const row = VARIATIONS.find(([upto]) => declaredGrams <= upto);
  return row === undefined ? bad(`The table ends at 5,300 g; ${declaredGrams} g is beyond it.`, 'declaredGrams', 'Look it up in NIST Handbook 133.') : good(row[1]);
}

/** Whether a scale that shows such steps may weigh packs of this weight. */
export function isFineEnough(stepGrams: number, declaredGrams: number): Outcome<boolean> {
  const variation = allowableVariationGrams(declaredGrams);
  return variation.ok ? good(!isAbove(fractionFromNumber(stepGrams * STEPS_IN_VARIATION), fractionFromNumber(variation.value))) : variation;
}

export interface LotWeights {
  readonly meanErrorGrams: number;
  readonly deviationGrams: number;
  /** Mean error and the sample's allowance together: the average holds where it isn't below zero. */
  readonly marginGrams: number;
  readonly tooShort: number;
  readonly passes: boolean;
}

/**
 * Tests a sample of packs of one declared weight.
 * @param netGrams the true nets of the sample: 2 to 12, 24 or 48 packs
 * @returns the figures and whether both rules are met, or a sentence: another number of packs, a weight that can't be
 */
export function checkLotWeights(declaredGrams: number, netGrams: readonly number[]): Outcome<LotWeights> {
  const variation = allowableVariationGrams(declaredGrams);
  if (!variation.ok) return variation;
  const factor = FACTORS.get(netGrams.length);
  if (factor === undefined) return bad(`${netGrams.length} packs are no sample.`, 'netGrams', 'Weigh 2 to 12 packs, 24 or 48.');
  if (netGrams.some((grams) => !Number.isFinite(grams) || grams <= 0)) return bad('A pack has no weight.', 'netGrams', 'Weigh it again.');
  const errors = netGrams.map((grams) => grams - declaredGrams);
  const meanErrorGrams = errors.reduce((sum, error) => sum + error, 0) / errors.length;
  const squares = errors.reduce((sum, error) => sum + (error - meanErrorGrams) ** 2, 0);
  const deviationGrams = Math.sqrt(squares / (errors.length - 1));
  const marginGrams = meanErrorGrams + factor * deviationGrams;
  const tooShort = errors.filter((error) => error < -variation.value).length;
  return good({ meanErrorGrams, deviationGrams, marginGrams, tooShort, passes: marginGrams >= 0 && tooShort <= (errors.length === LARGEST_SAMPLE ? 1 : 0) });
}
