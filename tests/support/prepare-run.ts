/** Runs once before all walkthroughs and window specs: builds, unpacks the browser, and says what is used. */
import path from 'node:path';
import { chromium } from '@playwright/test';
import { buildWhatChanged } from '../../main/start/build.ts';
import { unpackCarriedBrowser } from './carried-browser.ts';
import { findBrowser } from './find-browser.ts';
import { describeWindow } from './window-program.ts';

const ROOT = path.resolve(import.meta.dirname, '..', '..');

/** A browser without fonts starts, prints and takes pictures, with every text 0 wide: look before trusting one. */
async function checkThatTextHasWidth(): Promise<string> {
  const browser = await chromium.launch(findBrowser().launchOptions);
  try {
    const page = await browser.newPage();
    await page.setContent('<span>smoke</span>');
    const box = await page.locator('span').boundingBox();
    if (box === null || box.width < 5) throw new Error('The browser draws text without width: it found no fonts.');
    return browser.version();
  } finally {
    await browser.close();
  }
}

/** Playwright's global set-up; what it answers is run at the end. */
export default async function prepareRun(): Promise<() => void> {
  await buildWhatChanged(ROOT, (sentence) => console.log(sentence));
  const found = findBrowser();
  if (found.isCarried) await unpackCarriedBrowser();
  const version = await checkThatTextHasWidth();
  const sandbox = found.withoutSandboxBecause === null ? '' : `, without its sandbox because ${found.withoutSandboxBecause}`;
  const summary = `Browser: ${found.name}, version ${version}${sandbox}.\nWindow specs ran in ${describeWindow()}.`;
  return () => console.log(summary);
}
