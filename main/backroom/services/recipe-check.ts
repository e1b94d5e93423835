/** Whether a recipe can be made at all: everything a person may type wrong, each told at its field. */
import { scaleDryCure, type DryCureTarget } from '../../../app/brine/dry-cure.ts';
import { ingredientById, LEAST_SALT_PERCENT, type Ingredient } from '../../../app/brine/ingredients.ts';
import { scaleRecipe } from '../../../app/brine/recipe.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import { targetOfKeys, type BrineTarget } from '../../../app/brine/target.ts';
import type { RecipeDraft } from '../../../app/contract/requests/recipes.ts';
import { bad, good, type Outcome } from '../../../app/measures/outcome.ts';
import { Refusal } from '../refusal.ts';
import { nameIn, sameName } from './recipe-names.ts';

type Path = readonly (string | number)[];
type Fault = Extract<Outcome<never>, { ok: false }>;

/** Fish that every recipe is tried on. */
const TRIAL_FILLET_GRAMS = 10_000;
/** Longer than ten days nothing lies in a brine. */
const LONGEST_SOAK_HOURS = 240;
/** What a recipe needs that the draft may say freely: a dry cure has no brine whose weight could matter. */
export const DRY_RATIO = 1;

/** The figures of a recipe that decide whether it can be made; a stored recipe and a draft both have them. */
export type RecipeFigures = Pick<RecipeDraft, 'name' | 'cure' | 'ratio' | 'target' | 'saltIngredientId' | 'soakHours' | 'turnHours' | 'ingredients'>;

/**
 * Refuses a recipe that can't be made.
 * @param ingredients what its ids are looked up in
 * @param pathOf the input's path of a field of the recipe, given dotted (`ingredients.1.parts`, `target.brinePercent`)
 * @throws Refusal INVALID_INPUT with the reason
 */
export function refuseUnmakeable(recipe: RecipeFigures, ingredients: readonly Ingredient[], pathOf: (field: string) => Path): void {
  const fault = soakFault(recipe) ?? saltFault(recipe, ingredients) ?? trialFault(recipe, ingredients);
  if (fault === undefined) return;
  const { message, remedy, field = 'ingredients' } = fault.problem;
  throw new Refusal('INVALID_INPUT', message, { remedy, fields: [{ path: [...pathOf(field)], message }] });
}

/**
 * Refuses a name that another recipe has, whatever its capitals.
 * @param ownId of the recipe that may keep its name; null for a new one
 * @throws Refusal CONFLICT
 */
export function refuseTakenRecipeName(others: readonly { readonly id: string; readonly name: string }[], name: string, ownId: string | null, path: Path): void {
  const taken = others.find((other) => other.id !== ownId && sameName(other.name, name));
  if (taken === undefined) return;
  const message = `There is a recipe called ${nameIn(taken.name)} already.`;
  throw new Refusal('CONFLICT', message, { remedy: 'Give this one another name, or change that one.', fields: [{ path: [...path], message }] });
}

function soakFault({ soakHours, turnHours }: RecipeFigures): Fault | undefined {
  if (!(soakHours > 0)) return bad(`A soak of ${plainNumber(soakHours, 2)} hours can’t be.`, 'soakHours', 'Give the hours in the brine, more than zero.');
  if (soakHours > LONGEST_SOAK_HOURS) return bad(`A soak of ${plainNumber(soakHours, 1)} hours is more than ten days.`, 'soakHours', `Give hours, at most ${LONGEST_SOAK_HOURS}.`);
  for (const [index, hours] of turnHours.entries()) {
    const before = turnHours[index - 1] ?? 0;
    const field = `turnHours.${index}`;
    if (!(hours > 0)) return bad(`A turn at ${plainNumber(hours, 2)} hours can’t be: the soak has not begun.`, field, 'Give the hours after the start, more than zero.');
    if (hours <= before) return bad(`The turn at ${plainNumber(hours, 2)} hours comes after the one at ${plainNumber(before, 2)} hours.`, field, 'Write the turns in the order they come, each once.');
    if (hours >= soakHours) return bad(`A turn at ${plainNumber(hours, 2)} hours is no turn: the soak ends at ${plainNumber(soakHours, 2)} hours.`, field, 'Turn before the end, or make the soak longer.');
  }
  return undefined;
}

