import { writeFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { guardPage } from '../support/page-guard.ts';
import { startProgram, type RunningProgram } from '../support/program.ts';
import { packAndFile, smokeABatch, type Fronts } from '../support/walk/first-smoke.ts';
import { makeSmokeLog } from '../support/walk/smoke-csv.ts';

/** A batch with a logger: more than this and the record won't be kept. */
const MOST_DEEDS = 40;

let program: RunningProgram;

test.beforeEach(async () => {
  program = await startProgram({ demo: true });
});
test.afterEach(async () => {
  expect(await program.stop()).toBe(0);
});

test('one batch goes from the fish coming in to labelled packs and its record, in at most 40 taps and entries', async ({ page }, info) => {
  const guard = await guardPage(page);
  await page.addInitScript(() => {
    const printed = window as unknown as { printCount: number };
    printed.printCount = 0;
    window.print = () => {
      printed.printCount += 1;
    };
  });
  const log = makeSmokeLog(Date.now() - 10 * 60_000);
  const fronts: Fronts = {
    page,
    async chooseFile(tap, fileName, text) {
      const file = info.outputPath(fileName);
      writeFileSync(file, text);
      const chooser = page.waitForEvent('filechooser');
      await tap();
      await (await chooser).setFiles(file);
    },
    countPrints: () => page.evaluate(() => (window as unknown as { printCount: number }).printCount),
  };
  await page.goto(program.url);
  const hand = await smokeABatch(fronts, log);
  await packAndFile(fronts, hand, log);
  console.log(`One batch with a logger: ${hand.deeds.length} taps and entries.`);
  expect(hand.deeds.length, hand.deeds.join('\n')).toBeLessThanOrEqual(MOST_DEEDS);
  guard.expectQuiet();
});
