import { expect } from '@playwright/test';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { brineABatch, putIn, readRound } from '../support/walk/brine-batch.ts';
import { test } from '../support/walk/demo-program.ts';
import { packAndShelve } from '../support/walk/first-smoke.ts';

const { smokehouse } = words;
const MINUTE_MS = 60_000;
/** A batch by hand: more than this and the record won't be kept. */
const MOST_DEEDS = 80;
/** Minute and what the three pieces show, the fish in at minute 0: as the screen asks for it. */
const COOK = [[150, 146.4, 146.9, 147.3], [160, 146.8, 147.2, 148.1], [170, 147.9, 148.0, 148.8], [180, 148.6, 148.9, 149.3]] as const;
const COOLING = [[192, 133.0, 131.5, 130.2], [260, 68.4, 68.0, 67.1], [365, 52.0, 51.4, 50.2], [425, 39.0, 38.6, 38.1]] as const;
const OUT_MINUTE = 181;

test('a batch read by hand at the moments the screen names is proven, released and packed in at most 80 taps and entries', async ({ page, program }) => {
  const guard = await guardPage(page);
  const inMs = Date.now() - 8 * 60 * MINUTE_MS;
  await page.goto(program.url);
  const hand = await brineABatch(page, inMs);
  await putIn(hand, inMs);

  await hand.tapWords('button', smokehouse.enter);
  for (const [minute, ...values] of COOK) await readRound(hand, inMs + minute * MINUTE_MS, values);
  await hand.tapWords('button', words.parts.close);
  await expect(page.getByText(/^Core at 145 °F.*: meets$/)).toBeVisible();
  await hand.at(inMs + OUT_MINUTE * MINUTE_MS);
  await hand.tapWords('button', smokehouse.takeOut);
  await expect(page.getByText(smokehouse.nextReading)).toBeVisible();

  await hand.tapWords('button', smokehouse.enter);
  for (const [minute, ...values] of COOLING) await readRound(hand, inMs + minute * MINUTE_MS, values);
  await hand.tapWords('button', words.parts.close);
  await expect(page.getByText(/to 70 °F in 2 h.*: meets$/)).toBeVisible();
  await hand.tapWords('button', smokehouse.cooled);
  await packAndShelve({ page, countPrints: () => Promise.resolve(null) }, hand);
  console.log(`One batch by hand: ${hand.deeds.length} taps and entries.`);
  expect(hand.deeds.length, hand.deeds.join('\n')).toBeLessThanOrEqual(MOST_DEEDS);
  guard.expectQuiet();
});
