/**
 * `npm run mutants`: small changes to app/limits and app/heat, one at a time, and how many of them the
 * tests notice. Every mutant stands in one instrumented copy behind its number, and a warm vitest runs
 * each test again with every mutant that it reaches. Survivors go to out/mutants.json; those that change
 * nothing that can be seen are argued in mutate/argued.json, and still count as living. `--only FILE`
 * tries one file, `--brief` a sample of 60, `--seed N` repeats a run.
 */
import { spawn } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { z } from 'zod';
import { Dice } from '../proof/dice.ts';
import { isWithin, measureLine, type Measure } from '../proof/measure-line.ts';
import { needlessOf, readArguments, whyOf } from './mutate/arguments.ts';
import type { Mutant } from './mutate/instrument.ts';
import { copyProgram, instrumentAll } from './mutate/program-copy.ts';
import { ROOT } from './packages.ts';

const SHARDS = 2;
const SAMPLE = 60;
/** How many drawn records a kind each mutant meets. */
const RECORDS = 60;
const LEAST_SCORE = 0.9;
const MOST_SEED = 2 ** 31 - 1;
const PARTS = { 'mutants-limits': 'app/limits/', 'mutants-heat': 'app/heat/' } as const;
const ShardResult = z.strictObject({ reached: z.array(z.int()), killed: z.array(z.tuple([z.int(), z.string()])), failing: z.array(z.string()) });

const { values } = parseArgs({ options: { only: { type: 'string' }, brief: { type: 'boolean' }, seed: { type: 'string' } } });
const seed = values.seed === undefined ? randomInt(MOST_SEED) : Number(values.seed);

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

/** One process over its share of the mutants. */
function runShard(folder: string, mutants: readonly Mutant[], number: number): Promise<z.infer<typeof ShardResult>> {
  const resultFile = path.join(folder, `mutants-${number}.json`);
  const environment = { ...process.env, MUTANT_IDS: mutants.map(({ id }) => id).join(','), MUTANT_RESULT: resultFile, FC_SEED: String(seed), PROOF_RECORDS: String(RECORDS) };
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [path.join(folder, 'tests/support/mutate/shard.ts')], { cwd: folder, env: environment, stdio: ['ignore', 'pipe', 'pipe'] });
    let printed = '';
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (part: Buffer) => (printed += part.toString()));
    child.on('error', reject);
    child.on('exit', (code) => {
      if (code === 0 && existsSync(resultFile)) resolve(ShardResult.parse(JSON.parse(readFileSync(resultFile, 'utf8'))));
      else reject(new Error(`A process of the run ended without a result.\n${printed}`));
    });
  });
}

function sampleOf(mutants: readonly Mutant[]): Mutant[] {
  const chosen = mutants.filter(({ file }) => values.only === undefined || file === values.only || path.basename(file) === values.only);
  return values.brief === true ? new Dice(seed).shuffle(chosen).slice(0, SAMPLE) : chosen;
}

interface Survivor extends Mutant {
  readonly isReached: boolean;
  /** Why nobody can see it; absent where nobody has said. */
  readonly why?: string | undefined;
}

/** One line a part, one a file that has survivors, and one a survivor that nobody has argued. */
function report(tried: readonly Mutant[], survivors: readonly Survivor[]): void {
  const argued = survivors.filter(({ why }) => why !== undefined);
  for (const file of new Set(survivors.map((mutant) => mutant.file))) {
    const ofFile = (list: readonly Mutant[]) => list.filter((mutant) => mutant.file === file).length;
    say(`  ${file}: ${ofFile(survivors)} of ${ofFile(tried)} live on, of them ${ofFile(argued)} argued`);
    for (const { line, what, text } of survivors.filter((one) => one.file === file && one.why === undefined)) say(`    ${file}:${line} ${what} \`${text}\``);
  }
  say(`mutants-argued  ${argued.length} of ${survivors.length} survivors`);
  for (const [name, part] of Object.entries(PARTS)) {
    const ofPart = (list: readonly Mutant[]) => list.filter(({ file }) => file.startsWith(part)).length;
    if (ofPart(tried) === 0) continue;
    const measure: Measure = { name, figure: 1 - ofPart(survivors) / ofPart(tried), decimals: 2, limit: LEAST_SCORE, side: 'at-least' };
    say(measureLine(measure));
    if (!isWithin(measure)) process.exitCode = 1;
  }
}

async function run(): Promise<void> {
  const beganMs = performance.now();
  const folder = copyProgram(ROOT);
  try {
    const tried = sampleOf(instrumentAll(folder).mutants);
    if (tried.length === 0) throw new Error(`There is no mutant of ${values.only ?? 'the program'}.`);
    say(`${tried.length} mutants, drawn and tested with seed ${seed}; npm run mutants -- --seed ${seed} tries the same.`);
    // Every second mutant to each process: neighbours take about as long.
    const shares = Array.from({ length: SHARDS }, (_, number) => tried.filter((_mutant, index) => index % SHARDS === number)).filter((share) => share.length > 0);
    const results = await Promise.all(shares.map((share, number) => runShard(folder, share, number)));
    const killed = new Set(results.flatMap((result) => result.killed.map(([id]) => id)));
    const reached = new Set(results.flatMap((result) => result.reached));
    const argued = readArguments(readFileSync(path.join(folder, 'tests/support/mutate/argued.json'), 'utf8'));
    const living = tried.filter(({ id }) => !killed.has(id));
    const survivors = living.map((mutant): Survivor => ({ ...mutant, isReached: reached.has(mutant.id), why: whyOf(mutant, argued, living) }));
    // A sample leaves out mutants that an argument may be for.
    const needless = values.brief === true ? [] : needlessOf(argued, new Set(tried.map(({ file }) => file)), survivors);
    mkdirSync(path.join(ROOT, 'out'), { recursive: true });
    writeFileSync(path.join(ROOT, 'out/mutants.json'), `${JSON.stringify({ seed, tried: tried.length, killed: killed.size, survivors, needless }, null, 1)}\n`);
    report(tried, survivors);
    for (const { file, what, text } of needless) say(`  needless argument: ${file} ${what} \`${text}\``);
    const failing = new Set(results.flatMap((result) => result.failing));
    if (failing.size > 0) {
      say(`These tests fail on the program as it is, so they killed nothing: ${[...failing].join('; ')}.`);
      process.exitCode = 1;
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  say(`The run took ${((performance.now() - beganMs) / 1000).toFixed(0)} s.`);
}

await run();
