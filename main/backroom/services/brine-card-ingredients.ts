/** The ingredients that a batch's card was made of, with the figures they had then. */
import { ingredientById, type Ingredient, type WeighedIngredient } from '../../../app/brine/ingredients.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { Room } from '../room.ts';

/** The kitchen's own as they were when the batch was made or mended, then the program's list, which never changes. */
export function ingredientsOfBatch(room: Pick<Room, 'catalogue'>, batch: Pick<StoredBatch, 'ownIngredients'>): readonly Ingredient[] {
  return [...batch.ownIngredients, ...room.catalogue.ingredients];
}

/** The card's lines with their ingredients. */
export function weighedLines(room: Pick<Room, 'catalogue'>, batch: Pick<StoredBatch, 'id' | 'ownIngredients' | 'card'>): WeighedIngredient[] {
  const ingredients = ingredientsOfBatch(room, batch);
  return batch.card.lines.map(({ ingredientId, grams }) => {
    const ingredient = ingredientById(ingredients, ingredientId);
    if (ingredient === undefined) throw new Error(`the brine card of batch ${batch.id} has an unknown ingredient ${ingredientId}`);
    return { ingredient, grams };
  });
}
