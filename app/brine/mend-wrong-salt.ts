/** Salt measured by cups of the wrong crystal, or one ingredient weighed for another. */
import { bad, type Outcome } from '../measures/outcome.ts';
import { gramsOfMeasure, type SaltMeasure } from './crystals.ts';
import { ingredientById, type Ingredient } from './ingredients.ts';
import { planOf, tubState, voidsOf, withMore, type MendPlan, type TubNow, type TubState } from './mend-plan.ts';
import { bringToStrength } from './mend-strength.ts';
import { plainNumber } from './rounding.ts';

/** Measured out in cups or spoons for one crystal, of another. */
export interface WrongSalt {
  readonly kind: 'wrong-salt';
  readonly ingredientId: string;
  readonly meantFormId: string;
  readonly usedFormId: string;
  /** How it was measured; by cups of the card's weight unless given. */
  readonly measure?: { readonly unit: SaltMeasure; readonly count: number } | undefined;
}

/** The whole weight of one ingredient was that of another. */
export interface WrongIngredient {
  readonly kind: 'wrong-ingredient';
  readonly ingredientId: string;
  readonly usedIngredientId: string;
}

/** Names in an ingredient's own list that no addition mends. */
const CURING = /nitri?te|nitrate/i;

/**
 * The brine as it is with the crystals that went in, and what brings it back.
 *
 * A cup of one crystal is known only as a range, so the plan is for its usual weight and says how far
 * the strength may lie. Voids: the salt is not weighed, so the batch is not the process as written.
 */
export function planWrongSalt(tub: TubNow, trouble: WrongSalt, ingredients: readonly Ingredient[]): Outcome<MendPlan> {
  const card = tubState(tub.lines, tub.celsius);
  if (!card.ok) return card;
  const line = tub.lines.find((entry) => entry.ingredient.id === trouble.ingredientId);
  if (line === undefined) return bad(`“${trouble.ingredientId}” is not in this brine.`, 'trouble.ingredientId', 'Choose the salt of the brine.');
  if (trouble.meantFormId === trouble.usedFormId) return bad('The crystal that went in is the one that was meant.', 'trouble.usedFormId', 'Choose what the box in hand says.');
  const { unit = 'cup', count } = trouble.measure ?? {};
  const meant = gramsOfMeasure(line.ingredient, { formId: trouble.meantFormId, unit, count: count ?? 1 });
  if (!meant.ok) return bad(meant.problem.message, troubleField(meant.problem.field, 'meantFormId'), meant.problem.remedy);
  const measures = count ?? line.grams / meant.value.grams;
  const used = gramsOfMeasure(line.ingredient, { formId: trouble.usedFormId, unit, count: measures });
  if (!used.ok) return bad(used.problem.message, troubleField(used.problem.field, 'usedFormId'), used.problem.remedy);
  const { ingredient: salt, grams: cardGrams } = line;
  function withSalt(grams: number): Outcome<TubState> {
    const state = tubState(withMore(tub.lines, salt, grams - cardGrams), tub.celsius);
    return state.ok ? state : bad(`With ${plainNumber(grams, 0)} g of salt: ${state.problem.message}`, 'trouble.usedFormId', state.problem.remedy);
  }
  const now = withSalt(used.value.grams);
  if (!now.ok) return now;
  const low = withSalt(used.value.lowGrams);
  const high = withSalt(used.value.highGrams);
  const spread = low.ok && high.ok && high.value.percentByWeight > low.value.percentByWeight
    ? `Just now it may be ${plainNumber(low.value.percentByWeight, 2)} to ${plainNumber(high.value.percentByWeight, 2)} % salt: `
    : '';
  return bringToStrength(tub, now.value, card.value.waterPhasePercent / 100, ingredients, {
    voids: voidsOf(tub.filletGrams), cautions: [`${spread}a measure of salt is a guess. Read the float after mending, and weigh next time.`],
  });
}

/**
 * The brine with another ingredient by the same weight, and what brings its strength back.
 *
 * Curing salt is not mended: nitrite can't be taken out. Voids: it is another recipe.
 */
export function planWrongIngredient(tub: TubNow, trouble: WrongIngredient, ingredients: readonly Ingredient[]): Outcome<MendPlan> {
  const card = tubState(tub.lines, tub.celsius);
  if (!card.ok) return card;
  const line = tub.lines.find((entry) => entry.ingredient.id === trouble.ingredientId);
  if (line === undefined) return bad(`“${trouble.ingredientId}” is not in this brine.`, 'trouble.ingredientId', 'Choose one of its ingredients.');
  const used = ingredientById(ingredients, trouble.usedIngredientId);
  if (used === undefined) return bad(`There is no ingredient “${trouble.usedIngredientId}”.`, 'trouble.usedIngredientId', 'Use an ingredient of the kitchen’s list.');
  if (used.id === line.ingredient.id) return bad(`${used.name} is what was meant.`, 'trouble.usedIngredientId', 'Choose what went in.');
  if ([used.labelName, ...used.subIngredients].some((name) => CURING.test(name))) {
    return bad(`${used.name} has nitrite in it, which nothing takes out again.`, 'trouble.usedIngredientId', 'Set the brine and its fish aside, mark them, and ask the person in charge. Make a new brine.');
  }
  const now = tubState(withMore(withMore(tub.lines, line.ingredient, -line.grams), used, line.grams), tub.celsius);
  if (!now.ok) return bad(now.problem.message, 'trouble.usedIngredientId', 'Make a new brine.');
  const plan = bringToStrength(tub, now.value, card.value.waterPhasePercent / 100, ingredients, { voids: voidsOf(tub.filletGrams) });
  if (!plan.ok || plan.value.steps.some((step) => step.what !== 'nothing')) return plan;
  // The strength needs nothing, but the brine is another one all the same.
  return planOf(tub, now.value, now.value.lines, [{ what: 'nothing', why: 'Its strength is as it should be.' }], { voids: voidsOf(tub.filletGrams) });
}

function troubleField(field: string | undefined, formField: 'meantFormId' | 'usedFormId'): string {
  if (field === 'formId') return `trouble.${formField}`;
  return field === 'count' || field === 'unit' ? `trouble.measure.${field}` : 'trouble.ingredientId';
}
