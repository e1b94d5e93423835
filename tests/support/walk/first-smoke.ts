/** One batch from the fish coming in to a labelled pack and its record, as the people of the demonstration kitchen would do it. */
import { expect } from '@playwright/test';
import type { Page } from '@playwright/test';
import { localTime } from '../../../app/measures/zone.ts';
import { words } from '../../../renderer/words/words.ts';
import { brineABatch } from './brine-batch.ts';
import type { Hand } from './hand.ts';
import { scanSymbol } from './scan.ts';
import type { SmokeLog } from './smoke-csv.ts';

/** The demonstration kitchen's own zone, for the one time that is typed. */
const ZONE = 'America/Chicago';

export interface Fronts {
  readonly page: Page;
  /** Taps the button that opens a file dialog and chooses this file in it. */
  chooseFile(tap: () => Promise<void>, fileName: string, text: string): Promise<void>;
  /** How many pages were printed so far; null where that can't be known. */
  countPrints(): Promise<number | null>;
}

/** Brined, smoked, and the logger's file imported; stops before the packing table. */
export async function smokeABatch(fronts: Fronts, log: SmokeLog): Promise<Hand> {
  const { page } = fronts;
  const { smokehouse } = words;
  const hand = await brineABatch(page, log.startMs);
  await hand.tapWords('radio', 'Stone smoker');
  await hand.tapWords('button', smokehouse.open);
  await hand.at(log.endMs + 60_000);
  await hand.tapWords('button', smokehouse.importFile);
  await fronts.chooseFile(() => hand.tapWords('button', smokehouse.importing.choose), 'smoke.csv', log.csv);
  await hand.tapWords('radio', smokehouse.importing.toCooled);
  await expect(page.getByLabel(smokehouse.importing.goesTo('Probe 2'))).not.toHaveValue('');
  await hand.type(smokehouse.importing.outAt, localTime(log.outMs, ZONE).clock);
  await hand.tapWords('button', smokehouse.importing.keep);
  await expect(page.getByRole('status')).toHaveText(/ readings imported/);
  return hand;
}

/** As `packAndShelve`, then compares every reading on the printed record with the logger's file. */
export async function packAndFile(fronts: Fronts, hand: Hand, log: SmokeLog): Promise<void> {
  const { page } = fronts;
  await packAndShelve(fronts, hand);
  await expect(page.locator('.print-table.readings tbody tr')).toHaveCount(log.pieces[0]?.length ?? 0);
  const middle = log.pieces[1]?.[200]?.toFixed(1) ?? 'none';
  await expect(page.locator('.print-table.readings tbody tr').nth(200).locator('td').nth(2)).toHaveText(middle);
}

/** From the packing table to the record: the manager releases, two packs are weighed, labelled and found on the shelf. */
export async function packAndShelve(fronts: Pick<Fronts, 'page' | 'countPrints'>, hand: Hand): Promise<void> {
  const { page } = fronts;
  const { smokehouse, packingTable, print, frame, recordShelf } = words;
  const lot = await readVerdict(page);
  await hand.tapWords('button', smokehouse.toPacking);
  await hand.tapWords('button', /^On duty/);
  await hand.tap(page.locator('.row-button').filter({ hasText: frame.roles.manager }).first(), 'manager on duty');
  await hand.type(packingTable.reason, 'Record read through');
  await hand.tapWords('button', packingTable.decisions.release);
  await expect(page.getByRole('heading', { name: packingTable.weights })).toBeVisible();
  await hand.at(Date.now());
  await hand.type(packingTable.packNumber(1), '0.753');
  await hand.type(packingTable.packNumber(2), '1.2');
  await hand.tapWords('button', packingTable.seal);
  await hand.tapWords('button', packingTable.preview);

  const label = page.locator('.pack-label').first();
  await expect(label.getByRole('img', { name: 'SPORT-CAUGHT - NOT FOR SALE' })).toBeVisible();
  const texts = await label.locator('.label-block').allInnerTexts();
  const lotCode = /Lot (LT\d{5}[A-Z][0-9A-Z])/.exec(texts.join('\n'))?.[1];
  expect(lot).toContain('Lake trout');
  expect(texts).toContain('NET WT 0.75 lb (341 g)');
  expect(texts).toContain('Ingredients: Lake Trout, salt.');
  expect(texts).toContain('Contains: Lake Trout.');
  expect(texts.join('\n')).toContain('Owner: Ivo Brandt');
  expect(await scanSymbol(label.locator('.symbol'))).toEqual({ text: `${lotCode}-001`, identifier: ']d1' });
  expect(await scanSymbol(page.locator('.pack-label .symbol').nth(1))).toMatchObject({ text: `${lotCode}-002` });
  const printsBefore = await fronts.countPrints();
  await hand.tapWords('button', print.printAndKeep);
  if (printsBefore !== null) await expect.poll(() => fronts.countPrints()).toBe(printsBefore + 1);

  await hand.tapWords('button', print.back);
  await hand.tapWords('link', frame.places['record-shelf']);
  await hand.tap(page.locator('.shelf-row').filter({ hasText: lotCode ?? 'no lot' }), 'the batch on the shelf');
  await expect(page.getByRole('heading', { name: new RegExp(lotCode ?? '') })).toBeVisible();
  await expect(page.getByText(/\d+ of \d+ limits of Lodge default/).first()).toBeVisible();
  await expect(page.getByText(recordShelf.chain(0, true).split(' 0 ')[1] ?? '', { exact: false })).toBeVisible();
  await hand.tapWords('button', recordShelf.print);
  await expect(page.locator('.print-table.readings tbody tr').first()).toBeVisible();
}

/** What the smokehouse says of the load: every check of heat and cooling with its word, and the record's figures. */
async function readVerdict(page: Page): Promise<string> {
  await expect(page.getByText(/^Core at 145 °F.*: meets/)).toBeVisible();
  await expect(page.getByText(/to 70 °F in 2 h.*: meets/)).toBeVisible();
  await expect(page.getByText(/3 of 3 pieces/)).toBeVisible();
  return page.locator('header.top').innerText().then(async (line) => `${line} ${await page.locator('.place').innerText()}`);
}

