/** What a tub is while it is mixed by taste: the figures of a brine card, of whatever lies in it so far. */
import type { Outcome } from '../measures/outcome.ts';
import { brineOfLines, cardOfScaled, COLD_BRINE_CELSIUS, type CardEstimate } from './card.ts';
import { mixtureGrams, mixtureLitres, type BrineMixture } from './density.ts';
import { floatReading, percentFromFloat, type FloatReading } from './float.ts';
import { saturatedPercent } from './freezing.ts';
import { mixtureOf, type WeighedIngredient } from './ingredients.ts';
import { USUAL_FISH, type FishComposition } from './recipe.ts';
import { salometerOfPercent } from './strength.ts';
import { waterPhaseFraction } from './water-phase.ts';

export interface TasteOrder {
  /** What was weighed in, in any order; an ingredient may come more than once. */
  readonly weighed: readonly WeighedIngredient[];
  /** 0 to 50; 38 °F unless a thermometer said otherwise. */
  readonly brineCelsius?: number | undefined;
  /** The fish that will go in; without it there is no estimate of its salt. */
  readonly filletGrams?: number | undefined;
  /** Of that fish; usual finfish unless the species is known. */
  readonly fish?: FishComposition | undefined;
  /** Finished over brined weight that is to be expected, above 0 to 100. */
  readonly yieldPercent: number;
}

export interface TasteFigures {
  readonly totalGrams: number;
  /** Null until there is water that holds all the salt. */
  readonly litres: number | null;
  /** Salt over everything, as weighed, dissolved or not; 0 for an empty tub. */
  readonly percentByWeight: number;
  readonly salometerDegrees: number;
  readonly waterPhasePercent: number;
  readonly sugarPercent: number;
  /** There is more salt than the water holds; with no water at all there is no brine yet, and this is false. */
  readonly saltFallsOut: boolean;
  readonly hasWater: boolean;
  /** Null until there is water that holds all the salt. */
  readonly float: FloatReading | null;
  /** Water-phase salt of the fish at equilibrium, and of the finished fish. They prove nothing. */
  readonly equilibrium: CardEstimate | null;
  readonly finished: CardEstimate | null;
}

/**
 * Works out a tub as it stands. Nothing in it is no error: zeros, and null where there is nothing to tell.
 * A tub with salt but no water is no brine: its salt stands in `percentByWeight` alone.
 */
export function tasteFigures(order: TasteOrder): TasteFigures {
  const brineCelsius = order.brineCelsius ?? COLD_BRINE_CELSIUS;
  const mixture = mixtureOf(order.weighed);
  const totalGrams = order.weighed.reduce((sum, { grams }) => sum + grams, 0);
  const share = totalGrams === 0 ? 0 : 100 / totalGrams;
  const percentByWeight = mixture.saltGrams * share;
  const hasWater = mixture.waterGrams > 0;
  const waterPhasePercent = hasWater ? 100 * waterPhaseFraction(mixture.saltGrams, mixture.waterGrams) : 0;
  const saltFallsOut = waterPhasePercent > saturatedPercent(brineCelsius);
  const isBrine = hasWater && !saltFallsOut;
  return {
    totalGrams, percentByWeight, waterPhasePercent, saltFallsOut, hasWater,
    salometerDegrees: hasWater ? salometerOfPercent(percentByWeight) : 0,
    sugarPercent: mixture.sugarGrams * share,
    litres: isBrine ? mixtureLitres(mixture, brineCelsius) : null,
    float: isBrine ? floatReading(mixture, brineCelsius) : null,
    ...(isBrine ? estimatesOf(order, brineCelsius) : { equilibrium: null, finished: null }),
  };
}

/** The card's own estimates, of the tub as it lies. */
function estimatesOf({ weighed, filletGrams, fish, yieldPercent }: TasteOrder, brineCelsius: number): Pick<TasteFigures, 'equilibrium' | 'finished'> {
  if (filletGrams === undefined) return { equilibrium: null, finished: null };
  const composition = fish ?? USUAL_FISH;
  const raw = { grams: filletGrams, moistureFraction: composition.moisturePercent / 100, saltFraction: composition.saltPercent / 100 };
  const brine = brineOfLines(weighed, raw);
  const card = cardOfScaled({
    recipe: { name: '', ingredients: [], salt: { ingredientId: '' } }, filletGrams, ratio: brine.totalGrams / filletGrams,
    target: { form: 'brinePercent', percent: brine.percentByWeight }, fish: composition, brineCelsius, yieldPercent, pour: 'litres',
  }, brine);
  return card.ok ? { equilibrium: card.value.equilibrium, finished: card.value.finished ?? null } : { equilibrium: null, finished: null };
}

/**
 * The salt that a float means in a brine with this tub's sugar. Other dissolved solids, such as those of
 * soy sauce, are counted as sugar, whose volume they have; spirits and temperature of the tub are not.
 * @param shownDegrees read on the stem, 0 to 100
 * @param celsius of the brine, 0 to 50
 * @param weighed what was in the tub when it was read
 * @returns per cent by weight of the whole brine, or a problem as in `percentFromFloat`
 */
export function saltByFloat(shownDegrees: number, celsius: number, weighed: readonly WeighedIngredient[]): Outcome<number> {
  return percentFromFloat(shownDegrees, celsius, dissolvedSolidsPercent(mixtureOf(weighed)));
}

function dissolvedSolidsPercent(mixture: BrineMixture): number {
  // Spice bears no float, so it is left out of what floats.
  const grams = mixtureGrams(mixture) - mixture.spiceGrams;
  return grams === 0 ? 0 : (100 * (mixture.sugarGrams + mixture.otherGrams)) / grams;
}
