import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countsByCrystal, crystalSpread, crystalWarning, gramsOfMeasure, SALT_MEASURES } from '../../app/brine/crystals.ts';
import type { Recipe } from '../../app/brine/recipe.ts';
import { brineForTub, FILLET_GRAMS_PER_ML, type Tub, type TubFilling } from '../../app/brine/tub.ts';
import type { BrineTarget } from '../../app/brine/target.ts';
import type { Problem } from '../../app/measures/outcome.ts';
import { ingredient, INGREDIENTS } from '../fixtures/brine-catalogue.ts';

const SHOYU: Recipe = {
  name: 'Shoyu', ingredients: [{ id: 'water', parts: 10 }, { id: 'salt', parts: 0 }, { id: 'soy-sauce', parts: 1 }, { id: 'brown-sugar', parts: 1 }], salt: { ingredientId: 'salt' },
};
const EIGHT: BrineTarget = { form: 'brinePercent', percent: 8 };
const TUB: Tub = { tubLitres: 40, headroomPercent: 15 };

function fill(tub: Tub, filletGrams: number, target: BrineTarget = EIGHT, scaleStepGrams = 0.1): TubFilling {
  const outcome = brineForTub(tub, { recipe: SHOYU, filletGrams, target, scaleStepGrams }, INGREDIENTS);
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

function problem(tub: Tub, filletGrams: number, target: BrineTarget = EIGHT): Problem {
  const outcome = brineForTub(tub, { recipe: SHOYU, filletGrams, target }, INGREDIENTS);
  if (outcome.ok) throw new Error('expected a problem');
  return outcome.problem;
}

describe('brine for a tub', () => {
  test('40 litres with 15 % free and 12.5 kg of fish leave 22.15 litres for brine', () => {
    const filling = fill(TUB, 12_500);
    expect(filling.usableLitres).toBeCloseTo(34, 10);
    expect(filling.fishLitres).toBeCloseTo(12.5 / 1.055, 10);
    expect(filling.brineLitres).toBeCloseTo(34 - 12.5 / 1.055, 3);
    expect(filling.brineGrams).toBe(filling.scaled.totalGrams);
    expect(filling.ratio).toBeCloseTo(filling.brineGrams / 12_500, 4);
    expect(filling.scaled.percentByWeight).toBeCloseTo(8, 2);
    expect(filling.remarks).toEqual([]);
  });

  const targets: readonly BrineTarget[] = [EIGHT, { form: 'fishEquilibriumWaterPhasePercent', percent: 5 }, { form: 'finishedWaterPhasePercent', percent: 4, yieldPercent: 82 }];
  test('fish and brine fill the room, whatever the strength is set by', () => {
    const litres = fc.double({ min: 5, max: 200, noNaN: true });
    fc.assert(fc.property(litres, fc.double({ min: 0, max: 40, noNaN: true }), fc.double({ min: 0.1, max: 0.6, noNaN: true }), fc.constantFrom(...targets), (tubLitres, headroomPercent, share, target) => {
      const room = tubLitres * (1 - headroomPercent / 100);
      const filling = fill({ tubLitres, headroomPercent }, room * share * 1000 * FILLET_GRAMS_PER_ML, target, 1e-4);
      expect(Math.abs(filling.fishLitres + filling.brineLitres - room)).toBeLessThan(1e-6 * room + 1e-6);
    }));
  });

  test('a larger tub takes more, more fish or headroom leaves less', () => {
    fc.assert(fc.property(fc.double({ min: 20, max: 100, noNaN: true }), fc.double({ min: 1000, max: 9000, noNaN: true }), (tubLitres, filletGrams) => {
      const one = fill({ tubLitres, headroomPercent: 10 }, filletGrams).brineGrams;
      expect(fill({ tubLitres: tubLitres + 1, headroomPercent: 10 }, filletGrams).brineGrams).toBeGreaterThan(one);
      expect(fill({ tubLitres, headroomPercent: 20 }, filletGrams).brineGrams).toBeLessThan(one);
      expect(fill({ tubLitres, headroomPercent: 10 }, filletGrams + 500).brineGrams).toBeLessThan(one);
    }));
  });

  test('less brine than half the fish is said', () => {
    const [remark] = fill({ tubLitres: 20, headroomPercent: 0 }, 14_500).remarks;
    expect(remark).toMatch(/^Only 0\.\d+ of brine to 1 of fish fits in: it may not cover the fish\./);
  });

  test.each<[string, Tub, number, string, RegExp]>([
    ['fish that does not fit', TUB, 40_000, 'tubLitres', /40 kg of fillets take 37\.9 litres, and the tub has 34 litres/],
    ['a tub of nothing', { ...TUB, tubLitres: 0 }, 1000, 'tubLitres', /0 litres/],
    ['a tub below nothing', { ...TUB, tubLitres: -4 }, 1000, 'tubLitres', /-4 litres/],
    ['a tub like a pool', { ...TUB, tubLitres: 90_000 }, 1000, 'tubLitres', /larger than any kitchen/],
    ['a tub far too large for the fish', { ...TUB, tubLitres: 3000 }, 100, 'tubLitres', /ratio/],
    ['all headroom', { ...TUB, headroomPercent: 100 }, 1000, 'headroomPercent', /leaves no tub/],
    ['headroom below nothing', { ...TUB, headroomPercent: -1 }, 1000, 'headroomPercent', /-1 %/],
    ['fillets of lead', { ...TUB, filletGramsPerMl: 11 }, 1000, 'filletGramsPerMl', /11 g\/ml/],
    ['boiling brine', { ...TUB, brineCelsius: 99 }, 1000, 'brineCelsius', /99 °C/],
    ['no fillets', TUB, 0, 'filletGrams', /0 g/],
    ['fillets below nothing', TUB, -5, 'filletGrams', /-5 g/],
    ['fillets that are no number', TUB, NaN, 'filletGrams', /NaN/],
  ])('%s is a sentence', (_title, tub, filletGrams, field, words) => {
    const found = problem(tub, filletGrams);
    expect(found.field).toBe(field);
    expect(found.message).toMatch(words);
    expect(found.remedy).toBeTruthy();
  });

  test('a strength that so little brine can’t bring is refused at the target', () => {
    expect(problem({ tubLitres: 12, headroomPercent: 0 }, 12_000, { form: 'fishEquilibriumWaterPhasePercent', percent: 12 }).field).toBe('target.fishEquilibriumWaterPhasePercent');
  });
});

describe('salt by its crystal', () => {
  const salt = ingredient('salt');

  test('a cup of light flake is half a cup of fine salt, and the warning says so', () => {
    const light = gramsOfMeasure(salt, { formId: 'light-flake', unit: 'cup', count: 2 });
    expect(light.ok && light.value).toEqual({ formName: 'kosher, light hollow flake', grams: 280, lowGrams: 270, highGrams: 362 });
    const spread = crystalSpread(salt, 'cup');
    expect(spread).toMatchObject({ lightestGrams: 115, heaviestGrams: 304 });
    expect(spread?.factor).toBeCloseTo(2.64, 2);
    expect(crystalWarning(salt)).toBe('A cup of salt weighs from 115 g (large finishing flake) to 304 g (fine table), 2.6 times as much: weigh it.');
    expect(crystalWarning(ingredient('table-salt'))).toBeUndefined();
  });

  test('grams to measures and back are the same for every crystal', () => {
    fc.assert(fc.property(fc.double({ min: 0.1, max: 5000, noNaN: true }), fc.constantFrom(...SALT_MEASURES), (grams, unit) => {
      const counts = countsByCrystal(salt, grams, unit);
      expect(counts).toHaveLength(salt.household.length);
      for (const { formId, count, lowCount, highCount } of counts) {
        if (count > 1000) continue;
        const back = gramsOfMeasure(salt, { formId, unit, count });
        expect(back.ok && Math.abs(back.value.grams - grams)).toBeLessThan(1e-9 * grams);
        expect(lowCount).toBeLessThanOrEqual(count);
        expect(highCount).toBeGreaterThanOrEqual(count);
      }
    }));
  });

  test.each([
    ['no cups', { formId: 'light-flake', unit: 'cup', count: 0 }, 'count'], ['cups below nothing', { formId: 'light-flake', unit: 'cup', count: -1 }, 'count'],
    ['cups without end', { formId: 'light-flake', unit: 'cup', count: Infinity }, 'count'], ['an unknown crystal', { formId: 'moon', unit: 'cup', count: 1 }, 'formId'],
  ] as const)('%s is a sentence', (_title, measured, field) => {
    const outcome = gramsOfMeasure(salt, measured);
    expect(!outcome.ok && outcome.problem.field).toBe(field);
  });

  test('a measure that the sources don’t give is a sentence', () => {
    const outcome = gramsOfMeasure({ ...salt, household: salt.household.map((form) => ({ ...form, weights: [{ unit: 'cup' as const, grams: 292 }] })) }, { formId: 'fine-table', unit: 'teaspoon', count: 1 });
    expect(!outcome.ok && outcome.problem).toMatchObject({ field: 'unit', message: 'What a teaspoon of fine table salt weighs is not known.' });
  });
});
