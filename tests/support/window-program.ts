/** The built program with its window, for specs: in Electron where its binary is, else in the stand-in. */
import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { test as base } from '@playwright/test';
import type { Page } from '@playwright/test';
import { findElectron, hasDisplay } from '../../main/start/electron-binary.ts';
import { startInElectron } from './window-in-electron.ts';
import { startInStandIn } from './window-in-stand-in.ts';

export const ROOT = path.resolve(import.meta.dirname, '..', '..');

export interface WindowStart {
  /** The file of the book; may not exist yet. */
  readonly bookFile: string;
  /** Opens the demonstration kitchen in it. */
  readonly demo: boolean;
}

/** What both can do with the running program. */
export interface WindowProgram {
  /** Which of the two it is, with its version. */
  readonly runsIn: string;
  readonly page: Page;
  /** Where the page is, as the program sees it. */
  pageAddress(): string;
  countPages(): number;
  /** Lets the next file dialog choose these files; none is leaving it. */
  answerNextOpenDialog(files: readonly string[]): Promise<void>;
  /** The options of every print asked for so far. */
  listPrints(): Promise<readonly unknown[]>;
  /** Closes the window as a person would; answers the exit code once the program has ended. */
  quit(): Promise<number>;
}

/** Electron's program file where it can run; null for the stand-in. Throws when Electron is required and can't run. */
export function findRunnableElectron(): string | null {
  const electron = findElectron(path.join(ROOT, 'node_modules', 'electron'), process.env);
  const canRun = electron !== null && hasDisplay(process.platform, process.env);
  if (!canRun && process.env['REQUIRE_ELECTRON'] === '1') {
    throw new Error(electron === null ? 'REQUIRE_ELECTRON is set, and Electron’s binary is not here.' : 'REQUIRE_ELECTRON is set, and there is no display.');
  }
  return canRun ? electron : null;
}

/** For the line at the end of a run. */
export function describeWindow(): string {
  const electron = findRunnableElectron();
  return electron === null ? 'the stand-in for Electron, whose binary can’t run here' : `real Electron, ${electron}`;
}

interface WorkerFixtures {
  /** The folder of this file's book, removed at its end. */
  readonly folder: string;
  readonly program: WindowProgram;
  /** Set by each spec file to a name of its own: a worker process can start the program once. */
  readonly startName: string;
  readonly startsWithDemo: boolean;
}

export const test = base.extend<object, WorkerFixtures>({
  startName: ['', { option: true, scope: 'worker' }],
  startsWithDemo: [false, { option: true, scope: 'worker' }],
  folder: [
    async ({ startName }, use) => {
      if (startName === '') throw new Error('A window spec must name its start: test.use({ startName: … }).');
      const folder = mkdtempSync(path.join(os.tmpdir(), `alderbook-${startName}-`));
      await use(folder);
      rmSync(folder, { recursive: true, force: true });
    },
    { scope: 'worker' },
  ],
  program: [
    async ({ folder, startsWithDemo }, use) => {
      const start = { bookFile: path.join(folder, 'kitchen.alderbook'), demo: startsWithDemo };
      const electron = findRunnableElectron();
      const program = electron === null ? await startInStandIn(ROOT, start) : await startInElectron(electron, ROOT, folder, start);
      await use(program);
      await program.quit();
    },
    { scope: 'worker' },
  ],
});
