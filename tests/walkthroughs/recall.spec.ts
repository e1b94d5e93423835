/** From one pack in the hand to every pack found: a batch in 24 packs, half with a party, half in the freezer. */
import { expect, type Page } from '@playwright/test';
import readWorkbook from 'read-excel-file/node';
import { EVENT_COLUMNS } from '../../app/packs/trace-events.ts';
import { addressOf } from '../../renderer/frame/address.ts';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { test } from '../support/walk/demo-program.ts';
import { askFrom, openDemo, printPdf, releasedBatch } from '../support/walk/label-walk.ts';
import { readPdf, wordsOf } from '../support/walk/pdf.ts';

const { trace, recall } = words;
const HOUR_MS = 3_600_000;
const PARTY = 'Hollis party';

interface Packed {
  readonly batchId: string;
  readonly codes: readonly string[];
}

/** As many packs more as make 24; twelve go to a party, twelve lie in the freezer. */
async function packTwentyFour(page: Page): Promise<Packed> {
  const batchId = await releasedBatch(page);
  const sealedMs = Date.now() - 22 * HOUR_MS;
  const there = (await askFrom(page, 'pack.list', { batchId })).packs.length;
  const { packs: more } = await askFrom(page, 'pack.seal', { batchId, sealedAtMs: sealedMs, weights: Array.from({ length: 24 - there }, () => ({ text: '0.1', unit: 'lb' as const })) });
  await askFrom(page, 'label.printed', { packIds: more.map(({ id }) => id), stockId: '4x3in' });
  const { packs } = await askFrom(page, 'pack.list', { batchId });
  const { places } = await askFrom(page, 'office.get', {});
  const freezer = places.find(({ kind }) => kind === 'freezer');
  const { fates } = await askFrom(page, 'record.batch', { batchId });
  const lastOf = new Map(fates.map(({ packId, moves }) => [packId, moves.at(-1)?.what]));
  const atTable = packs.filter(({ id }) => lastOf.get(id) === undefined);
  const given = fates.filter(({ moves }) => moves.at(-1)?.what === 'handed-over').length;
  // What is at the table goes onto a tray and freezes; so many of it go to the party that twelve are with guests.
  const theirs = atTable.slice(0, Math.max(1, 12 - given));
  const { tray } = await askFrom(page, 'tray.make', { batchId, name: 'Second tray', packIds: atTable.map(({ id }) => id), placeId: freezer?.id ?? '', spot: 'basket 2', atMs: sealedMs, probe: null });
  const readAt = [0, 6, 12, 17, 21.9].map((hour) => Math.round(sealedMs + hour * HOUR_MS));
  await askFrom(page, 'readings.enter', { how: 'by-hand', readings: readAt.map((atMs) => ({ pointId: freezer?.id ?? '', atMs, value: { text: '-8', unit: 'F' }, instrumentId: null })) });
  await askFrom(page, 'tray.mark', { trayId: tray.id, what: 'frozen', atMs: sealedMs + 12 * HOUR_MS, how: 'touch' });
  const { guest } = await askFrom(page, 'guest.save', { guestId: null, draft: { kind: 'party', name: PARTY, contact: '555 0177', address: '', room: '4', checkoutDay: null } });
  await giveTo(page, guest.id, theirs.map(({ id }) => id));
  return { batchId, codes: packs.map(({ code }) => code) };
}

async function giveTo(page: Page, guestId: string, packIds: string[]): Promise<void> {
  await askFrom(page, 'handOver.make', {
    guestId, packIds, atMs: Date.now(), frozenHard: { how: 'touch', reading: null }, box: 'foam box', travelHours: '5',
    signature: { path: 'M20,120 L80,40 L140,150 L220,60', name: 'Ada Hollis' }, sheetGiven: true, why: '',
  });
}

async function openTrace(page: Page, text: string): Promise<void> {
  await page.evaluate((address) => { window.location.hash = address; }, addressOf('record-shelf'));
  await page.getByLabel(trace.find).fill(text);
  await page.getByLabel(trace.find).press('Enter');
}

