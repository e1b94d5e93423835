/** Ingredient lists, allergens, type height and firm line against worked rows of the US label rules. */
import { describe, expect, it } from 'vitest';
import { allergenPart, checkAllergenLine } from '../../app/packs/allergens.ts';
import { checkFirmLine, firmLine } from '../../app/packs/firm-line.ts';
import { checkIngredientGroup, ingredientText } from '../../app/packs/ingredient-list.ts';
import type { LabelIngredient } from '../../app/packs/label-types.ts';
import {
  NOT_FOR_SALE_TYPE_MM, checkNetQuantityPlace, hasFootRule, leastNetTypeInches, leastNetTypeMm, panelFromInches, typeSizePoints,
} from '../../app/packs/type-height.ts';

const SOY_SAUCE = { name: 'soy sauce', grams: 100, subIngredients: ['water', 'wheat', 'soybeans', 'salt'], allergens: ['soybeans', 'wheat'] };
const COHO: readonly LabelIngredient[] = [
  { name: 'salt', grams: 300 },
  { name: 'Coho salmon', grams: 10_000, allergens: ['fish: Coho salmon'] },
  { name: 'brown sugar', grams: 180 },
  SOY_SAUCE,
  { name: 'garlic powder', grams: 20 },
];

describe('ingredients and allergens (21 CFR 101.4, read; 21 U.S.C. 343(w), read)', () => {
  it('lists the coho batch heaviest first and names its allergens', () => {
    expect(ingredientText(COHO)).toBe('Ingredients: Coho salmon, salt, brown sugar, soy sauce (water, wheat, soybeans, salt), garlic powder.');
    expect(allergenPart(COHO, 'Coho salmon').blocks.map(({ text }) => text)).toEqual(['Contains: Coho salmon, wheat, soybeans.']);
  });

  it('groups what is 2 % or less, and refuses the salt at 2.83 %', () => {
    expect(checkIngredientGroup(COHO, ['brown sugar', 'soy sauce', 'garlic powder'], 2)).toEqual({
      ok: true,
      value: 'Ingredients: Coho salmon, salt, contains 2% or less of: brown sugar, soy sauce (water, wheat, soybeans, salt), garlic powder.',
    });
    const refused = checkIngredientGroup(COHO, ['salt', 'brown sugar'], 2);
    expect(!refused.ok && refused.problem.message).toBe('“salt” is more than 2 % of the whole, so it can’t stand in the group.');
    expect(checkIngredientGroup(COHO, ['garlic powder'], 3).ok).toBe(false);
  });

  it('finds fault with an allergen line that says only fish, or leaves the fish out', () => {
    const held = ['Coho salmon', 'wheat', 'soybeans'];
    expect(checkAllergenLine('Contains: fish, wheat, soybeans', held)).toEqual(['fish-without-species']);
    expect(checkAllergenLine('Contains: wheat, soybeans', held)).toEqual(['allergen-left-out']);
    expect(checkAllergenLine('Allergens: Coho salmon, wheat, soybeans', held)).toEqual(['does-not-begin-with-contains']);
    expect(checkAllergenLine('Contains: Coho salmon, wheat, soybeans.', held)).toEqual([]);
  });

  it('prints chinook and salt as two ingredients and one allergen', () => {
    const chinook = [{ name: 'Chinook salmon', grams: 2000, allergens: ['fish: Chinook salmon'] }, { name: 'salt', grams: 60 }];
    expect(ingredientText(chinook)).toBe('Ingredients: Chinook salmon, salt.');
    expect(allergenPart(chinook, 'Chinook Salmon').blocks[0]?.text).toBe('Contains: Chinook salmon.');
  });
});

describe('letters of the net quantity (21 CFR 101.7(f) read, (i) from memory)', () => {
  it('asks 3/16 in of a 6 × 8 in pouch, whatever the sticker measures', () => {
    const pouch = panelFromInches(6, 8);
    expect(leastNetTypeInches(pouch)).toBe(3 / 16);
    expect(leastNetTypeMm(pouch)).toBe(4.7625);
    expect(typeSizePoints(4.7625, 1)).toBeCloseTo(13.5, 9);
    expect(typeSizePoints(4.7625, 1467 / 2048)).toBeCloseTo(18.85, 2);
  });

  it.each([
    [4, 6, 1 / 8],
    [5, 5, 1 / 8],
    [8, 12, 3 / 16],
    [10, 13, 1 / 4],
    [2, 2.5, 1 / 16],
    [10, 10, 3 / 16],
    [20, 20, 1 / 4],
    [20, 20.01, 1 / 2],
  ])('asks of a %s × %s in side letters of %s in', (width, height, inches) => {
    expect(leastNetTypeInches(panelFromInches(width, height))).toBe(inches);
  });

  it('lets a side of 5 sq in off the rule of the bottom 30 %', () => {
    const small = panelFromInches(2, 2.5);
    expect(hasFootRule(small)).toBe(false);
    expect(checkNetQuantityPlace(small, { topInches: 0, bottomInches: 0.2 }).ok).toBe(true);
    expect(hasFootRule(panelFromInches(4, 6))).toBe(true);
  });

  it('finds the bottom 30 % of an 8 in panel to start at 5.60 in', () => {
    const panel = panelFromInches(6, 8);
    const high = checkNetQuantityPlace(panel, { topInches: 5.5, bottomInches: 5.9 });
    expect(!high.ok && high.problem.remedy).toBe('Move it down: the bottom 30 % starts at 5.60 in.');
    expect(checkNetQuantityPlace(panel, { topInches: 5.65, bottomInches: 6.05 }).ok).toBe(true);
    expect(checkNetQuantityPlace(panel, { topInches: 5.6, bottomInches: 6 }).ok).toBe(true);
    expect(checkNetQuantityPlace(panel, { topInches: 7.8, bottomInches: 8.2 }).ok).toBe(false);
  });

  it('prints the words of a guest’s pack with capitals of 9.5 mm or more', () => {
    expect(NOT_FOR_SALE_TYPE_MM).toBeGreaterThanOrEqual(9.5);
    expect(typeSizePoints(NOT_FOR_SALE_TYPE_MM, 1467 / 2048)).toBeCloseTo(37.7, 1);
  });
});

describe('the firm line (21 CFR 101.5, read)', () => {
  const firm = { name: 'Example Lodge LLC', address: '1 River Rd', city: 'Anytown', region: 'AK', postalCode: '99999' };

  it('says what a firm did that is not the maker', () => {
    const line = firmLine({ ...firm, role: 'packed-for' }, false);
    expect(line).toBe('Packed for Example Lodge LLC, 1 River Rd, Anytown, AK 99999');
    expect(checkFirmLine(line, false)).toEqual({ ok: true, value: line });
    expect(checkFirmLine(firmLine({ ...firm, role: 'distributed-by' }, false), false).ok).toBe(true);
  });

  it('refuses the bare name of a firm that is not the maker, and an address without its ZIP code', () => {
    const bare = checkFirmLine(firmLine(firm, false), false);
    expect(!bare.ok && bare.problem.remedy).toBe('Begin it with “Packed for” or “Distributed by”.');
    expect(checkFirmLine(firmLine(firm, false), true).ok).toBe(true);
    expect(checkFirmLine('Example Lodge LLC, 1 River Rd, Anytown, AK', true).ok).toBe(false);
  });
});
