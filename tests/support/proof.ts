/**
 * `npm run proof`: every kind of check judged twice over 20,000 random records, once by the program and
 * once by a second evaluator written apart. One line a kind; exit 1 on a disagreement. `--brief` draws 300,
 * `--only NAME` one kind (with or without `proof-` before it), `--seed N` repeats a run.
 */
import { randomInt } from 'node:crypto';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { PROOF_KINDS } from '../proof/kinds.ts';
import { isWithin, measureLine, type Measure } from '../proof/measure-line.ts';
import type { ShareReport } from '../proof/worker.ts';

const WORKERS = 2;
const FULL = 20_000;
const BRIEF = 300;
const MOST_SEED = 2 ** 31 - 1;

const { values } = parseArgs({ options: { only: { type: 'string' }, brief: { type: 'boolean' }, seed: { type: 'string' } } });
const names = PROOF_KINDS.map(({ name }) => name);
const kinds = values.only === undefined ? names : names.filter((name) => name === values.only || `proof-${name}` === values.only);
const runSeed = values.seed === undefined ? randomInt(MOST_SEED) : Number(values.seed);

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

/** Runs one worker over its share; fails if it ends without having reported every kind. */
function runShare(from: number, to: number): Promise<ShareReport[]> {
  return new Promise((resolve, reject) => {
    const reports: ShareReport[] = [];
    const worker = new Worker(new URL('../proof/worker.ts', import.meta.url), { workerData: { kinds, runSeed, from, to } });
    worker.on('message', (report: ShareReport) => reports.push(report));
    worker.on('error', reject);
    worker.on('exit', () => {
      if (reports.length === kinds.length) resolve(reports);
      else reject(new Error(`a worker reported ${reports.length} of ${kinds.length} kinds`));
    });
  });
}

async function run(): Promise<void> {
  const count = values.brief === true ? BRIEF : FULL;
  say(`${count} random records a kind, drawn with seed ${runSeed}; npm run proof -- --seed ${runSeed} draws the same.`);
  const each = Math.ceil(count / WORKERS);
  const beganMs = performance.now();
  const shares = await Promise.all(Array.from({ length: WORKERS }, (_, index) => runShare(index * each, Math.min(count, (index + 1) * each))));
  const reports = shares.flat();
  for (const kind of kinds) {
    const own = reports.filter((report) => report.kind === kind);
    const compared = own.reduce((sum, report) => sum + report.compared, 0);
    // A kind that compared fewer records than asked has proven nothing.
    const missing = Math.max(0, count - compared);
    const measure: Measure = { name: `proof-${kind}`, figure: missing + own.reduce((sum, report) => sum + report.disagreed, 0), decimals: 0, limit: 0, side: 'at-most' };
    say(measureLine(measure));
    if (!isWithin(measure)) process.exitCode = 1;
    for (const found of own.flatMap(({ shown }) => shown)) say(`  seed ${found.seed}: judge ${JSON.stringify(found.judge)}, again ${JSON.stringify(found.again)}\n  ${found.reason}\n  ${JSON.stringify(found.drawn)}`);
  }
  say(`The run took ${((performance.now() - beganMs) / 1000).toFixed(0)} s.`);
}

if (kinds.length === 0 || !Number.isInteger(runSeed)) {
  process.stderr.write(kinds.length === 0 ? `There is no ${values.only}; there are ${names.map((name) => `proof-${name}`).join(', ')}.\n` : 'The seed must be a whole number.\n');
  process.exitCode = 1;
} else await run();
