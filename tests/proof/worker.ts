/** A worker of the proof: compares its share of the cases of each kind and reports them. */
import { parentPort, workerData } from 'node:worker_threads';
import { z } from 'zod';
import { compareSeed, needKind, seedsOf, type Disagreement } from './agree.ts';

/** What a worker is told: which kinds, which seed, and which share of how many cases. */
const Share = z.strictObject({ kinds: z.array(z.string()), runSeed: z.int(), from: z.int(), to: z.int() });

/** What it says of each kind; the first disagreements whole. */
export interface ShareReport {
  readonly kind: string;
  readonly compared: number;
  readonly disagreed: number;
  readonly shown: readonly Disagreement[];
}

const MOST_SHOWN = 3;
const { kinds, runSeed, from, to } = Share.parse(workerData);

for (const name of kinds) {
  const seeds = seedsOf(name, runSeed, from, to);
  const kind = needKind(name);
  const shown: Disagreement[] = [];
  let disagreed = 0;
  for (const seed of seeds) {
    const found = compareSeed(kind, seed);
    if (found === undefined) continue;
    disagreed += 1;
    if (shown.length < MOST_SHOWN) shown.push(found);
  }
  const report: ShareReport = { kind: name, compared: seeds.length, disagreed, shown };
  parentPort?.postMessage(report);
}
