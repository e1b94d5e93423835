/** Runs the built program, unmodified, in this process with the stand-in for Electron. */
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { chromium } from '@playwright/test';
import type { Page } from '@playwright/test';
import { fromWeb } from './electron-stand-in/addresses.ts';
import { findBrowser } from './find-browser.ts';
import type { WindowProgram, WindowStart } from './window-program.ts';

const START_LIMIT_MS = 20_000;

async function waitForPage(read: () => Page | null | undefined): Promise<Page> {
  const giveUpAtMs = performance.now() + START_LIMIT_MS;
  while (performance.now() < giveUpAtMs) {
    const page = read();
    if (page !== null && page !== undefined && page.url() !== 'about:blank') return page;
    await wait(20);
  }
  throw new Error('The program opened no window.');
}

/** Starts it; only once in a process, because the program's modules stay loaded. */
export async function startInStandIn(root: string, { bookFile, demo }: WindowStart): Promise<WindowProgram> {
  await import('./electron-stand-in/register.ts');
  const { app } = await import('./electron-stand-in/app.ts');
  const { openWindows } = await import('./electron-stand-in/window.ts');
  const { stage } = await import('./electron-stand-in/stage.ts');
  const { answerNextOpenDialog, callsOf } = await import('./electron-stand-in/record.ts');

  const browser = await chromium.launch(findBrowser().launchOptions);
  const context = await browser.newContext({ viewport: { width: 1280, height: 860 }, locale: 'en-US' });
  stage.context = context;
  process.argv = [process.execPath, root, `--book=${bookFile}`, ...(demo ? ['--demo'] : [])];
  await import(pathToFileURL(path.join(root, 'out', 'main', 'index.js')).href);
  app.becomeReady();
  const page = await waitForPage(() => openWindows()[0]?.webContents.page);

  return {
    runsIn: `the stand-in for Electron, Chromium ${browser.version()}`,
    page,
    pageAddress: () => fromWeb(page.url()),
    countPages: () => context.pages().length,
    answerNextOpenDialog: async (files) => answerNextOpenDialog(files),
    listPrints: async () => callsOf('webContents.print').map((call) => call.values[0]),
    async quit() {
      for (const window of openWindows()) await window.close();
      const exitCode = await app.ended;
      await browser.close();
      return exitCode;
    },
  };
}
