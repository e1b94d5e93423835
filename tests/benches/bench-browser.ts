/** The built program with its browser front on a book, and a real browser beside it. */
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { Browser, Page, Request } from '@playwright/test';
import { buildWhatChanged } from '../../main/start/build.ts';
import { unpackCarriedBrowser } from '../support/carried-browser.ts';
import { findBrowser } from '../support/find-browser.ts';
import { startProgram, type RunningProgram } from '../support/program.ts';
import { startBesideBrowser } from './beside-browser.ts';

const ROOT = path.resolve(import.meta.dirname, '..', '..');
const QUIET_MS = 300;
const VIEWPORT = { width: 1440, height: 1000 };

export interface BenchBrowser {
  readonly program: RunningProgram;
  readonly browser: Browser;
  /** The page of the program, at its first place. */
  readonly page: Page;
  /** Another page of the same browser and address. */
  openBeside(): Promise<Page>;
  /** Resolves once no page waits for an answer, and none has for a while: what a page asks for later must not slow what is measured next. */
  settle(): Promise<void>;
  close(): Promise<void>;
}

/** Builds what changed and opens the program on a closed book. */
export async function openBenchBrowser(bookFile: string, more: { readonly imported?: string; readonly settings?: Readonly<Record<string, string>> } = {}): Promise<BenchBrowser> {
  await buildWhatChanged(ROOT, () => undefined);
  const found = findBrowser();
  if (found.isCarried) await unpackCarriedBrowser();
  const program = await startProgram({ bookFile, ...more });
  const beside = await startBesideBrowser(found);
  const { browser } = beside;
  const context = await browser.newContext({ viewport: VIEWPORT, locale: 'en-US' });
  let open = 0;
  let lastMs = performance.now();
  const count = (by: number) => (request: Request): void => {
    if (!request.url().endsWith('/request')) return;
    open += by;
    lastMs = performance.now();
  };
  context.on('request', count(1));
  context.on('requestfinished', count(-1));
  context.on('requestfailed', count(-1));
  const page = await context.newPage();
  await page.goto(program.url);
  await page.locator('nav').first().waitFor();
  return {
    program, browser, page,
    async openBeside() {
      const another = await context.newPage();
      await another.goto(new URL('/', program.url).href);
      await another.locator('nav').first().waitFor();
      return another;
    },
    async settle() {
      while (open > 0 || performance.now() - lastMs < QUIET_MS) await wait(20);
    },
    async close() {
      await beside.close();
      const code = await program.stop();
      if (code !== 0) throw new Error(`The program ended with ${code}: ${program.faults.join('\n')}`);
    },
  };
}
