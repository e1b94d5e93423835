/** Laws that hold for every brine: mass balance, scaling, monotony, round trips. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  blendedFraction, brinedFish, brineFractionFor, dryCureFor, dryCureFraction, equilibriumFraction, finishedFraction, fractionBeforeSmoking, makeUp, saltToStrengthen, waterToWeaken,
} from '../../app/brine/balance.ts';
import { densityKgPerM3, mixtureGrams, saltFractionOfDensity, type BrineMixture } from '../../app/brine/density.ts';
import { floatReading, percentFromFloat } from '../../app/brine/float.ts';
import { saturatedPercent } from '../../app/brine/freezing.ts';
import { mixtureOf } from '../../app/brine/ingredients.ts';
import { scaleRecipe, type Recipe, type ScaledBrine } from '../../app/brine/recipe.ts';
import { brineStrength, salometerOfPercent, strengthOfPercent, STRENGTH_FORMS } from '../../app/brine/strength.ts';
import type { BrineTarget } from '../../app/brine/target.ts';
import { ingredient, INGREDIENTS } from '../fixtures/brine-catalogue.ts';

/** A double in a range, never NaN. */
function between(min: number, max: number): fc.Arbitrary<number> {
  return fc.double({ min, max, noNaN: true });
}

const percent = between(0, 26.395);
const celsius = between(0, 50);
const fish = fc.record({ grams: between(1, 100_000), moistureFraction: between(0.5, 0.85), saltFraction: between(0, 0.01) });
const bath = fc.record({ saltGrams: between(0, 20_000), waterGrams: between(1, 100_000) });
const SIDE_IDS = ['brown-sugar', 'white-sugar', 'honey', 'maple-syrup', 'soy-sauce', 'whiskey', 'lemon-juice', 'black-pepper', 'worcestershire-sauce'] as const;
const recipe: fc.Arbitrary<Recipe> = fc.record({
  sides: fc.uniqueArray(fc.record({ id: fc.constantFrom(...SIDE_IDS), parts: between(0.01, 5) }), { maxLength: 5, selector: (line) => line.id }),
  salt: fc.constantFrom('salt', 'table-salt'),
}).map(({ sides, salt }) => ({ name: 'Any', ingredients: [{ id: 'water', parts: 100 }, { id: salt, parts: 1 }, ...sides], salt: { ingredientId: salt } }));
const FINE = 1e-6;

function scaled(made: Recipe, filletGrams: number, ratio: number, target: BrineTarget, scaleStepGrams = FINE): ScaledBrine | undefined {
  const outcome = scaleRecipe({ recipe: made, filletGrams, ratio, target, scaleStepGrams }, INGREDIENTS);
  return outcome.ok ? outcome.value : undefined;
}

function relativeError(actual: number, wanted: number): number {
  return Math.abs(actual - wanted) / Math.max(Math.abs(wanted), 1e-300);
}

describe('strength', () => {
  test('any form of a brine, fed back, gives the same brine', () => {
    fc.assert(fc.property(percent, celsius, fc.constantFrom(...STRENGTH_FORMS), (value, at, form) => {
      const first = strengthOfPercent(value, at);
      const again = brineStrength(form, first[form], at);
      expect(again.ok && Math.abs(again.value.percentByWeight - value)).toBeLessThan(1e-9);
    }));
  });

  test('more salt is more in every form, and a lower first solid only up to the eutectic', () => {
    fc.assert(fc.property(between(0, 26.3), between(0.001, 0.09), celsius, (value, more, at) => {
      const weak = strengthOfPercent(value, at);
      const strong = strengthOfPercent(value + more, at);
      for (const key of [...STRENGTH_FORMS, 'waterPhasePercent', 'poundsPerUsGallonWater', 'densityKgPerM3'] as const) expect(strong[key]).toBeGreaterThan(weak[key]);
      if (value + more <= 23.31) expect(strong.freezingPointC).toBeLessThan(weak.freezingPointC);
      if (value > 23.31) expect(strong.freezingPointC).toBeGreaterThan(weak.freezingPointC);
    }));
  });

  test('warmer brine is lighter, from 4 °C on, and density inverts', () => {
    fc.assert(fc.property(between(0, 0.26395), between(4, 49.9), between(0.01, 0.1), (fraction, at, warmer) => {
      expect(densityKgPerM3(fraction, at + warmer)).toBeLessThan(densityKgPerM3(fraction, at));
      expect(saltFractionOfDensity(densityKgPerM3(fraction, at), at)).toBeCloseTo(fraction, 10);
    }));
  });

  test('warmer water holds more salt', () => {
    fc.assert(fc.property(between(-21, 108), between(0.01, 0.5), (at, warmer) => {
      expect(saturatedPercent(at + warmer)).toBeGreaterThan(saturatedPercent(at));
    }));
  });

  test('what the float shows, read back, is the salt, with any sugar and temperature', () => {
    fc.assert(fc.property(between(0, 20), between(0, 15), celsius, (salt, sugar, at) => {
      const mixture: BrineMixture = { saltGrams: salt, waterGrams: 100 - salt - sugar, sugarGrams: sugar, alcoholGrams: 0, otherGrams: 0, spiceGrams: 0 };
      const reading = floatReading(mixture, at);
      fc.pre(reading.kind === 'shows');
      const back = percentFromFloat(reading.degrees, at, sugar);
      expect(back.ok && Math.abs(back.value - salt)).toBeLessThan(1e-7);
      const sweeter = floatReading({ ...mixture, waterGrams: mixture.waterGrams - 1, sugarGrams: sugar + 1 }, at);
      if (sweeter.kind === 'shows') expect(sweeter.degrees).toBeGreaterThan(reading.degrees);
      else expect(sweeter.kind).toBe('above-scale');
    }));
  });
});

