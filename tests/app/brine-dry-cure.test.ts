import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { equilibriumFraction } from '../../app/brine/balance.ts';
import { DRY_CURE_ASSUMPTION, finishedAfterDryCure, scaleDryCure, type DryCureOrder, type DryCureTarget, type ScaledDryCure } from '../../app/brine/dry-cure.ts';
import type { Recipe } from '../../app/brine/recipe.ts';
import type { Problem } from '../../app/measures/outcome.ts';
import { INGREDIENTS } from '../fixtures/brine-catalogue.ts';

const RUB: Recipe = {
  name: 'Dock rub', ingredients: [{ id: 'salt', parts: 100 }, { id: 'brown-sugar', parts: 80 }, { id: 'black-pepper', parts: 5 }, { id: 'soy-sauce', parts: 15 }], salt: { ingredientId: 'salt' },
};
const TARGETS: readonly DryCureTarget[] = [
  { form: 'curePerFishPercent', percent: 6 }, { form: 'fishEquilibriumWaterPhasePercent', percent: 4 }, { form: 'finishedWaterPhasePercent', percent: 5, yieldPercent: 85 },
];

function order(changes: Partial<DryCureOrder> = {}): DryCureOrder {
  return { recipe: RUB, filletGrams: 4000, target: { form: 'fishEquilibriumWaterPhasePercent', percent: 4 }, fish: { moisturePercent: 72, saltPercent: 0.15 }, ...changes };
}

