/**
 * The ingredient list: common names, heaviest first, parts of a bought ingredient in brackets
 * (21 CFR 101.4(a), (b), read in its 2006 text), preservatives with their function (101.22(j), from memory).
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { MADE_UP_PRODUCTS } from './allergen-words.ts';
import { fractionFromNumber, isAbove, sumOf } from './exact-decimal.ts';
import type { LabelGap, LabelIngredient, LabelPart } from './label-types.ts';

const SOURCE = '21 CFR 101.4 (read)';
const SOURCE_WITH_PRESERVATIVE = '21 CFR 101.4 (read); 21 CFR 101.22(j) (from memory)';
const PRESERVATIVE = /^(sodium|potassium) (nitrite|nitrate|benzoate|sorbate)$/i;
/** The shares behind which small amounts may stand in any order: 21 CFR 101.4(a)(2) (read). */
const GROUP_SHARES_PERCENT = [2, 1.5, 1, 0.5] as const;

/** Heaviest first; equal weights keep the order given. */
export function byWeight(ingredients: readonly LabelIngredient[]): readonly LabelIngredient[] {
  return ingredients.toSorted((left, right) => right.grams - left.grams);
}

/** The whole list in plain order: `Ingredients: Coho salmon, salt, soy sauce (water, wheat, soybeans, salt).` */
export function ingredientText(ingredients: readonly LabelIngredient[]): string {
  return `Ingredients: ${byWeight(ingredients).map(printedName).join(', ')}.`;
}

/**
 * The ingredient block, and what it lacks: the fish itself, or the parts of a bought sauce.
 * @param ingredients cleaned; none at all gives no block
 * @param marketName the pack's own fish
 */
export function ingredientPart(ingredients: readonly LabelIngredient[], marketName: string): LabelPart {
  if (ingredients.length === 0) {
    return { blocks: [], missing: [{ element: 'L04', why: 'There are no ingredients. Enter the fish and what the brine left in it, from the brine card.' }] };
  }
  const text = ingredientText(ingredients);
  const hasPreservative = ingredients.some((one) => [one.name, ...(one.subIngredients ?? [])].some((name) => PRESERVATIVE.test(name)));
  const source = hasPreservative ? SOURCE_WITH_PRESERVATIVE : SOURCE;
  return { blocks: [{ element: 'L04', text, source }], missing: listGaps(ingredients, marketName) };
}

/**
 * The list with small amounts grouped at its end, in any order, behind “contains 2% or less of”.
 * @param grouped names to stand in the group, in the order wanted
 * @param sharePercent the share printed: 2, 1.5, 1 or 0.5
 * @returns the text, or a sentence: a share the rule does not know, a name not in the list, an amount above the share
 */
export function checkIngredientGroup(ingredients: readonly LabelIngredient[], grouped: readonly string[], sharePercent: number): Outcome<string> {
  if (!GROUP_SHARES_PERCENT.some((share) => share === sharePercent)) {
    return bad(`A group of ${sharePercent} % or less is not allowed.`, 'sharePercent', 'Use 2, 1.5, 1 or 0.5.');
  }
  const total = sumOf(ingredients.map((ingredient) => fractionFromNumber(ingredient.grams)));
  const limit = fractionFromNumber(sharePercent);
  const small: LabelIngredient[] = [];
  for (const name of grouped) {
    const ingredient = ingredients.find((one) => one.name === name);
    if (ingredient === undefined) return bad(`“${name}” is not in the list.`, 'grouped', 'Name it as the list does.');
    const { numerator, denominator } = fractionFromNumber(ingredient.grams);
    const hundredfold = { numerator: numerator * 100n * total.denominator, denominator: denominator * total.numerator };
    if (total.numerator > 0n && isAbove(hundredfold, limit)) {
      return bad(`“${name}” is more than ${sharePercent} % of the whole, so it can’t stand in the group.`, 'grouped', 'Put it in the list by its weight.');
    }
    small.push(ingredient);
  }
  const large = byWeight(ingredients.filter((ingredient) => !small.includes(ingredient)));
  const group = `contains ${sharePercent}% or less of: ${small.map(printedName).join(', ')}`;
  return good(`Ingredients: ${[...large.map(printedName), group].join(', ')}.`);
}

function printedName(ingredient: LabelIngredient): string {
  const parts = ingredient.subIngredients ?? [];
  const name = withFunction(ingredient.name);
  return parts.length === 0 ? name : `${name} (${parts.map(withFunction).join(', ')})`;
}

function withFunction(name: string): string {
  return PRESERVATIVE.test(name) ? `${name} (preservative)` : name;
}

function listGaps(ingredients: readonly LabelIngredient[], marketName: string): readonly LabelGap[] {
  const gaps: LabelGap[] = [];
  const heaviestDeclares = byWeight(ingredients)[0]?.allergens ?? [];
  const hasFish =
    ingredients.some((one) => one.name.toLowerCase().includes(marketName.toLowerCase())) || heaviestDeclares.some((one) => /^fish\b/i.test(one));
  if (!hasFish) gaps.push({ element: 'L04', why: `The list does not name the fish. Enter “${marketName}” with its weight among the ingredients.` });
  for (const { name } of ingredients.filter(({ grams }) => grams === 0)) {
    gaps.push({ element: 'L04', why: `“${name}” has no weight, so its place in the list is not known. Enter its weight where the brine is made.` });
  }
  for (const { name, subIngredients = [] } of ingredients) {
    if (subIngredients.length > 0 || !MADE_UP_PRODUCTS.test(name)) continue;
    gaps.push({ element: 'L04', why: `“${name}” is made of several things that belong in brackets behind it. Enter them with the ingredient, from its bottle.` });
  }
  return gaps;
}
