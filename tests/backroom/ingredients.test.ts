import { describe, expect, it } from 'vitest';
import type { IngredientDraft } from '../../app/contract/requests/recipes.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';
import { makeBatch } from './fish-and-brine.ts';
import { mixDraft, openWatchedKitchen, recipeDraft, sauceDraft, saveIngredient, saveRecipe } from './recipe-drafts.ts';

describe('the list of ingredients', () => {
  it('says of each where its figures come from, with the mark', async () => {
    const { ingredients } = await (await openTestKitchen()).ask('ingredient.list', {});
    expect(ingredients.length).toBeGreaterThan(50);
    for (const one of ingredients) expect(one).toMatchObject({ ground: 'list', source: expect.stringMatching(/ \((read|second-hand|from memory|computed|common practice)\)\.$/) });
  });

  it('tells which hold nitrite', async () => {
    const kitchen = await openTestKitchen();
    const cured = await saveIngredient(kitchen, sauceDraft({}, { name: 'Pink cure', labelName: 'curing salt', subIngredients: ['salt', 'sodium nitrite'] }));
    expect(cured.hasNitrite).toBe(true);
    expect((await kitchen.ask('ingredient.list', {})).ingredients.find((one) => one.id === 'soy-sauce')?.hasNitrite).toBe(false);
  });
});

describe('an ingredient by its package', () => {
  it('has its salt from the sodium, and says what is estimated', async () => {
    const kitchen = await openTestKitchen();
    const sauce = await saveIngredient(kitchen, sauceDraft());
    // 800 mg of sodium in 20 g: 0.8 g × 2.5421 ÷ 20 g = 10.1684 %.
    expect(sauce.saltPercent).toBeCloseTo(10.1684, 4);
    expect(sauce).toMatchObject({ id: 'harbour-sauce', ground: 'package', sugarPercent: 25, densityGramsPerMl: 1.1, mayContain: ['sesame'] });
    expect(sauce.waterPercent).toBeCloseTo(100 - 10.1684 - 30, 4);
    expect(sauce.source).toMatch(/label.*\(computed\)\. The water is an estimate.* upper bound/);
    expect((await kitchen.ask('ingredient.list', {})).ingredients.at(-1)).toEqual(sauce);
    expect(kitchen.announced()).toEqual([{ subject: 'recipes', ids: ['harbour-sauce'] }]);
  });

  it('counts in a recipe: the salt is solved after what it brings', async () => {
    const { kitchen, lotId } = await openWatchedKitchen();
    const sauce = await saveIngredient(kitchen, sauceDraft());
    const recipe = await saveRecipe(kitchen, { ingredients: [{ id: 'water', parts: 100 }, { id: 'salt', parts: 1 }, { id: sauce.id, parts: 20 }] });
    const { card } = await kitchen.ask('brine.card', { recipeId: recipe.id, lotIds: [lotId], fillets: { text: '3', unit: 'kg' } });
    expect(card.percentByWeight).toBeCloseTo(9, 1);
    expect(card.lines.find((line) => line.ingredientId === sauce.id)?.saltGrams).toBeGreaterThan(50);
  });

  it('gets new figures under its id, and a batch keeps those it was made with', async () => {
    const { kitchen, lotId, contents } = await openWatchedKitchen();
    const sauce = await saveIngredient(kitchen, sauceDraft());
    const recipe = await saveRecipe(kitchen, { ingredients: [{ id: 'water', parts: 100 }, { id: 'salt', parts: 1 }, { id: sauce.id, parts: 20 }] });
    const batch = await makeBatch(kitchen, [lotId], { recipeId: recipe.id, fillets: { text: '3', unit: 'lb' } });
    const { ingredient } = await kitchen.ask('ingredient.save', { ingredientId: sauce.id, draft: sauceDraft({ sodiumMilligrams: '400' }, { name: 'Harbour sauce, new' }) });
    expect(ingredient).toMatchObject({ id: sauce.id, name: 'Harbour sauce, new' });
    expect(ingredient.saltPercent).toBeCloseTo(sauce.saltPercent / 2, 9);
    expect((await kitchen.ask('batch.get', { batchId: batch.id })).batch.card).toEqual(batch.card);
    expect((await contents()).chain.intact).toBe(true);
  });

  it('gets an id of its own, whatever it is called', async () => {
    const kitchen = await openTestKitchen();
    const ids: string[] = [];
    for (const name of ['Sea  Salt!', 'Sea salt?', '7 spice', '塩', 'Soy-Sauce', `x${'y'.repeat(199)}`]) ids.push((await saveIngredient(kitchen, sauceDraft({}, { name }))).id);
    expect(ids).toEqual(['sea-salt', 'sea-salt-2', 'spice', 'ingredient', 'soy-sauce-2', `x${'y'.repeat(55)}`]);
  });
});

