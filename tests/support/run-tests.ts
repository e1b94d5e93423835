/** `npm test`: every check and every test; the last line says how many passed and failed. */
import { randomInt } from 'node:crypto';
import { mkdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { buildWhatChanged } from '../../main/start/build.ts';
import { LINT, TYPES, UNUSED } from './check-steps.ts';
import { PLAYWRIGHT_REPORT, readCounts, VITEST_REPORT } from './counts.ts';
import { ROOT } from './packages.ts';
import { runStep, runSteps } from './step.ts';
import type { Step } from './step.ts';
import { tally } from './tally.ts';

const MOST_SEED = 2 ** 31 - 1;
const seed = process.env['FC_SEED'] ?? String(randomInt(MOST_SEED));

const VITEST: Step = {
  name: 'unit, property, published, contract, back-room, page and architecture tests',
  packageName: 'vitest',
  programName: 'vitest',
  values: ['run', '--config', 'tests/vitest.config.ts', '--reporter', 'default', '--reporter', 'json', `--outputFile.json=${VITEST_REPORT}`],
  environment: { FC_SEED: seed },
};
const PLAYWRIGHT: Step = {
  name: 'walkthroughs and window',
  packageName: '@playwright/test',
  programName: 'playwright',
  values: ['test', '--config', 'tests/walkthroughs/playwright.config.ts', '--reporter', 'list,json'],
  environment: { PLAYWRIGHT_JSON_OUTPUT_FILE: path.join(ROOT, PLAYWRIGHT_REPORT) },
};

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

async function build(): Promise<string | null> {
  say('\n── build');
  try {
    say(await buildWhatChanged(ROOT, say) ? '── build: passed' : '── build: nothing had changed');
    return null;
  } catch (fault) {
    say(`── build: FAILED\n${fault instanceof Error ? fault.message : String(fault)}`);
    return 'it does not build';
  }
}

// A report of an earlier run must not be taken for this one's.
for (const report of [VITEST_REPORT, PLAYWRIGHT_REPORT]) rmSync(path.join(ROOT, report), { force: true });
mkdirSync(path.dirname(path.join(ROOT, VITEST_REPORT)), { recursive: true });

const beganMs = performance.now();
say(`Node ${process.versions.node}, ${process.platform} ${process.arch}. Properties are drawn with seed ${seed}; FC_SEED=${seed} npm test draws the same.`);
const checks = await runSteps([TYPES, LINT, UNUSED]);
const tests = await runStep(VITEST);
const buildFailure = await build();
const walkthroughs = await runStep(PLAYWRIGHT);
const counts = readCounts();
const { passed, failed, faults } = tally([
  ...checks,
  { ...tests, counts: counts.vitest },
  { name: 'build', failure: buildFailure },
  { ...walkthroughs, counts: counts.playwright },
]);

say('');
for (const line of walkthroughs.printed.match(/^(Browser: |Window specs ran in ).*$/gm) ?? ['Browser and window: the walkthroughs never got as far as naming them.']) say(line);
say(`Properties were drawn with seed ${seed}.`);
for (const failedSeed of counts.vitest?.failedSeeds ?? []) say(`A property failed, to be kept as a case: ${failedSeed}`);
for (const fault of faults) say(`FAILED: ${fault}`);
say(`The run took ${((performance.now() - beganMs) / 1000).toFixed(0)} s.`);
say(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
