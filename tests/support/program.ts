/** Starts the built program with its browser front, as `npm start` does, on a book of its own. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';

const ROOT = path.resolve(import.meta.dirname, '..', '..');
const START_LIMIT_MS = 20_000;
const STOP_LIMIT_MS = 10_000;

export interface ProgramStart {
  /** The file of the book; left out, one in a folder of its own that goes when the program stops. */
  readonly bookFile?: string;
  readonly demo?: boolean;
  /** Moves the program's clock, so that a walk can go over more than one day. */
  readonly shiftMs?: number;
  /** A module that is loaded before the program, and settings for it. */
  readonly imported?: string;
  readonly settings?: Readonly<Record<string, string>>;
}

export interface RunningProgram {
  /** The whole address with its one-time key. */
  readonly url: string;
  readonly bookFile: string;
  /** All lines on standard error so far; faults of the back room are among them. */
  readonly faults: readonly string[];
  /** Ends it as Ctrl-C does; answers its exit code. */
  stop(): Promise<number>;
}

/** Starts it on a free port. Rejects with what it said when it prints no address. */
export async function startProgram({ bookFile, demo = false, shiftMs = 0, imported, settings = {} }: ProgramStart = {}): Promise<RunningProgram> {
  const ownFolder = bookFile === undefined ? mkdtempSync(path.join(os.tmpdir(), 'alderbook-walk-')) : null;
  const file = bookFile ?? path.join(ownFolder ?? '', 'kitchen.alderbook');
  const child = spawn(
    process.execPath,
    ['--import', path.join(ROOT, 'tests', 'support', 'only-this-computer.mjs'), ...(shiftMs === 0 ? [] : ['--import', path.join(ROOT, 'tests', 'support', 'shift-clock.mjs')]), ...(imported === undefined ? [] : ['--import', imported]), path.join(ROOT, 'out', 'main', 'index.js'), '--front=browser', '--port=0', `--book=${file}`, ...(demo ? ['--demo'] : [])],
    { cwd: ROOT, stdio: ['ignore', 'pipe', 'pipe'], env: { ...process.env, SHIFT_CLOCK_MS: String(shiftMs), ...settings } },
  );
  const exited = new Promise<number>((resolve) => child.once('exit', (code) => resolve(code ?? 1)));
  const faults: string[] = [];
  createInterface({ input: child.stderr }).on('line', (line) => faults.push(line));
  const url = await new Promise<string>((resolve, reject) => {
    const limit = setTimeout(() => reject(new Error(`The program printed no address.\n${faults.join('\n')}`)), START_LIMIT_MS);
    createInterface({ input: child.stdout }).on('line', (line) => {
      if (!/^http:\/\/\S+\?key=\S+$/.test(line)) return;
      clearTimeout(limit);
      resolve(line);
    });
    void exited.then((code) => reject(new Error(`The program ended with ${code}.\n${faults.join('\n')}`)));
  });
  return {
    url,
    bookFile: file,
    faults,
    async stop() {
      const limit = setTimeout(() => child.kill('SIGKILL'), STOP_LIMIT_MS);
      child.kill('SIGTERM');
      const code = await exited;
      clearTimeout(limit);
      if (ownFolder !== null) rmSync(ownFolder, { recursive: true, force: true });
      return code;
    },
  };
}
