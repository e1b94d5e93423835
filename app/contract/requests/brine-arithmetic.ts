/** The two requests on brine that need no book: one strength in every form, and a recipe scaled to fillets. */
import { z } from 'zod';
import { pure } from '../endpoint.ts';

/** Exactly one strength is given; the service says so when it is none or two. */
export const BrineStrengthInput = z.strictObject({
  percentByWeight: z.number().optional(),
  salometerDegrees: z.number().optional(),
  specificGravity60F: z.number().optional(),
  baumeDegrees: z.number().optional(),
  gramsPerLitreWater: z.number().optional(),
  temperatureC: z.number().optional(),
});
export type BrineStrengthInput = z.infer<typeof BrineStrengthInput>;

export const BrineStrengthOutput = z.strictObject({
  percentByWeight: z.number(),
  salometerDegrees: z.number(),
  specificGravity60F: z.number(),
  baumeDegrees: z.number(),
  gramsPerLitreWater: z.number(),
  waterPhasePercent: z.number(),
  poundsPerUsGallonWater: z.number(),
  densityKgPerM3: z.number(),
  freezingPointC: z.number(),
});
export type BrineStrengthOutput = z.infer<typeof BrineStrengthOutput>;

/** Parts by weight; the ingredient named in `salt` is solved for, so its own parts are not used. */
export const RecipeInput = z.strictObject({
  name: z.string(),
  ingredients: z.array(z.strictObject({ id: z.string(), parts: z.number() })).max(200),
  salt: z.strictObject({ ingredientId: z.string() }),
});

/** Exactly one figure; `yieldPercent` (finished over brined weight) with `finishedWaterPhasePercent` alone. */
export const BrineTargetInput = z.strictObject({
  brinePercent: z.number().optional(),
  brineSalometer: z.number().optional(),
  fishEquilibriumWaterPhasePercent: z.number().optional(),
  finishedWaterPhasePercent: z.number().optional(),
  yieldPercent: z.number().optional(),
});

export const RecipeScaleInput = z.strictObject({
  recipe: RecipeInput,
  filletGrams: z.number(),
  ratio: z.number(),
  target: BrineTargetInput,
  fish: z.strictObject({ moisturePercent: z.number(), saltPercent: z.number() }).optional(),
  scaleStepGrams: z.number().optional(),
});
export type RecipeScaleInput = z.infer<typeof RecipeScaleInput>;

export const RecipeScaleOutput = z.strictObject({
  lines: z.array(z.strictObject({ ingredientId: z.string(), name: z.string(), grams: z.number(), saltGrams: z.number() })),
  totalGrams: z.number(),
  litresAt4C: z.number(),
  percentByWeight: z.number(),
  waterPhasePercent: z.number(),
  salometerDegrees: z.number(),
  equilibriumWaterPhasePercent: z.number(),
});
export type RecipeScaleOutput = z.infer<typeof RecipeScaleOutput>;

export const brineArithmeticRequests = {
  'brine.strength': pure(BrineStrengthInput, BrineStrengthOutput),
  'recipe.scale': pure(RecipeScaleInput, RecipeScaleOutput),
} as const;
