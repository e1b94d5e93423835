/** The ingredients that this kitchen can brine with: the program's own list and what the kitchen added. */
import type { Ingredient } from '../../../app/brine/ingredients.ts';
import type { BookRoom } from '../room.ts';

/** What may be looked up: the program's list and the open book. */
type IngredientRoom = Pick<BookRoom, 'catalogue' | 'book'>;

/** Every ingredient by its latest figures: the program's list in its order, then the kitchen's own as they were first added. */
export function ingredientsOf(room: IngredientRoom): readonly Ingredient[] {
  const own = room.book.shelf('ingredients').all().map(({ figures }) => figures);
  return own.length === 0 ? room.catalogue.ingredients : [...room.catalogue.ingredients, ...own];
}

/** Those of these ids that are the kitchen's own, each once, by their latest figures: what a batch keeps beside its card. */
export function ownIngredientsAmong(room: IngredientRoom, ids: readonly string[]): Ingredient[] {
  const shelf = room.book.shelf('ingredients');
  return [...new Set(ids)].flatMap((id) => {
    const own = shelf.get(id);
    return own === undefined ? [] : [own.figures];
  });
}
