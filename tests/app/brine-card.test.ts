import { describe, expect, test } from 'vitest';
import { brineCard, type BrineCard, type CardOrder } from '../../app/brine/card.ts';
import { householdMeasure } from '../../app/brine/household.ts';
import type { Recipe } from '../../app/brine/recipe.ts';
import { ingredient, INGREDIENTS } from '../fixtures/brine-catalogue.ts';

const PLAIN: Recipe = { name: 'Plain', ingredients: [{ id: 'water', parts: 10 }, { id: 'salt', parts: 1 }], salt: { ingredientId: 'salt' } };
const HOUSE: Recipe = {
  name: 'House',
  ingredients: [
    { id: 'water', parts: 100 }, { id: 'salt', parts: 8 }, { id: 'brown-sugar', parts: 5 }, { id: 'soy-sauce', parts: 4 },
    { id: 'worcestershire-sauce', parts: 1 }, { id: 'bay-leaf', parts: 0.05 }, { id: 'juniper-berries', parts: 0.2 },
  ],
  salt: { ingredientId: 'salt' },
};

function order(changes: Partial<CardOrder> = {}): CardOrder {
  return { recipe: HOUSE, filletGrams: 12_500, ratio: 1.1, target: { form: 'brineSalometer', degrees: 28 }, pour: 'litres', ...changes };
}

