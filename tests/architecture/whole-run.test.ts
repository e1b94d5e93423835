import { describe, expect, it, vi } from 'vitest';
import { countPlaywright, countVitest } from '../support/counts.ts';
import { runStep } from '../support/step.ts';
import { tally } from '../support/tally.ts';

const GOOD = { passed: 3, failed: 0, notRun: 0, failedSeeds: [] };

describe('the last line of a run', () => {
  it('adds up the tests of all programs', () => {
    const steps = [{ name: 'types', failure: null }, { name: 'a', failure: null, counts: GOOD }, { name: 'b', failure: null, counts: { ...GOOD, passed: 4 } }];
    expect(tally(steps)).toEqual({ passed: 7, failed: 0, faults: [] });
  });

  it('counts failed tests once, though their program failed with them', () => {
    expect(tally([{ name: 'a', failure: 'exit code 1', counts: { ...GOOD, failed: 2 } }])).toEqual({ passed: 3, failed: 2, faults: [] });
  });

  it.each([
    ['a check fails', { name: 'types', failure: 'exit code 1' }, 'types: exit code 1'],
    ['a program writes no report', { name: 'a', failure: null, counts: null }, 'it wrote no report'],
    ['a program runs no test', { name: 'a', failure: null, counts: { ...GOOD, passed: 0 } }, 'it ran no test'],
    ['a test is not run', { name: 'a', failure: null, counts: { ...GOOD, notRun: 1 } }, '1 tests were not run'],
    ['a program fails without a failed test', { name: 'a', failure: 'exit code 1', counts: GOOD }, 'although every test passed'],
  ])('has a failure when %s', (_when, step, fault) => {
    const { failed, faults } = tally([step]);
    expect(failed).toBe(1);
    expect(faults.join()).toContain(fault);
  });
});

describe('a report', () => {
  const report = { numPassedTests: 5, numFailedTests: 1, numPendingTests: 1, numTodoTests: 1 };
  const failed = { fullName: 'brine adds up', status: 'failed', failureMessages: ['Property failed after 3 tests\n{ seed: -12, path: "2:0:1", endOnFailure: true }'] };

  it('of vitest counts a file that could not be loaded as a failed test', () => {
    const testResults = [{ status: 'failed', assertionResults: [] }, { status: 'failed', assertionResults: [failed] }];
    expect(countVitest({ ...report, testResults })).toMatchObject({ passed: 5, failed: 2, notRun: 2 });
  });

  it('of vitest names the seed of a failed property', () => {
    expect(countVitest({ ...report, testResults: [{ status: 'failed', assertionResults: [failed] }] })?.failedSeeds).toEqual(['brine adds up: seed -12, path 2:0:1']);
  });

  it('of Playwright counts a test that passed at a second try as failed', () => {
    expect(countPlaywright({ stats: { expected: 4, unexpected: 1, flaky: 1, skipped: 2 } })).toEqual({ passed: 4, failed: 2, notRun: 2, failedSeeds: [] });
  });

  it.each([[null], [{}], [{ stats: {} }], ['text']])('that isn’t one (%j) is no count', (what) => {
    expect([countVitest(what), countPlaywright(what)]).toEqual([null, null]);
  });
});

describe('a step', () => {
  const version = { name: 'version', packageName: 'oxlint', programName: 'oxlint', values: ['--version'] };

  it.each([
    ['passes with exit code 0', version, null],
    ['fails with another', { ...version, values: ['--no-such-option'] }, 'exit code 1'],
    ['fails when it looked at too little', { ...version, floor: { count: /Version: (\d+)/, fewest: 1000 } }, '1000 is the fewest'],
    ['fails when it doesn’t say how much it looked at', { ...version, floor: { count: /nothing (\d+)/, fewest: 1 } }, 'it looked at 0'],
  ])('%s', async (_what, step, failure) => {
    vi.spyOn(process.stdout, 'write').mockReturnValue(true);
    vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    const result = await runStep(step);
    vi.restoreAllMocks();
    if (failure === null) expect(result.failure).toBeNull();
    else expect(result.failure).toContain(failure);
  });
});
