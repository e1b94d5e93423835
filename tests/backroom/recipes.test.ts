import { describe, expect, it } from 'vitest';
import { openBookFile } from '../../main/backroom/book/open.ts';
import { TEST_CLOCK, write } from '../support/book-folder.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';
import { makeBatch } from './fish-and-brine.ts';
import { dryDraft, openWatchedKitchen, recipeDraft, saveRecipe, type RecipeDraft } from './recipe-drafts.ts';

describe('a recipe', () => {
  it('is saved as version 1, listed and announced, with the names of its ingredients', async () => {
    const kitchen = await openTestKitchen();
    const recipe = await saveRecipe(kitchen);
    expect(recipe).toMatchObject({ name: 'Dock brine', version: 1, cure: 'wet', target: { brinePercent: 9 } });
    expect(recipe.ingredients.map((line) => line.name)).toEqual(['Water', 'Salt', 'Brown sugar', 'Soy sauce (shoyu)']);
    expect(kitchen.announced()).toEqual([{ subject: 'recipes', ids: [recipe.id] }]);
    expect((await kitchen.ask('recipe.list', {})).recipes).toContainEqual(recipe);
  });

  it('gets a version for each change, the latest first, with who and why', async () => {
    const kitchen = await openTestKitchen();
    const first = await saveRecipe(kitchen);
    kitchen.clock.advance(60_000);
    const { recipe } = await kitchen.ask('recipe.save', { recipeId: first.id, draft: recipeDraft({ target: { brinePercent: 10 } }), why: 'Too mild.' }, 'CH');
    expect(recipe).toMatchObject({ id: first.id, version: 2, target: { brinePercent: 10 } });
    const { versions } = await kitchen.ask('recipe.versions', { recipeId: first.id });
    expect(versions).toEqual([
      { version: 2, savedAtMs: kitchen.clock.nowMs(), savedBy: 'CH', why: 'Too mild.', recipe },
      { version: 1, savedAtMs: kitchen.clock.nowMs() - 60_000, savedBy: 'MG', why: '', recipe: first },
    ]);
    expect((await kitchen.ask('recipe.list', {})).recipes.filter((one) => one.id === first.id)).toEqual([recipe]);
  });

  it('stays with a batch in the version that it was made with', async () => {
    const { kitchen, lotId, contents } = await openWatchedKitchen();
    const first = await saveRecipe(kitchen);
    const batch = await makeBatch(kitchen, [lotId], { recipeId: first.id, fillets: { text: '3', unit: 'lb' } });
    await kitchen.ask('recipe.save', { recipeId: first.id, draft: recipeDraft({ target: { brinePercent: 12 } }), why: '' });
    const kept = (await kitchen.ask('batch.get', { batchId: batch.id })).batch;
    expect(kept.card).toEqual(batch.card);
    expect(kept.card.recipeVersion).toBe(1);
    expect((await contents()).chain.intact).toBe(true);
  });

  it('may change its name, but not to that of another, whatever the capitals', async () => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    const { id } = await saveRecipe(kitchen);
    await expectRefused('recipe.save', { recipeId: null, draft: recipeDraft({ name: ' dock  BRINE' }), why: '' }, { path: ['draft', 'name'], message: /a recipe called “Dock brine” already/, code: 'CONFLICT' });
    await expectRefused('recipe.save', { recipeId: id, draft: recipeDraft({ name: 'plain brine' }), why: '' }, { path: ['draft', 'name'], message: /“Plain brine”/, code: 'CONFLICT' });
    expect((await kitchen.ask('recipe.save', { recipeId: id, draft: recipeDraft({ name: 'DOCK brine' }), why: '' })).recipe).toMatchObject({ id, version: 2, name: 'DOCK brine' });
  });

  it('can be a dry cure, whose ratio says nothing', async () => {
    const kitchen = await openTestKitchen();
    const { recipe } = await kitchen.ask('recipe.save', { recipeId: null, draft: dryDraft({ ratio: 0 }), why: '' });
    expect(recipe).toMatchObject({ cure: 'dry', target: { curePerFishPercent: 6 }, ratio: 1 });
  });

  it('is refused as a change that changes nothing', async () => {
    const kitchen = await openTestKitchen();
    const { id } = await saveRecipe(kitchen);
    expect(await kitchen.reply('recipe.save', { recipeId: id, draft: recipeDraft(), why: 'again' })).toMatchObject({
      ok: false, error: { code: 'INVALID_INPUT', message: 'Nothing in “Dock brine” has changed: it stays version 1.' },
    });
    expect((await kitchen.ask('recipe.versions', { recipeId: id })).versions).toHaveLength(1);
  });

  it('that is not there is not found', async () => {
    const kitchen = await openTestKitchen();
    for (const reply of [
      await kitchen.reply('recipe.versions', { recipeId: 'nowhere' }),
      await kitchen.reply('recipe.save', { recipeId: 'nowhere', draft: recipeDraft(), why: '' }),
      await kitchen.reply('recipe.export', { recipeId: 'nowhere' }),
    ]) expect(reply).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
  });

  it('begins with the book as version 1, saved by the program', async () => {
    const kitchen = await openTestKitchen();
    const { versions } = await kitchen.ask('recipe.versions', { recipeId: 'plain-brine' });
    expect(versions).toMatchObject([{ version: 1, savedBy: '', why: '', recipe: { id: 'plain-brine' } }]);
  });

  it('of an older book without versions is its only one, and is kept beside the next', async () => {
    const first = await openTestKitchen();
    await first.close();
    const handle = openBookFile(first.file, { clock: TEST_CLOCK });
    write(handle, (book) => book.shelf('recipes').put({
      id: 'old', name: 'Old brine', version: 3, cure: 'wet', process: 'either', ratio: 1, target: { brinePercent: 8 }, saltIngredientId: 'salt', soakHours: 4, turnHours: [], note: '',
      ingredients: [{ id: 'water', name: 'Water', parts: 10 }, { id: 'salt', name: 'Salt', parts: 1 }],
    }));
    handle.close();
    const kitchen = await openTestKitchen({ bookFile: first.file });
    expect((await kitchen.ask('recipe.versions', { recipeId: 'old' })).versions).toMatchObject([{ version: 3, savedBy: '', savedAtMs: expect.any(Number) }]);
    await kitchen.ask('recipe.save', { recipeId: 'old', draft: recipeDraft({ name: 'Old brine' }), why: 'Sweeter.' });
    const { versions } = await kitchen.ask('recipe.versions', { recipeId: 'old' });
    expect(versions.map(({ version, savedBy, recipe }) => [version, savedBy, recipe.soakHours])).toEqual([[4, 'MG', 10], [3, '', 4]]);
    await kitchen.close();
  });
});

