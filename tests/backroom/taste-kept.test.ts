import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { catalogue } from '../../main/backroom/catalogue.ts';
import { scaleRecipe } from '../../app/brine/recipe.ts';
import type { Input, Output } from '../../app/contract/contract.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { openWatchedKitchen, sauceDraft, saveIngredient } from './recipe-drafts.ts';

type Weighed = readonly (readonly [ingredientId: string, grams: number])[];
const BRINE: Weighed = [['water', 10_000], ['salt', 700], ['brown-sugar', 400], ['soy-sauce', 250], ['salt', 150]];

async function taste(kitchen: TestKitchen, weighed: Weighed): Promise<Output<'taste.get'>> {
  const { tasting } = await kitchen.ask('taste.start', { name: 'By taste', speciesId: null, fillets: null });
  for (const [ingredientId, grams] of weighed) {
    await kitchen.ask('taste.add', { tastingId: tasting.id, ingredientId, weighed: { text: String(grams), unit: 'g' }, scale: 'alone' });
  }
  return kitchen.ask('taste.get', { tastingId: tasting.id });
}

function keeping(tastingId: string, more: Partial<Input<'taste.keep'>> = {}): Input<'taste.keep'> {
  return { tastingId, name: 'Kept brine', process: 'either', ratio: 1.2, soakHours: 10, turnHours: [4], note: 'Mixed on a Wednesday.', ...more };
}

describe('a tasting that is kept', () => {
  it('becomes version 1 of a recipe of the strength that was weighed, each ingredient once', async () => {
    const { kitchen, contents } = await openWatchedKitchen();
    const { tasting, figures } = await taste(kitchen, BRINE);
    const { recipe } = await kitchen.ask('taste.keep', keeping(tasting.id), 'CH');
    expect(recipe).toMatchObject({ name: 'Kept brine', version: 1, cure: 'wet', saltIngredientId: 'salt', note: 'Mixed on a Wednesday.', ratio: 1.2, soakHours: 10, turnHours: [4] });
    expect(recipe.ingredients.map(({ id, parts }) => [id, parts])).toEqual([['water', 10_000], ['salt', 850], ['brown-sugar', 400], ['soy-sauce', 250]]);
    expect('brinePercent' in recipe.target ? recipe.target.brinePercent : NaN).toBeCloseTo(figures.percentByWeight, 4);
    expect((await kitchen.ask('recipe.versions', { recipeId: recipe.id })).versions).toMatchObject([{ version: 1, savedBy: 'CH', recipe }]);
    expect((await kitchen.ask('taste.list', {})).tastings).toEqual([]);
    expect((await kitchen.ask('taste.get', { tastingId: tasting.id })).tasting.recipeId).toBe(recipe.id);
    expect((await contents()).chain.intact).toBe(true);
  });

  it('scales to 12.5 kg of fillets next day with the strength that was tasted', async () => {
    const { kitchen, lotId } = await openWatchedKitchen();
    const { tasting, figures } = await taste(kitchen, BRINE);
    const { recipe } = await kitchen.ask('taste.keep', keeping(tasting.id));
    kitchen.clock.advance(24 * 3_600_000);
    const { card } = await kitchen.ask('brine.card', { recipeId: recipe.id, lotIds: [lotId], fillets: { text: '2.5', unit: 'kg' } });
    expect(Math.abs(card.percentByWeight - figures.percentByWeight)).toBeLessThan(0.02);
    const scaled = scaleRecipe({
      recipe: { name: recipe.name, ingredients: recipe.ingredients, salt: { ingredientId: recipe.saltIngredientId } },
      filletGrams: 12_500, ratio: recipe.ratio, target: { form: 'brinePercent', percent: 'brinePercent' in recipe.target ? recipe.target.brinePercent : NaN }, scaleStepGrams: 1,
    }, catalogue.ingredients);
    expect(scaled.ok && Math.abs(scaled.value.percentByWeight - figures.percentByWeight) < 0.01).toBe(true);
  });

  it('solves for the plain salt, not for the sauce or the curing salt that bring more', async () => {
    const kitchen = await openTestKitchen();
    const cure = await saveIngredient(kitchen, sauceDraft({ servingGrams: '10', sodiumMilligrams: '3700', carbohydrateGrams: '0', sugarsGrams: '0' }, { name: 'Pink cure', subIngredients: ['salt', 'sodium nitrite'] }));
    const { tasting } = await taste(kitchen, [['water', 5000], ['soy-sauce', 2000], [cure.id, 200], ['table-salt', 50], ['salt', 90]]);
    expect((await kitchen.ask('taste.keep', keeping(tasting.id))).recipe.saltIngredientId).toBe('salt');
  });

  it('solves for the saltiest sauce where there is no plain salt', async () => {
    const kitchen = await openTestKitchen();
    const { tasting } = await taste(kitchen, [['water', 1000], ['teriyaki-sauce', 500], ['soy-sauce', 500]]);
    expect((await kitchen.ask('taste.keep', keeping(tasting.id))).recipe.saltIngredientId).toBe('soy-sauce');
  });

  it('leaves out what was struck through', async () => {
    const kitchen = await openTestKitchen();
    const { tasting } = await taste(kitchen, [...BRINE, ['honey', 3000]]);
    await kitchen.ask('taste.strike', { tastingId: tasting.id, additionId: tasting.additions.at(-1)?.id ?? '' });
    const { recipe } = await kitchen.ask('taste.keep', keeping(tasting.id));
    expect(recipe.ingredients.map(({ id }) => id)).not.toContain('honey');
  });

  it('takes nothing more, and is not kept twice', async () => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    const { tasting } = await taste(kitchen, BRINE);
    await kitchen.ask('taste.keep', keeping(tasting.id));
    const said = { path: ['tastingId'], message: /^“By taste” became the recipe “Kept brine” already\.$/, code: 'CONFLICT' };
    await expectRefused('taste.keep', keeping(tasting.id, { name: 'Another' }), said);
    await expectRefused('taste.add', { tastingId: tasting.id, ingredientId: 'salt', weighed: { text: '1', unit: 'g' }, scale: 'alone' }, said);
    await expectRefused('taste.strike', { tastingId: tasting.id, additionId: tasting.additions[0]?.id ?? '' }, said);
    await expectRefused('taste.float', { tastingId: tasting.id, shown: '30', brine: { text: '38', unit: 'F' } }, said);
  });
});

