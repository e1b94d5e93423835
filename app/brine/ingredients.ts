/** What goes into a brine: composition, household weights, allergens and label name of each ingredient. */
import type { BrineMixture } from './density.ts';

/** How a figure is known. */
export type SourceMark = 'read' | 'second-hand' | 'from memory' | 'computed' | 'common practice';

/** Where a figure comes from; `section` is the table, or the number of the food in it. */
export interface SourceNote {
  readonly publisher: string;
  readonly title: string;
  readonly section: string;
  readonly year: number | null;
  readonly mark: SourceMark;
}

/** A kitchen measure; volumes are US (a cup is 16 tablespoons, 48 teaspoons, 8 fluid ounces). */
export type HouseholdUnit = 'cup' | 'tablespoon' | 'teaspoon' | 'fluid-ounce' | 'piece';

/** What one of a measure weighs; `lowGrams` and `highGrams` where sources or packing differ much. */
export interface HouseholdWeight {
  readonly unit: HouseholdUnit;
  readonly grams: number;
  readonly lowGrams?: number;
  readonly highGrams?: number;
}

/** One way the ingredient lies in a measure: packed or loose, ground or whole, a crystal of salt. */
export interface HouseholdForm {
  readonly id: string;
  /** Names the form on a card: “packed”, “dense flake”; `clove` for pieces. */
  readonly name: string;
  readonly weights: readonly HouseholdWeight[];
  readonly source: SourceNote;
}

export interface Ingredient {
  readonly id: string;
  readonly name: string;
  /** How it prints in a list of ingredients; its parts follow in brackets where there are any. */
  readonly labelName: string;
  /** Parts of a made-up ingredient, heaviest first, as commonly sold: the bottle's own label goes first. */
  readonly subIngredients: readonly string[];
  /** US major allergens in it, fish as `fish: Market Name`. */
  readonly allergens: readonly string[];
  /** What some makers' kinds hold besides: read the bottle. */
  readonly mayContain: readonly string[];
  /** Per cent by weight; what is left to 100 is other solids. */
  readonly waterPercent: number;
  readonly saltPercent: number;
  readonly sugarPercent: number;
  readonly alcoholPercent: number;
  /** Grams per millilitre as measured out; null where it is not poured. */
  readonly densityGramsPerMl: number | null;
  /** First the usual one; empty where nothing is known. */
  readonly household: readonly HouseholdForm[];
  /** No cup figure until the cook says which form: the forms differ too much to guess. */
  readonly chooseForm: boolean;
  /** Of the composition. */
  readonly source: SourceNote;
}

/** A weighed amount of an ingredient. */
export interface WeighedIngredient {
  readonly ingredient: Ingredient;
  readonly grams: number;
}

/** Below this an ingredient can't be what salts a brine. */
export const LEAST_SALT_PERCENT = 1;
/** From this on something poured counts as the water of a recipe. */
const MOSTLY_WATER_PERCENT = 50;
/** From this on salt and sugar make an ingredient one that dissolves. */
const MOSTLY_SOLUBLE_PERCENT = 50;

/** The ingredient of an id, or undefined. */
export function ingredientById(ingredients: readonly Ingredient[], id: string): Ingredient | undefined {
  return ingredients.find((ingredient) => ingredient.id === id);
}

/** Whether an ingredient is a liquid that is mostly water; a clove of garlic is not. */
export function isWatery(ingredient: Ingredient): boolean {
  return ingredient.densityGramsPerMl !== null && ingredient.waterPercent >= MOSTLY_WATER_PERCENT;
}

/** Whether what an ingredient is made of goes into solution: what is poured, sugars and salts; spice does not. */
function dissolves(ingredient: Ingredient): boolean {
  return ingredient.densityGramsPerMl !== null || ingredient.saltPercent + ingredient.sugarPercent >= MOSTLY_SOLUBLE_PERCENT;
}

/** What weighed ingredients come to, by salt, water, sugar, alcohol, other dissolved solids and spice. */
export function mixtureOf(weighed: readonly WeighedIngredient[]): BrineMixture {
  const sum = { saltGrams: 0, waterGrams: 0, sugarGrams: 0, alcoholGrams: 0, otherGrams: 0, spiceGrams: 0 };
  for (const { ingredient, grams } of weighed) {
    sum.saltGrams += partGrams(grams, ingredient.saltPercent);
    sum.waterGrams += partGrams(grams, ingredient.waterPercent);
    sum.sugarGrams += partGrams(grams, ingredient.sugarPercent);
    sum.alcoholGrams += partGrams(grams, ingredient.alcoholPercent);
    sum[dissolves(ingredient) ? 'otherGrams' : 'spiceGrams'] += partGrams(grams, otherPercent(ingredient));
  }
  return sum;
}

/** Per cent of an ingredient that is none of water, salt, sugar and alcohol. */
function otherPercent(ingredient: Ingredient): number {
  return Math.max(0, 100 - ingredient.waterPercent - ingredient.saltPercent - ingredient.sugarPercent - ingredient.alcoholPercent);
}

/** Every allergen of a set of ingredients once, in the order met. */
export function allergensOf(ingredients: readonly Ingredient[]): string[] {
  return [...new Set(ingredients.flatMap((ingredient) => ingredient.allergens))];
}

function partGrams(grams: number, percent: number): number {
  return (grams * percent) / 100;
}
