/** Weights of a card in the kitchen's own measures. A help for the eye: the grams are the recipe. */
import { waterDensityKgPerM3 } from './density.ts';
import type { HouseholdForm, HouseholdUnit, Ingredient } from './ingredients.ts';

/** How a kitchen pours water. */
export type PourUnit = 'litres' | 'us-quarts';

/** An amount in kitchen measures; `formName` says which kind (packed, dense flake). */
export type HouseholdMeasure =
  | { readonly kind: 'litres'; readonly litres: number }
  | { readonly kind: 'us-quarts'; readonly quarts: number }
  | { readonly kind: 'pieces'; readonly count: number; readonly formName: string }
  | {
      readonly kind: 'spoons';
      /** To be added up: quarters of a cup, tablespoons 0 to 3, quarters of a teaspoon 0 to 11. */
      readonly quarterCups: number;
      readonly tablespoons: number;
      readonly quarterTeaspoons: number;
      readonly formName: string;
      /** What this measure may weigh, where sources or packing differ much. */
      readonly lowGrams?: number;
      readonly highGrams?: number;
    };

/** A US quart, exact by definition (NIST Handbook 44, appendix C): a quarter of 231 cubic inches × 4. */
const LITRES_PER_US_QUART = 0.946352946;
const TEASPOONS: Readonly<Record<Exclude<HouseholdUnit, 'piece'>, number>> = { cup: 48, 'fluid-ounce': 6, tablespoon: 3, teaspoon: 1 };
const QUARTER_CUP_TEASPOONS = 12;
const PURE_WATER_PERCENT = 99.9;

/**
 * An ingredient's weight in kitchen measures, rounded to what a cook can measure: tablespoons from a
 * cup on, teaspoons from a tablespoon on, quarter teaspoons below.
 * @param grams zero or more
 * @param celsius of the water poured
 * @param formId one of the ingredient's forms; the usual one unless given
 * @returns undefined where no weight of a measure is known, where the form must be chosen first, or for less than a measure can show
 */
export function householdMeasure(ingredient: Ingredient, grams: number, pour: PourUnit, celsius: number, formId?: string): HouseholdMeasure | undefined {
  if (ingredient.waterPercent >= PURE_WATER_PERCENT) return pouredWater(grams, pour, celsius);
  const form = formOf(ingredient, formId);
  if (form === undefined) return undefined;
  const piece = form.weights.find((weight) => weight.unit === 'piece');
  if (piece !== undefined) {
    const count = Math.round(grams / piece.grams);
    return count === 0 ? undefined : { kind: 'pieces', count, formName: form.name };
  }
  return spoons(form, grams);
}

/** The form asked for, else the usual one; undefined where it must be chosen, or there is none. */
function formOf(ingredient: Ingredient, formId: string | undefined): HouseholdForm | undefined {
  if (formId !== undefined) return ingredient.household.find((form) => form.id === formId);
  return ingredient.chooseForm ? undefined : ingredient.household[0];
}

function pouredWater(grams: number, pour: PourUnit, celsius: number): HouseholdMeasure {
  const litres = grams / waterDensityKgPerM3(celsius);
  return pour === 'litres' ? { kind: 'litres', litres } : { kind: 'us-quarts', quarts: litres / LITRES_PER_US_QUART };
}

function spoons(form: HouseholdForm, grams: number): HouseholdMeasure | undefined {
  const perTeaspoon = form.weights
    .flatMap(({ unit, grams: unitGrams, lowGrams = unitGrams, highGrams = unitGrams }) => {
      if (unit === 'piece') return [];
      const teaspoons = TEASPOONS[unit];
      return [{ unitGrams, grams: unitGrams / teaspoons, lowGrams: lowGrams / teaspoons, highGrams: highGrams / teaspoons }];
    })
    .sort((first, second) => first.unitGrams - second.unitGrams);
  // A cup of flakes packs otherwise than a spoon of them, so the largest measure that is filled speaks.
  const chosen = perTeaspoon.findLast((weight) => weight.unitGrams <= grams) ?? perTeaspoon[0];
  if (chosen === undefined) return undefined;
  const rounded = roundTeaspoons(grams / chosen.grams);
  if (rounded === 0) return undefined;
  const quarterCups = Math.floor(rounded / QUARTER_CUP_TEASPOONS);
  const rest = rounded - quarterCups * QUARTER_CUP_TEASPOONS;
  const tablespoons = Math.floor(rest / TEASPOONS.tablespoon);
  const quarterTeaspoons = Math.round((rest - tablespoons * TEASPOONS.tablespoon) * 4);
  const isSpread = chosen.lowGrams !== chosen.highGrams;
  return {
    kind: 'spoons', quarterCups, tablespoons, quarterTeaspoons, formName: form.name,
    ...(isSpread ? { lowGrams: chosen.lowGrams * rounded, highGrams: chosen.highGrams * rounded } : {}),
  };
}

function roundTeaspoons(teaspoons: number): number {
  const step = teaspoons >= TEASPOONS.cup ? TEASPOONS.tablespoon : teaspoons >= TEASPOONS.tablespoon ? 1 : 0.25;
  return Math.round(teaspoons / step) * step;
}
