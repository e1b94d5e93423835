/** Recipes in their versions, out of the kitchen and into it. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { exportRecipe, importRecipe } from './recipe-carrying.ts';
import { saveRecipe } from './recipe-keeping.ts';
import { versionsOf } from './recipe-versions.ts';

export const recipeServices = {
  'recipe.list': (room: BookRoom): Output<'recipe.list'> => ({ recipes: room.book.shelf('recipes').all() }),
  'recipe.versions': (room: BookRoom, input: Parsed<'recipe.versions'>): Output<'recipe.versions'> => ({ versions: versionsOf(room, input.recipeId) }),
  'recipe.save': (room: BookRoom, input: Parsed<'recipe.save'>): Output<'recipe.save'> => ({ recipe: saveRecipe(room, input) }),
  'recipe.export': exportRecipe,
  'recipe.import': importRecipe,
} satisfies Services<'recipe.list' | 'recipe.versions' | 'recipe.save' | 'recipe.export' | 'recipe.import'>;
