import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { receive } from './fish-and-brine.ts';
import { mixDraft, openWatchedKitchen, recipeDraft, sauceDraft, saveIngredient, saveRecipe } from './recipe-drafts.ts';

type Card = Output<'brine.card'>['card'];

async function cardOf(kitchen: TestKitchen, recipeId: string): Promise<Omit<Card, 'recipeId'>> {
  const lot = await receive(kitchen);
  const { recipeId: _id, ...card } = (await kitchen.ask('brine.card', { recipeId, lotIds: [lot.id], fillets: { text: '3.3', unit: 'kg' } })).card;
  return card;
}

/** A recipe with a mix that holds a sauce by its package. */
async function saveMixed(kitchen: TestKitchen): Promise<Output<'recipe.save'>['recipe']> {
  const sauce = await saveIngredient(kitchen, sauceDraft());
  const mix = await saveIngredient(kitchen, mixDraft({ [sauce.id]: 3, 'brown-sugar': 2, 'black-pepper': 1 }, { name: 'Dock glaze' }));
  return saveRecipe(kitchen, { ingredients: [...recipeDraft().ingredients, { id: mix.id, parts: 5 }] });
}

/** The exported file as an object to be spoilt. */
async function exported(): Promise<Record<string, unknown> & { recipe: Record<string, unknown>; ingredients: Record<string, unknown>[] }> {
  const kitchen = await openTestKitchen();
  const { text } = await kitchen.ask('recipe.export', { recipeId: (await saveMixed(kitchen)).id });
  const file: Awaited<ReturnType<typeof exported>> = JSON.parse(text);
  return file;
}

describe('a recipe that goes to another kitchen', () => {
  it('makes the same card there for the same fillets', async () => {
    const [here, there] = [await openTestKitchen(), await openTestKitchen()];
    const recipe = await saveMixed(here);
    const { fileName, text } = await here.ask('recipe.export', { recipeId: recipe.id });
    expect(fileName).toBe('dock-brine-v1.alderbook-recipe.json');
    expect(JSON.parse(text)).toMatchObject({ format: 'alderbook-recipe', formatVersion: 1, recipe: { name: 'Dock brine' } });
    const taken = await there.ask('recipe.import', { text });
    expect(taken.recipe).toMatchObject({ name: 'Dock brine', version: 1 });
    expect(taken.addedIngredients).toEqual(['Harbour sauce', 'Dock glaze']);
    expect(await cardOf(there, taken.recipe.id)).toEqual(await cardOf(here, recipe.id));
  });

  it('goes in the version that is asked for', async () => {
    const kitchen = await openTestKitchen();
    const { id } = await saveRecipe(kitchen);
    await kitchen.ask('recipe.save', { recipeId: id, draft: recipeDraft({ soakHours: 20 }), why: '' });
    const { text, fileName } = await kitchen.ask('recipe.export', { recipeId: id, version: 1 });
    expect(JSON.parse(text)).toMatchObject({ recipe: { soakHours: 10 } });
    expect(fileName).toContain('-v1.');
    expect(JSON.parse((await kitchen.ask('recipe.export', { recipeId: id })).text)).toMatchObject({ recipe: { soakHours: 20 } });
    expect(await kitchen.reply('recipe.export', { recipeId: id, version: 9 })).toMatchObject({ ok: false, error: { code: 'NOT_FOUND', fields: [{ path: ['version'] }] } });
  });

  it('comes in under another name where its own is taken, and uses ingredients that are there with the same figures', async () => {
    const kitchen = await openTestKitchen();
    const { text } = await kitchen.ask('recipe.export', { recipeId: (await saveMixed(kitchen)).id });
    const names: string[] = [];
    for (let round = 0; round < 2; round += 1) {
      const { recipe, addedIngredients } = await kitchen.ask('recipe.import', { text });
      names.push(recipe.name);
      expect(addedIngredients).toEqual([]);
    }
    expect(names).toEqual(['Dock brine (imported)', 'Dock brine (imported 2)']);
  });

  it('brings its ingredient beside one of the same name with other figures', async () => {
    const [here, there] = [await openTestKitchen(), await openTestKitchen()];
    const other = await saveIngredient(there, sauceDraft({ sodiumMilligrams: '1200' }));
    const recipe = await saveMixed(here);
    const { text } = await here.ask('recipe.export', { recipeId: recipe.id });
    const taken = await there.ask('recipe.import', { text });
    expect(taken.addedIngredients).toEqual(['Harbour sauce (imported)', 'Dock glaze']);
    const card = await cardOf(there, taken.recipe.id);
    expect(card.lines.map((line) => line.grams)).toEqual((await cardOf(here, recipe.id)).lines.map((line) => line.grams));
    const { ingredients } = await there.ask('ingredient.list', {});
    expect(ingredients.find((one) => one.id === other.id)?.saltPercent).toBe(other.saltPercent);
    expect(ingredients.find((one) => one.name === 'Dock glaze')?.source).not.toContain('has changed since');
    expect((await there.ask('recipe.import', { text })).addedIngredients).toEqual([]);
  });

  it('never takes the place of an ingredient of the program’s list', async () => {
    const { kitchen } = await openWatchedKitchen();
    const file = await exported();
    const text = JSON.stringify(file).replaceAll('"harbour-sauce"', '"salt-"').replaceAll('Harbour sauce', 'Salt');
    const taken = await kitchen.ask('recipe.import', { text });
    expect(taken.addedIngredients).toEqual(['Salt (imported)', 'Dock glaze']);
    expect((await kitchen.ask('ingredient.list', {})).ingredients.filter((one) => one.name === 'Salt')).toMatchObject([{ id: 'salt', saltPercent: 100, ground: 'list' }]);
  });

  it('keeps text that looks like a page or a script as mere text', async () => {
    const { kitchen, contents } = await openWatchedKitchen();
    const file = await exported();
    const note = '<script>alert(1)</script> {"__proto__": 1}';
    const { recipe } = await kitchen.ask('recipe.import', { text: JSON.stringify({ ...file, recipe: { ...file.recipe, note } }) });
    expect(recipe.note).toBe(note);
    expect((await contents()).chain.intact).toBe(true);
  });
});

