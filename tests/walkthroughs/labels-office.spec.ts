import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';
import { addressOf } from '../../renderer/frame/address.ts';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { test } from '../support/walk/demo-program.ts';
import { Hand } from '../support/walk/hand.ts';
import { askFrom, openDemo, releasedBatch, showLabels } from '../support/walk/label-walk.ts';

const text = words.labels.office;

async function findings(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.target.join(' ')}`));
}

test('a manager chooses how labels look and adds a stock, and both are there at the next print', async ({ page, program }, info) => {
  const guard = await guardPage(page);
  const hand = new Hand(page);
  await openDemo(page, program.url);
  await hand.tapWords('button', /^On duty/);
  await hand.tap(page.locator('.row-button').filter({ hasText: words.frame.roles.manager }).first(), 'manager on duty');
  await page.evaluate((hash) => { window.location.hash = hash; }, addressOf('office', 'labels'));
  await expect(page.getByText(text.pouchUnknown)).toBeVisible();

  await hand.tapWords('button', text.change);
  await hand.type(text.width, '6');
  await hand.type(text.height, '8');
  await hand.type(text.gtin, '9520123456789');
  await hand.tapWords('radio', text.marks.text);
  await hand.type(text.markText, 'Tamarack Narrows');
  expect(await findings(page)).toEqual([]);
  await page.screenshot({ path: info.outputPath('label-choice.png'), fullPage: true });
  await hand.tapWords('button', text.save);
  await expect(page.getByText('The check digit of trade item number “9520123456789” does not fit.').first()).toBeVisible();
  await hand.type(text.gtin, '9520123456788');
  await hand.tapWords('button', text.save);
  await expect(page.getByText(text.pouchSize('6', '8', text.units.in))).toBeVisible();

  await hand.tapWords('button', text.addStock);
  await hand.type(text.width, '4');
  await hand.type(text.height, '3 1/2');
  await hand.tapWords('button', text.save);
  await expect(page.getByText('4 × 3 1/2 in', { exact: true })).toBeVisible();

  const [stock] = (await askFrom(page, 'stock.list', {})).stocks;
  await showLabels(page, await releasedBatch(page), stock?.id ?? '');
  await expect(page.locator('.pack-label').first()).toContainText('Tamarack Narrows');
  await expect(page.getByRole('img', { name: /^\(01\)09520123456788\(3103\)\d{6}\(13\)/ }).first()).toBeVisible();
  await page.getByText(words.labels.checks).click();
  await expect(page.locator('.label-checks tbody tr')).toHaveCount(15);
  expect(await findings(page)).toEqual([]);
  await page.screenshot({ path: info.outputPath('label-preview.png'), fullPage: true });
  guard.expectQuiet();
});

test('a net weight that is wider than a long label is refused too: it isn’t broken', async ({ page, program }) => {
  await openDemo(page, program.url);
  const { stock } = await askFrom(page, 'label.saveStock', { stockId: null, draft: { name: '', width: '2', height: '8', unit: 'in', sheet: null } });
  await showLabels(page, await releasedBatch(page), stock.id);
  await expect(page.getByText(words.labels.tooSmall('2 × 8 in'))).toBeVisible();
  await expect(page.getByRole('button', { name: words.print.printAndKeep })).toBeDisabled();
});
