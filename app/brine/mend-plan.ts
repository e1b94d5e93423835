/** The parts that every mend is made of: a brine at one moment, its steps, and what the mend voids. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { mixtureLitres, SATURATED_SALT_FRACTION, type BrineMixture } from './density.ts';
import { floatReading, type FloatReading } from './float.ts';
import { allergensOf, ingredientById, LEAST_SALT_PERCENT, mixtureOf, type Ingredient, type WeighedIngredient } from './ingredients.ts';
import { gramsOfSteps, plainNumber, stepsOf } from './rounding.ts';
import { salometerOfPercent } from './strength.ts';
import { waterPhaseFraction } from './water-phase.ts';

/** A brine as its card has it. */
export interface TubNow {
  readonly lines: readonly WeighedIngredient[];
  /** The salt of the recipe: what strengthens it. */
  readonly saltIngredientId: string;
  /** Fish that is in the brine, 0 for none yet. */
  readonly filletGrams: number;
  /** Of the brine, 0 to 50. */
  readonly celsius: number;
  /** 0.1 g unless given. */
  readonly scaleStepGrams?: number | undefined;
  /** What the tub takes of brine beside the fish; without it nothing is poured off to make room. */
  readonly roomLitres?: number | undefined;
}

/** A brine at one moment. */
export interface TubState {
  readonly lines: readonly WeighedIngredient[];
  readonly mixture: BrineMixture;
  readonly totalGrams: number;
  readonly litres: number;
  readonly percentByWeight: number;
  readonly waterPhasePercent: number;
  readonly salometerDegrees: number;
  /** What a float shows in it. */
  readonly float: FloatReading;
}

/** One thing to do; grams are rounded to the scale. */
export type MendStep =
  | { readonly what: 'add'; readonly ingredientId: string; readonly grams: number }
  | { readonly what: 'use-instead'; readonly ingredientId: string; readonly insteadOfId: string; readonly grams: number }
  /** Of a line that was not put in yet: weigh so much less of it. */
  | { readonly what: 'weigh-less'; readonly ingredientId: string; readonly grams: number }
  | { readonly what: 'pour-off'; readonly grams: number; readonly litres: number }
  | { readonly what: 'freshen'; readonly waterGrams: number; readonly waterPerFish: number; readonly hours: number }
  | { readonly what: 'nothing'; readonly why: string };

/**
 * Evidence that a mend voids.
 * - `scheduled-process`: the batch is no longer made as an authority's letter has it (recipe, ratio or time).
 * - `laboratory-verification`: earlier verification of that process says nothing of this batch.
 * - `earlier-salt-samples`: pieces of this batch analysed before now.
 * - `soak-forecast`: reckoned from another strength or ratio; it must start anew.
 * - `float-reading`: readings of this brine before now.
 */
export type MendVoid = 'scheduled-process' | 'laboratory-verification' | 'earlier-salt-samples' | 'soak-forecast' | 'float-reading';

export interface MendPlan {
  readonly steps: readonly MendStep[];
  /** As it is believed to be now. */
  readonly before: TubState;
  /** Of the rounded weights. For a freshened piece the brine stays as it is. */
  readonly after: TubState;
  /** Of the freshened fish, aimed at. */
  readonly fishWaterPhasePercent?: number;
  /** Allergens the brine has now and had not: the label changes. */
  readonly newAllergens: readonly string[];
  readonly voids: readonly MendVoid[];
  /** In sentences. */
  readonly cautions: readonly string[];
}

/** A brine that a person must not be told to make: beyond what its density is known for. */
const HIGHEST_ROUNDED_FRACTION = 0.27;
const PURE_WATER_PERCENT = 99.9;
const USUAL_STEP_GRAMS = 0.1;

/** Every figure of a brine, or a problem naming `lines`: empty, without water, more salt than water holds. */
export function tubState(lines: readonly WeighedIngredient[], celsius: number): Outcome<TubState> {
  const mixture = mixtureOf(lines);
  const totalGrams = lines.reduce((sum, line) => sum + line.grams, 0);
  if (!(totalGrams > 0 && mixture.waterGrams > 0)) return bad('There is no brine in the tub.', 'lines', 'Make a new one from the recipe.');
  const fraction = waterPhaseFraction(mixture.saltGrams, mixture.waterGrams);
  if (fraction > HIGHEST_ROUNDED_FRACTION) {
    return bad(`The water of this brine would be ${plainNumber(100 * fraction, 1)} % salt, and water holds 26.395 % at most.`, 'lines', 'Check what went in, or make a new brine.');
  }
  const percentByWeight = (100 * mixture.saltGrams) / totalGrams;
  return good({
    lines, mixture, totalGrams, percentByWeight,
    litres: mixtureLitres(mixture, celsius),
    waterPhasePercent: 100 * fraction,
    salometerDegrees: salometerOfPercent(percentByWeight),
    float: floatReading(mixture, celsius),
  });
}

