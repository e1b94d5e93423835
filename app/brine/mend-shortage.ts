/** A brine that was spilled, or an ingredient that ran out. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { ingredientById, LEAST_SALT_PERCENT, type Ingredient, type WeighedIngredient } from './ingredients.ts';
import { nothingToDo, planOf, times, toScale, tubState, voidsOf, withMore, type MendPlan, type MendStep, type TubNow } from './mend-plan.ts';
import { bringToStrength } from './mend-strength.ts';
import { plainNumber } from './rounding.ts';

export interface Spilled {
  readonly kind: 'spilled';
  /** What is left of the brine. */
  readonly left: { readonly grams: number } | { readonly litres: number };
}

export interface RanOut {
  readonly kind: 'ran-out';
  readonly ingredientId: string;
  /** What there is of it. */
  readonly thereGrams: number;
  /** What to use for the rest; without it the rest is left out. */
  readonly insteadId?: string | undefined;
}

const PURE_WATER_PERCENT = 99.9;

/**
 * Makes up what was spilled, every ingredient in its proportion.
 *
 * Voids: before the fish is in, it is again the recipe at its ratio, weighed, so a scheduled process
 * and its forecast stand; only a float reading was of another mixing. With fish in it, the rest had
 * given salt already and gets fresh brine: strength in time is no longer that of the process.
 */
export function planSpilled(tub: TubNow, { left }: Spilled): Outcome<MendPlan> {
  const card = tubState(tub.lines, tub.celsius);
  if (!card.ok) return card;
  const { totalGrams, litres } = card.value;
  const [field, amount, whole, unit] = 'grams' in left ? ['trouble.left.grams', left.grams, totalGrams, 'g'] as const : ['trouble.left.litres', left.litres, litres, 'litres'] as const;
  if (!(amount >= 0)) return bad(`${plainNumber(amount, 1)} ${unit} of brine can’t be left.`, field, 'Give what is left in the tub, 0 for nothing.');
  if (amount > whole * (1 + 1e-9)) return bad(`${plainNumber(amount, 1)} ${unit} left is more than the ${plainNumber(whole, 1)} ${unit} that were made.`, field, 'Check the figure and its unit.');
  const share = Math.min(1, amount / whole);
  const remaining = times(tub.lines, share);
  const additions = tub.lines.map(({ ingredient, grams }) => ({ ingredient, grams: toScale(tub, grams * (1 - share)) })).filter((line) => line.grams > 0);
  if (additions.length === 0) return good(nothingToDo(card.value, 'What is missing is less than the scale shows.'));
  const now = share === 0 ? card : tubState(remaining, tub.celsius);
  if (!now.ok) return now;
  const lines = additions.reduce<WeighedIngredient[]>((sum, line) => withMore(sum, line.ingredient, line.grams), remaining);
  const steps = additions.map(({ ingredient, grams }): MendStep => ({ what: 'add', ingredientId: ingredient.id, grams }));
  const hasFish = tub.filletGrams > 0;
  return planOf(tub, now.value, lines, steps, {
    voids: hasFish ? voidsOf(tub.filletGrams) : ['float-reading'],
    cautions: hasFish ? ['What is left had given salt to the fish already, so the made-up brine may be a little weaker than these figures: read the float.'] : [],
  });
}

/**
 * What to do without enough of an ingredient. Of salt or water with nothing instead the brine is made
 * smaller, for only so its strength holds. Of anything else what there is goes in, what is used instead
 * by the same weight (salt by its salt), and the strength of the water is brought back by salt or water.
 *
 * Voids: in each case another recipe, or another ratio, than the process was written for.
 */
