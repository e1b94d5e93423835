/** What `npm start` runs: builds what changed, chooses the front, and stays until the program ends. */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { buildWhatChanged } from './build.ts';
import { FETCH_COMMAND, fetchElectronOnce, findElectron, hasDisplay } from './electron-binary.ts';
import { writeProgramOptions } from './program-options.ts';
import type { ProgramOptions } from './program-options.ts';
import { readStartOptions } from './start-options.ts';
import type { StartOptions } from './start-options.ts';

const WRONG_OPTION = 2;
const NOT_BUILT = 1;
const STARTER_LOOK_MS = 250;

/** Progress goes to standard error, so that standard output holds the address and little else. */
function say(sentence: string): void {
  process.stderr.write(`${sentence}\n`);
}

/** Electron's program file when the window front is to be used; null for the browser front. */
async function chooseWindow(root: string, options: StartOptions): Promise<string | null> {
  if (options.browser || !hasDisplay(process.platform, process.env)) return null;
  const packageFolder = path.join(root, 'node_modules', 'electron');
  if (!existsSync(packageFolder)) return null;
  const there = findElectron(packageFolder, process.env);
  if (there !== null) return there;
  await fetchElectronOnce(packageFolder, path.join(root, 'out', 'electron-tried.txt'), say);
  const fetched = findElectron(packageFolder, process.env);
  if (fetched === null) say(`Electron could not be fetched, so Alderbook opens in the browser. To fetch it later, type: ${FETCH_COMMAND}`);
  return fetched;
}

/**
 * Calls `stop` when the process that started us is gone. npm passes a signal on to its shell only, and
 * the shell dies of it without a word to us. Elsewhere the starter may well leave first (`nohup`).
 */
function stopWithStarter(stop: () => void): void {
  if (process.env['npm_lifecycle_event'] !== 'start') return;
  const starter = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid === starter) return;
    clearInterval(watch);
    stop();
  }, STARTER_LOOK_MS);
  watch.unref();
}

/** Runs the program until it ends by itself or we are told to stop; answers its exit code. */
function runProgram(root: string, electron: string | null, options: ProgramOptions): Promise<number> {
  const entry = electron === null ? path.join(root, 'out', 'main', 'index.js') : root;
  const child = spawn(electron ?? process.execPath, [entry, ...writeProgramOptions(options)], {
    cwd: root,
    // Over the channel the program notices when we are gone, however we went, and closes the book.
    stdio: electron === null ? ['inherit', 'inherit', 'inherit', 'ipc'] : 'inherit',
  });
  function stop(): void {
    if (child.connected) child.disconnect();
    else child.kill('SIGTERM');
  }
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, stop);
  stopWithStarter(stop);
  return new Promise((resolve) => {
    child.on('error', (fault) => {
      say(`Alderbook could not be started: ${fault.message}`);
      resolve(1);
    });
    child.on('exit', (code, signal) => resolve(code ?? (signal === null ? 0 : 1)));
  });
}

/** Starts Alderbook with what was typed after `npm start --`; answers the exit code, 2 for a wrong option. */
export async function start(typed: readonly string[]): Promise<number> {
  const root = path.resolve(import.meta.dirname, '..', '..');
  // npm changes into the folder of the package; a file is meant from where the person was.
  const typedIn = process.env['npm_lifecycle_event'] === 'start' ? process.env['INIT_CWD'] : undefined;
  const options = readStartOptions(typed, typedIn ?? process.cwd());
  if (!options.ok) {
    say(`${options.problem.message} ${options.problem.remedy ?? ''}`.trim());
    return WRONG_OPTION;
  }
  try {
    await buildWhatChanged(root, say);
  } catch (fault) {
    say(fault instanceof Error ? fault.message : String(fault));
    return NOT_BUILT;
  }
  const { port, bookFile, demo, open } = options.value;
  const electron = await chooseWindow(root, options.value);
  return runProgram(root, electron, {
    front: electron === null ? 'browser' : 'window',
    port,
    bookFile,
    wantsDemo: demo,
    opensBrowser: electron === null && open && hasDisplay(process.platform, process.env),
  });
}