function cured(changes: Partial<DryCureOrder> = {}): ScaledDryCure {
  const outcome = scaleDryCure(order(changes), INGREDIENTS);
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

function problem(changes: Partial<DryCureOrder>): Problem {
  const outcome = scaleDryCure(order(changes), INGREDIENTS);
  if (outcome.ok) throw new Error('expected a problem');
  return outcome.problem;
}

describe('a dry cure', () => {
  test('keeps its parts and comes to the water-phase salt asked for', () => {
    const cure = cured({ scaleStepGrams: 1e-4 });
    const [salt, sugar, pepper, soy] = cure.lines.map((line) => line.grams);
    expect((sugar ?? NaN) / (salt ?? NaN)).toBeCloseTo(0.8, 5);
    expect((pepper ?? NaN) / (salt ?? NaN)).toBeCloseTo(0.05, 5);
    expect((soy ?? NaN) / (salt ?? NaN)).toBeCloseTo(0.15, 5);
    expect(cure.equilibriumWaterPhasePercent).toBeCloseTo(4, 5);
    expect(100 * equilibriumFraction({ grams: 4000, moistureFraction: 0.72, saltFraction: 0.0015 }, cure.mixture)).toBeCloseTo(4, 5);
    expect(cure.cureGramsPerKilogramFish).toBeCloseTo(10 * cure.curePerFishPercent, 10);
    expect(cure.saltGramsPerKilogramFish).toBeCloseTo(cure.mixture.saltGrams / 4, 10);
    expect(cure.saltLeftOver).toBe(false);
    expect(DRY_CURE_ASSUMPTION).toMatch(/everything retained/);
  });

  test('a finished target is that of the fish after its loss', () => {
    const cure = cured({ target: { form: 'finishedWaterPhasePercent', percent: 5, yieldPercent: 85 }, scaleStepGrams: 1e-4 });
    expect(finishedAfterDryCure({ grams: 4000, moistureFraction: 0.72, saltFraction: 0.0015 }, cure.mixture, 85)).toBeCloseTo(5, 5);
    expect(finishedAfterDryCure({ grams: 4000, moistureFraction: 0.72, saltFraction: 0.0015 }, cure.mixture, 20)).toBeUndefined();
  });

  test('figures are those of the weights as the scale shows them', () => {
    const cure = cured({ filletGrams: 700, scaleStepGrams: 5 });
    for (const line of cure.lines) expect(line.grams % 5).toBe(0);
    expect(cure.totalGrams).toBe(cure.lines.reduce((sum, line) => sum + line.grams, 0));
    expect(cure.curePerFishPercent).not.toBe(cure.unroundedCurePerFishPercent);
    expect(cure.curePerFishPercent).toBeCloseTo((100 * cure.totalGrams) / 700, 10);
  });

  test('twice the fish takes twice the cure, and saltier targets more', () => {
    fc.assert(fc.property(fc.double({ min: 500, max: 50_000, noNaN: true }), fc.constantFrom(...TARGETS), (filletGrams, target) => {
      const one = cured({ filletGrams, target, scaleStepGrams: 1e-5 });
      expect(cured({ filletGrams: 2 * filletGrams, target, scaleStepGrams: 1e-5 }).totalGrams / one.totalGrams).toBeCloseTo(2, 5);
      const more = cured({ filletGrams, target: { ...target, percent: target.percent + 0.1 }, scaleStepGrams: 1e-5 });
      expect(more.totalGrams).toBeGreaterThan(one.totalGrams);
      expect(more.equilibriumWaterPhasePercent).toBeGreaterThan(one.equilibriumWaterPhasePercent);
    }));
  });

  test('wetter fish asks for more, a lower yield for less', () => {
    const wetter = cured({ fish: { moisturePercent: 78, saltPercent: 0.15 } }).totalGrams;
    expect(wetter).toBeGreaterThan(cured().totalGrams);
    const at = (yieldPercent: number): number => cured({ target: { form: 'finishedWaterPhasePercent', percent: 4, yieldPercent } }).totalGrams;
    expect(at(80)).toBeLessThan(at(90));
    expect(at(100)).toBe(cured().totalGrams);
  });

  test('more salt than the fish can dissolve is said, and the estimate stops at what water holds', () => {
    const heavy = cured({ target: { form: 'curePerFishPercent', percent: 60 } });
    expect(heavy.saltLeftOver).toBe(true);
    expect(heavy.equilibriumWaterPhasePercent).toBeCloseTo(26.395, 10);
  });

  const only = (id: string, saltId = id): Recipe => ({ name: 'Only', ingredients: [{ id, parts: 1 }], salt: { ingredientId: saltId } });
  const line = (id: string, parts: number): Recipe => ({ ...RUB, ingredients: [{ id: 'salt', parts: 1 }, { id, parts }] });
  test.each<[string, Partial<DryCureOrder>, string, RegExp]>([
    ['only sugar', { recipe: only('white-sugar') }, 'recipe.ingredients', /no salt/],
    ['nothing', { recipe: { ...RUB, ingredients: [] } }, 'recipe.ingredients', /no salt/],
    ['a salt that is not in it', { recipe: only('salt', 'table-salt') }, 'recipe.salt.ingredientId', /“table-salt”, is not in it/],
    ['something unknown', { recipe: line('moon-dust', 1) }, 'recipe.ingredients.1.id', /no ingredient/],
    ['a line twice', { recipe: line('salt', 1) }, 'recipe.ingredients.1.id', /twice/],
    ['a part of nothing', { recipe: line('honey', 0) }, 'recipe.ingredients.1.parts', /0 parts/],
    ['a part below nothing', { recipe: line('honey', -2) }, 'recipe.ingredients.1.parts', /-2 parts/],
    ['a part beyond weighing', { recipe: line('honey', 1e10) }, 'recipe.ingredients.1.parts', /thousand million/],
    ['no fillets', { filletGrams: 0 }, 'filletGrams', /0 g/],
    ['fillets that are no number', { filletGrams: NaN }, 'filletGrams', /NaN/],
    ['a tonne and more', { filletGrams: 2e6 }, 'filletGrams', /tonne/],
    ['fish without water', { fish: { moisturePercent: 0, saltPercent: 0 } }, 'fish.moisturePercent', /0 % moisture/],
    ['no scale', { scaleStepGrams: 0 }, 'scaleStepGrams', /step of 0 g/],
    ['a scale too coarse', { filletGrams: 20, scaleStepGrams: 500 }, 'scaleStepGrams', /too coarse/],
    ['a target of nothing', { target: { form: 'curePerFishPercent', percent: 0 } }, 'target.curePerFishPercent', /0 %/],
    ['more cure than fish', { target: { form: 'curePerFishPercent', percent: 120 } }, 'target.curePerFishPercent', /more cure than fish/],
    ['a target above saturation', { target: { form: 'fishEquilibriumWaterPhasePercent', percent: 27 } }, 'target.fishEquilibriumWaterPhasePercent', /26\.395/],
    ['a target that the fish has already', { target: { form: 'fishEquilibriumWaterPhasePercent', percent: 0.1 } }, 'target.fishEquilibriumWaterPhasePercent', /already/],
    ['a target out of reach of so sweet a cure', { recipe: line('honey', 40), target: { form: 'fishEquilibriumWaterPhasePercent', percent: 10 } }, 'target.fishEquilibriumWaterPhasePercent', /out of reach/],
    ['a yield of 0', { target: { form: 'finishedWaterPhasePercent', percent: 4, yieldPercent: 0 } }, 'target.yieldPercent', /yield of 0 %/],
    ['a yield above 100', { target: { form: 'finishedWaterPhasePercent', percent: 4, yieldPercent: 101 } }, 'target.yieldPercent', /yield of 101 %/],
    ['a yield that takes all water', { target: { form: 'finishedWaterPhasePercent', percent: 4, yieldPercent: 25 } }, 'target.yieldPercent', /all the water/],
  ])('%s is a sentence', (_title, changes, field, words) => {
    const found = problem(changes);
    expect(found.field).toBe(field);
    expect(found.message).toMatch(words);
    expect(found.remedy).toBeTruthy();
  });
});
