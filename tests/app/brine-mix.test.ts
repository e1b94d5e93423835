import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mixIngredient, type MixesById, type MixPart } from '../../app/brine/mix.ts';
import { isWatery, mixtureOf, type Ingredient } from '../../app/brine/ingredients.ts';
import type { Problem } from '../../app/measures/outcome.ts';
import { ingredient, INGREDIENTS } from '../fixtures/brine-catalogue.ts';

const GLAZE = { id: 'lake-glaze', name: 'Lake glaze', labelName: 'lake glaze' };
const PARTS: readonly MixPart[] = [
  { ingredientId: 'soy-sauce', parts: 100 }, { ingredientId: 'maple-syrup', parts: 300 }, { ingredientId: 'worcestershire-sauce', parts: 50 },
];

function mixed(parts: readonly MixPart[], ingredients: readonly Ingredient[] = INGREDIENTS, mixes: MixesById = {}): Ingredient {
  const outcome = mixIngredient(GLAZE, parts, ingredients, mixes);
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

function problem(parts: readonly MixPart[], ingredients: readonly Ingredient[] = INGREDIENTS, mixes: MixesById = {}): Problem {
  const outcome = mixIngredient(GLAZE, parts, ingredients, mixes);
  if (outcome.ok) throw new Error('expected a problem');
  return outcome.problem;
}

describe('a mix of the house', () => {
  test('lists what it is made of heaviest first, each with its own list, and unites the allergens', () => {
    const glaze = mixed(PARTS);
    expect(glaze.subIngredients[0]).toBe('maple syrup');
    expect(glaze.subIngredients[1]).toMatch(/^soy sauce \(water, wheat, soybeans/);
    expect(glaze.subIngredients[2]).toMatch(/^worcestershire sauce \(/i);
    expect(glaze.allergens).toEqual(expect.arrayContaining([...ingredient('soy-sauce').allergens, ...ingredient('worcestershire-sauce').allergens]));
    expect(new Set(glaze.allergens).size).toBe(glaze.allergens.length);
    expect(glaze.source).toMatchObject({ publisher: 'This kitchen', mark: 'computed' });
    expect(glaze.source.section).toContain('300 maple syrup');
  });

  test('two salts of one label name stand in its list once, with their weights together', () => {
    const rub = mixed([{ ingredientId: 'salt', parts: 40 }, { ingredientId: 'brown-sugar', parts: 60 }, { ingredientId: 'table-salt', parts: 40 }]);
    expect(rub.subIngredients).toEqual(['salt', 'brown sugar']);
    expect(rub.densityGramsPerMl).toBeNull();
  });

  test('a mix has the composition of its parts to the last digit, in any unit of weight', () => {
    const ids = ['water', 'salt', 'soy-sauce', 'brown-sugar', 'whiskey', 'honey', 'black-pepper'];
    const parts = fc.uniqueArray(fc.record({ ingredientId: fc.constantFrom(...ids), parts: fc.double({ min: 0.01, max: 1000, noNaN: true }) }), { minLength: 1, selector: (part) => part.ingredientId });
    fc.assert(fc.property(parts, fc.double({ min: 0.001, max: 1000, noNaN: true }), (made, unit) => {
      const grams = made.reduce((sum, part) => sum + part.parts, 0);
      const whole = mixtureOf([{ ingredient: mixed(made), grams }]);
      const apart = mixtureOf(made.map((part) => ({ ingredient: ingredient(part.ingredientId), grams: part.parts })));
      for (const key of ['saltGrams', 'waterGrams', 'sugarGrams', 'alcoholGrams'] as const) expect(Math.abs(whole[key] - apart[key])).toBeLessThan(1e-9 * grams);
      const scaled = mixed(made.map((part) => ({ ...part, parts: part.parts * unit })));
      expect(Math.abs(scaled.saltPercent - mixed(made).saltPercent)).toBeLessThan(1e-9);
    }));
  });

  test('what is mostly water is poured like water, with a density of its own; what has no liquid isn’t', () => {
    const stock = mixed([{ ingredientId: 'water', parts: 900 }, { ingredientId: 'salt', parts: 80 }, { ingredientId: 'soy-sauce', parts: 20 }]);
    expect(isWatery(stock)).toBe(true);
    expect(stock.densityGramsPerMl).toBeCloseTo(1.059, 2);
    const syrups = mixed([{ ingredientId: 'honey', parts: 143 }, { ingredientId: 'maple-syrup', parts: 133 }]);
    expect(syrups.densityGramsPerMl).toBeCloseTo(1.38, 10);
    expect(isWatery(syrups)).toBe(false);
    expect(mixed([{ ingredientId: 'garlic', parts: 1 }, { ingredientId: 'dill-fresh', parts: 1 }]).densityGramsPerMl).toBeNull();
  });
});

describe('a mix that can’t be', () => {
  test('is not made of itself', () => {
    const found = problem([{ ingredientId: 'salt', parts: 1 }, { ingredientId: 'lake-glaze', parts: 1 }]);
    expect(found).toEqual({ message: 'Lake glaze can’t be made of itself.', field: 'parts.1.ingredientId', remedy: 'Take Lake glaze out, or make it of something else.' });
  });

  test('does not come back to itself through others, and the sentence names the whole circle', () => {
    const rub = { ...mixed(PARTS), id: 'dock-rub', name: 'Dock rub' };
    const base = { ...mixed(PARTS), id: 'pier-base', name: 'Pier base' };
    const mixes: MixesById = { 'dock-rub': [{ ingredientId: 'pier-base', parts: 1 }], 'pier-base': [{ ingredientId: 'salt', parts: 1 }, { ingredientId: 'lake-glaze', parts: 1 }] };
    const found = problem([{ ingredientId: 'dock-rub', parts: 1 }], [...INGREDIENTS, rub, base], mixes);
    expect(found.field).toBe('parts.0.ingredientId');
    expect(found.message).toBe('Lake glaze goes round in a circle: Lake glaze contains Dock rub, Dock rub contains Pier base, Pier base contains Lake glaze.');
  });

  test('the same mix twice by two ways is no circle', () => {
    const base = { ...mixed(PARTS), id: 'pier-base', name: 'Pier base' };
    const rub = { ...mixed(PARTS), id: 'dock-rub', name: 'Dock rub' };
    const mixes: MixesById = { 'dock-rub': [{ ingredientId: 'pier-base', parts: 1 }], 'pier-base': [{ ingredientId: 'salt', parts: 1 }] };
    expect(mixIngredient(GLAZE, [{ ingredientId: 'dock-rub', parts: 1 }, { ingredientId: 'pier-base', parts: 1 }], [...INGREDIENTS, rub, base], mixes).ok).toBe(true);
  });

  test.each<[string, readonly MixPart[], string, RegExp]>([
    ['empty', [], 'parts', /empty/],
    ['of something unknown', [{ ingredientId: 'moon-dust', parts: 1 }], 'parts.0.ingredientId', /no ingredient “moon-dust”/],
    ['with a part twice', [{ ingredientId: 'salt', parts: 1 }, { ingredientId: 'salt', parts: 2 }], 'parts.1.ingredientId', /Salt is in the mix twice/],
    ['with nothing of a part', [{ ingredientId: 'salt', parts: 0 }], 'parts.0.parts', /0 parts/],
    ['with less than nothing of a part', [{ ingredientId: 'salt', parts: -3 }], 'parts.0.parts', /-3 parts/],
    ['with a part that is no number', [{ ingredientId: 'salt', parts: NaN }], 'parts.0.parts', /NaN parts/],
    ['with a part beyond weighing', [{ ingredientId: 'salt', parts: 1e10 }], 'parts.0.parts', /thousand million/],
  ])('%s', (_title, parts, field, words) => {
    const found = problem(parts);
    expect(found.field).toBe(field);
    expect(found.message).toMatch(words);
    expect(found.remedy).toBeTruthy();
  });
});
