/** Whether a batch’s yield is one of its kind: within three standard deviations of the kitchen’s own others (common practice). */

/** Fewer tell nothing about what is usual (our choice). */
const FEWEST_OTHERS = 5;
const DEVIATIONS = 3;

export type YieldFound = { readonly state: 'usual' | 'unusual'; readonly mean: number } | { readonly state: 'too-few'; readonly mean: number };

/**
 * @param share packed weight as a share of the fillets
 * @param others the same of other batches of that species and process
 */
export function yieldAmong(share: number, others: readonly number[]): YieldFound {
  const mean = others.length === 0 ? 0 : others.reduce((sum, other) => sum + other, 0) / others.length;
  if (others.length < FEWEST_OTHERS) return { state: 'too-few', mean };
  const deviation = Math.sqrt(others.reduce((sum, other) => sum + (other - mean) ** 2, 0) / (others.length - 1));
  return { state: Math.abs(share - mean) <= DEVIATIONS * deviation ? 'usual' : 'unusual', mean };
}
