/** Nitrite in a recipe: for sale in the US only a few species may be cured with it. */
import { ingredientById } from '../../../app/brine/ingredients.ts';
import type { Recipe } from '../../../app/contract/requests/brine-bench.ts';
import type { Species } from '../../../app/contract/requests/fish.ts';
import { Refusal } from '../refusal.ts';
import type { Room } from '../room.ts';
import { fishOf } from './species.ts';

/**
 * Refuses a recipe with nitrite or nitrite's source, nitrate, for a species that no rule permits it for.
 * The ingredient's own declaration tells: 21 CFR 101.4 has every maker name it (read).
 * @throws Refusal RULE_BLOCKS on `recipeId`
 */
export function refuseForbiddenNitrite(room: Pick<Room, 'catalogue'>, recipe: Recipe, species: Species): void {
  const fish = fishOf(room, species.id);
  if (fish.nitriteAllowed !== 'none') return;
  const curing = recipe.ingredients.find(({ id, name }) => {
    const ingredient = ingredientById(room.catalogue.ingredients, id);
    return [name, ingredient?.labelName ?? '', ...(ingredient?.subIngredients ?? [])].some((words) => /nitr[ai]te/i.test(words));
  });
  if (curing === undefined) return;
  const message = `${curing.name} holds nitrite or nitrate, and neither is permitted in ${species.marketName} (${fish.nitriteSource.title}).`;
  throw new Refusal('RULE_BLOCKS', message, { remedy: 'Choose a recipe without it.', fields: [{ path: ['recipeId'], message }] });
}
