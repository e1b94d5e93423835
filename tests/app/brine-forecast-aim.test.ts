/** A brine aimed with the low end of the forecast: it meets the target just so, or says why it can't. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { aimAtLowEnd, type AimOrder } from '../../app/brine/aim.ts';
import { rawFishOf, scaleRecipe, USUAL_FISH, type Recipe, type ScaledBrine } from '../../app/brine/recipe.ts';
import { soakForecast, type SoakEstimate } from '../../app/brine/soak-forecast.ts';
import { INGREDIENTS } from '../fixtures/brine-catalogue.ts';

const PLAIN: Recipe = { name: 'Plain', ingredients: [{ id: 'water', parts: 100 }, { id: 'salt', parts: 1 }], salt: { ingredientId: 'salt' } };
const SWEET: Recipe = {
  name: 'Sweet', salt: { ingredientId: 'salt' },
  ingredients: [{ id: 'water', parts: 20 }, { id: 'salt', parts: 1 }, { id: 'brown-sugar', parts: 2 }, { id: 'soy-sauce', parts: 1 }],
};
const ORDER: AimOrder = {
  recipe: PLAIN, filletGrams: 5000, ratio: 2, target: { form: 'finishedWaterPhasePercent', percent: 3.5, yieldPercent: 82 },
  thickestMm: 22, skin: 'off', celsius: 3, fatPercent: 6, soakHours: 12,
};

function aim(changes: Partial<AimOrder> = {}): ScaledBrine {
  const outcome = aimAtLowEnd({ ...ORDER, ...changes }, INGREDIENTS);
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

/** What the forecast itself says of the thickest piece in a brine. */
function finishedIn(brine: ScaledBrine, order: AimOrder): SoakEstimate {
  const fish = rawFishOf(order.filletGrams, order.fish ?? USUAL_FISH);
  if (!fish.ok || order.target.form !== 'finishedWaterPhasePercent') throw new Error('no fish, or no such target');
  const { thickestMm, skin, celsius, fatPercent, coefficient, soakHours } = order;
  const outcome = soakForecast({
    fish: fish.value, bath: brine.mixture, thickestMm, thinnestMm: thickestMm, skin, celsius, fatPercent, coefficient, soakHours, yieldPercent: order.target.yieldPercent,
  });
  const finished = outcome.ok ? outcome.value.thickest.afterSoak.finished : undefined;
  if (finished === undefined) throw new Error('no forecast');
  return finished;
}

describe('aiming with the low end', () => {
  test.each([['plain', PLAIN], ['with sugar and soy sauce', SWEET]])('%s: the low end of the thickest piece is the target', (_name, recipe) => {
    const order = { ...ORDER, recipe, scaleStepGrams: 1e-5 };
    expect(Math.abs(finishedIn(aim(order), order).lowPercent - 3.5)).toBeLessThan(1e-6);
  });

  test('it is a stronger brine than the one for equilibrium, and the likely figure lies above the target', () => {
    const byEquilibrium = scaleRecipe(ORDER, INGREDIENTS);
    if (!byEquilibrium.ok) throw new Error(byEquilibrium.problem.message);
    expect(aim().percentByWeight).toBeGreaterThan(byEquilibrium.value.percentByWeight);
    expect(finishedIn(aim(), ORDER).percent).toBeGreaterThan(3.5);
    expect(finishedIn(byEquilibrium.value, ORDER).lowPercent).toBeLessThan(3.5);
  });

  test.each([0.1, 1, 5, 25])('on a scale of %d g it does not fall short, and a brine one step of salt weaker does', (scaleStepGrams) => {
    const order = { ...ORDER, scaleStepGrams };
    const brine = aim(order);
    expect(finishedIn(brine, order).lowPercent).toBeGreaterThanOrEqual(3.5 - 1e-9);
    const salt = brine.lines.find((line) => line.ingredient.id === 'salt');
    const weaker = { ...brine, mixture: { ...brine.mixture, saltGrams: brine.mixture.saltGrams - 1.01 * scaleStepGrams, waterGrams: brine.mixture.waterGrams + 1.01 * scaleStepGrams } };
    expect(finishedIn(weaker, order).lowPercent).toBeLessThan(3.5);
    expect(Math.abs(Math.round((salt?.grams ?? NaN) / scaleStepGrams) * scaleStepGrams - (salt?.grams ?? NaN))).toBeLessThan(1e-9);
  });

  test('thicker pieces, skin, cold, fat and a shorter soak each ask for a stronger brine; more brine for a weaker one', () => {
    const strength = aim().percentByWeight;
    for (const harder of [{ thickestMm: 26 }, { skin: 'on' as const, thickestMm: 13 }, { celsius: 0 }, { fatPercent: 20 }, { soakHours: 9 }]) {
      expect(aim(harder).percentByWeight, JSON.stringify(harder)).toBeGreaterThan(strength);
    }
    expect(aim({ ratio: 3 }).percentByWeight).toBeLessThan(strength);
  });

  test('whatever the batch, it meets the target on the scale or says that it can’t', () => {
    const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
    fc.assert(fc.property(between(1000, 50_000), between(0.8, 4), between(1, 5), between(75, 98), between(6, 50), between(1, 48), fc.constantFrom(PLAIN, SWEET), (filletGrams, ratio, percent, yieldPercent, thickestMm, soakHours, recipe) => {
      const order: AimOrder = { ...ORDER, recipe, filletGrams, ratio, thickestMm, soakHours, scaleStepGrams: 1, target: { form: 'finishedWaterPhasePercent', percent, yieldPercent } };
      const outcome = aimAtLowEnd(order, INGREDIENTS);
      if (outcome.ok) {
        const { lowPercent } = finishedIn(outcome.value, order);
        expect(lowPercent).toBeGreaterThanOrEqual(percent - 1e-9);
        expect(lowPercent).toBeLessThan(percent + 0.2);
      } else {
        expect(outcome.problem.field).toBe('target.finishedWaterPhasePercent');
      }
    }), { numRuns: 40 });
  });
});

