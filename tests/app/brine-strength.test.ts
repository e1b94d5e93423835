import { describe, expect, test } from 'vitest';
import { densityKgPerM3, mixtureLitres, saltFractionOfDensity, solveRising } from '../../app/brine/density.ts';
import { floatReading, percentFromFloat } from '../../app/brine/float.ts';
import { firstSolidCelsius, saltFallsFirst, saturatedPercent } from '../../app/brine/freezing.ts';
import { gramsOfSteps, plainNumber, stepsOf } from '../../app/brine/rounding.ts';
import { brineStrength, strengthOfPercent, STRENGTH_FORMS, type StrengthForm } from '../../app/brine/strength.ts';
import { waterPhaseFraction, waterPhasePercent } from '../../app/brine/water-phase.ts';

describe('strength in its forms', () => {
  test('10 % in every form', () => {
    const strength = brineStrength('percentByWeight', 10);
    expect(strength).toMatchObject({ ok: true, value: { percentByWeight: 10, waterPhasePercent: 10 } });
    if (!strength.ok) return;
    expect(strength.value.salometerDegrees).toBeCloseTo(37.886, 3);
    expect(strength.value.specificGravity60F).toBeCloseTo(1.0735, 4);
    expect(strength.value.baumeDegrees).toBeCloseTo(9.92, 2);
    expect(strength.value.gramsPerLitreWater).toBeCloseTo(111, 1);
    expect(strength.value.poundsPerUsGallonWater).toBeCloseTo(0.9253, 4);
    expect(strength.value.densityKgPerM3).toBeCloseTo(1072.39, 2);
    expect(strength.value.freezingPointC).toBeCloseTo(-6.53, 2);
  });

  test('the temperature moves the density and nothing else', () => {
    const warm = strengthOfPercent(10);
    const cold = strengthOfPercent(10, 0);
    expect(cold).toEqual({ ...warm, densityKgPerM3: cold.densityKgPerM3 });
    expect(cold.densityKgPerM3).toBeCloseTo(1076.88, 2);
  });

  test('plain water is no salt in every form', () => {
    expect(strengthOfPercent(0)).toMatchObject({ percentByWeight: 0, salometerDegrees: 0, specificGravity60F: 1, baumeDegrees: 0, gramsPerLitreWater: 0, freezingPointC: 0 });
    for (const form of STRENGTH_FORMS) expect(brineStrength(form, form === 'specificGravity60F' ? 1 : 0)).toMatchObject({ ok: true, value: { percentByWeight: 0 } });
  });

  test('100 °SAL is allowed at any temperature, in every form', () => {
    const saturated = brineStrength('salometerDegrees', 100, 0);
    if (!saturated.ok) throw new Error(saturated.problem.message);
    expect(saturated.value).toMatchObject({ percentByWeight: 26.395, salometerDegrees: 100 });
    for (const form of STRENGTH_FORMS) expect(brineStrength(form, saturated.value[form], 0)).toMatchObject({ ok: true, value: { percentByWeight: expect.closeTo(26.395, 9) } });
  });

  test.each<[StrengthForm, number]>([
    ['percentByWeight', 26.3951], ['percentByWeight', -0.001], ['percentByWeight', NaN], ['percentByWeight', Infinity], ['salometerDegrees', 100.001], ['salometerDegrees', -1],
    ['specificGravity60F', 0.9999], ['specificGravity60F', 1.204], ['specificGravity60F', 0], ['baumeDegrees', 24.6], ['baumeDegrees', 145], ['baumeDegrees', 200], ['baumeDegrees', -0.1],
    ['gramsPerLitreWater', 358.3], ['gramsPerLitreWater', -1], ['gramsPerLitreWater', -999], ['gramsPerLitreWater', 1e308],
  ])('%s of %d is refused by name, with the range that is accepted', (form, value) => {
    const strength = brineStrength(form, value);
    expect(strength).toMatchObject({ ok: false, problem: { field: form, remedy: expect.stringContaining(form) } });
    const highest = strength.ok ? NaN : Number(strength.problem.remedy?.match(/to ([\d.]+)\.$/)?.[1]);
    expect(brineStrength(form, highest).ok).toBe(true);
  });

  test.each([-0.01, 50.01, NaN, Infinity])('a density at %d °C is refused by name', (celsius) => {
    expect(brineStrength('percentByWeight', 10, celsius)).toMatchObject({ ok: false, problem: { field: 'temperatureC' } });
  });
});

