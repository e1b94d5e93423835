import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { percentFromStem, STEM_SCALES, strengthInTub, tradeStrength, tradeStrengthOfPercent, TRADE_FORMS, type StemReading, type TubStrength } from '../../app/brine/forms.ts';
import type { Outcome, Problem } from '../../app/measures/outcome.ts';

/** A double in a range, never NaN. */
function between(min: number, max: number): fc.Arbitrary<number> {
  return fc.double({ min, max, noNaN: true });
}

function valueOf<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

function problemOf(outcome: Outcome<unknown>): Problem {
  if (outcome.ok) throw new Error('expected a problem');
  return outcome.problem;
}

function inTub(percent: number, celsius: number, sugar = 0): TubStrength {
  return valueOf(strengthInTub(percent, celsius, sugar));
}

describe('every form of a strength', () => {
  test('any of the eight forms, fed back, gives the same brine in all eight', () => {
    fc.assert(fc.property(between(0, 26.395), fc.constantFrom(...TRADE_FORMS), (percent, form) => {
      const first = tradeStrengthOfPercent(percent);
      const again = valueOf(tradeStrength(form, first[form]));
      for (const other of TRADE_FORMS) expect(Math.abs(again[other] - first[other])).toBeLessThan(1e-8 * Math.max(1, first[other]));
    }));
  });

  test('more salt is more in every form', () => {
    fc.assert(fc.property(between(0, 26.3), between(0.001, 0.09), (percent, more) => {
      const weak = tradeStrengthOfPercent(percent);
      const strong = tradeStrengthOfPercent(percent + more);
      for (const form of TRADE_FORMS) expect(strong[form]).toBeGreaterThan(weak[form]);
    }));
  });

  test('a litre and a gallon of brine say the same: 1 lb per US gallon is 119.826 g per litre, but for the air that the trade weighs in', () => {
    const { gramsPerLitreBrine, poundsPerUsGallonBrine } = tradeStrengthOfPercent(10);
    // 8.328 lb of water in air against 8.337 in vacuum: a thousandth.
    expect(Math.abs(gramsPerLitreBrine / (poundsPerUsGallonBrine * 119.826) - 1)).toBeLessThan(0.0012);
  });

  test.each(TRADE_FORMS)('%s below water, above saturation, or no number is a sentence with the range', (form) => {
    for (const value of [-0.01, 1e6, NaN]) {
      const problem = problemOf(tradeStrength(form, value));
      expect(problem.field).toBe('value');
      expect(problem.message).toMatch(/less than no salt|lighter than water|more salt than water can hold|no number/);
      expect(problem.remedy).toMatch(/^Give [01] to [\d.]+ /);
    }
    const highest = Number(/to ([\d.]+) /.exec(problemOf(tradeStrength(form, 1e6)).remedy ?? '')?.[1]);
    expect(tradeStrength(form, highest).ok).toBe(true);
  });
});