type File = Awaited<ReturnType<typeof exported>>;
const SPOILT: readonly [what: string, spoil: (file: File) => unknown, message: RegExp][] = [
  ['of another format', (file) => ({ ...file, format: 'cookbook' }), /not a recipe that was exported from Alderbook/],
  ['that is a list', () => [], /not a recipe that was exported/],
  ['of a newer format', (file) => ({ ...file, formatVersion: 2 }), /exported by a newer Alderbook: its format is 2, and this one reads 1/],
  ['with more in it than belongs there', (file) => ({ ...file, run: 'rm' }), /run is not known here/],
  ['without a recipe', ({ recipe: _recipe, ...file }) => file, /recipe is missing/],
  ['with an unknown ingredient', (file) => ({ ...file, ingredients: [] }), /needs an ingredient “dock-glaze”, which is neither/],
  ['whose mix holds an unknown ingredient', (file) => ({ ...file, ingredients: file.ingredients.slice(1) }), /“Dock glaze” in the file can’t be: There is no ingredient “harbour-sauce”/],
  ['with a mix that holds itself', (file) => replaceParts(file, 'dock-glaze'), /“Dock glaze” in the file can’t be: Dock glaze can’t be made of itself/],
  ['with an ingredient twice', (file) => ({ ...file, ingredients: [...file.ingredients, ...file.ingredients] }), /“Harbour sauce” stands in the file twice/],
  ['with an ingredient of more than 100 %', (file) => withFigure(file, 'waterPercent', 99), /^The ingredient “Harbour sauce” in the file can’t be read: .*more than 100 %/],
  ['whose figures don’t follow from the label', (file) => withFigure(file, 'saltPercent', 1), /figures of “Harbour sauce” in the file don’t follow from its label/],
  ['with a ratio below zero', (file) => ({ ...file, recipe: { ...file.recipe, ratio: -1 } }), /A ratio of -1/],
  ['aimed above saturation', (file) => ({ ...file, recipe: { ...file.recipe, target: { brinePercent: 30 } } }), /out of reach/],
  ['turned after its end', (file) => ({ ...file, recipe: { ...file.recipe, turnHours: [50] } }), /is no turn/],
];

function replaceParts(file: File, ingredientId: string): unknown {
  return { ...file, ingredients: file.ingredients.map((one, index) => (index === 1 ? { ...one, composition: { ground: 'mix', parts: [{ ingredientId, parts: 1 }] } } : one)) };
}

function withFigure(file: File, key: string, value: number): unknown {
  return { ...file, ingredients: file.ingredients.map((one, index) => (index === 0 ? { ...one, figures: { ...Object(one['figures']), [key]: value } } : one)) };
}

describe('a file that can’t be taken in is refused in a sentence, and nothing of it is kept', () => {
  it.each(SPOILT)('one %s', async (_what, spoil, message) => {
    const { expectRefused } = await openWatchedKitchen();
    await expectRefused('recipe.import', { text: JSON.stringify(spoil(await exported())) }, { path: ['text'], message });
  });

  it.each([['', /is empty/], ['Salt, 2 cups', /not JSON text/], ['{"format": "alderbook-recipe"', /not JSON text/], ['null', /not a recipe that was exported/]])('the text “%s”', async (text, message) => {
    const { expectRefused } = await openWatchedKitchen();
    await expectRefused('recipe.import', { text }, { path: ['text'], message });
  });

  it('and a circle of two mixes is named', async () => {
    const { expectRefused } = await openWatchedKitchen();
    const file = await exported();
    const glaze = { ...file.ingredients[1], composition: { ground: 'mix', parts: [{ ingredientId: 'rub', parts: 1 }] } };
    const rub = { figures: { ...Object(glaze)['figures'], id: 'rub', name: 'Rub' }, composition: { ground: 'mix', parts: [{ ingredientId: 'dock-glaze', parts: 1 }] } };
    await expectRefused('recipe.import', { text: JSON.stringify({ ...file, ingredients: [glaze, rub] }) }, { path: ['text'], message: /goes round in a circle: Dock glaze contains Rub, Rub contains Dock glaze/ });
  });
});
