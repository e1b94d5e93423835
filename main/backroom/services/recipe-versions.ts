/** The versions of a recipe: the latest lies on its own shelf, all of them on another. */
import type { Recipe, RecipeVersion } from '../../../app/contract/requests/recipes.ts';
import type { BookRoom } from '../room.ts';

/** Who saved a version, and why; the program itself has no initials. */
export interface SavedBy {
  readonly savedBy: string;
  readonly why: string;
}

/** Every version of a recipe that the book knows, the latest first. A recipe of an older book has only the one that lies there. */
export function versionsOf(room: BookRoom, recipeId: string): RecipeVersion[] {
  const latest = room.book.shelf('recipes').need(recipeId);
  const kept = room.book.shelf('recipeVersions').where('recipeId', recipeId);
  if (kept.length === 0) return [loneVersion(room, latest)];
  return kept.map(({ version, savedAtMs, savedBy, why, recipe }) => ({ version, savedAtMs, savedBy, why, recipe })).toSorted((one, other) => other.version - one.version);
}

/** One version of a recipe, the latest unless one is named; undefined where it never was. */
export function versionOf(room: BookRoom, recipeId: string, version: number | undefined): Recipe | undefined {
  const versions = versionsOf(room, recipeId);
  return (version === undefined ? versions[0] : versions.find((one) => one.version === version))?.recipe;
}

/** Puts a recipe on both shelves as its latest version. What an older book has of it is kept as a version first. */
export function putVersion(room: BookRoom, recipe: Recipe, { savedBy, why }: SavedBy): void {
  const recipes = room.book.shelf('recipes');
  const versions = room.book.shelf('recipeVersions');
  const before = recipes.get(recipe.id);
  if (before !== undefined && versions.where('recipeId', recipe.id).length === 0) {
    versions.put({ id: room.newId(), recipeId: recipe.id, ...loneVersion(room, before) });
  }
  recipes.put(recipe);
  versions.put({ id: room.newId(), recipeId: recipe.id, version: recipe.version, savedAtMs: room.clock.nowMs(), savedBy, why, recipe });
}

/** When it was entered is in the record; who brought it in is not asked: the program did, with the book. */
function loneVersion(room: BookRoom, recipe: Recipe): RecipeVersion {
  const savedAtMs = room.book.entriesAbout([recipe.id]).at(-1)?.enteredAtMs ?? 0;
  return { version: recipe.version, savedAtMs, savedBy: '', why: '', recipe };
}
