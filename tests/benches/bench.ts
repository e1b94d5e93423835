/** What a bench tells, and how figures are taken. */

export interface BenchResult {
  readonly name: string;
  readonly measured: string;
  readonly limit: string;
  readonly isMet: boolean;
  readonly detail: string;
}

/** The middle one; of an even number the lower of the two. */
export function medianOf(values: readonly number[]): number {
  const middle = values.toSorted((left, right) => left - right)[Math.floor((values.length - 1) / 2)];
  if (middle === undefined) throw new Error('There is no middle of nothing.');
  return middle;
}
