import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import type { Page } from '@playwright/test';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { startProgram } from '../support/program.ts';
import { browserFronts } from '../support/walk/demo-program.ts';
import { smokeABatch } from '../support/walk/first-smoke.ts';
import { Hand } from '../support/walk/hand.ts';
import { makeSmokeLog } from '../support/walk/smoke-csv.ts';

const { packingTable, coldStore, handOver, smokehouse, print, frame, parts } = words;
const { review } = packingTable.corrective;
/** So many weights can be typed before Enter. */
const FIELDS = 4;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const MINUTE_MS = 60_000;

async function goTo(page: Page, hash: string): Promise<void> {
  await page.evaluate((next) => { window.location.hash = next; }, hash);
}

/** Weighs packs from one number to another: a weight and Enter, or as many weights as there are fields and Enter. */
async function weigh(hand: Hand, from: number, to: number): Promise<void> {
  for (let number = from; number <= to; number += number === 1 ? 1 : Math.min(FIELDS, to - number + 1)) {
    const until = number === 1 ? 1 : Math.min(number + FIELDS - 1, to);
    for (let each = number; each <= until; each += 1) await hand.type(packingTable.packNumber(each), (0.28 + (each % 5) / 100).toFixed(2));
    await hand.page.keyboard.press('Enter');
    await expect(hand.page.getByLabel(packingTable.packNumber(until + 1), { exact: true })).toBeFocused();
  }
  await expect(hand.page.getByRole('status').filter({ hasText: `${to} packs, ` })).toBeVisible();
}

/** Puts every pack that lies on no tray yet onto one. */
async function trayAll(hand: Hand, spot: string): Promise<void> {
  await hand.tapWords('link', packingTable.portion.toStore);
  await expect(hand.page.getByText(coldStore.trays.count(12, 12))).toBeVisible();
  await hand.type(coldStore.trays.spot, spot);
  await hand.tapWords('button', coldStore.trays.put);
  await expect(hand.page.getByRole('heading', { name: / 12 packs here$/ }).first()).toBeVisible();
}

async function readFreezer(hand: Hand, instants: readonly number[]): Promise<void> {
  await goTo(hand.page, '#/cold-store');
  await hand.tap(hand.page.getByRole('link', { name: /Chest freezer/ }), 'the freezer');
  await hand.tapWords('button', coldStore.enter);
  for (const atMs of instants) {
    await hand.at(atMs);
    await hand.type('Chest freezer', '-6.0');
    await hand.tapWords('button', smokehouse.entry.keep);
    await expect(hand.page.getByLabel('Chest freezer', { exact: true }).first()).toHaveValue('');
  }
  await hand.tapWords('button', parts.close);
}

async function sign(page: Page): Promise<void> {
  const pad = page.locator('.signature-pad');
  await pad.scrollIntoViewIfNeeded();
  const box = await pad.boundingBox();
  if (box === null) throw new Error('no box to sign in');
  const at = (x: number, y: number): [number, number] => [box.x + box.width * x, box.y + box.height * y];
  await page.mouse.move(...at(0.1, 0.6));
  await page.mouse.down();
  for (const [x, y] of [[0.2, 0.2], [0.3, 0.8], [0.45, 0.3], [0.7, 0.7]] as const) await page.mouse.move(...at(x, y));
  await page.mouse.up();
  await expect(page.getByRole('button', { name: handOver.clear })).toBeEnabled();
}

