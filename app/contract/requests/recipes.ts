/** Recipes in their versions, and the ingredients they are made of: the program's own list and the kitchen's. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Id, InstantMs, Words } from './quantities.ts';

/** In a bath, or salt rubbed on. */
export const Cure = z.enum(['wet', 'dry']);

/** `curePerFishPercent` is the whole cure over the raw fish, for dry cures; the brine's own strength is for wet ones. */
export const BrineTarget = z.union([
  z.strictObject({ brinePercent: z.number() }),
  z.strictObject({ brineSalometer: z.number() }),
  z.strictObject({ curePerFishPercent: z.number() }),
  z.strictObject({ fishEquilibriumWaterPhasePercent: z.number() }),
  z.strictObject({ finishedWaterPhasePercent: z.number(), yieldPercent: z.number() }),
]);

const recipeShape = {
  name: Words,
  cure: Cure.default('wet'),
  process: z.enum(['hot', 'cold', 'either']),
  /** Brine to fish by weight; a dry cure doesn't use it. */
  ratio: z.number().positive(),
  target: BrineTarget,
  saltIngredientId: Id,
  soakHours: z.number().positive(),
  turnHours: z.array(z.number().positive()),
  note: z.string().trim().max(2000),
};
export const Recipe = z.strictObject({
  id: Id,
  version: z.int().min(1),
  ingredients: z.array(z.strictObject({ id: Id, name: z.string(), parts: z.number() })),
  ...recipeShape,
});
/** A recipe as a person gives it: parts by weight. */
export const RecipeDraft = z.strictObject({
  ...recipeShape,
  ratio: z.number(),
  soakHours: z.number(),
  turnHours: z.array(z.number()).max(12),
  ingredients: z.array(z.strictObject({ id: Id, parts: z.number() })).max(60),
});

/** A version that a recipe had or has; the latest first. */
export const RecipeVersion = z.strictObject({
  version: z.int().min(1),
  savedAtMs: InstantMs,
  savedBy: z.string(),
  why: z.string(),
  recipe: Recipe,
});

const Weight = z.strictObject({
  unit: z.enum(['cup', 'tablespoon', 'teaspoon', 'fluid-ounce', 'piece']),
  grams: z.number(),
  lowGrams: z.number().exactOptional(),
  highGrams: z.number().exactOptional(),
});
export const Ingredient = z.strictObject({
  id: Id,
  name: z.string(),
  labelName: z.string(),
  subIngredients: z.array(z.string()),
  allergens: z.array(z.string()),
  mayContain: z.array(z.string()),
  waterPercent: z.number(),
  saltPercent: z.number(),
  sugarPercent: z.number(),
  alcoholPercent: z.number(),
  densityGramsPerMl: z.number().nullable(),
  forms: z.array(z.strictObject({ id: z.string(), name: z.string(), weights: z.array(Weight), source: z.string() })),
  /** No cup figure until the cook says which form. */
  chooseForm: z.boolean(),
  /** It declares nitrite or nitrate. */
  hasNitrite: z.boolean(),
  /** `list`: comes with the program. `package` and `mix`: the kitchen's own. */
  ground: z.enum(['list', 'package', 'mix']),
  /** Where its figures come from, with the mark, in a sentence. */
  source: z.string(),
});

/** A figure as typed from a package; empty where the package doesn't say. */
const Figure = z.string().trim().max(20);
/** What a package's label says of one serving. */
export const PackageFacts = z.strictObject({
  servingGrams: Figure,
  sodiumMilligrams: Figure,
  fatGrams: Figure,
  carbohydrateGrams: Figure,
  sugarsGrams: Figure,
  proteinGrams: Figure,
  /** Alcohol by volume in per cent. */
  alcoholByVolumePercent: Figure,
  /** Grams per millilitre, where it is poured. */
  densityGramsPerMl: Figure,
});
export const Composition = z.discriminatedUnion('ground', [
  z.strictObject({ ground: z.literal('package'), facts: PackageFacts }),
  z.strictObject({ ground: z.literal('mix'), parts: z.array(z.strictObject({ ingredientId: Id, parts: z.number() })).max(40) }),
]);
export const IngredientDraft = z.strictObject({
  name: Words,
  labelName: Words,
  subIngredients: z.array(Words).max(60),
  allergens: z.array(Words).max(12),
  mayContain: z.array(Words).max(12),
  composition: Composition,
});

export const recipeRequests = {
  'recipe.list': query(z.strictObject({}), z.strictObject({ recipes: z.array(Recipe) })),
  'recipe.versions': query(z.strictObject({ recipeId: Id }), z.strictObject({ versions: z.array(RecipeVersion) })),
  /** A new recipe, or with `recipeId` the next version of one. */
  'recipe.save': command(
    z.strictObject({ recipeId: Id.nullable(), draft: RecipeDraft, why: z.string().trim().max(500) }),
    z.strictObject({ recipe: Recipe }),
  ),
  /** The recipe with the kitchen's own ingredients it needs, as JSON text to keep in a file. */
  'recipe.export': query(z.strictObject({ recipeId: Id, version: z.int().min(1).optional() }), z.strictObject({ fileName: z.string(), text: z.string() })),
  /** Takes in a recipe that was exported; what it needs of own ingredients comes with it. */
  'recipe.import': command(
    z.strictObject({ text: z.string().max(1_000_000) }),
    z.strictObject({ recipe: Recipe, addedIngredients: z.array(z.string()) }),
  ),
  'ingredient.list': query(z.strictObject({}), z.strictObject({ ingredients: z.array(Ingredient) })),
  /** An ingredient of the kitchen's own, or with `ingredientId` new figures for one; batches made before keep theirs. */
  'ingredient.save': command(z.strictObject({ ingredientId: Id.nullable(), draft: IngredientDraft }), z.strictObject({ ingredient: Ingredient })),
} as const;

export type BrineTarget = z.infer<typeof BrineTarget>;
export type Recipe = z.infer<typeof Recipe>;
export type RecipeDraft = z.infer<typeof RecipeDraft>;
export type RecipeVersion = z.infer<typeof RecipeVersion>;
export type Ingredient = z.infer<typeof Ingredient>;
export type IngredientDraft = z.infer<typeof IngredientDraft>;
export type PackageFacts = z.infer<typeof PackageFacts>;
export type Composition = z.infer<typeof Composition>;
