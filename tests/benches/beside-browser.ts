/**
 * A browser in the same session of the system as the program beside it, as the parts of a desktop program are: Linux
 * shares the processors out among sessions first, and a browser started in one of its own would leave the program the rest.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { chromium, type Browser } from '@playwright/test';
import type { FoundBrowser } from '../support/find-browser.ts';

const START_LIMIT_MS = 30_000;

export interface BesideBrowser {
  readonly browser: Browser;
  close(): Promise<void>;
}

/** Starts a browser without a window. Rejects with what it said when it opens no door for us. */
export async function startBesideBrowser({ launchOptions: { executablePath = chromium.executablePath(), env }, withoutSandboxBecause }: FoundBrowser): Promise<BesideBrowser> {
  const profile = mkdtempSync(path.join(os.tmpdir(), 'alderbook-browser-'));
  const child = spawn(
    executablePath,
    ['--headless', '--remote-debugging-port=0', `--user-data-dir=${profile}`, '--no-first-run', '--disable-dev-shm-usage', '--disable-background-networking', '--disable-component-update', '--disable-gpu', ...(withoutSandboxBecause === null ? [] : ['--no-sandbox']), 'about:blank'],
    { stdio: ['ignore', 'ignore', 'pipe'], env: { ...process.env, ...env } },
  );
  const exited = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const said: string[] = [];
  const address = await new Promise<string>((resolve, reject) => {
    const limit = setTimeout(() => reject(new Error(`The browser opened no door.\n${said.join('\n')}`)), START_LIMIT_MS);
    createInterface({ input: child.stderr }).on('line', (line) => {
      said.push(line);
      const found = /^DevTools listening on (ws:\S+)$/.exec(line)?.[1];
      if (found === undefined) return;
      clearTimeout(limit);
      resolve(found);
    });
    void exited.then(() => reject(new Error(`The browser ended.\n${said.join('\n')}`)));
  });
  const browser = await chromium.connectOverCDP(address);
  return {
    browser,
    async close() {
      await browser.close();
      child.kill('SIGTERM');
      await exited;
      rmSync(profile, { recursive: true, force: true });
    },
  };
}
