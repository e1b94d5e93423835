/** Runs the built program in real Electron, driven by Playwright. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { _electron as playwrightElectron } from '@playwright/test';
import type { WindowProgram, WindowStart } from './window-program.ts';

interface Recording {
  alderbookPrints?: unknown[];
}

/** Electron can't use its sandbox as root; then, and only then, it is switched off, and that is said. */
function sandboxSwitch(): string[] {
  if (process.getuid?.() !== 0) return [];
  console.log('Electron runs without its sandbox because the tests run as root.');
  return ['--no-sandbox'];
}

/** Starts it with a user folder of its own, so that its single-instance lock is its own too. */
export async function startInElectron(binary: string, root: string, folder: string, { bookFile, demo }: WindowStart): Promise<WindowProgram> {
  const electron = await playwrightElectron.launch({
    executablePath: binary,
    args: [...sandboxSwitch(), `--user-data-dir=${path.join(folder, 'user')}`, root, `--book=${bookFile}`, ...(demo ? ['--demo'] : [])],
  });
  const page = await electron.firstWindow();
  await electron.evaluate(({ BrowserWindow }) => {
    const [window] = BrowserWindow.getAllWindows();
    const recording = globalThis as Recording;
    recording.alderbookPrints = [];
    if (window === undefined) throw new Error('There is no window.');
    window.webContents.print = (options, done) => {
      recording.alderbookPrints?.push(options);
      done?.(true, '');
    };
  });
  const { version } = JSON.parse(readFileSync(path.join(root, 'node_modules', 'electron', 'package.json'), 'utf8')) as { version: string };
  const ended = new Promise<number>((resolve) => electron.process().once('exit', (code) => resolve(code ?? 1)));

  return {
    runsIn: `Electron ${version}`,
    page,
    pageAddress: () => page.url(),
    countPages: () => electron.windows().length,
    async answerNextOpenDialog(files) {
      await electron.evaluate(({ dialog }, filePaths) => {
        const original = dialog.showOpenDialog;
        dialog.showOpenDialog = async () => {
          dialog.showOpenDialog = original;
          return { canceled: filePaths.length === 0, filePaths };
        };
      }, [...files]);
    },
    listPrints: () => electron.evaluate(() => (globalThis as Recording).alderbookPrints ?? []),
    async quit() {
      if (!page.isClosed()) await page.close();
      return ended;
    },
  };
}