describe('a tasting that can’t be a recipe is refused with the reason, and stays', () => {
  it.each<[string, Weighed, RegExp]>([
    ['nothing in it', [], /^There is nothing in “By taste” yet\.$/],
    ['no water', [['salt', 100], ['brown-sugar', 100]], /^The recipe has no water\.$/],
    ['no salt', [['water', 1000], ['honey', 100]], /no salt, only water, honey/],
    ['only sugar', [['white-sugar', 100]], /no salt, only white sugar/],
    ['more salt than the water holds', [['water', 1000], ['salt', 500]], /out of reach: the water of this brine would be 33\.3 % salt/],
  ])('with %s', async (_what, weighed, message) => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    const { tasting } = await taste(kitchen, weighed);
    await expectRefused('taste.keep', keeping(tasting.id), { path: ['tastingId'], message });
  });

  it.each<[Partial<Input<'taste.keep'>>, string, RegExp]>([
    [{ name: 'PLAIN brine' }, 'name', /a recipe called “Plain brine” already/], [{ ratio: 0 }, 'ratio', /A ratio of 0/], [{ ratio: -2 }, 'ratio', /A ratio of -2/],
    [{ soakHours: 0 }, 'soakHours', /A soak of 0 hours/], [{ soakHours: 300 }, 'soakHours', /more than ten days/], [{ turnHours: [12] }, 'turnHours.0', /is no turn/],
  ])('with %o typed', async (more, field, message) => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    const { tasting } = await taste(kitchen, BRINE);
    await expectRefused('taste.keep', keeping(tasting.id, more), { path: field.split('.'), message, code: field === 'name' ? 'CONFLICT' : 'INVALID_INPUT' });
  });
});

describe('whatever was tasted', () => {
  it('has the tasted strength at every weight of fish, within a step of the scale', async () => {
    const kitchen = await openTestKitchen();
    const sauces = fc.subarray(['soy-sauce', 'brown-sugar', 'honey', 'maple-syrup', 'whiskey', 'black-pepper', 'table-salt', 'lemon-juice'] as const);
    let count = 0;
    await fc.assert(fc.asyncProperty(
      fc.integer({ min: 2000, max: 40_000 }), fc.double({ min: 0.02, max: 0.2, noNaN: true }), sauces, fc.double({ min: 0.005, max: 0.05, noNaN: true }),
      fc.double({ min: 200, max: 90_000, noNaN: true }), fc.double({ min: 0.6, max: 4, noNaN: true }),
      async (waterGrams, saltShare, others, otherShare, filletGrams, ratio) => {
        count += 1;
        const weighed: Weighed = [['water', waterGrams], ...others.map((id) => [id, Math.max(1, Math.round(waterGrams * otherShare))] as const), ['salt', Math.max(1, Math.round(waterGrams * saltShare))]];
        const { tasting, figures } = await taste(kitchen, weighed);
        const { recipe } = await kitchen.ask('taste.keep', keeping(tasting.id, { name: `Tasted ${count}`, ratio }));
        const scaled = scaleRecipe({
          recipe: { name: recipe.name, ingredients: recipe.ingredients, salt: { ingredientId: recipe.saltIngredientId } }, filletGrams, ratio,
          target: { form: 'brinePercent', percent: 'brinePercent' in recipe.target ? recipe.target.brinePercent : NaN }, scaleStepGrams: 0.1,
        }, catalogue.ingredients);
        if (!scaled.ok) throw new Error(scaled.problem.message);
        expect(scaled.value.unroundedPercentByWeight).toBeCloseTo(figures.percentByWeight, 4);
        // Each line may be half a step off, and each moves the strength by no more than its share of the whole.
        const mostByRounding = (100 * 0.05 * scaled.value.lines.length) / scaled.value.totalGrams;
        expect(Math.abs(scaled.value.percentByWeight - figures.percentByWeight)).toBeLessThanOrEqual(mostByRounding + 1e-5);
        for (const line of scaled.value.lines) {
          const tastedGrams = weighed.reduce((sum, [id, grams]) => sum + (id === line.ingredient.id ? grams : 0), 0);
          expect(Math.abs((100 * line.grams) / scaled.value.totalGrams - (100 * tastedGrams) / figures.totalGrams)).toBeLessThanOrEqual(2 * mostByRounding + 1e-4);
        }
      },
    ), { numRuns: 25 });
  });
});
