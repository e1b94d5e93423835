import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { expect, test as plainTest } from '@playwright/test';
import type { Page } from '@playwright/test';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { startProgram } from '../support/program.ts';
import { brineABatch, putIn, readRound } from '../support/walk/brine-batch.ts';
import { coldSmokeABatch } from '../support/walk/cold-smoke.ts';
import { browserFronts, test } from '../support/walk/demo-program.ts';
import { packAndShelve, smokeABatch } from '../support/walk/first-smoke.ts';
import { Hand } from '../support/walk/hand.ts';
import { makeSmokeLog } from '../support/walk/smoke-csv.ts';

const { smokehouse, packingTable, coldStore, instruments, worklist, parts } = words;
const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const DAY_MS = 24 * HOUR_MS;

async function goTo(page: Page, hash: string): Promise<void> {
  await page.evaluate((next) => { window.location.hash = next; }, hash);
}

test('a gap breaks the hold while the fish still cooks: the chef sees what is missing, goes on, and it is met', async ({ page, program }) => {
  const guard = await guardPage(page);
  const inMs = Date.now() - 6 * HOUR_MS;
  await page.goto(program.url);
  const hand = await brineABatch(page, inMs);
  await putIn(hand, inMs);
  await hand.tapWords('button', smokehouse.enter);
  // Two rounds ten minutes apart, then nobody for half an hour.
  for (const minute of [150, 160, 190]) await readRound(hand, inMs + minute * MINUTE_MS, [146.4, 146.9, 147.3]);
  await hand.tapWords('button', parts.close);
  const hold = page.locator('.verdict').filter({ hasText: /Core at 145 °F/ });
  await expect(hold).toContainText(`: ${words.verdict.names.open}`);
  await expect(page.getByText(/10 of 30 min/).first()).toBeVisible();
  await expect(page.getByText(smokehouse.nextReading)).toBeVisible();
  await hand.tapWords('button', smokehouse.enter);
  for (const minute of [200, 210, 220]) await readRound(hand, inMs + minute * MINUTE_MS, [147.4, 147.9, 148.3]);
  await hand.tapWords('button', parts.close);
  await expect(hold).toContainText(`: ${words.verdict.names.meets}`);
  guard.expectQuiet();
});

/** Reads the freezer every ten hours from one instant up to another, by hand. */
async function readFreezer(hand: Hand, fromMs: number, toMs: number): Promise<void> {
  await goTo(hand.page, '#/cold-store');
  await hand.tap(hand.page.getByRole('link', { name: /Chest freezer/ }).or(hand.page.getByRole('button', { name: /Chest freezer/ })).first(), 'the freezer');
  await hand.tapWords('button', coldStore.enter);
  for (let atMs = fromMs; atMs <= toMs; atMs += 10 * HOUR_MS) {
    await hand.at(atMs);
    await hand.type('Chest freezer', '-6.0');
    await hand.tapWords('button', smokehouse.entry.keep);
    await expect(hand.page.getByLabel('Chest freezer', { exact: true }).first()).toHaveValue('');
  }
  await hand.at(toMs);
  await hand.tapWords('button', parts.close);
}

async function markInFreezer(hand: Hand, what: 'into-freezer' | 'frozen', atMs: number): Promise<void> {
  await goTo(hand.page, '#/cold-store');
  await hand.at(atMs);
  const row = hand.page.locator('article').filter({ hasText: 'Lake Trout' }).first();
  await hand.tap(row.getByRole('button', { name: coldStore.marks[what] }), coldStore.marks[what]);
  await expect(row.getByText(new RegExp(`^${coldStore.marks[what]} `))).toBeVisible();
}

async function expectParasite(hand: Hand, state: 'open' | 'meets'): Promise<void> {
  await goTo(hand.page, '#/packing-table');
  await hand.tap(hand.page.locator('nav.row a').filter({ hasText: /^LT/ }).first(), 'the batch');
  await expect(hand.page.locator('.verdict').filter({ hasText: /for 168 h, unbroken/ }).first()).toContainText(`: ${words.verdict.names[state]}`);
}

