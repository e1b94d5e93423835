import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from '@playwright/test';
import type { Page } from '@playwright/test';
import { PLACES } from '../../renderer/frame/address.ts';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { startProgram, type RunningProgram } from '../support/program.ts';

let program: RunningProgram;

test.beforeAll(async () => {
  program = await startProgram({ demo: true });
});
test.afterAll(async () => {
  expect(await program.stop()).toBe(0);
});

/** What axe finds on the page as it stands, one line a finding. */
async function findings(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.flatMap((violation) => violation.nodes.map((node) => `${violation.id}: ${node.target.join(' ')} ${node.failureSummary ?? ''}`));
}

/** Pages of a place that have an address of their own. */
const DEEPER = [
  'brine-bench/taste', 'brine-bench/recipes', 'brine-bench/recipes/narrows-house-brine', 'brine-bench/ingredients', 'brine-bench/strength',
  'office/thermometers', 'office/feeds', 'office/papers', 'office/limits', 'office/labels', 'office/kitchen',
];

/** Tab by tab, and the deeper pages that a place opens into. */
async function scanEverything(page: Page): Promise<void> {
  for (const place of [...PLACES, ...DEEPER]) {
    await page.evaluate((name) => {
      window.location.hash = `#/${name}`;
    }, place);
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    expect(await findings(page), place).toEqual([]);
  }
  await page.getByRole('link', { name: words.frame.places['brine-bench'] }).click();
  await page.locator('a.chip').first().click();
  await expect(page.getByText(words.brineBench.printCard)).toBeVisible();
  expect(await findings(page), 'brine card').toEqual([]);
  await page.getByRole('link', { name: words.frame.places.smokehouse }).click();
  await page.getByRole('link', { name: /load 1$/ }).click();
  await expect(page.locator('.recharts-surface').first()).toBeVisible();
  expect(await findings(page), 'load').toEqual([]);
  await page.getByRole('link', { name: words.frame.places['packing-table'] }).click();
  await page.getByRole('link', { name: /on HOLD/ }).click();
  await expect(page.getByText(words.packingTable.states.blocked).first()).toBeVisible();
  expect(await findings(page), 'held batch').toEqual([]);
  await page.getByRole('link', { name: words.frame.places['record-shelf'] }).click();
  await page.locator('.shelf-row').last().click();
  await expect(page.getByText(words.recordShelf.print)).toBeVisible();
  expect(await findings(page), 'record').toEqual([]);
}

const SCREENS = [{ width: 1280, height: 800 }, { width: 820, height: 1180 }] as const;

test('axe finds nothing on any place, by day and by night, on a desk and on a tablet', async ({ browser }) => {
  test.setTimeout(240_000);
  const context = await browser.newContext({ viewport: SCREENS[0], colorScheme: 'light' });
  const page = await context.newPage();
  const guard = await guardPage(page);
  await page.goto(program.url);
  await expect(page.getByRole('dialog')).toBeVisible();
  expect(await findings(page), 'who is on duty').toEqual([]);
  await page.locator('.row-button').first().click();
  for (const screen of SCREENS) {
    await page.setViewportSize(screen);
    await scanEverything(page);
    await page.getByRole('button', { name: words.frame.night }).click();
    await scanEverything(page);
    await page.getByRole('button', { name: words.frame.day, exact: true }).click();
  }
  guard.expectQuiet();
  await context.close();
});
