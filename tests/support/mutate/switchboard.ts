/**
 * Stands in the worker beside the tests: every test is run once as it is, which shows the mutants it
 * reaches, and then once with each of those that still live. A test that fails has killed its mutant.
 */
import { writeFileSync } from 'node:fs';
import { afterAll, TestRunner, type RunnerTestCase } from 'vitest';

/** What a mutated text asks while it runs. */
interface Switchboard {
  isOn(id: number): boolean;
  /** A constant of a module: the mutants that stand in it, and how to make it again where other modules read it. */
  keep(from: number, to: number, remake: () => void): void;
  /** Makes a constant as its module is loaded. */
  make<T>(build: () => T): T;
  count(): void;
}
interface Tally {
  /** The mutants that are tried, and those that still live. */
  readonly tried: ReadonlySet<number>;
  readonly alive: Set<number>;
  readonly reached: Set<number>;
  /** Those that the test now running has reached. */
  readonly seen: Set<number>;
  /** Those that are reached while a constant is made, in functions that no test may call again. */
  readonly made: Set<number>;
  readonly constants: { readonly from: number; readonly to: number; readonly remake: () => void }[];
  readonly killedBy: Map<number, string>;
  /** Tests that fail on the program as it is; they can't tell a mutant from it. */
  readonly failing: string[];
  active: number;
  isWatching: boolean;
  isMaking: boolean;
  turns: number;
}

declare global {
  var alderbookMutation: Switchboard | undefined;
  var alderbookTally: Tally | undefined;
}

const MOST_TURNS = 400_000;
const RESULT_FILE = needed('MUTANT_RESULT');

if (globalThis.alderbookTally === undefined) {
  const tried = new Set(needed('MUTANT_IDS').split(',').map(Number));
  globalThis.alderbookTally = { tried, alive: new Set(tried), reached: new Set(), seen: new Set(), made: new Set(), constants: [], killedBy: new Map(), failing: [], active: 0, isWatching: false, isMaking: false, turns: 0 };
}
const tally = globalThis.alderbookTally;

// Modules stay loaded from one test file to the next and keep the switchboard they first saw.
globalThis.alderbookMutation ??= {
  isOn(id) {
    if (tally.isWatching && tally.alive.has(id)) tally.seen.add(id);
    if (tally.isMaking && tally.alive.has(id)) tally.made.add(id);
    return tally.active === id;
  },
  keep(from, to, remake) {
    tally.constants.push({ from, to, remake });
  },
  make(build) {
    tally.isMaking = true;
    try {
      return build();
    } finally {
      tally.isMaking = false;
    }
  },
  count() {
    tally.turns += 1;
    if (tally.active !== 0 && tally.turns > MOST_TURNS) throw new Error('a loop did not end');
  },
};

Object.assign(TestRunner.prototype, { runTask: runWithEach });

afterAll(() => {
  writeFileSync(RESULT_FILE, JSON.stringify({ reached: [...tally.reached], killed: [...tally.killedBy], failing: tally.failing }));
});

function needed(name: string): string {
  const value = process.env[name];
  if (value === undefined) throw new Error(`${name} is not given`);
  return value;
}

/** Whether a mutant shows only once constants are made again. */
function isInConstant(id: number): boolean {
  return tally.made.has(id) || tally.constants.some(({ from, to }) => from <= id && id <= to);
}

/** Switches one mutant on, or with 0 all off; constants are made again, in the order in which they were loaded. */
function switchOn(id: number, before = id): void {
  tally.active = id;
  if (isInConstant(before)) for (const { remake } of tally.constants) remake();
}

async function runWithEach(test: RunnerTestCase): Promise<void> {
  const run = TestRunner.getTestFn(test);
  tally.seen.clear();
  tally.isWatching = true;
  try {
    await run();
  } catch (fault) {
    tally.failing.push(test.name);
    throw fault;
  } finally {
    tally.isWatching = false;
  }
  for (const id of [...tally.seen, ...[...tally.alive].filter(isInConstant)]) {
    tally.reached.add(id);
    tally.turns = 0;
    try {
      switchOn(id);
      await run();
    } catch {
      tally.alive.delete(id);
      tally.killedBy.set(id, test.name);
    } finally {
      switchOn(0, id);
    }
    // Lets the worker answer vitest, which takes one that is silent for long for dead.
    await new Promise((resolve) => {
      setImmediate(resolve);
    });
  }
}
