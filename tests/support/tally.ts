/** Adds a whole run up to its last line. */
import type { Counts } from './counts.ts';

export interface RanStep {
  readonly name: string;
  /** Why it failed; null when it passed. */
  readonly failure: string | null;
  /** For a step that runs tests what its report says, null where it wrote none; undefined for other steps. */
  readonly counts?: Counts | null;
}

export interface Tally {
  readonly passed: number;
  readonly failed: number;
  /** A line for each step that failed other than by failed tests. */
  readonly faults: readonly string[];
}

function faultOf({ name, failure, counts }: RanStep): string | null {
  if (counts === undefined) return failure === null ? null : `${name}: ${failure}`;
  if (counts === null) return `${name}: it wrote no report of its tests`;
  if (counts.passed + counts.failed === 0) return `${name}: it ran no test`;
  if (counts.failed > 0) return null;
  if (counts.notRun > 0) return `${name}: ${counts.notRun} tests were not run`;
  return failure === null ? null : `${name}: ${failure}, although every test passed`;
}

/**
 * Counts tests, and each step that failed in another way as one more failure: a run that isn't whole
 * never ends with “0 failed”.
 */
export function tally(steps: readonly RanStep[]): Tally {
  const faults = steps.map(faultOf).filter((fault) => fault !== null);
  const sum = (of: (counts: Counts) => number): number => steps.reduce((total, step) => total + (step.counts ? of(step.counts) : 0), 0);
  return { passed: sum((counts) => counts.passed), failed: sum((counts) => counts.failed) + faults.length, faults };
}
