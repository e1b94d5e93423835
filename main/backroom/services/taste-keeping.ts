/** A brine that was mixed by taste becomes a recipe of the strength that was weighed. */
import { ingredientById, LEAST_SALT_PERCENT, type Ingredient } from '../../../app/brine/ingredients.ts';
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Recipe, RecipeDraft } from '../../../app/contract/requests/recipes.ts';
import type { Tasting } from '../../../app/contract/requests/taste.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';
import { ingredientsOf } from './kitchen-ingredients.ts';
import { declaresNitrite } from './nitrite-rule.ts';
import { refuseTakenRecipeName, refuseUnmakeable } from './recipe-check.ts';
import { keepRecipe, recipeOfDraft } from './recipe-keeping.ts';
import { nameIn } from './recipe-names.ts';
import { openTasting } from './taste-book.ts';

/** From this on an ingredient is salt and no sauce or seasoning. */
const PLAIN_SALT_PERCENT = 90;
/** Finer than any scale: a tonne of brine comes out within a gram of salt. */
const STRENGTH_DECIMALS = 5;
const TYPED: readonly string[] = ['name', 'ratio', 'soakHours', 'turnHours'];

/**
 * Keeps a tasting as the first version of a recipe: the grams are its parts, the strength its target.
 * @throws Refusal CONFLICT for one that was kept already or a name that is taken; INVALID_INPUT at the field, or at
 *   `tastingId` where the brine itself can't be a recipe
 */
export function keepTasting(room: BookRoom, input: Parsed<'taste.keep'>): Recipe {
  const tasting = openTasting(room, input.tastingId);
  refuseTakenRecipeName(room.book.shelf('recipes').all(), input.name, null, ['name']);
  const ingredients = ingredientsOf(room);
  const draft = draftOf(tasting, input, ingredients);
  refuseUnmakeable(draft, ingredients, (field) => (TYPED.some((key) => field === key || field.startsWith(`${key}.`)) ? field.split('.') : ['tastingId']));
  const recipe = recipeOfDraft(draft, { id: room.newId(), version: 1 }, ingredients);
  keepRecipe(room, recipe, { before: null, why: '', kind: 'recipe.save', how: `Kept ${nameIn(tasting.name)} as` });
  const kept = { ...tasting, recipeId: recipe.id };
  room.book.shelf('tastings').put(kept);
  room.book.record({
    kind: 'taste.keep', subjectId: tasting.id, happenedAtMs: null,
    summary: `${nameIn(tasting.name)} became the recipe ${nameIn(recipe.name)}.`, before: { recipeId: null }, after: { recipeId: recipe.id },
  });
  room.changed('tasting', [tasting.id]);
  return recipe;
}

function draftOf(tasting: Tasting, input: Parsed<'taste.keep'>, ingredients: readonly Ingredient[]): RecipeDraft {
  const { name, process, ratio, soakHours, turnHours, note } = input;
  const lines = linesOf(tasting, ingredients);
  if (lines.length === 0) refuseInput(`There is nothing in ${nameIn(tasting.name)} yet.`, ['tastingId'], 'Weigh in what goes into the brine, then keep it.');
  const totalGrams = lines.reduce((sum, line) => sum + line.grams, 0);
  const saltGrams = lines.reduce((sum, line) => sum + saltIn(line), 0);
  return {
    name, cure: 'wet', process, ratio, soakHours, turnHours, note,
    target: { brinePercent: Number(((100 * saltGrams) / totalGrams).toFixed(STRENGTH_DECIMALS)) },
    saltIngredientId: saltOf(lines)?.ingredient.id ?? '',
    ingredients: lines.map(({ ingredient, grams }) => ({ id: ingredient.id, parts: Number(grams.toPrecision(12)) })),
  };
}

interface TastedLine {
  readonly ingredient: Ingredient;
  readonly grams: number;
}

/** Each ingredient once, with all that went in of it, in the order it first went in. */
function linesOf({ additions }: Tasting, ingredients: readonly Ingredient[]): TastedLine[] {
  const gramsById = new Map<string, number>();
  for (const { ingredientId, grams, struck } of additions) {
    if (!struck) gramsById.set(ingredientId, (gramsById.get(ingredientId) ?? 0) + grams);
  }
  return [...gramsById].flatMap(([id, grams]) => {
    const ingredient = ingredientById(ingredients, id);
    return ingredient === undefined ? [] : [{ ingredient, grams }];
  });
}

/** The line that is solved for when it is scaled: the plain salt that brings most, else the sauce that does; curing salt only where there is no other. */
function saltOf(lines: readonly TastedLine[]): TastedLine | undefined {
  const salty = lines.filter(({ ingredient }) => ingredient.saltPercent >= LEAST_SALT_PERCENT).toSorted((one, other) => saltIn(other) - saltIn(one));
  const without = salty.filter(({ ingredient }) => !declaresNitrite(ingredient));
  return without.find(({ ingredient }) => ingredient.saltPercent >= PLAIN_SALT_PERCENT) ?? without[0] ?? salty[0];
}

function saltIn({ ingredient, grams }: TastedLine): number {
  return (grams * ingredient.saltPercent) / 100;
}