describe('an aim out of reach', () => {
  function problemOf(changes: Partial<AimOrder>): { field?: string; message: string; remedy?: string } {
    const outcome = aimAtLowEnd({ ...ORDER, ...changes }, INGREDIENTS);
    if (outcome.ok) throw new Error('it was reached');
    return outcome.problem;
  }

  test('says how far the strongest brine would bring the piece, and what would help', () => {
    const problem = problemOf({ soakHours: 0.5, thickestMm: 60, skin: 'on' });
    expect(problem.field).toBe('target.finishedWaterPhasePercent');
    expect(problem.message).toMatch(/out of reach for the thickest piece: the strongest brine of this recipe, 26\.4 % salt, may leave it at \d(\.\d+)? % after 0\.5 hours\.$/);
    expect(problem.remedy).toBe('Soak longer, cut the pieces thinner, take the skin off, or use more brine to the fish.');
    expect(problemOf({ soakHours: 0.5, thickestMm: 60 }).remedy).not.toContain('skin');
  });

  test('says so when the sauces alone are more than asked for, and when they are beyond what water holds', () => {
    const salty: Recipe = { name: 'Salty', ingredients: [{ id: 'water', parts: 1 }, { id: 'salt', parts: 1 }, { id: 'soy-sauce', parts: 4 }], salt: { ingredientId: 'salt' } };
    expect(problemOf({ recipe: salty, thickestMm: 8, soakHours: 48 })).toMatchObject({ field: 'target.finishedWaterPhasePercent', message: expect.stringMatching(/^Without any salt the low end is already above/) });
    const slurry: Recipe = { name: 'Slurry', ingredients: [{ id: 'table-salt', parts: 1 }, { id: 'soy-sauce', parts: 1 }, { id: 'salt', parts: 1 }], salt: { ingredientId: 'salt' } };
    expect(problemOf({ recipe: slurry })).toMatchObject({ field: 'target.finishedWaterPhasePercent' });
  });

  test.each<[string, Partial<AimOrder>]>([
    ['target', { target: { form: 'brinePercent', percent: 8 } }],
    ['target.yieldPercent', { target: { form: 'finishedWaterPhasePercent', percent: 3.5, yieldPercent: 0 } }],
    ['target.yieldPercent', { target: { form: 'finishedWaterPhasePercent', percent: 3.5, yieldPercent: 29 } }],
    ['target.finishedWaterPhasePercent', { target: { form: 'finishedWaterPhasePercent', percent: -1, yieldPercent: 82 } }],
    ['thickestMm', { thickestMm: 0 }], ['thickestMm', { thickestMm: 300 }], ['soakHours', { soakHours: 0 }], ['celsius', { celsius: 40 }], ['fatPercent', { fatPercent: undefined }],
    ['filletGrams', { filletGrams: 0 }], ['ratio', { ratio: -1 }], ['scaleStepGrams', { scaleStepGrams: 0 }],
    ['fish.moisturePercent', { fish: { moisturePercent: 0, saltPercent: 0.1 } }],
    ['recipe.ingredients.0.id', { recipe: { ...PLAIN, ingredients: [{ id: 'no-such', parts: 1 }, { id: 'salt', parts: 1 }] } }],
    ['recipe.ingredients', { recipe: { ...PLAIN, ingredients: [{ id: 'salt', parts: 1 }] } }],
  ])('or input that can’t be, named %s', (field, changes) => {
    const problem = problemOf(changes);
    expect(problem.field).toBe(field);
    expect(problem.message).toMatch(/[.:]/);
  });
});