describe('density', () => {
  test('a salt fraction or a temperature out of range is a bug and throws', () => {
    expect(() => densityKgPerM3(-0.01, 10)).toThrow(RangeError);
    expect(() => densityKgPerM3(0.3, 10)).toThrow(RangeError);
    expect(() => densityKgPerM3(NaN, 10)).toThrow(RangeError);
    expect(() => densityKgPerM3(0.1, 51)).toThrow(RangeError);
  });

  test('no salt water is lighter than water or heavier than saturated brine', () => {
    expect(saltFractionOfDensity(998, 15)).toBeUndefined();
    expect(saltFractionOfDensity(1204, 15)).toBeUndefined();
    expect(saltFractionOfDensity(NaN, 15)).toBeUndefined();
    expect(saltFractionOfDensity(densityKgPerM3(0.26395, 15), 15)).toBeCloseTo(0.26395, 12);
  });

  test('above 40 °C it goes on without a step', () => {
    expect(densityKgPerM3(0.2, 40.0001)).toBeCloseTo(densityKgPerM3(0.2, 40), 3);
  });

  test('sugar, spirit and spice take up room', () => {
    const nothing = { saltGrams: 0, waterGrams: 0, sugarGrams: 0, alcoholGrams: 0, otherGrams: 0, spiceGrams: 0 };
    expect(mixtureLitres(nothing, 4)).toBe(0);
    expect(mixtureLitres({ ...nothing, waterGrams: 1000 }, 4)).toBeCloseTo(1.00003, 5);
    expect(mixtureLitres({ ...nothing, waterGrams: 1000, sugarGrams: 100 }, 4)).toBeCloseTo(1.0618, 4);
    expect(mixtureLitres({ ...nothing, waterGrams: 1000, alcoholGrams: 100 }, 4)).toBeCloseTo(1.1196, 4);
    expect(mixtureLitres({ ...nothing, waterGrams: 1000, spiceGrams: 100 }, 4)).toBeCloseTo(1.0618, 4);
  });

  test('an inverse beyond its ends stops at them', () => {
    expect(solveRising((at) => at, -1, 5)).toBe(0);
    expect(solveRising((at) => at, 7, 5)).toBe(5);
    expect(solveRising((at) => at * at, 2, 5)).toBeCloseTo(Math.SQRT2, 12);
  });
});

describe('freezing', () => {
  test('up to 23.31 % ice comes first, above it salt', () => {
    expect([saltFallsFirst(23.31), saltFallsFirst(23.32)]).toEqual([false, true]);
    expect(firstSolidCelsius(24)).toBeGreaterThan(firstSolidCelsius(23.31));
  });

  test('outside the tables it throws', () => {
    expect(() => firstSolidCelsius(-1)).toThrow(RangeError);
    expect(() => firstSolidCelsius(29)).toThrow(RangeError);
    expect(() => saturatedPercent(-30)).toThrow(RangeError);
    expect(() => saturatedPercent(NaN)).toThrow(RangeError);
  });
});

describe('float', () => {
  const water = { saltGrams: 0, waterGrams: 100, sugarGrams: 0, alcoholGrams: 0, otherGrams: 0, spiceGrams: 0 };
  test('it leaves its scale in warm water, and in strong sweet brine', () => {
    expect(floatReading(water, 30)).toEqual({ kind: 'below-scale' });
    expect(floatReading({ ...water, saltGrams: 30, sugarGrams: 40 }, 15)).toEqual({ kind: 'above-scale' });
  });

  test('spice that does not dissolve bears no float', () => {
    const brine = { ...water, saltGrams: 10 };
    expect(floatReading({ ...brine, spiceGrams: 5 }, 10)).toEqual(floatReading(brine, 10));
    expect(floatReading({ ...brine, otherGrams: 5 }, 10)).not.toEqual(floatReading(brine, 10));
  });

  test.each([
    [-1, 10, 0, 'shownDegrees'], [101, 10, 0, 'shownDegrees'], [NaN, 10, 0, 'shownDegrees'], [50, -1, 0, 'celsius'], [50, NaN, 0, 'celsius'],
    [50, 10, -1, 'sugarPercent'], [50, 10, 61, 'sugarPercent'], [10, 10, 20, 'shownDegrees'], [100, 40, 0, 'shownDegrees'],
  ])('a reading of %d °SAL at %d °C with %d per cent sugar is refused, naming %s', (shown, celsius, sugar, field) => {
    expect(percentFromFloat(shown, celsius, sugar)).toMatchObject({ ok: false, problem: { field } });
  });
});

describe('water-phase salt', () => {
  test('is salt over salt and moisture', () => {
    expect(waterPhasePercent(3, 62)).toMatchObject({ ok: true, value: expect.closeTo(4.615, 3) });
    expect(waterPhaseFraction(0, 0)).toBe(0);
  });

  test.each([[-1, 60, 'saltPercent'], [NaN, 60, 'saltPercent'], [101, 60, 'saltPercent'], [3, 0, 'moisturePercent'], [3, NaN, 'moisturePercent'], [3, 101, 'moisturePercent'], [41, 60, 'moisturePercent']])(
    'salt %d and moisture %d are refused, naming %s', (salt, moisture, field) => {
      expect(waterPhasePercent(salt, moisture)).toMatchObject({ ok: false, problem: { field } });
    },
  );
});

describe('rounding to the scale', () => {
  test.each([[0.05, 0.1, 0.1], [0.35, 0.1, 0.4], [0.349, 0.1, 0.3], [1.005, 0.01, 1.01], [2.5, 5, 5], [2.4999, 5, 0], [7, 2, 8], [0, 0.1, 0], [3 * 0.1, 0.1, 0.3], [1234567.85, 0.1, 1234567.9]])(
    '%d g on a scale of %d g is %d g', (grams, step, rounded) => {
      expect(gramsOfSteps(stepsOf(grams, step), step)).toBe(rounded);
    },
  );

  test('numbers in sentences have no tails', () => {
    expect([plainNumber(1.5, 2), plainNumber(-0.001, 2), plainNumber(0.1 + 0.2, 3), plainNumber(NaN, 1), plainNumber(1200, 0)]).toEqual(['1.5', '0', '0.3', 'NaN', '1200']);
  });
});
