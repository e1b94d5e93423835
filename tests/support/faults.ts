/**
 * `npm run faults`: the program is killed, its disk is full, its files are broken. One line a measure, the number of
 * faults that were found, and figures under it; exit 1 where there are any. `--brief` does a little of each, `--only NAME`
 * one of them, `--seed N` repeats a run.
 */
import { randomInt } from 'node:crypto';
import { parseArgs } from 'node:util';
import { fillDisks } from '../faults/disk-full.ts';
import { sayThrown, type FaultRun } from '../faults/fault.ts';
import { killWhileImporting } from '../faults/kill-while-importing.ts';
import { killWhileWriting } from '../faults/kill-while-writing.ts';
import { readMutatedFiles, type MutatedFiles } from '../faults/mutated-files.ts';
import { readMutatedWorkbooks } from '../faults/mutated-workbooks.ts';
import { isWithin, measureLine, type Measure } from '../proof/measure-line.ts';

const KILLS = { full: 200, brief: 6 };
const TEXTS = { full: 200_000, brief: 2000 };
const WORKBOOKS = { full: 20_000, brief: 300 };
const MOST_SEED = 2 ** 31 - 1;

const { values } = parseArgs({ options: { only: { type: 'string' }, brief: { type: 'boolean' }, seed: { type: 'string' } } });
const size = values.brief === true ? 'brief' : 'full';
const seed = values.seed === undefined ? randomInt(MOST_SEED) : Number(values.seed);

const RUNS: Readonly<Record<string, () => Promise<FaultRun>>> = {
  'kill-while-importing': () => killWhileImporting(KILLS[size], seed),
  'kill-while-writing': () => killWhileWriting(KILLS[size], seed),
  'disk-full': fillDisks,
  'mutated-files': breakFiles,
};

async function breakFiles(): Promise<FaultRun> {
  const texts = readMutatedFiles(TEXTS[size], seed);
  const workbooks = await readMutatedWorkbooks(WORKBOOKS[size], seed);
  const figuresOf = (what: string, { files, read, asked, refused, slowestMs }: MutatedFiles): string => `${files} ${what}: ${read} read, ${asked} asked about, ${refused} refused; the slowest took ${Math.round(slowestMs)} ms`;
  return { faults: [...texts.faults, ...workbooks.faults], details: [figuresOf('texts', texts), figuresOf('workbooks', workbooks)] };
}

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

async function runOne(name: string, run: () => Promise<FaultRun>): Promise<void> {
  const beganMs = performance.now();
  const { faults, details } = await run().catch((thrown: unknown): FaultRun => ({ faults: [sayThrown(thrown)], details: [] }));
  const measure: Measure = { name, figure: faults.length, decimals: 0, limit: 0, side: 'at-most' };
  say(measureLine(measure));
  for (const detail of details) say(`  ${detail}`);
  for (const fault of faults) say(`  FAULT ${fault}`);
  say(`  ${((performance.now() - beganMs) / 1000).toFixed(0)} s`);
  if (!isWithin(measure)) process.exitCode = 1;
}

const names = values.only === undefined ? Object.keys(RUNS) : [values.only];
if (!Number.isInteger(seed) || names.some((name) => !Object.hasOwn(RUNS, name))) {
  process.stderr.write(Number.isInteger(seed) ? `There is no ${values.only}; there are ${Object.keys(RUNS).join(', ')}.\n` : 'The seed must be a whole number.\n');
  process.exitCode = 1;
} else {
  say(`Drawn with seed ${seed}; npm run faults -- --seed ${seed} draws the same files, and kills at the same points of the work.`);
  for (const name of names) {
    const run = RUNS[name];
    if (run !== undefined) await runOne(name, run);
  }
}
