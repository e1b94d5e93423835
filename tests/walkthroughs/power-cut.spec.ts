import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { startProgram } from '../support/program.ts';
import { brineABatch, putIn, readRound } from '../support/walk/brine-batch.ts';
import { Hand } from '../support/walk/hand.ts';

const { smokehouse, paper, frame } = words;
const MINUTE_MS = 60_000;
const OFF_MINUTES = 90;

test('after a power cut the load says what is lost and what to read now, and is quiet once it is read', async ({ page }) => {
  const guard = await guardPage(page);
  const bookFile = path.join(mkdtempSync(path.join(os.tmpdir(), 'alderbook-cut-')), 'kitchen.alderbook');
  const before = await startProgram({ bookFile, demo: true, shiftMs: -OFF_MINUTES * MINUTE_MS });
  await page.goto(before.url);
  const lastMs = Date.now() - OFF_MINUTES * MINUTE_MS;
  const hand = await brineABatch(page, lastMs - 60 * MINUTE_MS);
  await putIn(hand, lastMs - 60 * MINUTE_MS);
  await hand.tapWords('button', smokehouse.enter);
  for (const minute of [20, 10, 0]) await readRound(hand, lastMs - minute * MINUTE_MS, [146.4 - minute / 10, 146.9, 147.3]);
  await hand.tapWords('button', words.parts.close);
  const note = page.getByRole('region', { name: paper.after.title });
  await expect(page.getByText(smokehouse.nextReading)).toBeVisible();
  await expect(note).toHaveCount(0);
  // A page that is opened again is no power cut.
  await page.reload();
  await expect(page.getByText(smokehouse.nextReading)).toBeVisible();
  await expect(note).toHaveCount(0);
  // The page would tell of the lost link.
  await page.goto('about:blank');
  expect(await before.stop()).toBe(0);

  const after = await startProgram({ bookFile });
  await page.goto(after.url);
  const again = new Hand(page);
  await again.at(Date.now());
  await again.tap(page.locator('.row-button').filter({ hasText: frame.roles.chef }).first(), 'chef on duty');
  await page.evaluate(() => { window.location.hash = '#/smokehouse'; });
  await expect(note).toContainText(paper.after.readNow([1, 2, 3].map(smokehouse.pieceName).concat('Chamber').join(', ')));
  await expect(note).toContainText(paper.after.hold);
  await again.tapWords('button', smokehouse.enter);
  await readRound(again, Date.now(), [147.4, 147.9, 148.3]);
  await again.tapWords('button', words.parts.close);
  await expect(note).toHaveCount(0);
  guard.expectQuiet();
  expect(await after.stop()).toBe(0);
  rmSync(path.dirname(bookFile), { recursive: true, force: true });
});