function card(changes: Partial<CardOrder> = {}): BrineCard {
  const outcome = brineCard(order(changes), INGREDIENTS);
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

describe('the brine card', () => {
  test('gives every line in grams, the strength, the volume and what the float shows', () => {
    const made = card();
    expect(made.lines.map((line) => line.ingredient.id)).toEqual(HOUSE.ingredients.map((line) => line.id));
    expect(made.totalGrams).toBeCloseTo(13_750, 0);
    expect(made.salometerDegrees).toBeCloseTo(28, 2);
    expect(made.brineCelsius).toBeCloseTo(3.333, 3);
    expect(made.litres).toBeGreaterThan(made.totalGrams / 1100);
    expect(made.litres).toBeLessThan(made.totalGrams / 1050);
    if (made.float.kind !== 'shows') throw new Error('off the scale');
    // 4 % sugar lifts the float about 9 degrees, soy solids and cold some more.
    expect(made.float.degrees).toBeGreaterThan(37);
    expect(made.float.degrees).toBeLessThan(43);
    expect(made.cautions).toContain('float-misled');
  });

  test('names every allergen once', () => {
    expect(card().allergens).toEqual(['soybeans', 'wheat', 'fish: Anchovy']);
  });

  test('water is poured in litres or US quarts, spice counted in leaves, and what has no known measure is left in grams', () => {
    const litres = card().lines.map((line) => line.household);
    expect(litres[0]).toEqual({ kind: 'litres', litres: expect.closeTo((card().lines[0]?.grams ?? NaN) / 1000, 2) });
    expect(card({ pour: 'us-quarts' }).lines[0]?.household).toEqual({ kind: 'us-quarts', quarts: expect.closeTo((card().lines[0]?.grams ?? NaN) / 946.35, 2) });
    expect(litres[5]).toEqual({ kind: 'pieces', count: Math.round((card().lines[5]?.grams ?? NaN) / 0.2), formName: 'leaf' });
    expect(card().lines[6]).not.toHaveProperty('household');
  });

  test('salt has no cup until its crystal is chosen; then the cup says how far it may be out', () => {
    expect(card().lines[1]).not.toHaveProperty('household');
    expect(card({ forms: { salt: 'no-such' } }).lines[1]).not.toHaveProperty('household');
    const dense = card({ forms: { salt: 'dense-flake' } }).lines[1]?.household;
    expect(dense).toMatchObject({ kind: 'spoons', formName: 'kosher, dense rolled flake' });
    if (dense?.kind !== 'spoons') return;
    expect((dense.highGrams ?? 0) / (dense.lowGrams ?? 1)).toBeCloseTo(248 / 225, 6);
    expect(card().cautions).toContain('salt-differs-by-crystal');
  });

  test('without a yield there is no forecast of the finished fish, only of equilibrium with its range', () => {
    const made = card();
    expect(made).not.toHaveProperty('finished');
    expect(made.equilibrium.lowPercent).toBeLessThan(made.equilibriumWaterPhasePercent);
    expect(made.equilibrium.percent).toBeCloseTo(made.equilibriumWaterPhasePercent, 12);
    expect(made.equilibrium.highPercent).toBeGreaterThan(made.equilibriumWaterPhasePercent);
    expect(made.cautions).not.toContain('yield-too-low-to-estimate');
  });

  test('a finished target is forecast in the middle of a range of 2.5 points of moisture and 1 of yield', () => {
    const { finished } = card({ recipe: PLAIN, filletGrams: 1000, ratio: 1, target: { form: 'finishedWaterPhasePercent', percent: 3.5, yieldPercent: 82 }, fish: { moisturePercent: 70, saltPercent: 0.16 }, scaleStepGrams: 0.0001 });
    expect(finished?.percent).toBeCloseTo(3.5, 5);
    // By hand: brine of k(0.7 + 1) − 0.0016 …; at 72.5 % moisture and 83 % yield, at 67.5 % and 81 %.
    const salt = 0.0016 + saltOf(finished?.percent ?? NaN);
    expect(finished?.lowPercent).toBeCloseTo(atCorner(salt, 0.725, 0.83), 5);
    expect(finished?.highPercent).toBeCloseTo(atCorner(salt, 0.675, 0.81), 5);
  });

  test('the measured yield of the batch goes before the target’s', () => {
    const target = { form: 'finishedWaterPhasePercent', percent: 3.5, yieldPercent: 82 } as const;
    expect(card({ target, yieldPercent: 75 }).finished?.percent).toBeGreaterThan(card({ target }).finished?.percent ?? NaN);
    expect(card({ yieldPercent: 100 }).finished?.percent).toBeCloseTo(card().equilibriumWaterPhasePercent, 9);
  });

  test('a yield near all the water gives no forecast, and says so', () => {
    const made = card({ yieldPercent: 27, fish: { moisturePercent: 76, saltPercent: 0.1 } });
    expect(made).not.toHaveProperty('finished');
    expect(made.cautions).toContain('yield-too-low-to-estimate');
  });

  test.each<[Partial<CardOrder>, string, boolean]>([
    [{ recipe: PLAIN, target: { form: 'brineSalometer', degrees: 100 } }, 'salt-falls-out', true],
    [{ recipe: PLAIN, target: { form: 'brineSalometer', degrees: 99 } }, 'salt-falls-out', false],
    [{ recipe: PLAIN, target: { form: 'brineSalometer', degrees: 100 } }, 'float-off-scale', true],
    [{ recipe: PLAIN, target: { form: 'brineSalometer', degrees: 20 }, brineCelsius: 15.5 }, 'float-misled', false],
    [{ recipe: PLAIN, target: { form: 'brineSalometer', degrees: 81 } }, 'strong-brine', true],
    [{ recipe: PLAIN, target: { form: 'brineSalometer', degrees: 79 } }, 'strong-brine', false],
    [{ filletGrams: 50, scaleStepGrams: 1 }, 'line-below-scale-step', true],
    [{}, 'line-below-scale-step', false],
    [{ filletGrams: 50, scaleStepGrams: 5 }, 'strength-moved-by-rounding', true],
    [{}, 'strength-moved-by-rounding', false],
    [{ ratio: 0.4 }, 'may-not-cover', true],
    [{ ratio: 0.5 }, 'may-not-cover', false],
    [{ recipe: { ...PLAIN, ingredients: [{ id: 'water', parts: 9 }, { id: 'table-salt', parts: 1 }], salt: { ingredientId: 'table-salt' } } }, 'salt-differs-by-crystal', false],
  ])('%j: %s is %s', (changes, caution, applies) => {
    expect((card(changes).cautions as readonly string[]).includes(caution)).toBe(applies);
  });

  test.each<[Partial<CardOrder>, string]>([
    [{ brineCelsius: -1 }, 'brineCelsius'], [{ brineCelsius: 51 }, 'brineCelsius'], [{ brineCelsius: NaN }, 'brineCelsius'], [{ yieldPercent: 0 }, 'yieldPercent'],
    [{ yieldPercent: 101 }, 'yieldPercent'], [{ yieldPercent: NaN }, 'yieldPercent'], [{ filletGrams: 0 }, 'filletGrams'], [{ fish: { moisturePercent: 72, saltPercent: 40 } }, 'fish.moisturePercent'],
  ])('%j is refused, naming %s', (changes, field) => {
    expect(brineCard(order(changes), INGREDIENTS)).toMatchObject({ ok: false, problem: { field, remedy: expect.any(String) } });
  });
});

/** Salt per gram of raw fish and gram of brine that ends at 3.5 % with the middle moisture and yield: from the closed form, not the program. */
function saltOf(percent: number): number {
  const perWater = percent / (100 - percent);
  const inFish = (perWater * (0.7 - 0.18 * (1 - 0.0016))) / (1 + perWater * 0.18);
  const brinePerWater = inFish / 0.7;
  // 0.0016 + b = k (0.7 + 1 − b)
  return (brinePerWater * 1.7 - 0.0016) / (1 + brinePerWater);
}

function atCorner(allSalt: number, moisture: number, yieldFraction: number): number {
  const perWater = allSalt / (moisture + 1 - (allSalt - 0.0016));
  const inFish = perWater * moisture;
  const water = moisture - (1 - yieldFraction) * (1 - 0.0016 + inFish);
  return (100 * inFish) / (inFish + water);
}

describe('household measures', () => {
  test.each([
    ['brown-sugar', 220, undefined, { quarterCups: 4, tablespoons: 0, quarterTeaspoons: 0 }], ['brown-sugar', 145, 'loose', { quarterCups: 4, tablespoons: 0, quarterTeaspoons: 0 }],
    ['honey', 41, undefined, { quarterCups: 0, tablespoons: 2, quarterTeaspoons: 0 }], ['soy-sauce', 287, undefined, { quarterCups: 4, tablespoons: 2, quarterTeaspoons: 0 }],
    ['black-pepper', 1.7, undefined, { quarterCups: 0, tablespoons: 0, quarterTeaspoons: 3 }], ['black-pepper', 9.2, undefined, { quarterCups: 0, tablespoons: 1, quarterTeaspoons: 4 }],
    ['whiskey', 27.8, undefined, { quarterCups: 0, tablespoons: 2, quarterTeaspoons: 0 }], ['lemon-juice', 5, undefined, { quarterCups: 0, tablespoons: 0, quarterTeaspoons: 4 }],
  ] as const)('%s, %d g, %s: %j', (id, grams, formId, measure) => {
    expect(householdMeasure(ingredient(id), grams, 'litres', 4, formId)).toMatchObject({ kind: 'spoons', ...measure });
  });

  test('what is less than a measure can show has none', () => {
    expect(householdMeasure(ingredient('black-pepper'), 0.2, 'litres', 4)).toBeUndefined();
    expect(householdMeasure(ingredient('bay-leaf'), 0.05, 'litres', 4)).toBeUndefined();
    expect(householdMeasure(ingredient('salt'), 0, 'litres', 4, 'pickling')).toBeUndefined();
  });

  test('every spoon measure of every ingredient comes back to its grams within its own rounding', () => {
    for (const entry of INGREDIENTS) {
      for (const form of entry.household) {
        const cups = form.weights.find((weight) => weight.unit === 'cup');
        if (cups === undefined) continue;
        const measure = householdMeasure(entry, cups.grams * 3, 'litres', 4, form.id);
        expect(measure).toMatchObject({ kind: 'spoons', quarterCups: 12, tablespoons: 0, quarterTeaspoons: 0 });
      }
    }
  });
});
