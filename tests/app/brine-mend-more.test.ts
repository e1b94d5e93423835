/** Mends of a brine that was spilled, ran short or got the wrong salt, and of fish that is too salty. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { equilibriumFraction } from '../../app/brine/balance.ts';
import { mendBrine, type Trouble } from '../../app/brine/mend.ts';
import type { MendPlan, TubNow } from '../../app/brine/mend-plan.ts';
import type { Ingredient, WeighedIngredient } from '../../app/brine/ingredients.ts';
import type { Problem } from '../../app/measures/outcome.ts';
import { ingredient, INGREDIENTS } from '../fixtures/brine-catalogue.ts';

function weigh(grams: Readonly<Record<string, number>>): WeighedIngredient[] {
  return Object.entries(grams).map(([id, weight]) => ({ ingredient: ingredient(id), grams: weight }));
}

const SWEET: TubNow = { lines: weigh({ water: 8000, salt: 500, 'soy-sauce': 1000, 'brown-sugar': 500, 'black-pepper': 20 }), saltIngredientId: 'salt', filletGrams: 0, celsius: 3.3 };
const WITH_FISH: TubNow = { ...SWEET, filletGrams: 5000 };
const CURING: Ingredient = { ...ingredient('salt'), id: 'pink', name: 'Curing salt', labelName: 'curing salt', subIngredients: ['salt', 'sodium nitrite'] };
const KITCHEN = [...INGREDIENTS, CURING];

function hours(approach: number, alpha: number): number | undefined {
  return approach < 1 ? (10 * approach) / (1 - approach) / (1 + 1 / alpha) : undefined;
}

function plan(tub: TubNow, trouble: Trouble): MendPlan {
  const outcome = mendBrine(tub, trouble, KITCHEN, hours);
  if (!outcome.ok) throw new Error(`${outcome.problem.field}: ${outcome.problem.message}`);
  return outcome.value;
}

function problem(tub: TubNow, trouble: Trouble): Problem {
  const outcome = mendBrine(tub, trouble, KITCHEN, hours);
  if (outcome.ok) throw new Error('expected a problem');
  return outcome.problem;
}

function gramsOf(lines: readonly WeighedIngredient[], id: string): number {
  return lines.find((line) => line.ingredient.id === id)?.grams ?? 0;
}

const asMade = plan(SWEET, { kind: 'spilled', left: { grams: 10_020 } }).before;

describe('spilled', () => {
  test('what is gone is made up line by line, and the brine is what it was', () => {
    const mended = plan(SWEET, { kind: 'spilled', left: { grams: 7515 } });
    expect(mended.steps).toEqual([
      { what: 'add', ingredientId: 'water', grams: 2000 }, { what: 'add', ingredientId: 'salt', grams: 125 }, { what: 'add', ingredientId: 'soy-sauce', grams: 250 },
      { what: 'add', ingredientId: 'brown-sugar', grams: 125 }, { what: 'add', ingredientId: 'black-pepper', grams: 5 },
    ]);
    expect(mended.before.totalGrams).toBeCloseTo(7515, 9);
    expect(mended.after.totalGrams).toBeCloseTo(10_020, 9);
    expect(mended.after.waterPhasePercent).toBeCloseTo(asMade.waterPhasePercent, 9);
  });

  test('before the fish is in, the recipe and its forecast stand; with fish in it they don’t', () => {
    expect(plan(SWEET, { kind: 'spilled', left: { grams: 5000 } }).voids).toEqual(['float-reading']);
    const wet = plan(WITH_FISH, { kind: 'spilled', left: { grams: 5000 } });
    expect(wet.voids).toEqual(['scheduled-process', 'laboratory-verification', 'earlier-salt-samples', 'soak-forecast', 'float-reading']);
    expect(wet.cautions[0]).toMatch(/given salt to the fish already/);
  });

  test('litres and grams of what is left say the same', () => {
    const byLitres = plan(SWEET, { kind: 'spilled', left: { litres: asMade.litres / 2 } });
    expect(byLitres.steps).toEqual(plan(SWEET, { kind: 'spilled', left: { grams: 5010 } }).steps);
  });

  test('whatever is left, the whole is there again, within the scale', () => {
    fc.assert(fc.property(fc.double({ min: 1, max: 10_020, noNaN: true }), (grams) => {
      const mended = plan(SWEET, { kind: 'spilled', left: { grams } });
      expect(Math.abs(mended.after.totalGrams - 10_020)).toBeLessThanOrEqual(5 * 0.05 + 1e-9);
      const added = mended.steps.reduce((sum, step) => sum + (step.what === 'add' ? step.grams : 0), 0);
      expect(Math.abs(mended.after.totalGrams - mended.before.totalGrams - added)).toBeLessThan(1e-9 * 10_020);
    }));
  });

  test('with nothing left all of it is weighed again', () => {
    const mended = plan(SWEET, { kind: 'spilled', left: { grams: 0 } });
    expect(mended.steps).toHaveLength(5);
    expect(mended.after.totalGrams).toBeCloseTo(10_020, 9);
  });
});

describe('ran out', () => {
  test('half the soy sauce: the salt it would have brought comes from the salt', () => {
    const mended = plan(SWEET, { kind: 'ran-out', ingredientId: 'soy-sauce', thereGrams: 500 });
    expect(mended.steps.map((step) => step.what)).toEqual(['weigh-less', 'add']);
    expect(mended.steps[0]).toEqual({ what: 'weigh-less', ingredientId: 'soy-sauce', grams: 500 });
    expect(mended.steps[1]).toMatchObject({ ingredientId: 'salt' });
    expect(mended.after.waterPhasePercent).toBeCloseTo(asMade.waterPhasePercent, 3);
    expect(mended.voids).toContain('scheduled-process');
  });

  test('fish sauce instead: by the same weight, with water for its salt, and its own allergens are said', () => {
    const mended = plan(SWEET, { kind: 'ran-out', ingredientId: 'soy-sauce', thereGrams: 0, insteadId: 'fish-sauce' });
    expect(mended.steps[0]).toEqual({ what: 'use-instead', ingredientId: 'fish-sauce', insteadOfId: 'soy-sauce', grams: 1000 });
    expect(mended.steps[1]).toMatchObject({ what: 'add', ingredientId: 'water' });
    expect(mended.after.waterPhasePercent).toBeCloseTo(asMade.waterPhasePercent, 3);
    expect(mended.newAllergens).toEqual(ingredient('fish-sauce').allergens);
    expect(gramsOf(mended.after.lines, 'soy-sauce')).toBe(0);
  });

  test('another salt stands in by its salt, not by its weight', () => {
    const mended = plan(SWEET, { kind: 'ran-out', ingredientId: 'salt', thereGrams: 100, insteadId: 'table-salt' });
    expect(mended.steps[0]).toEqual({ what: 'use-instead', ingredientId: 'table-salt', insteadOfId: 'salt', grams: 406 });
    expect(mended.after.waterPhasePercent).toBeCloseTo(asMade.waterPhasePercent, 3);
  });

  test('without other salt the brine is made smaller, so that its strength holds', () => {
    const mended = plan(WITH_FISH, { kind: 'ran-out', ingredientId: 'salt', thereGrams: 400 });
    expect(mended.steps).toHaveLength(5);
    expect(mended.steps[0]).toEqual({ what: 'weigh-less', ingredientId: 'water', grams: 1600 });
    expect(mended.after.totalGrams).toBeCloseTo(8016, 6);
    expect(mended.after.percentByWeight).toBeCloseTo(asMade.percentByWeight, 3);
    expect(mended.cautions[0]).toMatch(/less brine to the fish/);
  });

  test('a spice that is missing changes nothing of the strength', () => {
    const mended = plan(SWEET, { kind: 'ran-out', ingredientId: 'black-pepper', thereGrams: 0 });
    expect(mended.steps.map((step) => step.what)).toContain('weigh-less');
    expect(Math.abs(mended.after.waterPhasePercent - asMade.waterPhasePercent)).toBeLessThan(0.01);
  });

  test('the strength of the water holds to the scale, whatever is short and whatever stands in', () => {
    const others = fc.constantFrom(undefined, 'tamari', 'honey', 'teriyaki-sauce', 'maple-syrup');
    fc.assert(fc.property(fc.constantFrom('soy-sauce', 'brown-sugar'), fc.double({ min: 0, max: 490, noNaN: true }), others, (ingredientId, thereGrams, insteadId) => {
      const mended = plan({ ...SWEET, scaleStepGrams: 1e-5 }, { kind: 'ran-out', ingredientId, thereGrams, insteadId });
      expect(Math.abs(mended.after.waterPhasePercent - asMade.waterPhasePercent)).toBeLessThan(1e-6);
    }));
  });

  test('enough is enough', () => {
    expect(plan(SWEET, { kind: 'ran-out', ingredientId: 'salt', thereGrams: 500 })).toMatchObject({ steps: [{ what: 'nothing' }], voids: [] });
  });
});

describe('wrong salt', () => {
  const crystals = (meantFormId: string, usedFormId: string): Trouble => ({ kind: 'wrong-salt', ingredientId: 'salt', meantFormId, usedFormId });

  test('cups of light flake for cups of fine salt are half of it: the rest is added', () => {
    const mended = plan(SWEET, crystals('fine-table', 'light-flake'));
    expect(gramsOf(mended.before.lines, 'salt')).toBeCloseTo((500 * 140) / 292, 9);
    expect(mended.steps).toEqual([{ what: 'add', ingredientId: 'salt', grams: 260.3 }]);
    expect(mended.after.waterPhasePercent).toBeCloseTo(asMade.waterPhasePercent, 3);
    expect(mended.cautions[0]).toMatch(/^Just now it may be 3\.\d+ to 4\.\d+ % salt: a measure of salt is a guess\./);
    expect(mended.voids).toContain('scheduled-process');
  });

  test('cups of fine salt for cups of light flake are twice as much: water is added', () => {
    const mended = plan(SWEET, crystals('light-flake', 'fine-table'));
    expect(mended.steps[0]).toMatchObject({ what: 'add', ingredientId: 'water' });
    expect(mended.after.waterPhasePercent).toBeCloseTo(asMade.waterPhasePercent, 3);
  });

  test('two cups that were counted are two cups', () => {
    const mended = plan(SWEET, { kind: 'wrong-salt', ingredientId: 'salt', meantFormId: 'dense-flake', usedFormId: 'light-flake', measure: { unit: 'cup', count: 2 } });
    expect(gramsOf(mended.before.lines, 'salt')).toBeCloseTo(280, 9);
  });

  test('sugar weighed as salt leaves a brine that needs all its salt still', () => {
    const mended = plan(SWEET, { kind: 'wrong-ingredient', ingredientId: 'salt', usedIngredientId: 'white-sugar' });
    expect(gramsOf(mended.before.lines, 'white-sugar')).toBe(500);
    expect(mended.steps).toEqual([{ what: 'add', ingredientId: 'salt', grams: expect.closeTo(500, -1) }]);
    expect(mended.after.waterPhasePercent).toBeCloseTo(asMade.waterPhasePercent, 3);
  });

  test('an ingredient that leaves the strength as it was is still another recipe', () => {
    const mended = plan({ ...SWEET, scaleStepGrams: 1000 }, { kind: 'wrong-ingredient', ingredientId: 'black-pepper', usedIngredientId: 'cayenne' });
    expect(mended.steps).toEqual([{ what: 'nothing', why: 'Its strength is as it should be.' }]);
    expect(mended.voids).toContain('scheduled-process');
  });

  test('curing salt is not mended: nothing takes nitrite out again', () => {
    const found = problem(SWEET, { kind: 'wrong-ingredient', ingredientId: 'salt', usedIngredientId: 'pink' });
    expect(found).toMatchObject({ field: 'trouble.usedIngredientId', message: 'Curing salt has nitrite in it, which nothing takes out again.' });
    expect(found.remedy).toMatch(/^Set the brine and its fish aside/);
  });
});

describe('a test piece that is too salty', () => {
  function salty(testedPercent: number, wantedPercent: number, waterPerFish?: number): Trouble {
    return { kind: 'test-piece-too-salty', testedPercent, wantedPercent, waterPerFish, fish: { moisturePercent: 72, saltPercent: 0.15 } };
  }

  test('is freshened in five of water, for as long as the thickest piece takes', () => {
    const asked: number[][] = [];
    const outcome = mendBrine(WITH_FISH, salty(6, 4), KITCHEN, (...way) => {
      asked.push(way);
      return 6.5;
    });
    if (!outcome.ok) throw new Error(outcome.problem.message);
    expect(outcome.value.steps).toEqual([{ what: 'freshen', waterGrams: 25_000, waterPerFish: 5, hours: 6.5 }]);
    const [[approach = NaN, alpha = NaN] = []] = asked;
    expect(alpha).toBeCloseTo(5 / 0.72, 10);
    // By the balance of the whole: from 6 % down so far that 4 % is left on the way to equilibrium.
    const perWater = 0.06 / 0.94;
    const end = equilibriumFraction({ grams: 5000, moistureFraction: 0.72, saltFraction: perWater * 0.72 }, { saltGrams: 0, waterGrams: 25_000 });
    expect(perWater - approach * (perWater - end / (1 - end))).toBeCloseTo(0.04 / 0.96, 10);
    expect(outcome.value.fishWaterPhasePercent).toBe(4);
    expect(outcome.value.voids).toEqual(['scheduled-process', 'laboratory-verification', 'earlier-salt-samples', 'soak-forecast']);
    expect(outcome.value.after).toEqual(outcome.value.before);
  });

  test('far down takes more water, and longer', () => {
    fc.assert(fc.property(fc.double({ min: 3, max: 15, noNaN: true }), fc.double({ min: 0.2, max: 0.9, noNaN: true }), fc.double({ min: 0.3, max: 0.95, noNaN: true }), (tested, part, less) => {
      const [near] = plan(WITH_FISH, salty(tested, tested * 0.95)).steps;
      const outcome = mendBrine(WITH_FISH, salty(tested, tested * part * less), KITCHEN, hours);
      if (!outcome.ok) return;
      const [far] = outcome.value.steps;
      if (near?.what !== 'freshen' || far?.what !== 'freshen') throw new Error('no freshening');
      expect(far.waterPerFish).toBeGreaterThanOrEqual(near.waterPerFish);
      expect(far.hours).toBeGreaterThan(near.hours);
    }));
  });

  test.each<[string, TubNow, Trouble, string, RegExp]>([
    ['too little water', WITH_FISH, salty(6, 1, 0.5), 'trouble.waterPerFish', /never comes down to 1 %/],
    ['water below nothing', WITH_FISH, salty(6, 4, -1), 'trouble.waterPerFish', /-1 of water/],
    ['wanted saltier than it is', WITH_FISH, salty(4, 6), 'trouble.wantedPercent', /not saltier/],
    ['wanted without salt', WITH_FISH, salty(4, 0), 'trouble.wantedPercent', /never draws out all/],
    ['wanted too far down', WITH_FISH, salty(8, 0.5), 'trouble.wantedPercent', /too far for one water/],
    ['tested at nothing', WITH_FISH, salty(0, 4), 'trouble.testedPercent', /0 %/],
    ['tested beyond saturation', WITH_FISH, salty(40, 4), 'trouble.testedPercent', /40 %/],
    ['no fish', SWEET, salty(6, 4), 'filletGrams', /no fish/],
    ['fish of nothing but water', WITH_FISH, { kind: 'test-piece-too-salty', testedPercent: 6, wantedPercent: 4, fish: { moisturePercent: 120, saltPercent: 0 } }, 'trouble.fish.moisturePercent', /120 %/],
    ['more left than there was', SWEET, { kind: 'spilled', left: { grams: 20_000 } }, 'trouble.left.grams', /more than the 10020 g/],
    ['less than nothing left', SWEET, { kind: 'spilled', left: { litres: -1 } }, 'trouble.left.litres', /-1 litres/],
    ['out of what is not in it', SWEET, { kind: 'ran-out', ingredientId: 'honey', thereGrams: 0 }, 'trouble.ingredientId', /not in this brine/],
    ['less than none there', SWEET, { kind: 'ran-out', ingredientId: 'salt', thereGrams: -5 }, 'trouble.thereGrams', /-5 g/],
    ['no salt at all', SWEET, { kind: 'ran-out', ingredientId: 'salt', thereGrams: 0 }, 'trouble.thereGrams', /no brine/],
    ['itself instead', SWEET, { kind: 'ran-out', ingredientId: 'salt', thereGrams: 0, insteadId: 'salt' }, 'trouble.insteadId', /itself/],
    ['something unknown instead', SWEET, { kind: 'ran-out', ingredientId: 'salt', thereGrams: 0, insteadId: 'moon' }, 'trouble.insteadId', /“moon”/],
    ['sugar instead of salt', SWEET, { kind: 'ran-out', ingredientId: 'salt', thereGrams: 0, insteadId: 'white-sugar' }, 'trouble.insteadId', /hardly any salt/],
    ['the crystal that was meant', SWEET, { kind: 'wrong-salt', ingredientId: 'salt', meantFormId: 'fine-table', usedFormId: 'fine-table' }, 'trouble.usedFormId', /one that was meant/],
    ['an unknown crystal meant', SWEET, { kind: 'wrong-salt', ingredientId: 'salt', meantFormId: 'moon', usedFormId: 'fine-table' }, 'trouble.meantFormId', /“moon”/],
    ['an unknown crystal used', SWEET, { kind: 'wrong-salt', ingredientId: 'salt', meantFormId: 'fine-table', usedFormId: 'moon' }, 'trouble.usedFormId', /“moon”/],
    ['no cups', SWEET, { kind: 'wrong-salt', ingredientId: 'salt', meantFormId: 'fine-table', usedFormId: 'pickling', measure: { unit: 'cup', count: 0 } }, 'trouble.measure.count', /0 cups/],
    ['a salt that is not in it', SWEET, { kind: 'wrong-salt', ingredientId: 'table-salt', meantFormId: 'fine-table', usedFormId: 'pickling' }, 'trouble.ingredientId', /not in this brine/],
    ['itself by mistake', SWEET, { kind: 'wrong-ingredient', ingredientId: 'salt', usedIngredientId: 'salt' }, 'trouble.usedIngredientId', /what was meant/],
    ['something unknown by mistake', SWEET, { kind: 'wrong-ingredient', ingredientId: 'salt', usedIngredientId: 'moon' }, 'trouble.usedIngredientId', /“moon”/],
  ])('%s is a sentence', (_title, tub, trouble, field, words) => {
    const found = problem(tub, trouble);
    expect(found.field).toBe(field);
    expect(found.message).toMatch(words);
    expect(found.remedy).toBeTruthy();
  });
});
