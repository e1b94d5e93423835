/** Recipes and ingredients for tests, as a person would give them, and what a kitchen holds of them. */
import { expect } from 'vitest';
import type { Input, Output } from '../../app/contract/contract.ts';
import type { RequestName } from '../../app/contract/names.ts';
import type { IngredientDraft, PackageFacts } from '../../app/contract/requests/recipes.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { makeBatch, receive } from './fish-and-brine.ts';

export type RecipeDraft = Input<'recipe.save'>['draft'];

/** A brine with soy sauce and brown sugar, unless something else is said. */
export function recipeDraft(more: Partial<RecipeDraft> = {}): RecipeDraft {
  return {
    name: 'Dock brine', cure: 'wet', process: 'either', ratio: 1.2, target: { brinePercent: 9 }, saltIngredientId: 'salt', soakHours: 10, turnHours: [2, 6], note: '',
    ingredients: [{ id: 'water', parts: 100 }, { id: 'salt', parts: 8 }, { id: 'brown-sugar', parts: 4 }, { id: 'soy-sauce', parts: 3 }], ...more,
  };
}

/** A dry cure: two of salt to one of sugar, 6 % over the fish. */
export function dryDraft(more: Partial<RecipeDraft> = {}): RecipeDraft {
  return recipeDraft({ name: 'Dock rub', cure: 'dry', target: { curePerFishPercent: 6 }, ingredients: [{ id: 'salt', parts: 2 }, { id: 'brown-sugar', parts: 1 }], ...more });
}

export async function saveRecipe(kitchen: TestKitchen, more: Partial<RecipeDraft> = {}): Promise<Output<'recipe.save'>['recipe']> {
  return (await kitchen.ask('recipe.save', { recipeId: null, draft: recipeDraft(more), why: '' })).recipe;
}

const NO_FACTS: PackageFacts = { servingGrams: '', sodiumMilligrams: '', fatGrams: '', carbohydrateGrams: '', sugarsGrams: '', proteinGrams: '', alcoholByVolumePercent: '', densityGramsPerMl: '' };

/** A sauce whose serving of 20 g has 800 mg of sodium and 5 g of sugars, unless something else is said. */
export function sauceDraft(facts: Partial<PackageFacts> = {}, more: Partial<IngredientDraft> = {}): IngredientDraft {
  return {
    name: 'Harbour sauce', labelName: 'harbour sauce', subIngredients: ['water', 'sugar', 'salt'], allergens: [], mayContain: ['sesame'],
    composition: { ground: 'package', facts: { ...NO_FACTS, servingGrams: '20', sodiumMilligrams: '800', carbohydrateGrams: '6', sugarsGrams: '5', densityGramsPerMl: '1.1', ...facts } }, ...more,
  };
}

/** A mix of these parts by weight. */
export function mixDraft(parts: Record<string, number>, more: Partial<IngredientDraft> = {}): IngredientDraft {
  return {
    name: 'House rub', labelName: 'house rub', subIngredients: [], allergens: [], mayContain: [],
    composition: { ground: 'mix', parts: Object.entries(parts).map(([ingredientId, share]) => ({ ingredientId, parts: share })) }, ...more,
  };
}

export async function saveIngredient(kitchen: TestKitchen, draft: IngredientDraft): Promise<Output<'ingredient.save'>['ingredient']> {
  return (await kitchen.ask('ingredient.save', { ingredientId: null, draft })).ingredient;
}

export interface WatchedKitchen {
  readonly kitchen: TestKitchen;
  readonly lotId: string;
  /** Recipes, ingredients, tastings, and the chain over every entry. */
  contents(): Promise<{ readonly chain: Output<'record.batch'>['chain'] } & Readonly<Record<string, unknown>>>;
  /** Asks for what must be refused at a field, and sees that the book stays as it was. */
  expectRefused<N extends RequestName>(name: N, input: Input<N>, said: { path: readonly string[]; message: RegExp; code?: string }): Promise<void>;
}

/** A kitchen with a lot of 10 lb and a batch of 2 lb, through which its whole record can be looked at. */
export async function openWatchedKitchen(): Promise<WatchedKitchen> {
  const kitchen = await openTestKitchen();
  const lot = await receive(kitchen);
  const batch = await makeBatch(kitchen, [lot.id], { fillets: { text: '2', unit: 'lb' } });
  async function contents(): ReturnType<WatchedKitchen['contents']> {
    const { recipes } = await kitchen.ask('recipe.list', {});
    return {
      recipes, chain: (await kitchen.ask('record.batch', { batchId: batch.id })).chain,
      versions: await Promise.all(recipes.map(({ id }) => kitchen.ask('recipe.versions', { recipeId: id }))),
      ingredients: await kitchen.ask('ingredient.list', {}), tastings: await kitchen.ask('taste.list', {}),
    };
  }
  return {
    kitchen, lotId: lot.id, contents,
    async expectRefused(name, input, { path, message, code = 'INVALID_INPUT' }) {
      const before = await contents();
      const reply = await kitchen.reply(name, input);
      if (reply.ok) throw new Error(`${name} was not refused`);
      const { error } = reply;
      expect(error).toMatchObject({ code, message: expect.stringMatching(message), remedy: expect.stringMatching(/\.$/) });
      expect(error.fields).toEqual([{ path, message: error.message }]);
      expect(error.message).toMatch(/\.$/);
      expect(await contents()).toEqual(before);
    },
  };
}
