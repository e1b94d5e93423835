import { describe, expect, test } from 'vitest';
import type { Problem } from '../../app/measures/outcome.ts';
import { scaleRecipe, type Recipe, type ScaledBrine, type ScaleOrder } from '../../app/brine/recipe.ts';
import { targetOfKeys, type BrineTarget, type TargetKeys } from '../../app/brine/target.ts';
import { ingredient, INGREDIENTS, STARTING_RECIPES } from '../fixtures/brine-catalogue.ts';

const PLAIN: Recipe = { name: 'Plain', ingredients: [{ id: 'water', parts: 10 }, { id: 'salt', parts: 1 }], salt: { ingredientId: 'salt' } };
const SHOYU: Recipe = {
  name: 'Shoyu',
  ingredients: [{ id: 'water', parts: 10 }, { id: 'salt', parts: 0 }, { id: 'soy-sauce', parts: 2 }, { id: 'brown-sugar', parts: 1 }],
  salt: { ingredientId: 'salt' },
};
const EIGHT: BrineTarget = { form: 'brinePercent', percent: 8 };

function order(changes: Partial<ScaleOrder> = {}): ScaleOrder {
  return { recipe: PLAIN, filletGrams: 1000, ratio: 2, target: EIGHT, ...changes };
}

function scaled(changes: Partial<ScaleOrder> = {}): ScaledBrine {
  const outcome = scaleRecipe(order(changes), INGREDIENTS);
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

function problem(changes: Partial<ScaleOrder>): Problem {
  const outcome = scaleRecipe(order(changes), INGREDIENTS);
  if (outcome.ok) throw new Error('expected a problem');
  return outcome.problem;
}

function grams(brine: ScaledBrine): Record<string, number> {
  return Object.fromEntries(brine.lines.map((line) => [line.ingredient.id, line.grams]));
}

describe('scaling a recipe', () => {
  test('salt and water to 8 %: the parts of the salt play no part', () => {
    const brine = scaled();
    expect(grams(brine)).toEqual({ water: 1840, salt: 160 });
    expect(brine).toMatchObject({ totalGrams: 2000, percentByWeight: 8, waterPhasePercent: 8 });
    expect(brine.salometerDegrees).toBeCloseTo(30.309, 3);
    // (1.5 + 160) ÷ (1.5 + 160 + 720 + 1840)
    expect(brine.equilibriumWaterPhasePercent).toBeCloseTo(5.9342, 4);
    expect(brine.litresAt4C).toBeCloseTo(1.8858, 4);
  });

  test('the sauces keep their proportions and their salt counts', () => {
    const brine = scaled({ recipe: SHOYU, scaleStepGrams: 0.001 });
    const by = grams(brine);
    expect(brine.totalGrams).toBeCloseTo(2000, 2);
    expect((by['soy-sauce'] ?? NaN) / (by['water'] ?? NaN)).toBeCloseTo(0.2, 5);
    expect((by['brown-sugar'] ?? NaN) / (by['water'] ?? NaN)).toBeCloseTo(0.1, 5);
    expect(brine.lines.find((line) => line.ingredient.id === 'soy-sauce')?.saltGrams).toBeCloseTo((by['soy-sauce'] ?? NaN) * 0.139638, 3);
    expect(brine.percentByWeight).toBeCloseTo(8, 4);
    expect(brine.waterPhasePercent).toBeGreaterThan(8.5);
  });

  test('salt that is not pure is weighed out the more for it', () => {
    const table = scaled({ recipe: { ...PLAIN, ingredients: [{ id: 'water', parts: 1 }, { id: 'table-salt', parts: 1 }], salt: { ingredientId: 'table-salt' } }, scaleStepGrams: 0.001 });
    expect(grams(table)['table-salt']).toBeCloseTo(160 / 0.985267, 2);
    expect(table.percentByWeight).toBeCloseTo(8, 4);
  });

  test('a sauce can be what the strength is solved for', () => {
    const brine = scaled({ recipe: { ...PLAIN, ingredients: [{ id: 'water', parts: 1 }, { id: 'soy-sauce', parts: 1 }], salt: { ingredientId: 'soy-sauce' } } });
    expect(brine.percentByWeight).toBeCloseTo(8, 2);
  });

  test.each<[TargetKeys, 'percentByWeight' | 'salometerDegrees' | 'equilibriumWaterPhasePercent', number]>([
    [{ brinePercent: 12 }, 'percentByWeight', 12], [{ brineSalometer: 40 }, 'salometerDegrees', 40], [{ brineSalometer: 100 }, 'salometerDegrees', 100],
    [{ fishEquilibriumWaterPhasePercent: 3 }, 'equilibriumWaterPhasePercent', 3], [{ brinePercent: 0 }, 'percentByWeight', 0],
  ])('%j is reached', (keys, figure, value) => {
    const target = targetOfKeys(keys);
    if (!target.ok) throw new Error(target.problem.message);
    expect(scaled({ target: target.value, scaleStepGrams: 0.001 })[figure]).toBeCloseTo(value, 4);
  });

  test('a finished water-phase salt counts the loss as water, yield over brined weight', () => {
    const brine = scaled({ target: { form: 'finishedWaterPhasePercent', percent: 3.5, yieldPercent: 82 }, fish: { moisturePercent: 72, saltPercent: 0.15 }, scaleStepGrams: 0.001 });
    const perWater = brine.equilibriumWaterPhasePercent / (100 - brine.equilibriumWaterPhasePercent);
    const salt = perWater * 720;
    const brined = 1000 - 1.5 + salt;
    expect((100 * salt) / (salt + 720 - 0.18 * brined)).toBeCloseTo(3.5, 4);
  });

  test('a yield of 100 % is the equilibrium itself', () => {
    expect(grams(scaled({ target: { form: 'finishedWaterPhasePercent', percent: 3, yieldPercent: 100 } }))).toEqual(grams(scaled({ target: { form: 'fishEquilibriumWaterPhasePercent', percent: 3 } })));
  });

  test('fish is 72 % water and 0.15 % salt unless said otherwise', () => {
    const target: BrineTarget = { form: 'fishEquilibriumWaterPhasePercent', percent: 3 };
    expect(scaled({ target })).toEqual(scaled({ target, fish: { moisturePercent: 72, saltPercent: 0.15 } }));
    expect(grams(scaled({ target }))).not.toEqual(grams(scaled({ target, fish: { moisturePercent: 65, saltPercent: 0.15 } })));
  });

  test('every line lies on the scale’s step, and the figures are those of the rounded weights', () => {
    const brine = scaled({ recipe: SHOYU, filletGrams: 777, ratio: 1.1, scaleStepGrams: 5 });
    for (const line of brine.lines) expect(line.grams % 5).toBe(0);
    const salt = brine.lines.reduce((sum, line) => sum + line.saltGrams, 0);
    expect(brine.totalGrams).toBe(brine.lines.reduce((sum, line) => sum + line.grams, 0));
    expect(brine.percentByWeight).toBeCloseTo((100 * salt) / brine.totalGrams, 9);
    expect(brine.percentByWeight).not.toBeCloseTo(8, 2);
    expect(brine.unroundedPercentByWeight).toBeCloseTo(8, 9);
  });

  test('the starting recipes all scale', () => {
    for (const { usualRatio, usualTarget, id: _id, note: _note, ...recipe } of STARTING_RECIPES) {
      const target = targetOfKeys(usualTarget);
      expect(target.ok && scaleRecipe({ recipe, filletGrams: 5000, ratio: usualRatio, target: target.value }, INGREDIENTS).ok).toBe(true);
    }
    expect(STARTING_RECIPES.length).toBeGreaterThanOrEqual(4);
  });
});

describe('a recipe or target that can’t be', () => {
  const line = (id: string, parts: number): { id: string; parts: number } => ({ id, parts });
  const withLines = (...ingredients: Recipe['ingredients']): Partial<ScaleOrder> => ({ recipe: { ...PLAIN, ingredients } });
  test.each<[string, Partial<ScaleOrder>, string, RegExp]>([
    ['no water', withLines(line('salt', 1), line('brown-sugar', 1)), 'recipe.ingredients', /no water/],
    ['no water but in the garlic', withLines(line('salt', 1), line('garlic', 9)), 'recipe.ingredients', /no water/],
    ['nothing at all', withLines(), 'recipe.salt.ingredientId', /not in the recipe/],
    ['nothing but a sauce', { recipe: { ...PLAIN, ingredients: [line('soy-sauce', 1)], salt: { ingredientId: 'soy-sauce' } } }, 'recipe.ingredients', /nothing but/],
    ['an unknown ingredient', withLines(line('water', 1), line('salt', 1), line('moon-dust', 1)), 'recipe.ingredients.2.id', /moon-dust/],
    ['an ingredient twice', withLines(line('water', 1), line('salt', 1), line('water', 2)), 'recipe.ingredients.2.id', /twice/],
    ['no parts', withLines(line('water', 0), line('salt', 1)), 'recipe.ingredients.0.parts', /0 parts/],
    ['parts below zero', withLines(line('water', 1), line('salt', -1)), 'recipe.ingredients.1.parts', /-1 parts/],
    ['parts that are no number', withLines(line('water', NaN), line('salt', 1)), 'recipe.ingredients.0.parts', /NaN parts/],
    ['endless parts', withLines(line('water', Infinity), line('salt', 1)), 'recipe.ingredients.0.parts', /million/],
    ['salt that is not there', { recipe: { ...PLAIN, salt: { ingredientId: 'table-salt' } } }, 'recipe.salt.ingredientId', /table-salt/],
    ['sugar for salt', { recipe: { ...PLAIN, ingredients: [line('water', 1), line('brown-sugar', 1)], salt: { ingredientId: 'brown-sugar' } } }, 'recipe.salt.ingredientId', /hardly any salt/],
    ['no fish', { filletGrams: 0 }, 'filletGrams', /0 g/],
    ['fish below zero', { filletGrams: -5 }, 'filletGrams', /-5 g/],
    ['ten tonnes', { filletGrams: 10_000_000 }, 'filletGrams', /tonne/],
    ['fish that is no number', { filletGrams: NaN }, 'filletGrams', /NaN/],
    ['endless fish', { filletGrams: Infinity }, 'filletGrams', /tonne/],
    ['no brine', { ratio: 0 }, 'ratio', /0 brine/],
    ['a ratio beyond sense', { ratio: 1001 }, 'ratio', /1001/],
    ['a scale without a step', { scaleStepGrams: 0 }, 'scaleStepGrams', /step of 0/],
    ['a scale for trucks', { scaleStepGrams: 5000 }, 'scaleStepGrams', /5000/],
    ['a scale too coarse', { filletGrams: 10, ratio: 1, scaleStepGrams: 100 }, 'scaleStepGrams', /too coarse/],
    ['a scale that rounds the brine over saturation', { filletGrams: 2, ratio: 1, scaleStepGrams: 1, target: { form: 'brinePercent', percent: 26 } }, 'scaleStepGrams', /too coarse/],
    ['fish without water', { fish: { moisturePercent: 0, saltPercent: 0 } }, 'fish.moisturePercent', /0 % moisture/],
    ['fish of more than all', { fish: { moisturePercent: 99, saltPercent: 2 } }, 'fish.moisturePercent', /101 %/],
    ['fish with salt below zero', { fish: { moisturePercent: 72, saltPercent: -1 } }, 'fish.saltPercent', /-1 % salt/],
    ['a target weaker than the sauces', { recipe: SHOYU, target: { form: 'brinePercent', percent: 2 } }, 'target.brinePercent', /other ingredients alone make a brine of 2.15 % salt/],
    ['a target in degrees weaker than the sauces', { recipe: SHOYU, target: { form: 'brineSalometer', degrees: 5 } }, 'target.brineSalometer', /5 °SAL/],
    ['a target weaker than the fish itself', { target: { form: 'fishEquilibriumWaterPhasePercent', percent: 0.01 } }, 'target.fishEquilibriumWaterPhasePercent', /fish’s own salt/],
    ['above saturation', { target: { form: 'brinePercent', percent: 26.4 } }, 'target.brinePercent', /26.395 %/],
    ['above saturation in degrees', { target: { form: 'brineSalometer', degrees: 100.1 } }, 'target.brineSalometer', /26.395 %/],
    ['above saturation of the water that sugar leaves', { recipe: SHOYU, target: { form: 'brinePercent', percent: 25 } }, 'target.brinePercent', /out of reach/],
    ['more salt than salt', { target: { form: 'brinePercent', percent: 101 } }, 'target.brinePercent', /Salt alone is weaker|salt alone/i],
    ['beyond a sauce', { recipe: { ...PLAIN, ingredients: [line('water', 1), line('soy-sauce', 1)], salt: { ingredientId: 'soy-sauce' } }, target: { form: 'brinePercent', percent: 14 } }, 'target.brinePercent', /Soy sauce \(shoyu\) alone is weaker/],
    ['too little brine for the fish', { ratio: 0.1, target: { form: 'fishEquilibriumWaterPhasePercent', percent: 6 } }, 'target.fishEquilibriumWaterPhasePercent', /out of reach/],
    ['a target below zero', { target: { form: 'brinePercent', percent: -1 } }, 'target.brinePercent', /-1/],
    ['a target that is no number', { target: { form: 'brineSalometer', degrees: NaN } }, 'target.brineSalometer', /NaN/],
    ['an endless target', { target: { form: 'brinePercent', percent: Infinity } }, 'target.brinePercent', /Infinity/],
    ['fish all salt', { target: { form: 'fishEquilibriumWaterPhasePercent', percent: 100 } }, 'target.fishEquilibriumWaterPhasePercent', /all salt/],
    ['no yield left', { target: { form: 'finishedWaterPhasePercent', percent: 3, yieldPercent: 0 } }, 'target.yieldPercent', /yield of 0 %/],
    ['a yield above all', { target: { form: 'finishedWaterPhasePercent', percent: 3, yieldPercent: 100.5 } }, 'target.yieldPercent', /100.5 %/],
    ['a yield that takes all the water', { target: { form: 'finishedWaterPhasePercent', percent: 3, yieldPercent: 27 } }, 'target.yieldPercent', /all the water/],
  ])('%s is a sentence with the field and a remedy', (_what, changes, field, message) => {
    expect(problem(changes)).toEqual({ field, message: expect.stringMatching(message), remedy: expect.stringMatching(/\.$/) });
  });

  test('a target that the sauces alone meet exactly takes no salt', () => {
    const soy = ingredient('soy-sauce').saltPercent;
    const brine = scaled({ recipe: { ...PLAIN, ingredients: [line('water', 1), line('salt', 1), line('soy-sauce', 1)] }, target: { form: 'brinePercent', percent: soy / 2 } });
    expect(grams(brine)['salt']).toBe(0);
  });
});

describe('a target as keys', () => {
  test.each<[TargetKeys, string]>([
    [{}, 'target'], [{ brinePercent: 8, brineSalometer: 30 }, 'target.brineSalometer'], [{ finishedWaterPhasePercent: 3 }, 'target.yieldPercent'],
    [{ brinePercent: 8, yieldPercent: 80 }, 'target.yieldPercent'], [{ yieldPercent: 80 }, 'target'],
  ])('%j is refused, naming %s', (keys, field) => {
    expect(targetOfKeys(keys)).toMatchObject({ ok: false, problem: { field } });
  });
});
