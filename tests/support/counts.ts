/** Reads how many tests passed and failed from the reports that the test programs write. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { z } from 'zod';
import { ROOT } from './packages.ts';

export interface Counts {
  readonly passed: number;
  readonly failed: number;
  /** Left out or never reached. */
  readonly notRun: number;
  /** Of properties that failed: the test and what repeats it. */
  readonly failedSeeds: readonly string[];
}

/** Where the reports are written, from the root. */
export const VITEST_REPORT = 'out/test-results/vitest.json';
export const PLAYWRIGHT_REPORT = 'out/test-results/playwright.json';

const VitestReport = z.object({
  numPassedTests: z.number(),
  numFailedTests: z.number(),
  numPendingTests: z.number(),
  numTodoTests: z.number(),
  testResults: z.array(z.object({
    status: z.string(),
    assertionResults: z.array(z.object({ fullName: z.string(), status: z.string(), failureMessages: z.array(z.string()).nullish() })),
  })),
});
const PlaywrightReport = z.object({
  stats: z.object({ expected: z.number(), unexpected: z.number(), flaky: z.number(), skipped: z.number() }),
});

function readReport(file: string): unknown {
  try {
    return JSON.parse(readFileSync(path.join(ROOT, file), 'utf8'));
  } catch {
    return null;
  }
}

/** Counts a vitest report; null for what isn't one. A file that could not be loaded counts as one failed test. */
export function countVitest(report: unknown): Counts | null {
  const read = VitestReport.safeParse(report);
  if (!read.success) return null;
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests, testResults } = read.data;
  const unloaded = testResults.filter((file) => file.status === 'failed' && file.assertionResults.every((each) => each.status !== 'failed')).length;
  const failedSeeds = testResults.flatMap((file) =>
    file.assertionResults.flatMap((each) => {
      const seed = /seed: (-?\d+), path: "([\d:]+)"/.exec(each.failureMessages?.join('\n') ?? '');
      return seed === null ? [] : [`${each.fullName}: seed ${seed[1]}, path ${seed[2]}`];
    }),
  );
  return { passed: numPassedTests, failed: numFailedTests + unloaded, notRun: numPendingTests + numTodoTests, failedSeeds };
}

/** Counts a Playwright report; null for what isn't one. */
export function countPlaywright(report: unknown): Counts | null {
  const read = PlaywrightReport.safeParse(report);
  if (!read.success) return null;
  const { expected, unexpected, flaky, skipped } = read.data.stats;
  return { passed: expected, failed: unexpected + flaky, notRun: skipped, failedSeeds: [] };
}

/** The counts of the run that just ended; null where it wrote no report. */
export function readCounts(): { readonly vitest: Counts | null; readonly playwright: Counts | null } {
  return { vitest: countVitest(readReport(VITEST_REPORT)), playwright: countPlaywright(readReport(PLAYWRIGHT_REPORT)) };
}
