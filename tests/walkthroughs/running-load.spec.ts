import { expect } from '@playwright/test';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { brineABatch, putIn } from '../support/walk/brine-batch.ts';
import { browserFronts, test } from '../support/walk/demo-program.ts';

const { smokehouse, alarms, chart, paper } = words;
const MINUTE_MS = 60_000;

test('a load that runs: keys and a sheet for paper, an alarm seen by name, the chart looked at closer', async ({ page, program }, info) => {
  const guard = await guardPage(page);
  const fronts = await browserFronts(page, info);
  const inMs = Date.now() - 4 * 60 * MINUTE_MS;
  await page.goto(program.url);
  const hand = await brineABatch(page, inMs);
  await putIn(hand, inMs);

  // Printed before anything is read, so that it can be copied from.
  await hand.tapWords('link', paper.sheet.titles.smoke);
  await hand.tapWords('button', paper.sheet.print);
  await expect(page.locator('.sheet-number')).toContainText('1');
  await expect.poll(() => fronts.countPrints()).toBe(1);
  await page.goBack();

  await hand.at(inMs + 150 * MINUTE_MS);
  await hand.tapWords('button', smokehouse.enter);
  const first = page.getByLabel(smokehouse.pieceName(1), { exact: true });
  await expect(first).toBeFocused();
  for (const key of ['1', '4', '6', 'point', '2']) await hand.tapWords('button', key);
  await hand.tapWords('button', paper.entry.next);
  await expect(first).toHaveValue('146.2');
  await expect(page.getByLabel(smokehouse.pieceName(2), { exact: true })).toBeFocused();
  await page.keyboard.type('147');
  await hand.tapWords('radio', smokehouse.entry.fromPaper);
  await hand.type(paper.entry.sheet, '9');
  await hand.tapWords('button', smokehouse.entry.keep);
  await expect(page.getByText('No sheet of this book has the number 9.').first()).toBeVisible();
  await hand.type(paper.entry.sheet, '1');
  await hand.tapWords('button', smokehouse.entry.keep);
  await expect(page.getByRole('status')).toHaveText(smokehouse.entry.kept(2));
  await hand.tapWords('button', words.parts.close);

  // By the program’s own clock the next round was due an hour ago.
  const bar = page.getByRole('region', { name: alarms.title });
  await expect(bar.getByText(alarms.kinds['round-overdue']).first()).toBeVisible();
  await expect(page.getByRole('link', { name: /^Load \d+: \d+ alarms?$/ })).toBeVisible();
  const buttons = bar.getByRole('button', { name: /^I have seen it/ });
  const before = await buttons.count();
  await buttons.first().click();
  await expect(buttons).toHaveCount(before - 1);
  await expect(bar.getByText(/Seen by [A-Z]+ at \d\d:\d\d\. Quiet until/)).toBeVisible();

  const plot = page.getByRole('slider', { name: chart.cursor });
  await plot.focus();
  await page.keyboard.press('+');
  await expect(page.getByRole('button', { name: chart.whole })).toBeEnabled();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('button', { name: chart.whole })).toBeDisabled();
  const box = await plot.boundingBox();
  if (box === null) throw new Error('the plot is not on the page');
  await page.mouse.move(box.x + box.width * 0.2, box.y + 60);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.8, box.y + 60, { steps: 5 });
  await page.mouse.up();
  await expect(page.getByRole('button', { name: chart.whole })).toBeEnabled();
  await hand.tapWords('button', chart.whole);
  await hand.tapWords('button', chart.inWords);
  await expect(page.getByText(new RegExp(`^${smokehouse.pieceName(1)}: one reading, 146\\.2 °F at `))).toBeVisible();
  guard.expectQuiet();
});
