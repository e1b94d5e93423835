/** What a bench tells, and how figures are taken. */

export interface BenchOptions {
  /** Fewer runs: to see that the bench works, not to trust its figure. */
  readonly brief: boolean;
}

/** One line: figures are plain decimals, a unit only attached. */
export interface BenchResult {
  readonly name: string;
  readonly measured: string;
  readonly limit: string;
  readonly isMet: boolean;
  readonly detail: string;
}

/** A figure that must not be above its limit. */
export function atMost(name: string, figure: number, limit: number, { decimals = 2, unit = '', detail }: { readonly decimals?: number; readonly unit?: string; readonly detail: string }): BenchResult {
  return { name, measured: `${figure.toFixed(decimals)}${unit}`, limit: `${limit}${unit}`, isMet: figure <= limit, detail };
}

/** The middle one; of an even number the lower of the two. */
export function medianOf(values: readonly number[]): number {
  const middle = values.toSorted((left, right) => left - right)[Math.floor((values.length - 1) / 2)];
  if (middle === undefined) throw new Error('There is no middle of nothing.');
  return middle;
}

/** The least figure that so great a part of all doesn't exceed (nearest rank). */
export function percentileOf(values: readonly number[], part: number): number {
  const at = values.toSorted((left, right) => left - right)[Math.max(0, Math.ceil(values.length * part) - 1)];
  if (at === undefined) throw new Error('There is no percentile of nothing.');
  return at;
}

/** The least and the greatest, for the line that says how much the runs differ. */
export function rangeText(values: readonly number[], decimals = 0): string {
  return `${Math.min(...values).toFixed(decimals)} to ${Math.max(...values).toFixed(decimals)}`;
}
