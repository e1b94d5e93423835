import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import type { Page } from '@playwright/test';
import { extractText, getDocumentProxy } from 'unpdf';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { startProgram, type RunningProgram } from '../support/program.ts';
import { Hand } from '../support/walk/hand.ts';

const ROOT = path.resolve(import.meta.dirname, '..', '..');
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const { brineBench, taste, firstScreen, fishIn, coldStore, smokehouse } = words;

let folder: string;
test.beforeEach(() => { folder = mkdtempSync(path.join(os.tmpdir(), 'alderbook-taste-')); });
test.afterEach(() => { rmSync(folder, { recursive: true, force: true }); });

/** A kitchen of its own in kilograms and °C, with one chef. */
async function startOwnBook(hand: Hand): Promise<void> {
  await hand.tapWords('button', firstScreen.own);
  await hand.type(firstScreen.kitchenName, 'Lantern Bay Kitchen');
  await hand.type(firstScreen.city, 'Lantern Bay');
  await hand.type(firstScreen.region, 'Minnesota');
  await hand.tapWords('radio', '°C');
  await hand.tapWords('radio', 'kg');
  await hand.type(firstScreen.initials, 'AL');
  await hand.tapWords('button', firstScreen.start);
  await hand.tap(hand.page.locator('.row-button').first(), 'on duty');
}

async function putIn(hand: Hand, ingredient: string, weight: string): Promise<void> {
  await hand.tapWords('radio', ingredient);
  await hand.type(taste.weighed, weight);
  await hand.tapWords('button', taste.addNow(ingredient));
  await expect(hand.page.getByLabel(taste.weighed)).toHaveValue('');
}

/** Mixed by taste: each thing weighed, one slip struck out, the float read, and kept as a recipe. */
async function captureBrine(hand: Hand): Promise<void> {
  const { page } = hand;
  await page.evaluate(() => { window.location.hash = '#/brine-bench'; });
  await hand.tapWords('link', brineBench.links.taste);
  await hand.type(taste.name, 'Dock brine');
  await hand.tapWords('button', taste.start);
  await putIn(hand, 'Water', '10000');
  await putIn(hand, 'Salt', '900');
  await expect(page.locator('.strength-figure')).toHaveText(/^31\./);
  await hand.tap(page.getByRole('button', { name: taste.strike('Salt', '900 g') }), 'strike out the slip');
  await expect(page.locator('.strength-figure')).toHaveText('0.0');
  await putIn(hand, 'Salt', '640');
  await putIn(hand, 'Brown sugar', '300');
  await hand.tapWords('radio', taste.running);
  await putIn(hand, 'Soy sauce (shoyu)', '12140');
  await expect(page.locator('.taste-lines tr').filter({ hasText: 'Soy sauce (shoyu)' })).toContainText('1200');
  await hand.type(taste.floatShows, '32');
  await hand.type(taste.brineTemperature, '4');
  await hand.tapWords('button', taste.floatKeep);
  await expect(page.getByText(/The last reading means \d/)).toBeVisible();
  await hand.tapWords('button', taste.keep);
  await hand.type(taste.soakHours, '6');
  await hand.type(taste.turnHours, '2, 4');
  await hand.tapWords('button', taste.keepIt);
  await expect(page.getByRole('heading', { name: 'Dock brine' })).toBeVisible();
}

/** The next day: 12.5 kg of fillets, and the card. */
async function makeBatch(hand: Hand): Promise<void> {
  const { page } = hand;
  await page.evaluate(() => { window.location.hash = '#/fish-in'; });
  await hand.tapWords('radio', fishIn.supplier);
  await hand.type(fishIn.supplierName, 'Outer Bar Fish Cooperative');
  await hand.type(fishIn.supplierLot, 'OB-4471');
  await hand.pick(fishIn.species, 'Lake trout');
  await hand.type(fishIn.weight, '13.1');
  await hand.type(fishIn.pieces, '20');
  await hand.type(fishIn.temperature, '1.5');
  await hand.tapWords('button', fishIn.receive);
  await hand.tapWords('link', fishIn.toBench);
  await hand.tap(page.getByRole('button', { name: /Lake trout/ }).first(), 'the lot');
  await hand.type(brineBench.fillets, '12.5');
  await hand.type(brineBench.thickest, '32');
  await hand.tapWords('radio', 'Dock brine');
  await hand.tapWords('button', brineBench.make);
  await expect(page.getByRole('heading', { name: /Dock brine, for 12\.50 kg of / })).toBeVisible();
}

/** The salometer degrees that the page shows largest. */
async function strengthShown(page: Page): Promise<number> {
  return Number(/[\d.]+/.exec((await page.locator('.strength-figure').first().textContent()) ?? '')?.[0]);
}

/** Every weight and the strength of the card on the page stand in the text of the printed page, which is one page. */
async function comparePrint(page: Page): Promise<void> {
  const lines = await page.locator('.card-lines tbody tr').evaluateAll((rows) => rows.map((row) => ({ name: row.querySelector('th')?.textContent ?? '', figure: row.querySelector('.figure')?.textContent ?? '' })));
  expect(lines.length).toBeGreaterThanOrEqual(5);
  const batchHash = await page.evaluate(() => window.location.hash);
  await page.getByRole('button', { name: brineBench.printCard }).click();
  await expect(page.locator('.card-sheet')).toBeVisible();
  const pdf = await getDocumentProxy(new Uint8Array(await page.pdf({ preferCSSPageSize: true, printBackground: true })));
  const { totalPages, text } = await extractText(pdf, { mergePages: true });
  expect(totalPages).toBe(1);
  const plain = text.replaceAll(/\s+/g, ' ');
  for (const { name, figure } of lines) {
    expect(plain).toContain(name);
    expect(plain).toContain(/^[\d.]+/.exec(figure)?.[0] ?? 'no figure');
  }
  expect(plain).toContain(brineBench.salometer);
  expect(plain).toContain('12.50 kg');
  await page.evaluate((hash) => { window.location.hash = hash; }, batchHash);
}

