import { describe, expect, test } from 'vitest';
import { brineArithmeticRequests } from '../../app/contract/requests/brine-arithmetic.ts';
import { brineArithmeticServices } from '../../main/backroom/services/brine-arithmetic.ts';
import { Refusal } from '../../main/backroom/refusal.ts';
import { INGREDIENTS } from '../fixtures/brine-catalogue.ts';

const ROOM = { ingredients: INGREDIENTS };
const SCALE = {
  recipe: { name: 'Plain', ingredients: [{ id: 'water', parts: 10 }, { id: 'salt', parts: 1 }], salt: { ingredientId: 'salt' } },
  filletGrams: 1000, ratio: 2, target: { brinePercent: 8 },
};

function strength(input: object): unknown {
  const { input: In, output: Out } = brineArithmeticRequests['brine.strength'];
  return Out.parse(brineArithmeticServices['brine.strength'](ROOM, In.parse(input)));
}

function scale(input: object): unknown {
  const { input: In, output: Out } = brineArithmeticRequests['recipe.scale'];
  return Out.parse(brineArithmeticServices['recipe.scale'](ROOM, In.parse(input)));
}

function refusalOf(ask: () => unknown): Refusal {
  try {
    ask();
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('expected a refusal');
}

function namedBy(refusal: Refusal): string[] {
  return (refusal.fields ?? []).map((field) => field.path.join('.'));
}

describe('brine.strength', () => {
  test('answers with the nine figures and nothing else', () => {
    expect(Object.keys(strength({ percentByWeight: 10 }) as object).sort()).toEqual([
      'baumeDegrees', 'densityKgPerM3', 'freezingPointC', 'gramsPerLitreWater', 'percentByWeight', 'poundsPerUsGallonWater', 'salometerDegrees', 'specificGravity60F', 'waterPhasePercent',
    ]);
    expect(strength({ salometerDegrees: 60, temperatureC: 20 })).toMatchObject({ percentByWeight: 15.837, densityKgPerM3: expect.closeTo(1115.05, 1) });
  });

  test('100 °SAL is answered, with the temperature at which salt begins to fall out', () => {
    expect(strength({ salometerDegrees: 100 })).toMatchObject({ percentByWeight: 26.395, freezingPointC: expect.closeTo(15.56, 6) });
  });

  test('none and two are refused, naming the keys', () => {
    const none = refusalOf(() => strength({ temperatureC: 4 }));
    expect(none).toMatchObject({ code: 'INVALID_INPUT', remedy: expect.stringContaining('exactly one') });
    expect(namedBy(none)).toEqual(['percentByWeight', 'salometerDegrees', 'specificGravity60F', 'baumeDegrees', 'gramsPerLitreWater']);
    expect(namedBy(refusalOf(() => strength({ percentByWeight: 10, baumeDegrees: 9.9 })))).toEqual(['percentByWeight', 'baumeDegrees']);
  });

  test.each([[{ percentByWeight: 27 }, 'percentByWeight'], [{ salometerDegrees: -1 }, 'salometerDegrees'], [{ percentByWeight: 5, temperatureC: 80 }, 'temperatureC']])('%j is refused, naming %s', (input, field) => {
    const refusal = refusalOf(() => strength(input));
    expect(refusal.code).toBe('INVALID_INPUT');
    expect(namedBy(refusal)).toEqual([field]);
  });

  test.each([[{ percentByWeight: '10' }], [{ percentByWeight: Infinity }], [{ percentByWeight: NaN }], [{ percentByWeight: null }], [{ percent: 10 }], [{ percentByWeight: 10, note: 'x' }]])('%j does not fit the shape', (input) => {
    expect(brineArithmeticRequests['brine.strength'].input.safeParse(input).success).toBe(false);
  });
});

describe('recipe.scale', () => {
  test('answers with the lines and figures of the fixed shape', () => {
    expect(scale(SCALE)).toEqual({
      lines: [{ ingredientId: 'water', name: 'Water', grams: 1840, saltGrams: 0 }, { ingredientId: 'salt', name: 'Salt', grams: 160, saltGrams: 160 }],
      totalGrams: 2000, litresAt4C: expect.closeTo(1.8858, 4), percentByWeight: 8, waterPhasePercent: 8, salometerDegrees: expect.closeTo(30.309, 3), equilibriumWaterPhasePercent: expect.closeTo(5.934, 3),
    });
  });

  test('every optional key is taken', () => {
    expect(scale({ ...SCALE, target: { finishedWaterPhasePercent: 3.5, yieldPercent: 82 }, fish: { moisturePercent: 70, saltPercent: 0.2 }, scaleStepGrams: 1 })).toMatchObject({ totalGrams: 2000 });
  });

  test.each<[object, string]>([
    [{ target: {} }, 'target'], [{ target: { brinePercent: 8, brineSalometer: 30 } }, 'target.brineSalometer'], [{ target: { brinePercent: 30 } }, 'target.brinePercent'],
    [{ filletGrams: 0 }, 'filletGrams'], [{ fish: { moisturePercent: 120, saltPercent: 0 } }, 'fish.moisturePercent'],
    [{ recipe: { ...SCALE.recipe, ingredients: [{ id: 'salt', parts: 1 }, { id: 'honey', parts: 1 }] } }, 'recipe.ingredients'],
    [{ recipe: { ...SCALE.recipe, ingredients: [...SCALE.recipe.ingredients, { id: 'gold', parts: 1 }] } }, 'recipe.ingredients.2.id'],
  ])('%j is refused, naming %s', (changes, field) => {
    const refusal = refusalOf(() => scale({ ...SCALE, ...changes }));
    expect(refusal.code).toBe('INVALID_INPUT');
    expect(namedBy(refusal)).toEqual([field]);
  });

  test.each<[object]>([
    [{ ratio: '2' }], [{ filletGrams: Infinity }], [{ extra: 1 }], [{ target: { brinePercent: 8, soonest: true } }], [{ fish: { moisturePercent: 72 } }], [{ recipe: { ...SCALE.recipe, salt: 'salt' } }],
    [{ recipe: { ...SCALE.recipe, ingredients: [{ id: 'water', parts: '1,5' }] } }],
  ])('%j does not fit the shape', (changes) => {
    expect(brineArithmeticRequests['recipe.scale'].input.safeParse({ ...SCALE, ...changes }).success).toBe(false);
  });
});
