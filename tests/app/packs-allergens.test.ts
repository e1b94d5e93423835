import { describe, expect, it } from 'vitest';
import { allergenPart } from '../../app/packs/allergens.ts';
import { ingredientPart, ingredientText } from '../../app/packs/ingredient-list.ts';
import type { LabelIngredient } from '../../app/packs/label-types.ts';

const FISH: LabelIngredient = { name: 'Coho salmon', grams: 1000, allergens: ['fish: Coho Salmon'] };

function containsLine(...others: readonly Omit<LabelIngredient, 'grams'>[]): string | undefined {
  return allergenPart([FISH, ...others.map((other, place) => ({ grams: 50 - place, ...other }))], 'Coho Salmon').blocks[0]?.text;
}

function allergenGaps(...others: readonly Omit<LabelIngredient, 'grams'>[]): readonly string[] {
  return allergenPart([FISH, ...others.map((other) => ({ grams: 5, ...other }))], 'Coho Salmon').missing.map(({ why }) => why);
}

describe('the allergen block', () => {
  it('names the pack’s own fish even when nothing was entered', () => {
    expect(allergenPart([{ name: 'Coho salmon', grams: 9 }], 'Coho Salmon').blocks[0]?.text).toBe('Contains: Coho Salmon.');
    expect(allergenPart([{ name: 'Coho salmon', grams: 9, allergens: ['fish'] }], 'Coho Salmon').blocks[0]?.text).toBe('Contains: Coho Salmon.');
  });

  it('says soybeans for soy in any spelling, once', () => {
    expect(containsLine({ name: 'glaze', allergens: ['soy', 'Soya', 'soybean', 'soybeans'] })).toBe('Contains: Coho Salmon, soybeans.');
  });

  it('puts fish first and the others in the order of the statute, kinds by their names', () => {
    const line = containsLine({ name: 'glaze', allergens: ['sesame', 'tree nuts: walnuts', 'crustacean shellfish: crab', 'eggs', 'milk', 'fish: Anchovy'] });
    expect(line).toBe('Contains: Coho Salmon, Anchovy, milk, egg, crab, walnuts, sesame.');
  });

  it('keeps an allergen that the law does not list', () => {
    expect(containsLine({ name: 'glaze', allergens: ['mustard'] })).toBe('Contains: Coho Salmon, mustard.');
  });

  it('finds what stands plain in the list though nothing was entered', () => {
    expect(containsLine({ name: 'dark sauce', subIngredients: ['water', 'wheat flour', 'soybeans'], allergens: [] })).toBe('Contains: Coho Salmon, wheat, soybeans.');
    expect(containsLine({ name: 'soy sauce' })).toBe('Contains: Coho Salmon, wheat, soybeans.');
    expect(containsLine({ name: 'butter' })).toBe('Contains: Coho Salmon, milk.');
    expect(containsLine({ name: 'Worcestershire sauce', subIngredients: ['vinegar', 'anchovies'], allergens: ['fish: Anchovy'] })).toBe('Contains: Coho Salmon, Anchovy.');
  });

  it('does not find an allergen where only the word is', () => {
    for (const name of ['buckwheat honey', 'coconut milk', 'peanut-free rub', 'wheat-free tamari', 'cocoa butter', 'highly refined soybean oil']) {
      const line = containsLine({ name, allergens: [] });
      expect(line, name).toBe('Contains: Coho Salmon.');
    }
    expect(containsLine({ name: 'cocoa butter' })).toBe('Contains: Coho Salmon.');
  });

  it('asks about an ingredient that nothing is known of, and not about salt, sugar and spices', () => {
    expect(allergenGaps({ name: 'house rub' })).toEqual([expect.stringContaining('Nothing says which allergens “house rub” holds.')]);
    expect(allergenGaps({ name: 'house rub', allergens: [] })).toEqual([]);
    expect(allergenGaps({ name: 'kosher salt' }, { name: 'dark brown sugar' }, { name: 'ground black pepper' }, { name: 'maple syrup' })).toEqual([]);
  });

  it('asks for the kind of a fish, nut or crustacean', () => {
    expect(allergenGaps({ name: 'paste', allergens: ['fish'] })).toEqual([expect.stringContaining('“fish” must be named by its kind')]);
    expect(allergenGaps({ name: 'crust', allergens: ['nuts'] })).toEqual([expect.stringContaining('“tree nuts” must be named by its kind')]);
    expect(allergenGaps({ name: 'crust', allergens: ['pecans'] })).toEqual([]);
  });
});

describe('the ingredient list', () => {
  it('keeps the order given between equal weights and drops nothing, not even a trace', () => {
    const list = [{ name: 'b', grams: 1 }, { name: 'a', grams: 1 }, { name: 'trace', grams: 0 }, { name: 'Coho salmon', grams: 5 }];
    expect(ingredientText(list)).toBe('Ingredients: Coho salmon, b, a, trace.');
  });

  it('says what a preservative is for, also inside a cure', () => {
    const list = [FISH, { name: 'curing salt', grams: 4, subIngredients: ['salt', 'sodium nitrite'] }, { name: 'Sodium nitrite', grams: 1 }];
    const [block] = ingredientPart(list, 'Coho Salmon').blocks;
    expect(block?.text).toBe('Ingredients: Coho salmon, curing salt (salt, sodium nitrite (preservative)), Sodium nitrite (preservative).');
    expect(block?.source).toContain('21 CFR 101.22(j)');
  });

  it('asks for the parts of a bought sauce', () => {
    expect(ingredientPart([FISH, { name: 'soy sauce', grams: 4 }], 'Coho Salmon').missing).toEqual([
      { element: 'L04', why: expect.stringContaining('“soy sauce” is made of several things') },
    ]);
  });
});