describe('a mix of the kitchen’s', () => {
  it('is made of its parts: figures, allergens, and its own ingredients heaviest first', async () => {
    const kitchen = await openTestKitchen();
    const mix = await saveIngredient(kitchen, mixDraft({ 'brown-sugar': 1, 'soy-sauce': 3 }));
    expect(mix).toMatchObject({ id: 'house-rub', ground: 'mix', allergens: ['soybeans', 'wheat'] });
    expect(mix.subIngredients[0]).toMatch(/^soy sauce \(/);
    expect(mix.saltPercent).toBeCloseTo((3 * 13.9638 + 0.0712) / 4, 6);
    expect(mix.source).toContain('mixed of 3 soy sauce (shoyu), 1 brown sugar');
  });

  it('keeps its figures when a part changes, says so, and takes them in when saved again', async () => {
    const kitchen = await openTestKitchen();
    const sauce = await saveIngredient(kitchen, sauceDraft());
    const draft = mixDraft({ [sauce.id]: 1, 'brown-sugar': 1 });
    const mix = await saveIngredient(kitchen, draft);
    await kitchen.ask('ingredient.save', { ingredientId: sauce.id, draft: sauceDraft({ sodiumMilligrams: '400' }) });
    const listed = (await kitchen.ask('ingredient.list', {})).ingredients.find((one) => one.id === mix.id);
    expect(listed?.saltPercent).toBe(mix.saltPercent);
    expect(listed?.source).toContain('One of its parts has changed since');
    const { ingredient } = await kitchen.ask('ingredient.save', { ingredientId: mix.id, draft });
    expect(ingredient.saltPercent).toBeLessThan(mix.saltPercent);
    expect(ingredient.source).not.toContain('has changed since');
  });

  it('can’t hold itself, nor a mix that holds it', async () => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    const rub = await saveIngredient(kitchen, mixDraft({ salt: 1, 'brown-sugar': 1 }));
    const glaze = await saveIngredient(kitchen, mixDraft({ [rub.id]: 1, honey: 2 }, { name: 'Glaze' }));
    const path = ['draft', 'composition', 'parts', '1', 'ingredientId'];
    await expectRefused('ingredient.save', { ingredientId: rub.id, draft: mixDraft({ salt: 1, [rub.id]: 1 }) }, { path, message: /^House rub can’t be made of itself\.$/ });
    await expectRefused('ingredient.save', { ingredientId: rub.id, draft: mixDraft({ salt: 1, [glaze.id]: 1 }) }, { path, message: /^House rub goes round in a circle: House rub contains Glaze, Glaze contains House rub\.$/ });
  });
});