/** What a brine made otherwise than its card voids. Without fish in it no piece of the batch can have been analysed yet. */
export function voidsOf(filletGrams: number): MendVoid[] {
  return ['scheduled-process', 'laboratory-verification', ...(filletGrams > 0 ? (['earlier-salt-samples'] as const) : []), 'soak-forecast', 'float-reading'];
}

/**
 * The plan of a mend.
 * @param before as it is now
 * @param lines as they are after the steps
 * @param hadLines of the card, for allergens
 */
export function planOf(
  tub: TubNow, before: TubState, lines: readonly WeighedIngredient[], steps: readonly MendStep[], extra: { readonly voids: readonly MendVoid[]; readonly cautions?: readonly string[] },
): Outcome<MendPlan> {
  const after = tubState(lines, tub.celsius);
  if (!after.ok) return after;
  const had = allergensOf(tub.lines.map((line) => line.ingredient));
  const newAllergens = allergensOf(lines.filter((line) => line.grams > 0).map((line) => line.ingredient)).filter((allergen) => !had.includes(allergen));
  return good({ steps, before, after: after.value, newAllergens, voids: extra.voids, cautions: extra.cautions ?? [] });
}

/** A plan that leaves the brine alone, and says why. It voids nothing. */
export function nothingToDo(before: TubState, why: string): MendPlan {
  return { steps: [{ what: 'nothing', why }], before, after: before, newAllergens: [], voids: [], cautions: [] };
}

/** Grams rounded to the kitchen's scale, half up. */
export function toScale(tub: TubNow, grams: number): number {
  const step = tub.scaleStepGrams ?? USUAL_STEP_GRAMS;
  return gramsOfSteps(stepsOf(grams, step), step);
}

/** The lines with so much more of an ingredient, as a new line where it is not in them. */
export function withMore(lines: readonly WeighedIngredient[], ingredient: Ingredient, grams: number): WeighedIngredient[] {
  if (!lines.some((line) => line.ingredient.id === ingredient.id)) return [...lines, { ingredient, grams }];
  return lines.map((line) => (line.ingredient.id === ingredient.id ? { ingredient: line.ingredient, grams: line.grams + grams } : line));
}

/** The lines, each of them times a factor. */
export function times(lines: readonly WeighedIngredient[], factor: number): WeighedIngredient[] {
  return lines.map(({ ingredient, grams }) => ({ ingredient, grams: grams * factor }));
}

/** The salt to strengthen with, or a problem naming `saltIngredientId`. */
export function saltOf(tub: TubNow, ingredients: readonly Ingredient[]): Outcome<Ingredient> {
  const salt = tub.lines.find((line) => line.ingredient.id === tub.saltIngredientId)?.ingredient ?? ingredientById(ingredients, tub.saltIngredientId);
  if (salt === undefined) return bad(`There is no salt “${tub.saltIngredientId}”.`, 'saltIngredientId', 'Name the salt of the recipe.');
  if (salt.saltPercent < LEAST_SALT_PERCENT) return bad(`${salt.name} has hardly any salt: it can’t strengthen a brine.`, 'saltIngredientId', 'Name the salt of the recipe.');
  return good(salt);
}

/** The water to weaken with: that of the brine, else of the catalogue; a problem where there is none. */
export function waterOf(tub: TubNow, ingredients: readonly Ingredient[]): Outcome<Ingredient> {
  const all = [...tub.lines.map((line) => line.ingredient), ...ingredients];
  const water = all.find((ingredient) => ingredient.waterPercent >= PURE_WATER_PERCENT);
  return water === undefined ? bad('There is no plain water among the ingredients.', 'lines', 'Add water to the kitchen’s list.') : good(water);
}

/** A water-phase strength that can't be dissolved. */
export function isOverSaturated(waterPhasePercent: number): boolean {
  return waterPhasePercent > 100 * SATURATED_SALT_FRACTION * (1 + 1e-12);
}
