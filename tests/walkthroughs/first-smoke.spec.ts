import { expect } from '@playwright/test';
import { guardPage } from '../support/page-guard.ts';
import { browserFronts, test } from '../support/walk/demo-program.ts';
import { packAndFile, smokeABatch } from '../support/walk/first-smoke.ts';
import { makeSmokeLog } from '../support/walk/smoke-csv.ts';

/** A batch with a logger: more than this and the record won't be kept. */
const MOST_DEEDS = 40;

test('one batch goes from the fish coming in to labelled packs and its record, in at most 40 taps and entries', async ({ page, program }, info) => {
  const guard = await guardPage(page);
  const log = makeSmokeLog(Date.now() - 10 * 60_000);
  const fronts = await browserFronts(page, info);
  await page.goto(program.url);
  const hand = await smokeABatch(fronts, log);
  await packAndFile(fronts, hand, log);
  console.log(`One batch with a logger: ${hand.deeds.length} taps and entries.`);
  expect(hand.deeds.length, hand.deeds.join('\n')).toBeLessThanOrEqual(MOST_DEEDS);
  guard.expectQuiet();
});
