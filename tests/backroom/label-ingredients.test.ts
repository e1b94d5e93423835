import { describe, expect, it } from 'vitest';
import { ingredientById } from '../../app/brine/ingredients.ts';
import { catalogue } from '../../main/backroom/catalogue.ts';
import { labelIngredients } from '../../main/backroom/services/label-ingredients.ts';
import { batchOf, saveRecipe, soakingBatch } from './brine-tub.ts';
import { makeBatch, receive } from './fish-and-brine.ts';

const SOY = ingredientById(catalogue.ingredients, 'soy-sauce');

describe('the ingredients of a label', () => {
  it('are the kitchen’s own as they were when the batch was made', async () => {
    const batch = await batchOf(await soakingBatch());
    if (SOY === undefined) throw new Error('no soy sauce');
    const own = { ...SOY, id: 'house-glaze', name: 'House glaze', labelName: 'house glaze', subIngredients: ['water', 'soybeans'], allergens: ['soybeans'] };
    const card = { ...batch.card, lines: [...batch.card.lines, { ingredientId: 'house-glaze', name: 'House glaze', grams: 300, saltGrams: 40, household: '', remark: '' }] };
    const listed = labelIngredients({ catalogue }, { ...batch, card, ownIngredients: [own] }, batch.marketName);
    expect(listed.find((ingredient) => ingredient.name === 'house glaze')).toMatchObject({ subIngredients: ['water', 'soybeans'], allergens: ['soybeans'] });
    expect(() => labelIngredients({ catalogue }, { ...batch, card, ownIngredients: [] }, batch.marketName)).toThrow('unknown ingredient house-glaze');
  });

  it('of a dry cure stay on the fish whole', async () => {
    const { kitchen } = await soakingBatch();
    const recipeId = await saveRecipe(kitchen);
    const batch = await makeBatch(kitchen, [(await receive(kitchen)).id], { recipeId });
    const listed = labelIngredients({ catalogue }, { ...batch, ownIngredients: [] }, batch.marketName);
    expect(listed.find((ingredient) => ingredient.name === 'salt')?.grams).toBe(batch.card.lines[0]?.grams);
  });
});
