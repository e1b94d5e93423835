/** Saving a recipe: a new one, or the next version of one. */
import { ingredientById, type Ingredient } from '../../../app/brine/ingredients.ts';
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Recipe, RecipeDraft } from '../../../app/contract/requests/recipes.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { ingredientsOf } from './kitchen-ingredients.ts';
import { DRY_RATIO, refuseTakenRecipeName, refuseUnmakeable } from './recipe-check.ts';
import { nameIn } from './recipe-names.ts';
import { putVersion } from './recipe-versions.ts';

/**
 * Saves a recipe on both shelves and in the record.
 * @throws Refusal: NOT_FOUND; CONFLICT for a name that is taken; INVALID_INPUT for what can't be made and for a change that changes nothing
 */
export function saveRecipe(room: BookRoom, { recipeId, draft, why }: Parsed<'recipe.save'>): Recipe {
  const recipes = room.book.shelf('recipes');
  const before = recipeId === null ? null : recipes.need(recipeId);
  const ingredients = ingredientsOf(room);
  refuseTakenRecipeName(recipes.all(), draft.name, recipeId, ['draft', 'name']);
  refuseUnmakeable(draft, ingredients, (field) => ['draft', ...field.split('.')]);
  const recipe = recipeOfDraft(draft, { id: before?.id ?? room.newId(), version: (before?.version ?? 0) + 1 }, ingredients);
  if (before !== null && isUnchanged(before, recipe)) {
    throw new Refusal('INVALID_INPUT', `Nothing in ${nameIn(before.name)} has changed: it stays version ${before.version}.`, { remedy: 'Change something, or leave it as it is.' });
  }
  keepRecipe(room, recipe, { before, why, kind: 'recipe.save', how: 'Saved' });
  return recipe;
}

/** How a recipe came to be kept. */
export interface Keeping {
  readonly before: Recipe | null;
  /** Empty for a first version: there is nothing yet to give a reason for. */
  readonly why: string;
  readonly kind: string;
  /** Begins the line in the record. */
  readonly how: string;
}

/** Puts a recipe that was checked on both shelves, records it and announces it. */
export function keepRecipe(room: BookRoom, recipe: Recipe, { before, why, kind, how }: Keeping): void {
  const said = before === null ? '' : why;
  putVersion(room, recipe, { savedBy: actingPerson(room).initials, why: said });
  const renamed = before === null || before.name === recipe.name ? '' : ` (was ${nameIn(before.name)})`;
  room.book.record({
    kind, subjectId: recipe.id, happenedAtMs: null,
    summary: `${how} the recipe ${nameIn(recipe.name)}${renamed}, version ${recipe.version}.`,
    ...(said === '' ? {} : { why: said }),
    ...(before === null ? {} : { before }),
    after: recipe,
  });
  room.changed('recipes', [recipe.id]);
}

/** A draft as the recipe it becomes, with the names that its ingredients have now. */
export function recipeOfDraft(draft: RecipeDraft, { id, version }: Pick<Recipe, 'id' | 'version'>, ingredients: readonly Ingredient[]): Recipe {
  const { name, cure, process, target, saltIngredientId, soakHours, turnHours, note } = draft;
  return {
    id, version, name, cure, process, target, saltIngredientId, soakHours, turnHours, note,
    ratio: cure === 'dry' ? dryRatio(draft.ratio) : draft.ratio,
    ingredients: draft.ingredients.map((line) => ({ id: line.id, name: ingredientById(ingredients, line.id)?.name ?? line.id, parts: line.parts })),
  };
}

function dryRatio(ratio: number): number {
  return ratio > 0 ? ratio : DRY_RATIO;
}

/** The names of ingredients may have changed since; that alone makes no new version. */
function isUnchanged(before: Recipe, after: Recipe): boolean {
  return JSON.stringify(sayingOf(before)) === JSON.stringify(sayingOf(after));
}

function sayingOf({ name, cure, process, ratio, target, saltIngredientId, soakHours, turnHours, note, ingredients }: Recipe): unknown {
  const goal = Object.entries(target).toSorted(([one], [other]) => one.localeCompare(other));
  return [name, cure, process, ratio, goal, saltIngredientId, soakHours, turnHours, note, ingredients.map(({ id, parts }) => [id, parts])];
}
