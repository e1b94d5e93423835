import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mendBrine, type Trouble } from '../../app/brine/mend.ts';
import type { MendPlan, MendStep, TubNow } from '../../app/brine/mend-plan.ts';
import type { WeighedIngredient } from '../../app/brine/ingredients.ts';
import type { Problem } from '../../app/measures/outcome.ts';
import { ingredient, INGREDIENTS } from '../fixtures/brine-catalogue.ts';

function weigh(grams: Readonly<Record<string, number>>): WeighedIngredient[] {
  return Object.entries(grams).map(([id, weight]) => ({ ingredient: ingredient(id), grams: weight }));
}

const PLAIN: TubNow = { lines: weigh({ water: 9200, salt: 800 }), saltIngredientId: 'salt', filletGrams: 0, celsius: 3.3 };
const SWEET: TubNow = { lines: weigh({ water: 8000, salt: 500, 'soy-sauce': 1000, 'brown-sugar': 500 }), saltIngredientId: 'salt', filletGrams: 0, celsius: 3.3 };
const WITH_FISH: TubNow = { ...SWEET, filletGrams: 5000 };

function hours(approach: number, alpha: number): number | undefined {
  return approach < 1 ? (10 * approach) / (1 - approach) / (1 + 1 / alpha) : undefined;
}

function plan(tub: TubNow, trouble: Trouble): MendPlan {
  const outcome = mendBrine(tub, trouble, INGREDIENTS, hours);
  if (!outcome.ok) throw new Error(`${outcome.problem.field}: ${outcome.problem.message}`);
  return outcome.value;
}

function problem(tub: TubNow, trouble: Trouble): Problem {
  const outcome = mendBrine(tub, trouble, INGREDIENTS, hours);
  if (outcome.ok) throw new Error('expected a problem');
  return outcome.problem;
}

function strong(percent: number, wantedPercent?: number): Trouble {
  return { kind: 'too-strong', measured: { by: 'percent', percent }, wantedPercent };
}

function weak(percent: number, wantedPercent?: number): Trouble {
  return { kind: 'too-weak', measured: { by: 'percent', percent }, wantedPercent };
}

function gramsOf(lines: readonly WeighedIngredient[], id: string): number {
  return lines.find((line) => line.ingredient.id === id)?.grams ?? 0;
}

/** What steps bring in less what they take out. */
function netGrams(steps: readonly MendStep[]): number {
  return steps.reduce((sum, step) => {
    switch (step.what) {
      case 'add': return sum + step.grams;
      case 'pour-off': return sum - step.grams;
      default: return sum;
    }
  }, 0);
}

