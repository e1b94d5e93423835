import { describe, expect, test } from 'vitest';
import { FishAsset, IngredientsAsset } from '../../app/contract/assets.ts';
import { FISH, ingredient, INGREDIENTS, STARTING_RECIPES } from '../fixtures/brine-catalogue.ts';

/** Salt of a gram of sodium: 58.4428 ÷ 22.98977, Salt Institute, “Chemical and physical properties of salt” (read). */
const SALT_PER_SODIUM = 2.5421;

describe('the kitchen’s ingredients', () => {
  test('those that a recipe may always name are there, water and salt pure', () => {
    for (const id of ['water', 'salt', 'brown-sugar', 'white-sugar', 'honey', 'maple-syrup', 'soy-sauce']) expect(ingredient(id).id).toBe(id);
    expect(ingredient('water')).toMatchObject({ waterPercent: 100, saltPercent: 0, sugarPercent: 0 });
    expect(ingredient('salt')).toMatchObject({ waterPercent: 0, saltPercent: 100, sugarPercent: 0 });
  });

  test.each([
    ['table-salt', 38758, 0.2, 0], ['white-sugar', 1, 0.02, 99.8], ['brown-sugar', 28, 1.34, 97.02], ['honey', 4, 17.1, 82.12], ['maple-syrup', 12, 32.39, 60.46], ['molasses', 37, 21.87, 74.72],
    ['soy-sauce', 5493, 71.15, 0.4], ['tamari', 5586, 66, 1.7], ['teriyaki-sauce', 3833, 67.69, 14.1], ['hoisin-sauce', 1615, 44.23, 27.26], ['oyster-sauce', 2733, 80, 0], ['fish-sauce', 7851, 71.07, 3.64],
    ['worcestershire-sauce', 980, 78.54, 10.03], ['hot-sauce', 2643, 89.98, 1.26], ['yellow-mustard', 1104, 83.72, 0.92], ['lemon-juice', 1, 92.31, 2.52], ['cider-vinegar', 5, 93.81, 0.4], ['whiskey', 0, 63.9, 0.1],
    ['black-pepper', 20, 12.46, 0.64], ['garlic', 17, 58.58, 1], ['garlic-powder', 60, 6.45, 2.43],
  ])('%s: %d mg sodium, %d g water and %d g sugar in 100 g', (id, sodiumMg, water, sugar) => {
    // US Department of Agriculture, National Nutrient Database for Standard Reference, release 27, 2014 (read).
    expect(ingredient(id).saltPercent).toBeCloseTo((sodiumMg * SALT_PER_SODIUM) / 1000, 3);
    expect(ingredient(id)).toMatchObject({ waterPercent: water, sugarPercent: sugar });
  });

  test('sauces name their allergens and print their parts as one item with brackets would', () => {
    expect(ingredient('soy-sauce')).toMatchObject({ labelName: 'soy sauce', subIngredients: ['water', 'wheat', 'soybeans', 'salt'], allergens: ['soybeans', 'wheat'] });
    expect(ingredient('tamari')).toMatchObject({ allergens: ['soybeans'], mayContain: ['wheat'] });
    for (const id of ['fish-sauce', 'worcestershire-sauce']) expect(ingredient(id).allergens).toContain('fish: Anchovy');
    expect(INGREDIENTS.filter((entry) => entry.subIngredients.includes('soybeans')).every((entry) => entry.allergens.includes('soybeans'))).toBe(true);
  });

  test('the same cup of salt differs more than twofold by crystal, each form with its range', () => {
    const cups = ingredient('salt').household.map((form) => form.weights.find((weight) => weight.unit === 'cup')?.grams ?? NaN);
    expect(cups).toHaveLength(7);
    expect(Math.max(...cups) / Math.min(...cups)).toBeGreaterThan(2);
    expect(ingredient('salt').chooseForm).toBe(true);
  });

  test('a range holds its own figure, and a cup, a spoon and a fluid ounce of one form agree within a third', () => {
    for (const { id, household } of INGREDIENTS) {
      for (const form of household) {
        const perTeaspoon = form.weights.filter((weight) => weight.unit !== 'piece').map(({ unit, grams }) => grams / { cup: 48, 'fluid-ounce': 6, tablespoon: 3, teaspoon: 1, piece: NaN }[unit]);
        expect(perTeaspoon.length === 0 || Math.max(...perTeaspoon) / Math.min(...perTeaspoon) < 1.34, `${id} ${form.id}`).toBe(true);
        for (const { grams, lowGrams = grams, highGrams = grams } of form.weights) expect(lowGrams <= grams && grams <= highGrams, `${id} ${form.id}`).toBe(true);
      }
    }
  });

  test('the schema refuses an id twice, an allergen unknown, and more than all', () => {
    const water = ingredient('water');
    expect(IngredientsAsset.safeParse({ ingredients: [water, water] }).success).toBe(false);
    expect(IngredientsAsset.safeParse({ ingredients: [{ ...water, allergens: ['soy'] }] }).success).toBe(false);
    expect(IngredientsAsset.safeParse({ ingredients: [{ ...water, saltPercent: 1 }] }).success).toBe(false);
    expect(IngredientsAsset.safeParse({ ingredients: [water] }).success).toBe(true);
  });
});

