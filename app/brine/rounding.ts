/** Rounding to a scale's step, and numbers for sentences. */

/**
 * How many steps of a scale a weight is, half up.
 * A quotient within a float's noise of a half is that half: 0.35 g on a 0.1 g scale is 4 steps.
 * @param grams zero or more
 * @param stepGrams above zero
 */
export function stepsOf(grams: number, stepGrams: number): number {
  const quotient = grams / stepGrams;
  const half = Math.floor(quotient) + 0.5;
  const isHalf = Math.abs(quotient - half) <= 1e-12 * Math.max(1, quotient);
  return isHalf ? half + 0.5 : Math.round(quotient);
}

/** Grams of a whole number of steps, without the float's tail: 3 × 0.1 is 0.3. */
export function gramsOfSteps(steps: number, stepGrams: number): number {
  return Number((steps * stepGrams).toPrecision(14));
}

/** A number for a sentence: at most so many decimals, no trailing zeros. */
export function plainNumber(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return String(value);
  const fixed = Number(value.toFixed(decimals));
  return String(fixed === 0 ? 0 : fixed);
}
