import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { packageComposition, packageIngredient, SALT_PER_SODIUM, type PackageComposition, type PackageFacts } from '../../app/brine/package-label.ts';
import type { Problem } from '../../app/measures/outcome.ts';

function composed(facts: PackageFacts): PackageComposition {
  const outcome = packageComposition(facts);
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

function problem(facts: PackageFacts): Problem {
  const outcome = packageComposition(facts);
  if (outcome.ok) throw new Error('expected a problem');
  return outcome.problem;
}

const SAUCE: PackageFacts = { servingGrams: 18, sodiumMilligrams: 690, carbohydrateGrams: 3, sugarsGrams: 2.5, proteinGrams: 1, fatGrams: 0, densityGramsPerMl: 1.2 };

describe('an ingredient from its package', () => {
  test('sodium becomes salt, sugars sugar, the rest water, and the label’s silence is said', () => {
    const sauce = composed(SAUCE);
    expect(sauce.saltPercent).toBeCloseTo((0.69 * 2.5421 * 100) / 18, 10);
    expect(sauce.sugarPercent).toBeCloseTo(13.889, 3);
    expect(sauce.otherPercent).toBeCloseTo(8.333, 3);
    expect(sauce.waterPercent).toBeCloseTo(100 - 9.7447 - 13.8889 - 8.3333, 3);
    expect(sauce.notes.join(' ')).toMatch(/water is an estimate/);
    expect(sauce.notes.join(' ')).toMatch(/upper bound/);
  });

  test('the parts come to 100 % and more sodium is more salt and less water', () => {
    const gram = fc.double({ min: 0, max: 3, noNaN: true });
    fc.assert(fc.property(gram, gram, gram, fc.double({ min: 0, max: 1500, noNaN: true }), fc.double({ min: 10, max: 100, noNaN: true }), (sugarsGrams, proteinGrams, fatGrams, sodiumMilligrams, servingGrams) => {
      const facts = { servingGrams: servingGrams + 10, sodiumMilligrams, sugarsGrams, proteinGrams, fatGrams };
      const one = composed(facts);
      expect(Math.abs(one.saltPercent + one.sugarPercent + one.otherPercent + one.alcoholPercent + one.waterPercent - 100)).toBeLessThan(1e-9);
      const saltier = composed({ ...facts, sodiumMilligrams: sodiumMilligrams + 10 });
      expect(saltier.saltPercent).toBeGreaterThan(one.saltPercent);
      expect(saltier.waterPercent).toBeLessThan(one.waterPercent);
    }));
  });

  test('twice the serving with twice the figures is the same ingredient', () => {
    const double = composed({ servingGrams: 36, sodiumMilligrams: 1380, carbohydrateGrams: 6, sugarsGrams: 5, proteinGrams: 2, fatGrams: 0 });
    expect(double.saltPercent).toBeCloseTo(composed(SAUCE).saltPercent, 10);
  });

  test('a serving in millilitres is weighed by its density', () => {
    const { servingGrams: _servingGrams, ...facts } = SAUCE;
    expect(composed({ ...facts, servingMillilitres: 15 }).saltPercent).toBeCloseTo(composed(SAUCE).saltPercent, 10);
    expect(problem({ servingMillilitres: 15, sodiumMilligrams: 5 }).field).toBe('densityGramsPerMl');
  });

  test('a spirit of 40 % by volume is a third alcohol by weight', () => {
    // US Department of Agriculture, SR 27, NDB 14037 (read): 66.6 % water, 33.4 % alcohol.
    const spirit = composed({ servingGrams: 42, sodiumMilligrams: 0, alcoholByVolumePercent: 40, densityGramsPerMl: 0.948 });
    expect(spirit.alcoholPercent).toBeCloseTo(33.3, 1);
    expect(spirit.waterPercent).toBeCloseTo(66.7, 1);
    expect(spirit.notes.join(' ')).not.toMatch(/sodium/);
  });

  test('a package of salt whose rounded figures say 101.7 % is brought back to 100 %, and it is said', () => {
    const salt = composed({ servingGrams: 1.2, sodiumMilligrams: 480 });
    expect(salt.saltPercent).toBeCloseTo(100, 10);
    expect(salt.waterPercent).toBe(0);
    expect(salt.notes.at(-1)).toMatch(/rounded figures/);
  });

  test('it becomes an ingredient with cups by its density and the package as its source', () => {
    const identity = { id: 'pine-sauce', name: 'Pine sauce', labelName: 'pine sauce', subIngredients: ['water', 'salt'], allergens: ['soy'], mayContain: [] };
    const outcome = packageIngredient(identity, SAUCE);
    if (!outcome.ok) throw new Error(outcome.problem.message);
    const { ingredient, notes } = outcome.value;
    expect(ingredient).toMatchObject({ ...identity, densityGramsPerMl: 1.2, chooseForm: false, source: { publisher: 'The package’s label', section: 'nutrition facts of a serving of 18 g', mark: 'computed' } });
    expect(ingredient.household[0]?.weights[0]?.grams).toBeCloseTo(283.9, 1);
    expect('otherPercent' in ingredient).toBe(false);
    expect(notes).toHaveLength(2);
    expect(packageIngredient(identity, { ...SAUCE, sodiumMilligrams: -1 }).ok).toBe(false);
  });

  test('salt for sodium is the ratio of their molar masses', () => {
    expect(SALT_PER_SODIUM).toBeCloseTo(58.4428 / 22.9898, 3);
    expect(1 / 0.39337).toBeCloseTo(SALT_PER_SODIUM, 4);
  });
});

describe('a package that can’t be', () => {
  test.each<[string, PackageFacts, string, RegExp]>([
    ['a serving of nothing', { ...SAUCE, servingGrams: 0 }, 'servingGrams', /0 g/],
    ['a serving of no millilitres', { servingMillilitres: 0, sodiumMilligrams: 5, densityGramsPerMl: 1 }, 'servingMillilitres', /0 ml/],
    ['no serving', { sodiumMilligrams: 5 }, 'servingGrams', /missing/],
    ['no sodium', { servingGrams: 15 }, 'sodiumMilligrams', /missing/],
    ['sodium below zero', { ...SAUCE, sodiumMilligrams: -690 }, 'sodiumMilligrams', /-690/],
    ['a serving below zero', { ...SAUCE, servingGrams: -18 }, 'servingGrams', /-18/],
    ['fat that is no number', { ...SAUCE, fatGrams: NaN }, 'fatGrams', /Fat/],
    ['protein without end', { ...SAUCE, proteinGrams: Infinity }, 'proteinGrams', /Protein/],
    ['more sugars than carbohydrate', { ...SAUCE, sugarsGrams: 4 }, 'sugarsGrams', /more than the 3 g/],
    ['more salt than serving', { servingGrams: 15, sodiumMilligrams: 9000 }, 'sodiumMilligrams', /152\.5 %/],
    ['grams of sugar beyond the serving', { servingGrams: 15, sodiumMilligrams: 10, sugarsGrams: 17 }, 'carbohydrateGrams', /113\.5 %/],
    ['parts that together are too much', { servingGrams: 10, sodiumMilligrams: 0, carbohydrateGrams: 5, proteinGrams: 6 }, 'proteinGrams', /110 %/],
    ['more than pure alcohol', { ...SAUCE, alcoholByVolumePercent: 110 }, 'alcoholByVolumePercent', /110 %/],
    ['alcohol without a density', { servingGrams: 42, sodiumMilligrams: 0, alcoholByVolumePercent: 40 }, 'densityGramsPerMl', /needs the density/],
    ['a density of lead', { ...SAUCE, densityGramsPerMl: 11.3 }, 'densityGramsPerMl', /11\.3/],
  ])('%s is a sentence at its field', (_title, facts, field, words) => {
    const found = problem(facts);
    expect(found.field).toBe(field);
    expect(found.message).toMatch(words);
    expect(found.remedy).toBeTruthy();
  });
});