const LINES = recipeDraft().ingredients;
const WATER = { id: 'water', parts: 100 };
const FAULTS: readonly [what: string, draft: Partial<RecipeDraft>, field: string, message: RegExp][] = [
  ['without anything in it', { ingredients: [] }, 'ingredients', /^The recipe is empty\.$/],
  ['of only sugar', { ingredients: [{ id: 'brown-sugar', parts: 1 }], saltIngredientId: 'brown-sugar' }, 'ingredients', /no salt, only brown sugar/],
  ['of water and sugar', { ingredients: [WATER, { id: 'honey', parts: 3 }], saltIngredientId: 'honey' }, 'ingredients', /no salt, only water, honey/],
  ['without water', { ingredients: [{ id: 'salt', parts: 1 }, { id: 'brown-sugar', parts: 1 }] }, 'ingredients', /^The recipe has no water\.$/],
  ['with an ingredient twice', { ingredients: [...LINES, { id: 'soy-sauce', parts: 1 }] }, 'ingredients.4.id', /^Soy sauce \(shoyu\) is in the recipe twice\.$/],
  ['with an ingredient that nobody knows', { ingredients: [...LINES, { id: 'moon-dust', parts: 1 }] }, 'ingredients.4.id', /^There is no ingredient “moon-dust”\.$/],
  ['with parts below zero', { ingredients: [WATER, { id: 'salt', parts: 8 }, { id: 'honey', parts: -2 }] }, 'ingredients.2.parts', /^Honey has -2 parts\.$/],
  ['with no parts', { ingredients: [{ id: 'water', parts: 0 }, { id: 'salt', parts: 8 }] }, 'ingredients.0.parts', /^Water has 0 parts\.$/],
  ['whose salt is not in it', { saltIngredientId: 'table-salt' }, 'saltIngredientId', /“table-salt”, is not in the recipe/],
  ['whose salt is sugar', { saltIngredientId: 'brown-sugar' }, 'saltIngredientId', /^Brown sugar has hardly any salt/],
  ['aimed above saturation', { target: { brinePercent: 27 } }, 'target.brinePercent', /out of reach.*26\.395 %/],
  ['aimed above saturation in °SAL', { target: { brineSalometer: 101 } }, 'target.brineSalometer', /out of reach/],
  ['aimed below zero', { target: { brinePercent: -1 } }, 'target.brinePercent', /^A target of -1 can’t be\.$/],
  ['aimed at nothing', { target: { brinePercent: 0 } }, 'target.brinePercent', /^A brine of no salt is only water\.$/],
  ['aimed lower than its sauces', { target: { brinePercent: 0.1 } }, 'target.brinePercent', /the other ingredients alone make a brine of 0\.39 % salt/],
  ['for a yield of 0', { target: { finishedWaterPhasePercent: 3.5, yieldPercent: 0 } }, 'target.yieldPercent', /^A yield of 0 % can’t be\.$/],
  ['for a yield above 100', { target: { finishedWaterPhasePercent: 3.5, yieldPercent: 101 } }, 'target.yieldPercent', /^A yield of 101 % can’t be\.$/],
  ['aimed as a dry cure', { target: { curePerFishPercent: 6 } }, 'target.curePerFishPercent', /goal of a dry cure/],
  ['with a ratio of 0', { ratio: 0 }, 'ratio', /^A ratio of 0 brine to fish can’t be\.$/],
  ['with a ratio below zero', { ratio: -1.5 }, 'ratio', /^A ratio of -1\.5 brine to fish can’t be\.$/],
  ['with a soak of 0 hours', { soakHours: 0, turnHours: [] }, 'soakHours', /^A soak of 0 hours can’t be\.$/],
  ['with a soak of more than ten days', { soakHours: 241 }, 'soakHours', /more than ten days/],
  ['turned before it starts', { turnHours: [0] }, 'turnHours.0', /has not begun/],
  ['turned in the wrong order', { turnHours: [6, 2] }, 'turnHours.1', /^The turn at 2 hours comes after the one at 6 hours\.$/],
  ['turned twice at once', { turnHours: [2, 2] }, 'turnHours.1', /comes after/],
  ['turned at its end', { turnHours: [2, 10] }, 'turnHours.1', /^A turn at 10 hours is no turn: the soak ends at 10 hours\.$/],
];
const DRY_FAULTS: typeof FAULTS = [
  ['of only sugar', { ingredients: [{ id: 'brown-sugar', parts: 1 }] }, 'ingredients', /^The cure has no salt, only brown sugar/],
  ['without parts of its salt', { ingredients: [{ id: 'salt', parts: 0 }, { id: 'brown-sugar', parts: 1 }] }, 'ingredients.0.parts', /^Salt has 0 parts\.$/],
  ['aimed as a brine', { target: { brinePercent: 9 } }, 'target.brinePercent', /no brine with a strength of its own/],
  ['of more cure than fish', { target: { curePerFishPercent: 120 } }, 'target.curePerFishPercent', /more cure than fish/],
  ['for a yield of 0', { target: { finishedWaterPhasePercent: 3.5, yieldPercent: 0 } }, 'target.yieldPercent', /^A yield of 0 % can’t be\.$/],
];

describe('a recipe that can’t be made is refused at its field, and nothing is recorded', () => {
  it.each(FAULTS)('%s', async (_what, more, field, message) => {
    const { expectRefused } = await openWatchedKitchen();
    await expectRefused('recipe.save', { recipeId: null, draft: recipeDraft(more), why: '' }, { path: ['draft', ...field.split('.')], message });
  });

  it.each(DRY_FAULTS)('a dry cure %s', async (_what, more, field, message) => {
    const { expectRefused } = await openWatchedKitchen();
    await expectRefused('recipe.save', { recipeId: null, draft: dryDraft(more), why: '' }, { path: ['draft', ...field.split('.')], message });
  });

  it('also as the next version of one', async () => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    const { id } = await saveRecipe(kitchen);
    await expectRefused('recipe.save', { recipeId: id, draft: recipeDraft({ soakHours: -3, turnHours: [] }), why: '' }, { path: ['draft', 'soakHours'], message: /-3 hours/ });
  });
});
