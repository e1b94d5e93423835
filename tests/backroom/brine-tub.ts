/** A batch in its tub, and recipes for it, asked for as a front would. */
import type { Input, Output } from '../../app/contract/contract.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { makeBatch, receive, soakInput } from './fish-and-brine.ts';

type RecipeDraft = Input<'recipe.save'>['draft'];

/** A recipe of this kitchen: 3 parts of salt to 1 of brown sugar, dry, unless something else is said. */
export async function saveRecipe(kitchen: TestKitchen, more: Partial<RecipeDraft> = {}): Promise<string> {
  const draft: RecipeDraft = {
    name: 'Dry cure', cure: 'dry', process: 'either', ratio: 1, target: { curePerFishPercent: 4 }, saltIngredientId: 'salt', soakHours: 12, turnHours: [6], note: '',
    ingredients: [{ id: 'salt', parts: 3 }, { id: 'brown-sugar', parts: 1 }], ...more,
  };
  return (await kitchen.ask('recipe.save', { recipeId: null, draft, why: '' })).recipe.id;
}

export interface Soaking {
  readonly kitchen: TestKitchen;
  readonly batchId: string;
  readonly startMs: number;
}

/** A whitefish batch in the dill brine, gone in just now unless said otherwise. */
export async function soakingBatch(more: Partial<Input<'batch.make'>> = {}, { start = true } = {}): Promise<Soaking> {
  const kitchen = await openTestKitchen();
  const lot = await receive(kitchen);
  const { id: batchId } = await makeBatch(kitchen, [lot.id], { recipeId: 'dill-lemon-brine', ...more });
  const startMs = kitchen.clock.nowMs();
  if (start) await kitchen.ask('soak.log', soakInput(batchId, 'start', startMs));
  return { kitchen, batchId, startMs };
}

/** The batch as it stands. */
export async function batchOf({ kitchen, batchId }: Soaking): Promise<Output<'batch.get'>['batch']> {
  return (await kitchen.ask('batch.get', { batchId })).batch;
}
