/** Recipes out of this kitchen and into it, with the own ingredients that they need. */
import { ingredientById } from '../../../app/brine/ingredients.ts';
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Composition, RecipeDraft } from '../../../app/contract/requests/recipes.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { figuresOf, sameFigures } from './ingredient-figures.ts';
import { freeSlug, keepIngredient } from './ingredient-keeping.ts';
import { draftOf, mixesOf, type OwnIngredient } from './ingredient-view.ts';
import { ingredientsOf } from './kitchen-ingredients.ts';
import { refuseUnmakeable } from './recipe-check.ts';
import { fileNameOf, readRecipeFile, textOfRecipe, type FileIngredient, type RecipeFile } from './recipe-file.ts';
import { keepRecipe, recipeOfDraft } from './recipe-keeping.ts';
import { freeName, nameIn, sameName } from './recipe-names.ts';
import { versionOf } from './recipe-versions.ts';

const TEXT: readonly string[] = ['text'];
const IMPORTED = 'imported';
const MEND_FILE = 'Mend it in the kitchen that it comes from and export it again.';

/** @throws Refusal NOT_FOUND for a recipe or version that never was */
export function exportRecipe(room: BookRoom, { recipeId, version }: Parsed<'recipe.export'>): Output<'recipe.export'> {
  const recipe = versionOf(room, recipeId, version);
  if (recipe === undefined) return refuseInput(`The recipe never had a version ${version}.`, ['version'], 'Choose a version from its list.', 'NOT_FOUND');
  return { fileName: fileNameOf(recipe), text: textOfRecipe(recipe, ownNeeded(room, recipe.ingredients.map((line) => line.id))) };
}

/** The kitchen's own of these ids, and those that its mixes are made of; what goes into a mix before the mix. */
function ownNeeded(room: BookRoom, ids: readonly string[], found: OwnIngredient[] = []): OwnIngredient[] {
  for (const id of ids) {
    const own = room.book.shelf('ingredients').get(id);
    if (own === undefined || found.some((one) => one.id === id)) continue;
    if (own.composition.ground === 'mix') ownNeeded(room, own.composition.parts.map((part) => part.ingredientId), found);
    found.push(own);
  }
  return found;
}

/**
 * Takes in a recipe that was exported: all of it, or nothing.
 * @throws Refusal INVALID_INPUT at `text`: a file that is none, ingredients that nobody knows, a mix inside itself, a recipe that can't be made
 */
export function importRecipe(room: BookRoom, { text }: Parsed<'recipe.import'>): Output<'recipe.import'> {
  const file = readRecipeFile(text);
  refuseBadIngredients(room, file);
  const idsHere = new Map<string, string>();
  const added: OwnIngredient[] = [];
  for (const one of inOrderOfMaking(file.ingredients)) {
    const own = bringIn(room, one, idsHere);
    idsHere.set(one.figures.id, own.id);
    if (!own.isNew) continue;
    keepIngredient(room, own.ingredient, null, 'ingredient.import');
    added.push(own.ingredient);
  }
  const ingredients = ingredientsOf(room);
  const recipes = room.book.shelf('recipes');
  const draft: RecipeDraft = {
    ...file.recipe,
    name: freeName(file.recipe.name, recipes.all().map((recipe) => recipe.name), IMPORTED),
    saltIngredientId: idsHere.get(file.recipe.saltIngredientId) ?? file.recipe.saltIngredientId,
    ingredients: file.recipe.ingredients.map(({ id, parts }) => ({ id: idsHere.get(id) ?? id, parts })),
  };
  refuseUnmakeable(draft, ingredients, () => TEXT);
  const recipe = recipeOfDraft(draft, { id: room.newId(), version: 1 }, ingredients);
  keepRecipe(room, recipe, { before: null, why: '', kind: 'recipe.import', how: 'Imported' });
  return { recipe, addedIngredients: added.map(({ figures }) => figures.name) };
}