const FACTS = 'composition.facts';
const FAULTS: readonly [what: string, draft: IngredientDraft, field: string, message: RegExp][] = [
  ['no serving', sauceDraft({ servingGrams: '' }), `${FACTS}.servingGrams`, /^The serving’s weight is missing\.$/],
  ['a serving of 0', sauceDraft({ servingGrams: '0' }), `${FACTS}.servingGrams`, /^A serving of 0 g can’t be\.$/],
  ['no sodium', sauceDraft({ sodiumMilligrams: '' }), `${FACTS}.sodiumMilligrams`, /^The sodium is missing/],
  ['sodium below zero', sauceDraft({ sodiumMilligrams: '-5' }), `${FACTS}.sodiumMilligrams`, /^Sodium of -5 can’t be\.$/],
  ['fat below zero with a minus sign', sauceDraft({ fatGrams: '\u22121' }), `${FACTS}.fatGrams`, /^Fat of -1 can’t be\.$/],
  ['a comma', sauceDraft({ proteinGrams: '1,5' }), `${FACTS}.proteinGrams`, /has a comma/],
  ['a unit in the figure', sauceDraft({ servingGrams: '20 g' }), `${FACTS}.servingGrams`, /^“20 g” is not a figure\.$/],
  ['more sugars than carbohydrate', sauceDraft({ sugarsGrams: '7' }), `${FACTS}.sugarsGrams`, /more than the 6 g of carbohydrate/],
  ['more than 100 %', sauceDraft({ carbohydrateGrams: '25' }), `${FACTS}.carbohydrateGrams`, /come to 135\.2 % of a serving of 20 g/],
  ['alcohol without a density', sauceDraft({ alcoholByVolumePercent: '40', densityGramsPerMl: '' }), `${FACTS}.densityGramsPerMl`, /needs the density/],
  ['a density that no food has', sauceDraft({ densityGramsPerMl: '11' }), `${FACTS}.densityGramsPerMl`, /^A density of 11 g\/ml/],
  ['an allergen that law doesn’t know', sauceDraft({}, { allergens: ['milk', 'dust'] }), 'allergens.1', /“dust” is none of the allergens/],
  ['a name of the program’s list', sauceDraft({}, { name: 'HONEY' }), 'name', /called “Honey” already/],
  ['nothing in the mix', mixDraft({}), 'composition.parts', /^The mix is empty\.$/],
  ['an unknown part', mixDraft({ salt: 1, nothing: 1 }), 'composition.parts.1.ingredientId', /^There is no ingredient “nothing”\.$/],
  ['a part of nothing', mixDraft({ salt: 0 }), 'composition.parts.0.parts', /^Salt has 0 parts\.$/],
  ['a part below zero', mixDraft({ salt: 1, honey: -1 }), 'composition.parts.1.parts', /^Honey has -1 parts\.$/],
  ['a part twice', { ...mixDraft({}), composition: { ground: 'mix', parts: [{ ingredientId: 'salt', parts: 1 }, { ingredientId: 'salt', parts: 2 }] } }, 'composition.parts.1.ingredientId', /^Salt is in the mix twice\.$/],
];

describe('an ingredient that can’t be is refused at its field, and nothing is recorded', () => {
  it.each(FAULTS)('with %s', async (what, draft, field, message) => {
    const { expectRefused } = await openWatchedKitchen();
    const code = what.startsWith('a name') ? 'CONFLICT' : 'INVALID_INPUT';
    await expectRefused('ingredient.save', { ingredientId: null, draft }, { path: ['draft', ...field.split('.')], message, code });
  });

  it('with the name of another of the kitchen’s', async () => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    await saveIngredient(kitchen, sauceDraft());
    await expectRefused('ingredient.save', { ingredientId: null, draft: mixDraft({ salt: 1, honey: 1 }, { name: 'harbour SAUCE' }) }, { path: ['draft', 'name'], message: /“Harbour sauce” already/, code: 'CONFLICT' });
  });

  it('that comes with the program, and one that is not there', async () => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    await expectRefused('ingredient.save', { ingredientId: 'salt', draft: sauceDraft() }, { path: ['ingredientId'], message: /^Salt comes with the program/, code: 'RULE_BLOCKS' });
    expect(await kitchen.reply('ingredient.save', { ingredientId: 'nothing', draft: sauceDraft() })).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
  });

  it('as a change that changes nothing', async () => {
    const kitchen = await openTestKitchen();
    const { id } = await saveIngredient(kitchen, sauceDraft());
    expect(await kitchen.reply('ingredient.save', { ingredientId: id, draft: sauceDraft() })).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: 'Nothing in “Harbour sauce” has changed.' } });
  });

  it('and a recipe with it stays as it was', async () => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    const sauce = await saveIngredient(kitchen, sauceDraft());
    await saveRecipe(kitchen, { ingredients: [...recipeDraft().ingredients, { id: sauce.id, parts: 2 }] });
    await expectRefused('ingredient.save', { ingredientId: sauce.id, draft: sauceDraft({ servingGrams: '-20' }) }, { path: ['draft', 'composition', 'facts', 'servingGrams'], message: /-20/ });
  });
});