async function readCooler(hand: Hand, atMs: number, celsius: string): Promise<void> {
  const { page } = hand;
  await hand.at(atMs);
  await page.evaluate(() => { window.location.hash = '#/cold-store'; });
  await hand.tap(page.getByRole('link', { name: /Walk-in/ }).or(page.getByRole('button', { name: /Walk-in/ })).first(), 'the cooler');
  await hand.tapWords('button', coldStore.enter);
  await page.getByRole('dialog').getByRole('textbox').first().fill(celsius);
  await hand.tapWords('button', smokehouse.entry.keep);
  await expect(page.getByText(smokehouse.entry.kept(1))).toBeVisible();
  await page.getByRole('dialog').getByRole('button', { name: words.parts.close }).click();
  await expect(page.getByRole('dialog')).toHaveCount(0);
}

/** Leaves the page first, which would miss the program, and ends it. */
async function closeBook(page: Page, program: RunningProgram): Promise<void> {
  await page.goto('about:blank');
  expect(await program.stop()).toBe(0);
}

test('a brine mixed by taste becomes a recipe, is scaled the next day, printed, mended, and its soak is judged by the cooler’s own record', async ({ page }) => {
  test.setTimeout(120_000);
  const guard = await guardPage(page);
  const bookFile = path.join(folder, 'kitchen.alderbook');
  const hand = new Hand(page);

  const yesterday = await startProgram({ bookFile, shiftMs: -DAY_MS });
  await hand.at(Date.now() - DAY_MS);
  await page.goto(yesterday.url);
  await startOwnBook(hand);
  await captureBrine(hand);
  await closeBook(page, yesterday);
  execFileSync(process.execPath, ['main/start/run.mjs', 'ask', '--book', bookFile, '--as', 'AL', 'office.addPlace', '{"name":"Walk-in","kind":"cooler"}'], { cwd: ROOT });

  const morning = await startProgram({ bookFile, shiftMs: -7 * HOUR_MS });
  const startMs = Date.now() - 7 * HOUR_MS;
  await hand.at(startMs);
  await page.goto(morning.url);
  await hand.tap(page.locator('.row-button').first(), 'on duty');
  await makeBatch(hand);
  const batchHash = await page.evaluate(() => window.location.hash);
  const before = await strengthShown(page);
  await comparePrint(page);

  // A figure tells how it was worked out and from which source.
  await hand.tap(page.getByRole('button', { name: /: how it was worked out/ }).first(), 'a figure');
  await expect(page.getByRole('dialog').getByText(brineBench.explain.source)).toBeVisible();
  await page.keyboard.press('Escape');

  // The tub came out too salty: a float says so.
  await hand.at(startMs + 60_000);
  await hand.tap(page.getByRole('link', { name: brineBench.mend.open }).or(page.getByRole('button', { name: brineBench.mend.open })).first(), brineBench.mend.open);
  await hand.tap(page.getByText(brineBench.mend.kinds['too-strong'], { exact: true }).first(), 'too strong');
  await hand.type(brineBench.mend.floatShows, '48');
  await hand.type(brineBench.mend.brineTemperature, '4');
  await expect(page.getByText(brineBench.mend.planTitle)).toBeVisible();
  await hand.tapWords('button', brineBench.mend.done);
  await expect(page.getByText(brineBench.mend.mendedTitle)).toBeVisible();
  expect(Math.abs((await strengthShown(page)) - before)).toBeLessThan(2);

  // Into the brine in the cooler, whose own record goes over the limit.
  await hand.at(startMs + 2 * 60_000);
  await hand.tapWords('radio', 'Walk-in');
  await hand.type(brineBench.brineTemperature, '3.2');
  await hand.tapWords('button', brineBench.start);
  await expect(page.getByText(/^Started /)).toBeVisible();
  await closeBook(page, morning);
  const now = await startProgram({ bookFile });
  await hand.at(startMs + HOUR_MS / 5);
  await page.goto(now.url);
  await hand.tap(page.locator('.row-button').first(), 'on duty');
  for (const [hours, celsius] of [[0.2, '2.9'], [2, '3.0'], [3.5, '4.9'], [5, '3.1'], [5.9, '3.0']] as const) await readCooler(hand, startMs + hours * HOUR_MS, celsius);
  await page.evaluate((hash) => { window.location.hash = hash; }, batchHash);
  await hand.at(startMs + 6 * HOUR_MS);
  await hand.tapWords('button', brineBench.end);
  await expect(page.getByText(/^Ended /)).toBeVisible();
  await expect(page.locator('.verdict').filter({ hasText: words.verdict.names.misses }).filter({ hasText: '38 °F' })).toContainText('Walk-in');

  await closeBook(page, now);
  expect([...yesterday.faults, ...morning.faults, ...now.faults]).toEqual([]);
  guard.expectQuiet();
});
