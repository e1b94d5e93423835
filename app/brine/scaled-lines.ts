/** What was worked out, as a scale can weigh it. */
import type { BrineMixture } from './density.ts';
import { mixtureOf, type WeighedIngredient } from './ingredients.ts';
import { gramsOfSteps, stepsOf } from './rounding.ts';

export interface ScaledLine extends WeighedIngredient {
  readonly saltGrams: number;
}

/** Lines rounded to a scale's step, with what they come to. */
export interface ScaledLines {
  readonly lines: readonly ScaledLine[];
  readonly mixture: BrineMixture;
  readonly totalGrams: number;
}

/**
 * Rounds each line to the scale's step, half up.
 * @param solved grams as worked out, zero or more
 * @param stepGrams above zero
 */
export function roundLines(solved: readonly WeighedIngredient[], stepGrams: number): ScaledLines {
  const steps = solved.map((line) => stepsOf(line.grams, stepGrams));
  const lines = solved.map(({ ingredient }, index): ScaledLine => {
    const grams = gramsOfSteps(steps[index] ?? 0, stepGrams);
    return { ingredient, grams, saltGrams: (grams * ingredient.saltPercent) / 100 };
  });
  return { lines, mixture: mixtureOf(lines), totalGrams: gramsOfSteps(steps.reduce((sum, count) => sum + count, 0), stepGrams) };
}
