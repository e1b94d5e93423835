/**
 * `npm run gallery`: a picture of every place, by day and by night, on a desk and on a tablet, flat
 * in `--out DIR` (out/gallery) as place-state-theme-WIDTHxHEIGHT.png. Shows the demonstration kitchen.
 */
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { chromium } from '@playwright/test';
import type { Page } from '@playwright/test';
import { PLACES } from '../../renderer/frame/address.ts';
import { words } from '../../renderer/words/words.ts';
import { findBrowser } from './find-browser.ts';
import prepareRun from './prepare-run.ts';
import { startProgram } from './program.ts';

const SCREENS = [{ width: 1280, height: 800 }, { width: 820, height: 1180 }] as const;
const THEMES = ['light', 'dark'] as const;
/** Long enough for a chart to be measured and drawn. */
const SETTLE_MS = 700;

type Shot = (name: string) => Promise<void>;

async function open(page: Page, hash: string): Promise<void> {
  await page.evaluate((next) => {
    window.location.hash = next;
  }, hash);
}

/** The places as they are first met, then what they open into. */
async function walk(page: Page, shoot: Shot): Promise<void> {
  await page.getByRole('dialog').waitFor();
  await shoot('duty-asked');
  await page.locator('.row-button').filter({ hasText: words.frame.roles.manager }).first().click();
  for (const place of PLACES) {
    await open(page, `#/${place}`);
    await shoot(`${place}-first`);
  }
  await open(page, '#/fish-in');
  await page.getByText(words.fishIn.supplier).click();
  await shoot('fish-in-form');
  await open(page, '#/brine-bench');
  await page.locator('a.chip').first().click();
  await shoot('brine-bench-card');
  await page.getByText(words.brineBench.printCard).click();
  await shoot('print-card');
  await open(page, '#/smokehouse');
  await page.getByRole('link', { name: /load 2$/ }).click();
  await shoot('smokehouse-broken-hold');
  await page.getByRole('link', { name: /load 1$/ }).click();
  await shoot('smokehouse-cooled');
  await open(page, '#/smokehouse/new');
  await shoot('smokehouse-open');
  await open(page, '#/packing-table');
  await page.getByRole('link', { name: /on HOLD/ }).click();
  await shoot('packing-table-hold');
  await page.getByText(words.packingTable.holdTag).click();
  await shoot('print-hold');
  await open(page, '#/packing-table');
  await page.getByText(words.packingTable.preview).click();
  await shoot('print-labels');
  await open(page, '#/record-shelf');
  await page.locator('.shelf-row').last().click();
  await shoot('record-shelf-batch');
  await page.getByText(words.recordShelf.print).click();
  await shoot('print-record');
}

/** Takes the pictures; answers the exit code. */
export async function takeGallery(typed: readonly string[]): Promise<number> {
  const { values } = parseArgs({ args: [...typed], options: { out: { type: 'string', default: path.join('out', 'gallery') } } });
  mkdirSync(values.out, { recursive: true });
  const end = await prepareRun();
  const browser = await chromium.launch(findBrowser().launchOptions);
  let count = 0;
  for (const theme of THEMES) {
    for (const screen of SCREENS) {
      const program = await startProgram({ demo: true });
      const context = await browser.newContext({ viewport: screen, colorScheme: theme });
      const page = await context.newPage();
      const shoot: Shot = async (name) => {
        await page.waitForTimeout(SETTLE_MS);
        await page.screenshot({ path: path.join(values.out, `${name}-${theme}-${screen.width}x${screen.height}.png`) });
        count += 1;
      };
      await page.goto(program.url);
      await walk(page, shoot);
      await context.close();
      await program.stop();
    }
  }
  await browser.close();
  end();
  console.log(`${count} pictures in ${values.out}`);
  return 0;
}

process.exitCode = await takeGallery(process.argv.slice(2));
