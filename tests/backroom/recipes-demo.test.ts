import { expect, it } from 'vitest';
import { openTestKitchen } from '../support/test-kitchen.ts';

it('the demonstration kitchen has an ingredient of its own, a recipe with it in two versions, and a tasting that goes on', async () => {
  const kitchen = await openTestKitchen({ demo: true });
  const own = (await kitchen.ask('ingredient.list', {})).ingredients.filter((one) => one.ground !== 'list');
  expect(own.map((one) => [one.name, one.ground])).toEqual([['Spruce tip syrup, Tamarack pantry', 'package']]);
  const recipe = (await kitchen.ask('recipe.list', {})).recipes.find((one) => one.name === 'Spruce tip brine');
  expect(recipe?.ingredients.map((line) => line.name)).toContain('Spruce tip syrup, Tamarack pantry');
  const { versions } = await kitchen.ask('recipe.versions', { recipeId: recipe?.id ?? '' });
  expect(versions.map(({ version, savedBy, why }) => [version, savedBy, why !== ''])).toEqual([[2, 'TB', true], [1, 'MV', false]]);
  expect((versions[0]?.savedAtMs ?? 0) - (versions[1]?.savedAtMs ?? 0)).toBeGreaterThan(24 * 3_600_000);
  const { tastings } = await kitchen.ask('taste.list', {});
  expect(tastings.map(({ tasting }) => [tasting.name, tasting.additions.length, tasting.floats.length])).toEqual([['Sunday maple brine', 4, 1]]);
  const figures = tastings[0]?.figures;
  expect(figures?.percentByWeight).toBeGreaterThan(5);
  expect(Math.abs((figures?.floatMeansPercent ?? 0) - (figures?.percentByWeight ?? 0))).toBeLessThan(0.3);
  expect(figures?.finished?.percent).toBeGreaterThan(figures?.equilibrium?.percent ?? 100);
});