describe('a strength in its tub', () => {
  test('a strong brine says when salt falls out and what the water holds', () => {
    const cold = inTub(26.39, 3);
    expect(cold).toMatchObject({ holdsAll: false, firstSolid: { kind: 'salt' } });
    expect(cold.saturatedPercent).toBeLessThan(26.33);
    expect(cold.firstSolid.celsius).toBeGreaterThan(3);
    expect(inTub(26.3, 20).holdsAll).toBe(true);
  });

  test('a usual brine freezes below zero, and a float rides higher in the cold', () => {
    const eight = inTub(8, 3.3);
    expect(eight.firstSolid.kind).toBe('ice');
    expect(eight.firstSolid.celsius).toBeCloseTo(-5, 1);
    const warm = inTub(8, 15.5556);
    if (eight.float.kind !== 'shows' || warm.float.kind !== 'shows') throw new Error('off the scale');
    expect(eight.float.degrees).toBeGreaterThan(warm.float.degrees + 1);
    expect(warm.float.degrees).toBeCloseTo(30.31, 1);
    expect(warm.stem?.specificGravity60F).toBeCloseTo(1.0585, 3);
  });

  test('sugar lifts the float and the salt of the water, not the salt of the whole', () => {
    fc.assert(fc.property(between(0, 10), between(0, 30), between(0.5, 15), (percent, celsius, sugar) => {
      const plain = inTub(percent, celsius);
      const sweet = inTub(percent, celsius, sugar);
      expect(sweet.waterPhasePercent).toBeGreaterThanOrEqual(plain.waterPhasePercent);
      expect(sweet.densityKgPerM3).toBeGreaterThan(plain.densityKgPerM3);
      if (sweet.float.kind === 'shows' && plain.float.kind === 'shows') expect(sweet.float.degrees).toBeGreaterThan(plain.float.degrees);
    }));
  });

  test.each([
    [27, 10, 0, 'percentByWeight'], [20, 10, 40, 'percentByWeight'], [-1, 10, 0, 'percentByWeight'], [NaN, 10, 0, 'percentByWeight'],
    [8, -1, 0, 'celsius'], [8, 51, 0, 'celsius'], [8, 10, -1, 'sugarPercent'], [8, 10, 61, 'sugarPercent'],
  ])('%d %% at %d °C with %d %% sugar is refused at %s', (percent, celsius, sugar, field) => {
    const problem = problemOf(strengthInTub(percent, celsius, sugar));
    expect(problem.field).toBe(field);
    expect(problem.remedy).toMatch(/^Give /);
  });

  test('the most that a refusal offers is itself accepted', () => {
    fc.assert(fc.property(between(0, 50), (sugar) => {
      const most = Number(/most ([\d.]+) %/.exec(problemOf(strengthInTub(99, 10, sugar)).remedy ?? '')?.[1]);
      expect(strengthInTub(most, 10, sugar).ok).toBe(true);
    }));
  });
});

describe('a reading on a stem', () => {
  test('what the stem shows, on any of the three scales, gives the salt back', () => {
    fc.assert(fc.property(between(0.5, 15), between(0, 30), between(0, 12), fc.constantFrom(...STEM_SCALES), (percent, celsius, sugarPercent, scale) => {
      const { stem } = inTub(percent, celsius, sugarPercent);
      if (stem === undefined) return;
      expect(Math.abs(valueOf(percentFromStem({ scale, shown: stem[scale], celsius, sugarPercent })) - percent)).toBeLessThan(1e-6);
    }));
  });

  test('read cold the salt is less than the stem says, read warm it is more', () => {
    const cold = valueOf(percentFromStem({ scale: 'salometerDegrees', shown: 40, celsius: 3.3 }));
    const warm = valueOf(percentFromStem({ scale: 'salometerDegrees', shown: 40, celsius: 26.7 }));
    expect(cold).toBeLessThan(10.558);
    expect(warm).toBeGreaterThan(10.558);
  });

  test.each<[string, StemReading, string, RegExp]>([
    ['°SAL above its stem', { scale: 'salometerDegrees', shown: 101, celsius: 15 }, 'shown', /can’t show/],
    ['a gravity lighter than water', { scale: 'specificGravity60F', shown: 0.99, celsius: 15 }, 'shown', /lighter than water/],
    ['a gravity heavier than any brine', { scale: 'specificGravity60F', shown: 1.3, celsius: 15 }, 'shown', /heavier than any brine/],
    ['°Baumé beyond the scale', { scale: 'baumeDegrees', shown: 145, celsius: 15 }, 'shown', /can’t show/],
    ['no number', { scale: 'baumeDegrees', shown: NaN, celsius: 15 }, 'shown', /no number/],
    ['a temperature beyond what is known', { scale: 'baumeDegrees', shown: 10, celsius: 60 }, 'celsius', /60 °C/],
    ['sugar that lifts it further alone', { scale: 'salometerDegrees', shown: 5, celsius: 15, sugarPercent: 20 }, 'shown', /without salt/],
    ['sugar below none', { scale: 'salometerDegrees', shown: 5, celsius: 15, sugarPercent: -2 }, 'sugarPercent', /sugar/],
  ])('%s is a sentence', (_title, reading, field, words) => {
    const problem = problemOf(percentFromStem(reading));
    expect(problem.field).toBe(field);
    expect(problem.message).toMatch(words);
    expect(problem.remedy).toBeTruthy();
  });
});