/** Everything that a recipe and its mixes name must be in the file or in the program's list, and every label and mix must hold together. */
function refuseBadIngredients(room: BookRoom, { recipe, ingredients: own }: RecipeFile): void {
  const twice = own.find(({ figures }, index) => own.findIndex((other) => other.figures.id === figures.id) !== index);
  if (twice !== undefined) refuseInput(`The ingredient ${nameIn(twice.figures.name)} stands in the file twice.`, TEXT, MEND_FILE);
  const known = [...own.map(({ figures }) => figures), ...room.catalogue.ingredients];
  for (const { id } of recipe.ingredients) {
    if (ingredientById(known, id) === undefined) refuseInput(`The recipe needs an ingredient ${nameIn(id)}, which is neither in the file nor in this program’s list.`, TEXT, MEND_FILE);
  }
  const mixes = mixesOf(own.map(({ figures, composition }) => ({ id: figures.id, composition })));
  for (const one of own) {
    const worked = figuresOf(one.figures.id, draftOf(one.figures, one.composition), { ingredients: known, mixes });
    if (!worked.ok) refuseInput(`The ingredient ${nameIn(one.figures.name)} in the file can’t be: ${worked.problem.message}`, TEXT, MEND_FILE);
    // A mix keeps the figures that it was saved with; those of a package follow from its label, or somebody has changed them.
    if (one.composition.ground === 'package' && !sameFigures(worked.value, one.figures)) {
      refuseInput(`The figures of ${nameIn(one.figures.name)} in the file don’t follow from its label.`, TEXT, MEND_FILE);
    }
  }
}

/** What goes into a mix before the mix; there is no circle any more. */
function inOrderOfMaking(own: readonly FileIngredient[]): FileIngredient[] {
  const ordered: FileIngredient[] = [];
  function take(one: FileIngredient): void {
    if (ordered.includes(one)) return;
    const parts = one.composition.ground === 'mix' ? one.composition.parts : [];
    for (const { ingredientId } of parts) {
      const part = own.find(({ figures }) => figures.id === ingredientId);
      if (part !== undefined) take(part);
    }
    ordered.push(one);
  }
  own.forEach(take);
  return ordered;
}

interface BroughtIn {
  readonly id: string;
  readonly isNew: boolean;
  readonly ingredient: OwnIngredient;
}

/** One that this kitchen has already under this name with these figures is used as it is; another of the name comes in beside it. */
function bringIn(room: BookRoom, { figures, composition }: FileIngredient, idsHere: ReadonlyMap<string, string>): BroughtIn {
  const own = room.book.shelf('ingredients').all();
  const same = own.find((one) => isNamedLike(one.figures.name, figures.name) && sameFigures(one.figures, figures));
  if (same !== undefined) return { id: same.id, isNew: false, ingredient: same };
  const here = ingredientsOf(room);
  const name = freeName(figures.name, here.map((one) => one.name), IMPORTED);
  const id = freeSlug(name, here.map((one) => one.id));
  const ingredient: OwnIngredient = {
    id, version: 1, figures: { ...figures, id, name }, composition: withIdsHere(composition, idsHere),
    savedAtMs: room.clock.nowMs(), savedBy: actingPerson(room).initials,
  };
  return { id, isNew: true, ingredient };
}

/** A file that is taken in twice brings nothing new the second time: the remark of an earlier import is no other name. */
function isNamedLike(here: string, inFile: string): boolean {
  return sameName(here.replace(/ \(imported( \d+)?\)$/, ''), inFile) || sameName(here, inFile);
}

function withIdsHere(composition: Composition, idsHere: ReadonlyMap<string, string>): Composition {
  if (composition.ground === 'package') return composition;
  return { ...composition, parts: composition.parts.map((part) => ({ ...part, ingredientId: idsHere.get(part.ingredientId) ?? part.ingredientId })) };
}