describe('a scaled recipe', () => {
  const target = fc.oneof(
    between(0.5, 24).map((value): BrineTarget => ({ form: 'brinePercent', percent: value })),
    between(2, 90).map((value): BrineTarget => ({ form: 'brineSalometer', degrees: value })),
    between(0.5, 10).map((value): BrineTarget => ({ form: 'fishEquilibriumWaterPhasePercent', percent: value })),
    fc.record({ form: fc.constant('finishedWaterPhasePercent' as const), percent: between(0.5, 10), yieldPercent: between(60, 100) }),
  );

  test('weighs ratio × fillets, and its salt and water are those of its lines, to 1e-9', () => {
    fc.assert(fc.property(recipe, between(1000, 100_000), between(0.3, 10), target, (made, fillets, ratio, wanted) => {
      const brine = scaled(made, fillets, ratio, wanted);
      fc.pre(brine !== undefined);
      expect(relativeError(brine.totalGrams, fillets * ratio)).toBeLessThan(1e-7);
      const salt = brine.lines.reduce((sum, line) => sum + (line.grams * line.ingredient.saltPercent) / 100, 0);
      const water = brine.lines.reduce((sum, line) => sum + (line.grams * line.ingredient.waterPercent) / 100, 0);
      expect(relativeError(brine.percentByWeight, (100 * salt) / brine.totalGrams)).toBeLessThan(1e-9);
      expect(relativeError(brine.waterPhasePercent, (100 * salt) / (salt + water))).toBeLessThan(1e-9);
      expect(relativeError(mixtureGrams(brine.mixture), brine.totalGrams)).toBeLessThan(1e-9);
      for (const line of brine.lines) expect(line.grams).toBeGreaterThanOrEqual(0);
      const allSalt = 0.0015 * fillets + salt;
      expect(relativeError(brine.equilibriumWaterPhasePercent, (100 * allSalt) / (allSalt + 0.72 * fillets + water))).toBeLessThan(1e-9);
    }));
  });

  test('reaches its target, by its own definition', () => {
    fc.assert(fc.property(recipe, between(1000, 100_000), between(0.3, 10), target, (made, fillets, ratio, wanted) => {
      const brine = scaled(made, fillets, ratio, wanted);
      fc.pre(brine !== undefined);
      expect(reached(brine, wanted, fillets)).toBeLessThan(2e-6);
    }));
  });

  test('twice the fillets, or twice the ratio for a brine of its own strength, is twice every line', () => {
    fc.assert(fc.property(recipe, between(100, 10_000), between(0.3, 5), target, (made, fillets, ratio, wanted) => {
      const once = scaled(made, fillets, ratio, wanted);
      fc.pre(once !== undefined);
      const twice = scaled(made, 2 * fillets, ratio, wanted);
      for (const [index, line] of once.lines.entries()) expect(Math.abs((twice?.lines[index]?.grams ?? NaN) - 2 * line.grams)).toBeLessThan(4 * FINE);
      if (wanted.form === 'brinePercent' || wanted.form === 'brineSalometer') {
        const wider = scaled(made, fillets, 2 * ratio, wanted);
        for (const [index, line] of once.lines.entries()) expect(Math.abs((wider?.lines[index]?.grams ?? NaN) - 2 * line.grams)).toBeLessThan(4 * FINE);
      }
    }));
  });

  test('a higher target takes more salt and less of all else; a lower yield takes less salt', () => {
    fc.assert(fc.property(recipe, between(100, 10_000), between(0.3, 5), target, between(0.1, 1), (made, fillets, ratio, wanted, more) => {
      const weak = scaled(made, fillets, ratio, wanted);
      const strong = scaled(made, fillets, ratio, wanted.form === 'brineSalometer' ? { ...wanted, degrees: wanted.degrees + more } : { ...wanted, percent: wanted.percent + more });
      fc.pre(weak !== undefined && strong !== undefined);
      for (const [index, line] of weak.lines.entries()) {
        const other = strong.lines[index]?.grams ?? NaN;
        if (line.ingredient.id === made.salt.ingredientId) expect(other).toBeGreaterThan(line.grams);
        else expect(other).toBeLessThanOrEqual(line.grams);
      }
      if (wanted.form !== 'finishedWaterPhasePercent' || wanted.yieldPercent < 61) return;
      const drier = scaled(made, fillets, ratio, { ...wanted, yieldPercent: wanted.yieldPercent - more });
      if (drier !== undefined) expect(drier.percentByWeight).toBeLessThan(weak.percentByWeight);
    }));
  });

  test('rounding moves no line by more than half a step, and every line is whole steps', () => {
    fc.assert(fc.property(recipe, between(1000, 10_000), between(0.5, 3), fc.constantFrom(0.01, 0.1, 0.5, 1, 2, 5), (made, fillets, ratio, step) => {
      const wanted: BrineTarget = { form: 'brinePercent', percent: 8 };
      const exact = scaled(made, fillets, ratio, wanted);
      const rounded = scaled(made, fillets, ratio, wanted, step);
      fc.pre(exact !== undefined && rounded !== undefined);
      for (const [index, line] of rounded.lines.entries()) {
        expect(Math.abs(line.grams - (exact.lines[index]?.grams ?? NaN))).toBeLessThanOrEqual(step / 2 + 2 * FINE);
        expect(Math.abs(line.grams / step - Math.round(line.grams / step))).toBeLessThan(1e-6);
      }
    }));
  });

  test('no number at all makes it throw or answer with what is no number', () => {
    const any = fc.oneof(fc.double(), fc.constantFrom(0, -0, NaN, Infinity, -Infinity, Number.MAX_VALUE, Number.MIN_VALUE));
    fc.assert(fc.property(recipe, fc.record({ fillets: any, ratio: any, value: any, yieldPercent: any, moisture: any, salt: any, step: any, parts: any }), (made, { fillets, ratio, value, yieldPercent, moisture, salt, step, parts }) => {
      const outcome = scaleRecipe({
        recipe: { ...made, ingredients: made.ingredients.map((line, index) => (index === 0 ? { ...line, parts } : line)) }, filletGrams: fillets, ratio,
        target: { form: 'finishedWaterPhasePercent', percent: value, yieldPercent }, fish: { moisturePercent: moisture, saltPercent: salt }, scaleStepGrams: step,
      }, INGREDIENTS);
      if (outcome.ok) for (const figure of [outcome.value.totalGrams, outcome.value.litresAt4C, outcome.value.percentByWeight, outcome.value.equilibriumWaterPhasePercent]) expect(Number.isFinite(figure)).toBe(true);
      else expect(outcome.problem.field).toEqual(expect.any(String));
    }), { numRuns: 500 });
  });
});