describe('too strong or too weak', () => {
  test('10 kg of plain 10 % brine that should have 8 % takes 2.5 kg of water', () => {
    const mended = plan(PLAIN, strong(10));
    expect(mended.steps).toEqual([{ what: 'add', ingredientId: 'water', grams: 2500 }]);
    expect(mended.before.percentByWeight).toBeCloseTo(10, 10);
    expect(mended.after.percentByWeight).toBeCloseTo(8, 10);
    expect(mended.after.salometerDegrees).toBeCloseTo(30.31, 2);
    expect(mended.voids).toEqual(['scheduled-process', 'laboratory-verification', 'soak-forecast', 'float-reading']);
  });

  test('10 kg of plain 6 % brine that should have 8 % takes 217.4 g of salt', () => {
    const mended = plan(PLAIN, weak(6));
    expect(mended.steps).toEqual([{ what: 'add', ingredientId: 'salt', grams: 217.4 }]);
    expect(mended.after.percentByWeight).toBeCloseTo(8, 3);
    expect(mended.after.percentByWeight).not.toBe(8);
  });

  test('weights are those of the scale, and the strength that of the weights', () => {
    const mended = plan({ ...PLAIN, scaleStepGrams: 50 }, weak(6));
    expect(mended.steps).toEqual([{ what: 'add', ingredientId: 'salt', grams: 200 }]);
    expect(mended.after.percentByWeight).toBeCloseTo(100 * (800 / 10_200), 10);
  });

  test('a tub without room pours off first, and is full afterwards', () => {
    const mended = plan({ ...PLAIN, roomLitres: 10 }, strong(10));
    expect(mended.steps.map((step) => step.what)).toEqual(['pour-off', 'add']);
    expect(mended.after.litres).toBeCloseTo(10, 4);
    expect(mended.after.percentByWeight).toBeCloseTo(8, 3);
    expect(mended.after.totalGrams - mended.before.totalGrams).toBeCloseTo(netGrams(mended.steps), 9);
  });

  test('a float read cold in a sweet brine is understood as what it shows', () => {
    const { float, percentByWeight } = plan(SWEET, weak(5)).after;
    if (float.kind !== 'shows') throw new Error('off the scale');
    const found = problem(SWEET, { kind: 'too-strong', measured: { by: 'float', degrees: float.degrees - 0.5, celsius: 3.3 } });
    expect(found.message).toMatch(/is not stronger than the 6\.4/);
    const mended = plan(SWEET, { kind: 'too-strong', measured: { by: 'float', degrees: float.degrees + 5, celsius: 3.3 } });
    expect(mended.before.percentByWeight).toBeGreaterThan(percentByWeight + 1);
    expect(mended.after.waterPhasePercent).toBeCloseTo(plan(SWEET, weak(5)).after.waterPhasePercent, 2);
  });

  const percent = fc.double({ min: 2, max: 20, noNaN: true });
  test('strengthening with salt and weakening with water return to where they came from', () => {
    fc.assert(fc.property(fc.double({ min: 2, max: 15, noNaN: true }), fc.double({ min: 0.1, max: 6, noNaN: true }), fc.constantFrom(PLAIN, SWEET), (low, more, tub) => {
      const from = low + (tub === SWEET ? 1.5 : 0);
      const fine = { ...tub, scaleStepGrams: 1e-6 };
      const up = plan(fine, weak(from, from + more));
      // The strength of the whole at which the water is as salt as it was, other solids being as much of it as they are now.
      const asBefore = (up.before.waterPhasePercent * (up.after.mixture.saltGrams + up.after.mixture.waterGrams)) / up.after.totalGrams;
      const back = plan({ ...fine, lines: up.after.lines }, strong(up.after.percentByWeight, asBefore));
      expect(Math.abs(back.after.waterPhasePercent - up.before.waterPhasePercent)).toBeLessThan(1e-6);
    }));
  });

  test('nothing comes from nowhere: what is in the tub afterwards is what was, and what went in', () => {
    fc.assert(fc.property(percent, percent, fc.constantFrom(PLAIN, SWEET), fc.option(fc.double({ min: 3, max: 30, noNaN: true })), (one, other, tub, room) => {
      const [low, high] = [Math.min(one, other) + 1.5, Math.max(one, other) + 1.6];
      for (const trouble of [strong(high, low), weak(low, high)]) {
        const outcome = mendBrine({ ...tub, roomLitres: room ?? undefined }, trouble, INGREDIENTS, hours);
        if (!outcome.ok) continue;
        const { before, after, steps } = outcome.value;
        expect(Math.abs(after.totalGrams - before.totalGrams - netGrams(steps))).toBeLessThan(1e-9 * before.totalGrams);
        const poured = steps.find((step) => step.what === 'pour-off')?.grams ?? 0;
        const added = steps.find((step) => step.what === 'add');
        const kept = 1 - poured / before.totalGrams;
        const saltIn = added?.ingredientId === 'salt' ? added.grams : 0;
        expect(Math.abs(after.mixture.saltGrams - before.mixture.saltGrams * kept - saltIn)).toBeLessThan(1e-9 * before.totalGrams);
      }
    }));
  });

  test('the further off, the more is added; twice the brine takes twice as much', () => {
    fc.assert(fc.property(fc.double({ min: 8.5, max: 20, noNaN: true }), fc.double({ min: 0.2, max: 3, noNaN: true }), (found, more) => {
      const fine = { ...PLAIN, scaleStepGrams: 1e-6 };
      const one = netGrams(plan(fine, strong(found)).steps);
      expect(netGrams(plan(fine, strong(found + more)).steps)).toBeGreaterThan(one);
      const double = { ...fine, lines: weigh({ water: 18_400, salt: 1600 }) };
      expect(netGrams(plan(double, strong(found)).steps)).toBeCloseTo(2 * one, 4);
    }));
  });

  test('a brine that weakens because its fish takes salt up is left alone', () => {
    const mended = plan({ ...PLAIN, filletGrams: 5000 }, weak(7));
    expect(mended.steps).toEqual([{ what: 'nothing', why: 'The fish takes salt up, and this brine weakens from 8 % to 5.93 % by that alone. 7 % is on that way: more salt would be too much.' }]);
    expect(mended.voids).toEqual([]);
    const really = plan({ ...PLAIN, filletGrams: 5000 }, weak(5));
    expect(really.steps[0]?.what).toBe('add');
    expect(really.voids).toContain('earlier-salt-samples');
    expect(really.cautions.join(' ')).toMatch(/fish in the brine/);
    // Who knows what it should have by now may say so.
    expect(plan({ ...PLAIN, filletGrams: 5000 }, weak(7, 7.5)).steps[0]?.what).toBe('add');
  });

  test('less than the scale shows is nothing to do', () => {
    expect(plan({ ...PLAIN, scaleStepGrams: 500 }, weak(7.9)).steps).toEqual([{ what: 'nothing', why: 'What is missing is less than the scale shows.' }]);
  });

  test.each<[string, TubNow, Trouble, string, RegExp]>([
    ['found weaker, said too strong', PLAIN, strong(7), 'trouble.measured', /not stronger/],
    ['found stronger, said too weak', PLAIN, weak(9), 'trouble.measured', /not weaker/],
    ['found below nothing', PLAIN, weak(-1), 'trouble.measured.percent', /-1 %/],
    ['found no number', PLAIN, weak(NaN), 'trouble.measured.percent', /NaN/],
    ['found above saturation', PLAIN, strong(30), 'trouble.measured', /more than the water/],
    ['found weaker than its sauces alone', SWEET, weak(0.5), 'trouble.measured', /other ingredients alone/],
    ['wanted above saturation', PLAIN, weak(8, 27), 'trouble.wantedPercent', /more than the water/],
    ['wanted below nothing', PLAIN, strong(8, -1), 'trouble.wantedPercent', /-1 %/],
    ['wanted without any salt', PLAIN, strong(8, 0), 'trouble.wantedPercent', /free of salt/],
    ['a float off its stem', PLAIN, { kind: 'too-strong', measured: { by: 'float', degrees: 120, celsius: 4 } }, 'trouble.measured.degrees', /120/],
    ['a float in boiling brine', PLAIN, { kind: 'too-strong', measured: { by: 'float', degrees: 20, celsius: 100 } }, 'trouble.measured.celsius', /100 °C/],
    ['an empty tub', { ...PLAIN, lines: [] }, strong(10), 'lines', /no brine/],
    ['salt below nothing', { ...PLAIN, lines: weigh({ water: 10, salt: -1 }) }, strong(10), 'lines.1.grams', /Salt of -1 g/],
    ['a tub of slush', { ...PLAIN, lines: weigh({ water: 10, salt: 9 }) }, strong(10), 'lines', /47\.4 % salt/],
    ['a salt nobody knows', { ...PLAIN, saltIngredientId: 'moon' }, weak(6), 'saltIngredientId', /“moon”/],
    ['a salt that is sugar', { ...PLAIN, saltIngredientId: 'white-sugar' }, weak(6), 'saltIngredientId', /hardly any salt/],
    ['boiling brine', { ...PLAIN, celsius: 100 }, weak(6), 'celsius', /100 °C/],
    ['no scale', { ...PLAIN, scaleStepGrams: 0 }, weak(6), 'scaleStepGrams', /0 g/],
    ['fish below nothing', { ...PLAIN, filletGrams: -1 }, weak(6), 'filletGrams', /-1 g/],
  ])('%s is a sentence', (_title, tub, trouble, field, words) => {
    const found = problem(tub, trouble);
    expect(found.field).toBe(field);
    expect(found.message).toMatch(words);
    expect(found.remedy).toBeTruthy();
  });

  test('the allergens that were there are no news', () => {
    expect(plan(WITH_FISH, strong(9)).newAllergens).toEqual([]);
    expect(gramsOf(plan(WITH_FISH, strong(9)).after.lines, 'soy-sauce')).toBe(1000);
  });
});