/** A recipe of only sugar, or with a salt to solve for that is no salt. */
function saltFault({ ingredients: lines, cure }: RecipeFigures, ingredients: readonly Ingredient[]): Fault | undefined {
  const what = cure === 'dry' ? 'cure' : 'recipe';
  if (lines.length === 0) return bad(`The ${what} is empty.`, 'ingredients', 'Add what goes into it, each with its parts by weight.');
  const known = lines.map(({ id }) => ingredientById(ingredients, id));
  if (known.includes(undefined) || known.some((one) => one !== undefined && one.saltPercent >= LEAST_SALT_PERCENT)) return undefined;
  const names = known.flatMap((one) => (one === undefined ? [] : [one.name.toLowerCase()])).join(', ');
  return bad(`The ${what} has no salt, only ${names}: without salt nothing is cured.`, 'ingredients', 'Add salt, or a sauce that holds salt.');
}

function trialFault(recipe: RecipeFigures, ingredients: readonly Ingredient[]): Fault | undefined {
  const order = {
    recipe: { name: recipe.name, ingredients: recipe.ingredients.map(({ id, parts }) => ({ id, parts })), salt: { ingredientId: recipe.saltIngredientId } },
    filletGrams: TRIAL_FILLET_GRAMS,
  };
  const tried = recipe.cure === 'dry'
    ? whenGood(dryTargetOf(recipe.target), (target) => scaleDryCure({ ...order, target }, ingredients))
    : whenGood(wetTargetOf(recipe.target), (target) => scaleRecipe({ ...order, target, ratio: recipe.ratio }, ingredients));
  return tried.ok ? undefined : atDraftField(tried);
}

function whenGood<T, U>(outcome: Outcome<T>, then: (value: T) => Outcome<U>): Outcome<U> {
  return outcome.ok ? then(outcome.value) : outcome;
}

function wetTargetOf(target: RecipeFigures['target']): Outcome<BrineTarget> {
  if ('curePerFishPercent' in target) return bad('So much cure over the fish is a goal of a dry cure, and this is a brine.', 'target.curePerFishPercent', 'Give the strength of the brine, or the salt in the fish.');
  if (brineStrengthOf(target) === 0) return bad('A brine of no salt is only water.', 'brinePercent' in target ? 'target.brinePercent' : 'target.brineSalometer', 'Give the strength, more than zero.');
  return targetOfKeys(target);
}

function brineStrengthOf(target: RecipeFigures['target']): number | null {
  if ('brinePercent' in target) return target.brinePercent;
  return 'brineSalometer' in target ? target.brineSalometer : null;
}

function dryTargetOf(target: RecipeFigures['target']): Outcome<DryCureTarget> {
  if ('curePerFishPercent' in target) return good({ form: 'curePerFishPercent', percent: target.curePerFishPercent });
  const brine = targetOfKeys(target);
  if (!brine.ok) return brine;
  if (brine.value.form === 'brinePercent' || brine.value.form === 'brineSalometer') {
    return bad('A dry cure has no brine with a strength of its own.', `target.${brine.value.form}`, 'Give the cure over the fish, or the salt in the fish.');
  }
  return good(brine.value);
}

/** The scaling names its own keys; a draft calls some of them otherwise. */
function atDraftField({ problem }: Fault): Fault {
  const { field = '' } = problem;
  const own = field === 'recipe.salt.ingredientId' ? 'saltIngredientId' : field.replace(/^recipe\./, '');
  return { ok: false, problem: { ...problem, field: own === 'filletGrams' || own === 'scaleStepGrams' ? 'ingredients' : own } };
}