export function planRanOut(tub: TubNow, trouble: RanOut, ingredients: readonly Ingredient[]): Outcome<MendPlan> {
  const card = tubState(tub.lines, tub.celsius);
  if (!card.ok) return card;
  const short = tub.lines.find((line) => line.ingredient.id === trouble.ingredientId);
  if (short === undefined) return bad(`“${trouble.ingredientId}” is not in this brine.`, 'trouble.ingredientId', 'Choose one of its ingredients.');
  const { ingredient, grams: neededGrams } = short;
  const { thereGrams, insteadId } = trouble;
  if (!(thereGrams >= 0)) return bad(`${plainNumber(thereGrams, 1)} g of ${ingredient.name.toLowerCase()} can’t be.`, 'trouble.thereGrams', 'Weigh what there is, 0 for nothing.');
  if (thereGrams >= neededGrams) return good(nothingToDo(card.value, `${plainNumber(thereGrams, 1)} g is enough: the card asks for ${plainNumber(neededGrams, 1)} g.`));
  const voids = voidsOf(tub.filletGrams);
  if (insteadId === undefined) {
    const isBody = ingredient.id === tub.saltIngredientId || ingredient.waterPercent >= PURE_WATER_PERCENT;
    if (isBody) return planSmaller(tub, ingredient, thereGrams / neededGrams);
    const without = tubState(withMore(tub.lines, ingredient, thereGrams - neededGrams), tub.celsius);
    if (!without.ok) return without;
    const less: MendStep = { what: 'weigh-less', ingredientId: ingredient.id, grams: toScale(tub, neededGrams - thereGrams) };
    return bringToStrength(tub, without.value, card.value.waterPhasePercent / 100, ingredients, { voids }, [less]);
  }
  if (insteadId === ingredient.id) return bad(`${ingredient.name} can’t stand in for itself.`, 'trouble.insteadId', 'Choose another ingredient.');
  const instead = ingredientById(ingredients, insteadId);
  if (instead === undefined) return bad(`There is no ingredient “${insteadId}”.`, 'trouble.insteadId', 'Use an ingredient of the kitchen’s list.');
  const isSalt = ingredient.id === tub.saltIngredientId;
  if (isSalt && instead.saltPercent < LEAST_SALT_PERCENT) return bad(`${instead.name} has hardly any salt: it can’t stand in for ${ingredient.name.toLowerCase()}.`, 'trouble.insteadId', 'Choose another salt.');
  const insteadGrams = toScale(tub, (neededGrams - thereGrams) * (isSalt ? ingredient.saltPercent / instead.saltPercent : 1));
  const swapped = tubState(withMore(withMore(tub.lines, ingredient, thereGrams - neededGrams), instead, insteadGrams), tub.celsius);
  if (!swapped.ok) return swapped;
  const step: MendStep = { what: 'use-instead', ingredientId: instead.id, insteadOfId: ingredient.id, grams: insteadGrams };
  // The salt that is at hand now is the other one: the old has run out.
  const supply = isSalt ? { ...tub, saltIngredientId: instead.id } : tub;
  return bringToStrength(supply, swapped.value, card.value.waterPhasePercent / 100, ingredients, { voids }, [step]);
}

/** The whole brine in the proportion of what there is. */
function planSmaller(tub: TubNow, ran: Ingredient, share: number): Outcome<MendPlan> {
  const card = tubState(tub.lines, tub.celsius);
  if (!card.ok) return card;
  if (share === 0) return bad(`Without any ${ran.name.toLowerCase()} there is no brine.`, 'trouble.thereGrams', 'Say what to use instead.');
  const less = tub.lines.map(({ ingredient, grams }) => (ingredient.id === ran.id ? grams * (1 - share) : toScale(tub, grams * (1 - share))));
  const lines = tub.lines.map(({ ingredient, grams }, index) => ({ ingredient, grams: grams - (less[index] ?? 0) }));
  const steps = tub.lines.flatMap(({ ingredient }, index): MendStep[] => {
    const grams = toScale(tub, less[index] ?? 0);
    return grams > 0 ? [{ what: 'weigh-less', ingredientId: ingredient.id, grams }] : [];
  });
  return planOf(tub, card.value, lines, steps, {
    voids: voidsOf(tub.filletGrams),
    cautions: ['There is less brine to the fish now: it comes to less salt if left to the end, and must still cover the fish. Take less fish, or make the rest when there is more.'],
  });
}