describe('the kitchen’s fish', () => {
  test('nitrite is only for the fish that the law lists', () => {
    // 21 CFR 172.175 (read) and 172.177 (second-hand).
    const by = (rule: string): string[] => FISH.filter((fish) => fish.nitriteAllowed === rule).map((fish) => fish.scientificName);
    expect(by('200ppm').filter((name) => !/^(Salmo salar|Oncorhynchus (tshawytscha|kisutch|nerka|gorbuscha|keta)|Anoplopoma fimbria|Alosa sapidissima)$/.test(name))).toEqual([]);
    expect(by('200ppm')).toHaveLength(8);
    expect(by('chub')).toEqual(['Coregonus hoyi']);
    expect(by('tuna-10ppm')).toEqual(['Thunnus alalunga']);
    expect(by('none')).toEqual(expect.arrayContaining(['Salvelinus namaycush', 'Oncorhynchus mykiss', 'Coregonus clupeaformis', 'Sander vitreus']));
  });

  test('wild freshwater fish and salmon are not exempt from freezing; only tuna is', () => {
    // US Food Code 3-402.11 (read).
    expect(FISH.filter((fish) => fish.parasiteExempt).map((fish) => fish.scientificName)).toEqual(['Thunnus alalunga']);
    expect(FISH.find((fish) => fish.scientificName === 'Oncorhynchus kisutch')?.freshwater).toBe(false);
    expect(FISH.find((fish) => fish.scientificName === 'Salvelinus namaycush')?.freshwater).toBe(true);
  });

  test('names, codes and composition are those of the sources', () => {
    const of = (name: string) => FISH.find((fish) => fish.scientificName === name);
    expect(of('Salvelinus namaycush')).toMatchObject({ marketName: 'Lake Trout', twoLetterCode: 'LT', moisturePercent: 69.14, fatPercent: 11.38 });
    expect(of('Oncorhynchus kisutch')).toMatchObject({ marketName: 'Coho Salmon', twoLetterCode: 'CO', moisturePercent: 72.66, saltPercent: expect.closeTo(0.1169, 3) });
    expect(of('Anoplopoma fimbria')).toMatchObject({ marketName: 'Sablefish', vernacularNames: expect.arrayContaining(['black cod']) });
    expect(FISH.length).toBeGreaterThanOrEqual(25);
    // Lot codes read a letter I as 1 and O as 0 only in their load letter; two species never share a code.
    expect(new Set(FISH.map((fish) => fish.twoLetterCode)).size).toBe(FISH.length);
  });

  test('every raw fish is mostly water, and water and fat come to about 80 %', () => {
    // Least squares over raw finfish of USDA Standard Reference 27 (computed): 80.2 ± 2.9, worst 8.5.
    for (const fish of FISH) expect(Math.abs(fish.moisturePercent + fish.fatPercent - 80.2), fish.commonName).toBeLessThan(8.5);
  });

  test('the schema refuses a species or a code twice', () => {
    const [first, second] = FISH;
    if (first === undefined || second === undefined) throw new Error('no fish');
    expect(FishAsset.safeParse({ species: [first, second] }).success).toBe(true);
    expect(FishAsset.safeParse({ species: [first, first] }).success).toBe(false);
    expect(FishAsset.safeParse({ species: [first, { ...second, twoLetterCode: first.twoLetterCode }] }).success).toBe(false);
  });
});

test('every starting recipe names ingredients of the kitchen, once each', () => {
  for (const recipe of STARTING_RECIPES) {
    const ids = recipe.ingredients.map((line) => line.id);
    expect(ids.filter((id) => !INGREDIENTS.some((entry) => entry.id === id))).toEqual([]);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).toContain(recipe.salt.ingredientId);
  }
});