function reached(brine: ScaledBrine, target: BrineTarget, fillets: number): number {
  switch (target.form) {
    case 'brinePercent': return relativeError(brine.percentByWeight, target.percent);
    case 'brineSalometer': return relativeError(brine.salometerDegrees, target.degrees);
    case 'fishEquilibriumWaterPhasePercent': return relativeError(brine.equilibriumWaterPhasePercent, target.percent);
    case 'finishedWaterPhasePercent': {
      const brined = brinedFish({ grams: fillets, moistureFraction: 0.72, saltFraction: 0.0015 }, brine.mixture);
      return relativeError(100 * (finishedFraction(brined, target.yieldPercent / 100) ?? NaN), target.percent);
    }
  }
}

describe('balance of fish and brine', () => {
  test('at equilibrium the fish has the bath’s water-phase salt, and more salt anywhere is more', () => {
    fc.assert(fc.property(fish, bath, between(1, 100), (raw, tub, more) => {
      const brined = brinedFish(raw, tub);
      expect(relativeError(brined.saltGrams / (brined.saltGrams + brined.waterGrams), equilibriumFraction(raw, tub))).toBeLessThan(1e-9);
      expect(equilibriumFraction(raw, { ...tub, saltGrams: tub.saltGrams + more })).toBeGreaterThan(equilibriumFraction(raw, tub));
      // Dry matter, water and salt are the whole fish.
      expect(relativeError(brined.grams, raw.grams * (1 - raw.saltFraction) + brined.saltGrams)).toBeLessThan(1e-9);
    }));
  });

  test('the fish goes from its own salt to equilibrium as the soak goes on', () => {
    fc.assert(fc.property(fish, bath, between(0, 1), (raw, tub, approach) => {
      const own = raw.grams * raw.saltFraction;
      const end = brinedFish(raw, tub).saltGrams;
      expect(relativeError(brinedFish(raw, tub, 0).saltGrams + 1, own + 1)).toBeLessThan(1e-9);
      expect(relativeError(brinedFish(raw, tub, approach).saltGrams + 1, own + approach * (end - own) + 1)).toBeLessThan(1e-9);
    }));
  });

  test('the salt asked for before smoking is the salt found after it', () => {
    fc.assert(fc.property(fish, between(0.001, 0.1), between(0.6, 1), (raw, wanted, yieldFraction) => {
      const before = fractionBeforeSmoking(raw, wanted, yieldFraction);
      fc.pre(before !== undefined);
      const salt = (before / (1 - before)) * raw.grams * raw.moistureFraction;
      const finished = finishedFraction({ grams: raw.grams * (1 - raw.saltFraction) + salt, saltGrams: salt, waterGrams: raw.grams * raw.moistureFraction }, yieldFraction);
      expect(relativeError(finished ?? NaN, wanted)).toBeLessThan(1e-9);
    }));
  });

  test('the brine asked for gives the water-phase salt asked for, with any other solids', () => {
    fc.assert(fc.property(fish, between(0.01, 0.1), between(0.5, 10), between(0, 0.3), (raw, wanted, ratio, solids) => {
      const fraction = brineFractionFor(raw, wanted, ratio, solids);
      const brine = raw.grams * ratio;
      expect(relativeError(equilibriumFraction(raw, { saltGrams: brine * fraction, waterGrams: brine * (1 - solids - fraction) }), wanted)).toBeLessThan(1e-9);
    }));
  });

  test('a dry cure inverts', () => {
    fc.assert(fc.property(fish, between(0.02, 0.2), (raw, wanted) => {
      expect(relativeError(dryCureFraction(raw, dryCureFor(raw, wanted)), wanted)).toBeLessThan(1e-9);
    }));
  });
});

