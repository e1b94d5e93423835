import { expect } from '@playwright/test';
import { words } from '../../renderer/words/words.ts';
import { browserFronts, test } from '../support/walk/demo-program.ts';
import { packAndFile, smokeABatch } from '../support/walk/first-smoke.ts';
import { askFrom, chooseLabels, printPdf, showLabels } from '../support/walk/label-walk.ts';
import { readPdf } from '../support/walk/pdf.ts';
import { scanPicture } from '../support/walk/scan.ts';
import { makeSmokeLog } from '../support/walk/smoke-csv.ts';

/** The face's own table OS/2: capitals 668 of 1000. */
const CAPITAL = 0.668;
/** 9 CFR 317.16 for custom-prepared meat (read): “Not For Sale” in letters of 3/8 in. */
const LEAST_NOT_FOR_SALE_MM = (25.4 * 3) / 8;

test('the pack of a guest’s own catch says so in letters of 3/8 in, across the label, measured in the printed PDF', async ({ page, program, context }, info) => {
  const log = makeSmokeLog(Date.now() - 10 * 60_000);
  const fronts = await browserFronts(page, info);
  await page.goto(program.url);
  await packAndFile(fronts, await smokeABatch(fronts, log), log);
  const { batches } = await askFrom(page, 'batch.list', {});
  const guests = batches.find(({ stage, sourceKind }) => stage === 'released' && sourceKind === 'guest');
  await chooseLabels(page, { pouch: { width: '6', height: '8', unit: 'in' } });
  await showLabels(page, guests?.id ?? '', '4x6in');
  await page.getByLabel(words.labels.why).fill('measured');
  await expect(page.getByRole('button', { name: words.print.printAndKeep })).toBeEnabled();
  const printed = await readPdf(context, await printPdf(page), 203);
  const { packs } = await askFrom(page, 'pack.list', { batchId: guests?.id ?? '' });
  expect(printed).toHaveLength(packs.length);
  for (const [index, sheet] of printed.entries()) {
    const line = sheet.texts.find(({ text }) => text.includes('NOT FOR SALE'));
    expect((line?.typeMm ?? 0) * CAPITAL).toBeGreaterThanOrEqual(LEAST_NOT_FOR_SALE_MM);
    expect((line?.leftMm ?? 0) + (line?.widthMm ?? 0)).toBeLessThanOrEqual(sheet.widthMm);
    // Letters not more than three times as high as wide: 21 CFR 101.7(h)(1) (from memory).
    expect((line?.widthMm ?? 0) / 'NOT FOR SALE'.length).toBeGreaterThanOrEqual(((line?.typeMm ?? 0) * CAPITAL) / 3);
    const largest = Math.max(...sheet.texts.filter(({ text }) => text.trim() !== '').map(({ typeMm }) => typeMm));
    expect(sheet.texts.find(({ text }) => text.startsWith('Smoked Lake Trout'))?.typeMm).toBeGreaterThanOrEqual(largest / 2 - 0.02);
    expect((await scanPicture(sheet.png)).map(({ text }) => text)).toEqual([packs[index]?.code]);
  }
  await page.locator('.pack-label').first().screenshot({ path: info.outputPath('guest-label.png') });
});