test('from one scanned pack a drill finds all 24, and the result is kept and printed', async ({ page, program, context }) => {
  const guard = await guardPage(page);
  await openDemo(page, program.url);
  const { codes } = await packTwentyFour(page);

  await openTrace(page, codes[0] ?? '');
  await expect(page.getByRole('heading', { name: trace.title(codes[0] ?? '') })).toBeVisible();
  await expect(page.getByRole('img', { name: trace.picture })).toBeVisible();
  await expect(page.getByRole('heading', { name: trace.parts.source })).toBeVisible();

  await page.getByRole('button', { name: trace.drill }).click();
  await expect(page.getByText(recall.accounted(0, 24))).toBeVisible();
  await expect(page.locator('.recall-pack')).toHaveCount(24);

  // Two are scanned as they are found; the rest is ticked where the book has it.
  for (const code of codes.slice(-2)) {
    await page.getByLabel(recall.scan).fill(code);
    await page.getByLabel(recall.scan).press('Enter');
    await expect(page.getByRole('button', { name: recall.takeBackOf(code) })).toBeVisible();
  }
  const open = page.getByRole('button', { name: /: Tick (?:these|this)/ });
  for (let left = await open.count(); left > 0; left -= 1) {
    const name = (await open.first().getAttribute('aria-label')) ?? '';
    const where = name.startsWith('handed to') ? 'with-them' : name.startsWith('served') ? 'served' : name.startsWith('destroyed') ? 'destroyed' : 'in-store';
    expect(name.endsWith(`: ${recall.wheres[where]}`), name).toBe(true);
    await open.first().click();
    await expect(open).toHaveCount(left - 1);
  }
  await expect(page.getByText(recall.accounted(24, 24))).toBeVisible();
  for (const button of await page.getByRole('button', { name: new RegExp(`^${recall.reachedOf('')}`) }).all()) await button.click();
  await expect(page.getByRole('button', { name: new RegExp(`^${recall.reachedOf('')}`) })).toHaveCount(0);
  await page.getByLabel(recall.finishNote).fill('All found; nothing to mend.');
  await page.getByRole('button', { name: recall.finishNow }).click();
  await expect(page.getByText('All found; nothing to mend.')).toBeVisible();

  await page.getByRole('link', { name: trace.links.recalls }).click();
  await expect(page.locator('.shelf-row').first()).toContainText('24 packs, 100 % accounted for');
  await page.locator('.shelf-row').first().click();
  await page.getByRole('button', { name: recall.print, exact: true }).click();
  await expect(page.getByRole('heading', { name: recall.sheet.balance })).toBeVisible();
  const sheets = await readPdf(context, await printPdf(page), 72);
  const printed = sheets.map(wordsOf);
  for (const code of codes) expect(printed.join(' ')).toContain(code);
  for (const [index, text] of printed.entries()) expect(text).toContain(`page ${index + 1} of ${sheets.length}`);
  guard.expectQuiet();
});

test('the batch record is one print with numbered pages, the signature’s name, complaints and every pack', async ({ page, program, context }) => {
  const guard = await guardPage(page);
  await openDemo(page, program.url);
  const { batchId, codes } = await packTwentyFour(page);
  await page.evaluate((address) => { window.location.hash = address; }, addressOf('record-shelf', batchId));
  await page.getByRole('button', { name: trace.complaints.add }).click();
  await page.getByLabel(trace.complaints.from).fill('Ada Hollis');
  await page.getByLabel(trace.complaints.what).fill('One bag was not tight.');
  await page.getByLabel(trace.complaints.pack).selectOption({ label: codes[3] ?? '' });
  await page.getByRole('button', { name: trace.complaints.keep }).click();
  await expect(page.getByText('One bag was not tight.').first()).toBeVisible();
  await page.getByRole('button', { name: words.recordShelf.print }).click();
  await expect(page.locator('.print-table.readings tbody tr').first()).toBeVisible();
  await page.evaluate(() => document.fonts.ready);
  const sheets = await readPdf(context, await printPdf(page), 72);
  const printed = sheets.map(wordsOf);
  expect(sheets.length).toBeGreaterThan(2);
  for (const [index, text] of printed.entries()) expect(text).toContain(`page ${index + 1} of ${sheets.length}`);
  const whole = printed.join(' ');
  for (const wanted of ['Ada Hollis', PARTY, 'One bag was not tight.', 'SHA-256', ...codes]) expect(whole).toContain(wanted);
  guard.expectQuiet();
});

test('the traceability table is saved as a workbook that another program opens', async ({ page, program }) => {
  const guard = await guardPage(page);
  await openDemo(page, program.url);
  await page.evaluate((address) => { window.location.hash = address; }, addressOf('record-shelf', 'export'));
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: trace.exports.make }).click();
  const saved = await saving;
  expect(saved.suggestedFilename()).toMatch(/^traceability-\d{4}-\d\d-\d\d-to-\d{4}-\d\d-\d\d\.xlsx$/);
  const [sheet] = await readWorkbook((await saved.path()) ?? '');
  expect(sheet?.data[0]).toEqual([...EVENT_COLUMNS]);
  expect(sheet?.data.map((row) => row[0])).toContain('TRANSFORM');
  guard.expectQuiet();
});
