/** The ingredients of the kitchen: the program's list, and those it added. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { saveIngredient } from './ingredient-keeping.ts';
import { viewIngredients, viewOwn } from './ingredient-view.ts';

export const ingredientServices = {
  'ingredient.list': (room: BookRoom): Output<'ingredient.list'> => ({ ingredients: viewIngredients(room) }),
  'ingredient.save': (room: BookRoom, input: Parsed<'ingredient.save'>): Output<'ingredient.save'> => ({ ingredient: viewOwn(room, saveIngredient(room, input)) }),
} satisfies Services<'ingredient.list' | 'ingredient.save'>;
