/**
 * Stands in the worker beside the tests: every test is run once as it is, which shows the mutants it
 * reaches, and then once with each of those that still live. A test that fails has killed its mutant.
 */
import { writeFileSync } from 'node:fs';
import { afterAll, TestRunner, type RunnerTestCase } from 'vitest';

/** What a mutated text asks while it runs. */
interface Switchboard {
  isOn(id: number): boolean;
  count(): void;
}
interface Tally {
  /** The mutants that are tried, and those that still live. */
  readonly tried: ReadonlySet<number>;
  readonly alive: Set<number>;
  readonly reached: Set<number>;
  /** Those that the test now running has reached. */
  readonly seen: Set<number>;
  readonly killedBy: Map<number, string>;
  /** Tests that fail on the program as it is; they can't tell a mutant from it. */
  readonly failing: string[];
  active: number;
  isWatching: boolean;
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
  globalThis.alderbookTally = { tried, alive: new Set(tried), reached: new Set(), seen: new Set(), killedBy: new Map(), failing: [], active: 0, isWatching: false, turns: 0 };
}
const tally = globalThis.alderbookTally;

// Modules stay loaded from one test file to the next and keep the switchboard they first saw.
globalThis.alderbookMutation ??= {
  isOn(id) {
    if (tally.isWatching && tally.alive.has(id)) tally.seen.add(id);
    return tally.active === id;
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
  for (const id of [...tally.seen]) {
    tally.reached.add(id);
    tally.active = id;
    tally.turns = 0;
    try {
      await run();
    } catch {
      tally.alive.delete(id);
      tally.killedBy.set(id, test.name);
    } finally {
      tally.active = 0;
    }
    // Lets the worker answer vitest, which takes one that is silent for long for dead.
    await new Promise((resolve) => {
      setImmediate(resolve);
    });
  }
}
