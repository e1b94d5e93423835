import { expect } from '@playwright/test';
import type { Page } from '@playwright/test';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { test } from '../support/walk/demo-program.ts';
import { scanSymbol } from '../support/walk/scan.ts';

/** The labels of the demonstration's packs for sale, on a stock. */
async function openLabels(page: Page, url: string, stock: string): Promise<void> {
  await page.goto(url);
  await page.locator('.row-button').first().click();
  await page.getByRole('link', { name: words.frame.places['packing-table'] }).click();
  await page.getByLabel(words.packingTable.stock).selectOption({ label: stock });
  await page.getByText(words.packingTable.preview).click();
  await expect(page.locator('.pack-label')).toHaveCount(12);
}

/** The height of one letter as it is drawn, in millimetres at 96 dots an inch. */
async function letterMm(page: Page, element: string, letter: string): Promise<number> {
  return page.locator(`.pack-label .${element}`).first().evaluate((block, shown) => {
    const style = getComputedStyle(block);
    const context = document.createElement('canvas').getContext('2d');
    if (context === null) throw new Error('no canvas');
    context.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
    const { actualBoundingBoxAscent, actualBoundingBoxDescent } = context.measureText(shown);
    return ((actualBoundingBoxAscent + Math.min(0, actualBoundingBoxDescent)) / 96) * 25.4;
  }, letter);
}

test('a label for sale fits its stock to the millimetre, with letters no lower than the rules ask', async ({ page, program }) => {
  const guard = await guardPage(page);
  await openLabels(page, program.url, '4 × 3 in');
  await expect(page.getByRole('button', { name: words.print.printAndKeep })).toBeEnabled();
  const box = await page.locator('.pack-label').first().boundingBox();
  expect(((box?.width ?? 0) / 96) * 25.4).toBeCloseTo(101.6, 1);
  expect(((box?.height ?? 0) / 96) * 25.4).toBeCloseTo(76.2, 1);
  // 21 CFR 101.2(c), from memory: lower-case “o” at least 1/16 in. 21 CFR 101.7(i), from memory: 3/16 in up to 100 square inches.
  expect(await letterMm(page, 'L04', 'o')).toBeGreaterThanOrEqual(25.4 / 16 - 0.02);
  expect(await letterMm(page, 'L03', 'N')).toBeGreaterThanOrEqual((25.4 * 3) / 16 - 0.02);
  const { text } = await scanSymbol(page.locator('.pack-label .symbol').last());
  await expect(page.locator('.pack-label').last()).toContainText(`Lot ${text}`);
  guard.expectQuiet();
});

test('a stock that can’t hold the words is refused in a sentence, and nothing is cut silently', async ({ page, program }) => {
  await openLabels(page, program.url, '2 × 1 in');
  await expect(page.getByRole('alert')).toHaveText(words.print.tooSmall('2 × 1 in'));
  await expect(page.getByRole('button', { name: words.print.printAndKeep })).toBeDisabled();
});