test('24 packs go into the store on two trays; half are handed to the party that caught the fish, who sign for them', async ({ page }, info) => {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'alderbook-packs-'));
  const bookFile = path.join(folder, 'kitchen.alderbook');
  const guard = await guardPage(page);
  const fronts = await browserFronts(page, info);
  const packing = await startProgram({ bookFile, demo: true, shiftMs: -DAY_MS });
  await page.goto(packing.url);
  const sealedMs = Date.now() - DAY_MS;
  const hand = await smokeABatch(fronts, makeSmokeLog(sealedMs - 10 * MINUTE_MS));
  await hand.tapWords('button', smokehouse.toPacking);
  await hand.tapWords('button', /^On duty/);
  await hand.tap(page.locator('.row-button').filter({ hasText: frame.roles.manager }).first(), 'manager on duty');
  await hand.type(packingTable.reason, 'Record read through');
  await hand.tapWords('button', packingTable.decisions.release);
  await expect(page.getByText(/The label says: KEEP FROZEN/)).toBeVisible();
  await hand.at(Date.now() - DAY_MS);
  await weigh(hand, 1, 12);
  await trayAll(hand, 'shelf 1');
  await page.goBack();
  await hand.at(Date.now() - DAY_MS);
  await weigh(hand, 13, 24);
  await hand.tapWords('button', packingTable.portion.close);
  await hand.tapWords('button', packingTable.portion.keep);
  await hand.type(packingTable.portion.why, 'Nobody weighed it whole');
  await hand.tapWords('button', packingTable.portion.keep);
  await expect(page.getByText(/Why: Nobody weighed it whole/)).toBeVisible();
  await trayAll(hand, 'shelf 2');
  await page.goBack();
  await hand.tapWords('button', packingTable.preview);
  await expect(page.locator('.pack-label')).toHaveCount(24);
  await hand.tapWords('button', print.printAndKeep);
  await expect.poll(() => fronts.countPrints()).toBe(1);
  await hand.tapWords('button', print.back);
  const lot = /Lot (LT\w{7})/.exec(await page.locator('main').innerText())?.[1] ?? 'no lot';
  await hand.tapWords('link', frame.places['record-shelf']);
  await hand.tap(page.locator('.shelf-row').filter({ hasText: lot }), 'the batch on the shelf');
  await hand.tapWords('button', review.act('Ruth Okerlund'));
  await expect(page.getByText(new RegExp(review.trained)).first()).toBeVisible();
  expect(await packing.stop()).toBe(0);

  const giving = await startProgram({ bookFile });
  await page.goto(giving.url);
  const next = new Hand(page);
  await next.tap(page.locator('.row-button').filter({ hasText: frame.roles.manager }).first(), 'manager on duty');
  await readFreezer(next, [2, 10, 16, 23].map((hour) => sealedMs + hour * HOUR_MS));
  await goTo(page, '#/cold-store/trays');
  await next.at(sealedMs + 12 * HOUR_MS);
  for (const tray of ['Tray 1', 'Tray 2']) await next.tap(page.getByRole('button', { name: coldStore.trays.markWhat(coldStore.trays.mark.frozen, tray) }), `${tray} frozen`);
  await expect(page.locator('article').filter({ hasText: lot }).getByText(/frozen solid .* by touch/)).toHaveCount(2);

  await next.at(Date.now());
  await goTo(page, '#/cold-store/hand-over');
  await next.tap(page.getByRole('link', { name: /Ivo Brandt/ }), 'the guest');
  await expect(page.getByText(handOver.count(24, 24))).toBeVisible();
  await next.tapWords('button', handOver.noneOf);
  for (let serial = 1; serial <= 12; serial += 1) {
    await next.type(handOver.scan, `${lot}-${String(serial).padStart(3, '0')}`);
    await page.keyboard.press('Enter');
    await expect(page.getByText(handOver.count(serial, 24))).toBeVisible();
  }
  await next.type(handOver.scan, `${lot}-012`);
  await page.keyboard.press('Enter');
  await expect(page.getByText(coldStore.scan.twice(`${lot}-012`))).toBeVisible();
  await next.type(handOver.box, 'Foam box, two ice packs');
  await next.tapWords('button', handOver.give(12));
  await expect(page.getByText(/frozen hard was not checked\. How many hours they travel was not asked\. Nobody signed\. The sheet /).first()).toBeVisible();
  await next.tapWords('radio', handOver.hows.touch);
  await next.tapWords('radio', handOver.sheetYes);
  await next.type(handOver.hours, '6');
  await sign(page);
  await next.tapWords('button', handOver.give(12));
  await expect(page.getByText(handOver.done(12, 24, 'Ivo Brandt'))).toBeVisible();
  await expect(page.getByText(handOver.count(12, 12))).toBeVisible();

  await next.tapWords('button', handOver.printSheet);
  await expect(page.getByRole('heading', { name: words.guestSheet.steps.never.head })).toBeVisible();
  await expect(page.locator('.guest-packs li')).toHaveCount(12);
  await expect(page.locator('.guest-signed path')).toHaveAttribute('d', /^M[\d.,]+ L/);
  await goTo(page, '#/cold-store/stock');
  await expect(page.getByText(new RegExp(`^Lake Trout: 12 packs, `))).toBeVisible();
  await expect(page.getByText(new RegExp(`^Ivo Brandt: 12 packs, `))).toBeVisible();
  await next.type(coldStore.scan.field, `${lot}-001`);
  await page.keyboard.press('Enter');
  await expect(page.getByText(new RegExp(`${lot}-001.*handed to Ivo Brandt`)).first()).toBeVisible();
  guard.expectQuiet();
  expect(await giving.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});
