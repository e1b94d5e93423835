/** What a card is worked out from: the recipe, the fish, and what was chosen for this one card. */
import type { CardOrder } from '../../../app/brine/card.ts';
import type { DryCureTarget } from '../../../app/brine/dry-cure.ts';
import type { FishSpecies } from '../../../app/brine/fish-species.ts';
import { ingredientById, type Ingredient } from '../../../app/brine/ingredients.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import { targetOfKeys, targetWords, type BrineTarget } from '../../../app/brine/target.ts';
import { bad, good, type Outcome } from '../../../app/measures/outcome.ts';
import type { BrineTarget as GoalKeys, Recipe } from '../../../app/contract/requests/recipes.ts';
import type { Kitchen } from '../../../app/contract/requests/office.ts';
import { unwrapForCard, type CardChoices } from './brine-card-faults.ts';
import { refuseInput } from './field-refusal.ts';

/** Finished over brined weight where nobody has weighed it yet: hot-smoked fish loses 15 to 25 %, cold-smoked 8 to 15 % (from memory). */
export const USUAL_YIELD_PERCENT = { hot: 80, either: 80, cold: 88 } as const;
/** A kitchen scale shows whole grams; fillets under a kilogram are weighed with a small scale that shows tenths. */
const SMALL_SCALE_BELOW_GRAMS = 1000;

/** One card to be made. */
export interface CardWish {
  readonly recipe: Recipe;
  readonly fish: FishSpecies;
  readonly filletGrams: number;
  readonly choices: CardChoices;
  readonly kitchen: Kitchen;
  readonly ingredients: readonly Ingredient[];
}

/** The steps of the scale that a batch of this weight is weighed with, in grams. */
export function scaleStepFor(filletGrams: number): number {
  return filletGrams < SMALL_SCALE_BELOW_GRAMS ? 0.1 : 1;
}

/** The yield that a card is reckoned with, in per cent of brined weight: typed, of the goal, else the usual one. */
export function yieldFor({ recipe, choices }: CardWish): number {
  const target = choices.target ?? recipe.target;
  return choices.yieldPercent ?? ('yieldPercent' in target ? target.yieldPercent : USUAL_YIELD_PERCENT[recipe.process]);
}

/** The order of a brine at a ratio of brine to fish. */
export function orderOf(wish: CardWish, ratio: number): CardOrder {
  const { recipe, filletGrams, fish, kitchen, choices } = wish;
  return {
    recipe: { name: recipe.name, ingredients: recipe.ingredients.map(({ id, parts }) => ({ id, parts })), salt: { ingredientId: recipe.saltIngredientId } },
    filletGrams, ratio, target: unwrapForCard(wetTarget(wish), recipe, choices), yieldPercent: yieldFor(wish), fish,
    scaleStepGrams: scaleStepFor(filletGrams),
    pour: kitchen.massUnit === 'lb' ? 'us-quarts' : 'litres',
    forms: orderFormsOf(wish),
  };
}

/** The crystal that the salt is measured as, by ingredient id; undefined where none was chosen. */
export function orderFormsOf(wish: CardWish): CardOrder['forms'] {
  const { saltFormId } = wish.choices;
  return saltFormId === undefined ? undefined : { [wish.recipe.saltIngredientId]: saltForm(wish, saltFormId) };
}

/** A yield that was typed is that of this batch, whatever the goal was written with. */
function wetTarget(wish: CardWish): Outcome<BrineTarget> {
  const keys = wish.choices.target ?? wish.recipe.target;
  if ('curePerFishPercent' in keys) return bad('So much cure over the fish is a goal of a dry cure, and this is a brine.', 'target.curePerFishPercent', 'Give the strength of the brine, or the salt in the fish.');
  const target = targetOfKeys(keys);
  if (!target.ok || target.value.form !== 'finishedWaterPhasePercent') return target;
  return good({ ...target.value, yieldPercent: yieldFor(wish) });
}

/** The goal of a dry cure. */
export function dryTarget(wish: CardWish): Outcome<DryCureTarget> {
  const keys = wish.choices.target ?? wish.recipe.target;
  if ('curePerFishPercent' in keys) return good({ form: 'curePerFishPercent', percent: keys.curePerFishPercent });
  const target = targetOfKeys(keys);
  if (!target.ok) return target;
  switch (target.value.form) {
    case 'finishedWaterPhasePercent': return good({ ...target.value, yieldPercent: yieldFor(wish) });
    case 'fishEquilibriumWaterPhasePercent': return good(target.value);
    default: return bad('A dry cure has no brine with a strength of its own.', `target.${target.value.form}`, 'Give the cure over the fish, or the salt in the fish.');
  }
}

/** A goal as it crosses the contract. */
export function goalKeys(target: BrineTarget | DryCureTarget): GoalKeys {
  switch (target.form) {
    case 'brinePercent': return { brinePercent: target.percent };
    case 'brineSalometer': return { brineSalometer: target.degrees };
    case 'curePerFishPercent': return { curePerFishPercent: target.percent };
    case 'fishEquilibriumWaterPhasePercent': return { fishEquilibriumWaterPhasePercent: target.percent };
    case 'finishedWaterPhasePercent': return { finishedWaterPhasePercent: target.percent, yieldPercent: target.yieldPercent };
  }
}

/** A goal in words with the yield it rests on. */
export function goalWords(target: BrineTarget | DryCureTarget, aimsLow: boolean): string {
  if (target.form === 'curePerFishPercent') return `${plainNumber(target.percent, 3)} % of cure over the fish`;
  const words = target.form === 'finishedWaterPhasePercent'
    ? `${targetWords(target)} at ${plainNumber(target.yieldPercent, 1)} % of brined weight` : targetWords(target);
  return aimsLow ? `${words}, met by the low end of the thickest piece` : words;
}

function saltForm({ recipe, ingredients }: CardWish, formId: string): string {
  const salt = ingredientById(ingredients, recipe.saltIngredientId);
  if (salt?.household.some((form) => form.id === formId) === true) return formId;
  return refuseInput(`No kind “${formId}” of ${salt?.name.toLowerCase() ?? 'this salt'} is known.`, ['saltFormId'], 'Choose the crystal as the box names it, or go by weight.');
}