plainTest('a cold-smoked batch waits for its parasite freezing: packed at once, and leaving only after seven days', async ({ page }, info) => {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'alderbook-cold-'));
  const bookFile = path.join(folder, 'kitchen.alderbook');
  const outMs = Date.now() - 8 * DAY_MS - 10 * MINUTE_MS;
  const smoking = await startProgram({ bookFile, demo: true, shiftMs: -8 * DAY_MS });
  const fronts = await browserFronts(page, info);
  await page.goto(smoking.url);
  const { hand } = await coldSmokeABatch(fronts, outMs - 10 * HOUR_MS, () => Date.now() - 8 * DAY_MS);
  await markInFreezer(hand, 'into-freezer', Date.now() - 8 * DAY_MS);
  expect(await smoking.stop()).toBe(0);

  const waiting = await startProgram({ bookFile, shiftMs: -5 * DAY_MS });
  await page.goto(waiting.url);
  const half = new Hand(page);
  await half.tap(page.locator('.row-button').filter({ hasText: words.frame.roles.manager }).first(), 'manager on duty');
  await markInFreezer(half, 'frozen', outMs + 12 * HOUR_MS);
  await readFreezer(half, outMs + 10 * MINUTE_MS, outMs + 3 * DAY_MS);
  await expectParasite(half, 'open');
  await expect(page.locator('.note').filter({ hasText: new RegExp(`^${packingTable.gate.leave}:`) })).toContainText('168 h so far');
  expect(await waiting.stop()).toBe(0);

  const done = await startProgram({ bookFile });
  await page.goto(done.url);
  const whole = new Hand(page);
  await whole.tap(page.locator('.row-button').filter({ hasText: words.frame.roles.manager }).first(), 'manager on duty');
  await readFreezer(whole, outMs + 10 * MINUTE_MS + 80 * HOUR_MS, outMs + 8 * DAY_MS);
  await expectParasite(whole, 'meets');
  await expect(page.locator('.note').filter({ hasText: new RegExp(`^${packingTable.gate.leave}:`) })).not.toContainText('parasite');
  expect(await done.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});

test('a probe that read high is found the next day: the released batch comes back as work', async ({ page, program }, info) => {
  const guard = await guardPage(page);
  const fronts = await browserFronts(page, info);
  await page.goto(program.url);
  const hand = await smokeABatch(fronts, makeSmokeLog(Date.now() - 10 * MINUTE_MS));
  await packAndShelve(fronts, hand);
  await goTo(page, '#/office/thermometers');
  const probe = page.locator('.instrument-row').filter({ hasText: 'Stone probe 2' });
  await hand.tap(page.getByRole('button', { name: 'Check Stone probe 2' }), 'check the probe');
  await hand.type(instruments.ice, '37.5');
  await hand.tapWords('button', instruments.keep);
  await expect(page.locator('.instrument-row').filter({ hasText: /5\.5 °F high/ })).toBeVisible();
  await expect(probe).toBeVisible();
  await goTo(page, '#/packing-table');
  const list = page.getByRole('region', { name: worklist.title });
  await expect(list).toContainText('HOT-145-30');
  await expect(list).toContainText('-001');
  await hand.tap(list.getByRole('link', { name: worklist.open }).first(), 'the batch');
  await hand.type(packingTable.reason, 'Probe read high');
  await hand.tapWords('button', packingTable.decisions.hold);
  await expect(page.getByText(/^On HOLD .*: Probe read high$/)).toBeVisible();
  await hand.tap(list.getByRole('button', { name: /Find these packs/ }), 'the packs are found');
  await hand.type(worklist.how, 'Both in the red tub, walk-in');
  await hand.tapWords('button', worklist.keep);
  await expect(list).toContainText('Both in the red tub, walk-in');
  guard.expectQuiet();
});
