/** The recipes a new book begins with. */
import soakData from '../../../assets/demo/recipe-soaks.json' with { type: 'json' };
import { RecipeSoaksAsset } from '../../../app/contract/assets-demo.ts';
import { BrineTarget, type Recipe } from '../../../app/contract/requests/recipes.ts';
import { ingredientById } from '../../../app/brine/ingredients.ts';
import type { Catalogue } from '../catalogue.ts';

/**
 * Starting recipes in their first version.
 * @param forDemo the demonstration kitchen gets all of them, a kitchen's own book those meant for every book
 */
export function startingRecipes(catalogue: Pick<Catalogue, 'recipes' | 'ingredients'>, forDemo: boolean): Recipe[] {
  const { soaks } = RecipeSoaksAsset.parse(soakData);
  return catalogue.recipes.flatMap((starting) => {
    const soak = soaks.find((candidate) => candidate.recipeId === starting.id);
    if (soak === undefined) throw new Error(`the starting recipe ${starting.id} has no soak`);
    if (!forDemo && !soak.everyBook) return [];
    return [{
      id: starting.id, name: starting.name, version: 1, cure: 'wet', ratio: starting.usualRatio, target: BrineTarget.parse(starting.usualTarget),
      ingredients: starting.ingredients.map(({ id, parts }) => ({ id, name: ingredientById(catalogue.ingredients, id)?.name ?? id, parts })),
      saltIngredientId: starting.salt.ingredientId, soakHours: soak.soakHours, turnHours: soak.turnHours,
      process: soak.process, note: starting.note,
    }];
  });
}
