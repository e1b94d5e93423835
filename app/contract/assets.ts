/** Schemas of the data in `assets/ingredients`, `assets/fish` and the starting recipes in `assets/demo`. */
import { z } from 'zod';
import type { FishSpecies } from '../brine/fish-species.ts';
import type { Ingredient } from '../brine/ingredients.ts';
import { BrineTargetInput, RecipeInput } from './requests/brine-arithmetic.ts';

const Percent = z.number().min(0).max(100);
const Word = z.string().min(1);
const Words = z.array(Word);

/** Where a figure comes from, and how it is known. */
const SourceNote = z.strictObject({
  publisher: Word,
  title: Word,
  section: Word,
  year: z.int().min(1800).max(2100).nullable(),
  mark: z.enum(['read', 'second-hand', 'from memory', 'computed', 'common practice']),
});

const HouseholdWeight = z.strictObject({
  unit: z.enum(['cup', 'tablespoon', 'teaspoon', 'fluid-ounce', 'piece']),
  grams: z.number().positive(),
  lowGrams: z.number().positive().exactOptional(),
  highGrams: z.number().positive().exactOptional(),
});

const HouseholdForm = z.strictObject({ id: Word, name: Word, weights: z.array(HouseholdWeight).min(1), source: SourceNote });

/** One ingredient; its water, salt, sugar and alcohol are together at most all of it. */
export const IngredientAsset: z.ZodType<Ingredient> = z.strictObject({
  id: z.string().regex(/^[a-z][a-z0-9-]*$/),
  name: Word,
  labelName: Word,
  subIngredients: Words,
  allergens: z.array(z.union([z.enum(['milk', 'egg', 'crustacean shellfish', 'tree nuts', 'wheat', 'peanuts', 'soybeans', 'sesame']), z.string().regex(/^fish: \S/)])),
  mayContain: Words,
  waterPercent: Percent,
  saltPercent: Percent,
  sugarPercent: Percent,
  alcoholPercent: Percent,
  densityGramsPerMl: z.number().positive().nullable(),
  household: z.array(HouseholdForm),
  chooseForm: z.boolean(),
  source: SourceNote,
}).refine((entry) => entry.waterPercent + entry.saltPercent + entry.sugarPercent + entry.alcoholPercent <= 100.000001, 'Its parts come to more than 100 %.');

/** `assets/ingredients/ingredients.json`. */
export const IngredientsAsset = z.strictObject({
  ingredients: z.array(IngredientAsset).min(1).refine(noneTwice<Ingredient>((entry) => entry.id), 'An ingredient id stands twice.'),
});

/** One species of fish. */
const FishSpeciesAsset: z.ZodType<FishSpecies> = z.strictObject({
  scientificName: z.string().regex(/^[A-Z][a-z]+ [a-z]+$/),
  commonName: Word,
  marketName: Word,
  alsoMarketNames: Words,
  vernacularNames: Words,
  nameSource: SourceNote,
  twoLetterCode: z.string().regex(/^[A-Z]{2}$/),
  moisturePercent: Percent,
  fatPercent: Percent,
  saltPercent: Percent,
  compositionSource: SourceNote,
  nitriteAllowed: z.enum(['200ppm', 'chub', 'tuna-10ppm', 'none']),
  nitriteSource: SourceNote,
  parasiteExempt: z.boolean(),
  parasiteSource: SourceNote,
  freshwater: z.boolean(),
}).refine((entry) => entry.moisturePercent + entry.fatPercent + entry.saltPercent <= 100, 'Its parts come to more than 100 %.');

/** `assets/fish/fish.json`. */
export const FishAsset = z.strictObject({
  species: z.array(FishSpeciesAsset).min(1)
    .refine(noneTwice<FishSpecies>((entry) => entry.scientificName), 'A species stands twice.')
    .refine(noneTwice<FishSpecies>((entry) => entry.twoLetterCode), 'A two-letter code stands twice.'),
});

/** `assets/demo/recipes.json`: the recipes a kitchen may start with. */
export const StartingRecipesAsset = z.strictObject({
  recipes: z.array(RecipeInput.extend({
    id: z.string().regex(/^[a-z][a-z0-9-]*$/),
    usualRatio: z.number().positive(),
    usualTarget: BrineTargetInput,
    note: Word,
  })).min(1),
});

function noneTwice<T>(keyOf: (entry: T) => string): (entries: readonly T[]) => boolean {
  return (entries) => new Set(entries.map(keyOf)).size === entries.length;
}