describe('a brine put right', () => {
  test('strengthened and weakened again it is the same strength, and the weight grows by what went in', () => {
    fc.assert(fc.property(between(1, 100_000), between(0.01, 0.2), between(0.001, 0.06), (grams, from, more) => {
      const to = from + more;
      const salt = saltToStrengthen(grams, from, to);
      expect(relativeError((grams * from + salt) / (grams + salt), to)).toBeLessThan(1e-9);
      const water = waterToWeaken(grams + salt, to, from);
      expect(relativeError((grams * from + salt) / (grams + salt + water), from)).toBeLessThan(1e-9);
      expect(relativeError(blendedFraction(grams, from, salt, 1), to)).toBeLessThan(1e-9);
    }));
  });

  test('made up after a dip it has its weight and strength again', () => {
    fc.assert(fc.property(between(1000, 100_000), between(0.02, 0.25), between(0, 0.2), between(0, 0.01), between(0, 0.01), (grams, fraction, carried, absorbed, released) => {
      const saltLeft = grams * fraction - carried * grams * fraction - absorbed * grams;
      const waterLeft = grams * (1 - fraction) * (1 - carried) + released * grams;
      const added = makeUp(carried * grams, fraction, absorbed * grams, released * grams);
      expect(relativeError(saltLeft + added.saltGrams, grams * fraction)).toBeLessThan(1e-9);
      expect(relativeError(waterLeft + added.waterGrams, grams * (1 - fraction))).toBeLessThan(1e-9);
    }));
  });

  test('weighed by taste, what went in is what is there', () => {
    fc.assert(fc.property(fc.array(fc.record({ id: fc.constantFrom(...SIDE_IDS, 'water', 'salt'), grams: between(0, 5000) }), { minLength: 1, maxLength: 8 }), (weighed) => {
      const mixture = mixtureOf(weighed.map(({ id, grams }) => ({ ingredient: ingredient(id), grams })));
      expect(Math.abs(mixtureGrams(mixture) - weighed.reduce((sum, { grams }) => sum + grams, 0))).toBeLessThan(1e-6);
      expect(salometerOfPercent(26.395)).toBe(100);
    }));
  });
});
