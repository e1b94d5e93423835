/** What a fault run tells. */
import type { KillPlan } from './killed-child.ts';

export interface FaultRun {
  /** What should not be; none is what is wanted. */
  readonly faults: readonly string[];
  /** Figures and cases, a line each. */
  readonly details: readonly string[];
}

const ONE_AT_START = 6;
const START_MS = 1500;

/** More faults than this of one kind teach nothing new. */
export const MOST_FAULTS = 20;

/** Whole numbers below a bound; a linear congruential generator modulo 2^32 (Numerical Recipes, 2nd edition, section 7.1; from memory), its high bits taken. */
export function randomFrom(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

/** A moment to kill at: mostly within one of the first lines, now and then while it starts, which is while it opens what the kill before left. */
export function killPlan(random: (below: number) => number, mostLines: number): KillPlan {
  return random(ONE_AT_START) === 0 ? { afterMs: random(START_MS) } : { lines: random(mostLines), share: random(1000) / 1000 };
}

/** A clock of the processor's time: what a busy computer makes wait isn't counted. @returns the milliseconds since it was started */
export function startWork(): () => number {
  const before = process.cpuUsage();
  return () => {
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  };
}

/** What was thrown, as a line. */
export function sayThrown(thrown: unknown): string {
  return thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown);
}
