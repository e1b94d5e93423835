/**
 * Where Electron's program is, found by looking at files only: importing the package would start a
 * download when it isn't there.
 */
import { spawn } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

type Environment = Readonly<Record<string, string | undefined>>;

/** The command a person can type to fetch it. */
export const FETCH_COMMAND = 'npx install-electron';
const FETCH_LIMIT_MS = 60_000;

/** The name of the program inside the package, which its installer writes down last. */
function readProgramName(packageFolder: string): string | null {
  try {
    return readFileSync(path.join(packageFolder, 'path.txt'), 'utf8').trim();
  } catch {
    return null;
  }
}

/** Electron's program file; null when it can't be had without fetching. */
export function findElectron(packageFolder: string, environment: Environment): string | null {
  const named = environment['ELECTRON_EXEC_PATH'];
  if (named !== undefined && existsSync(named)) return named;
  const programName = readProgramName(packageFolder);
  const elsewhere = environment['ELECTRON_OVERRIDE_DIST_PATH'];
  if (elsewhere !== undefined) {
    const file = path.join(elsewhere, programName ?? (process.platform === 'win32' ? 'electron.exe' : 'electron'));
    return existsSync(file) ? file : null;
  }
  if (programName === null) return null;
  const file = path.join(packageFolder, 'dist', programName);
  return existsSync(file) ? file : null;
}

/** Whether this computer can show a window to the person at it. */
export function hasDisplay(platform: NodeJS.Platform, environment: Environment): boolean {
  if (platform === 'win32' || platform === 'darwin') return true;
  return (environment['DISPLAY'] ?? '') !== '' || (environment['WAYLAND_DISPLAY'] ?? '') !== '';
}

function runInstaller(packageFolder: string): Promise<boolean> {
  return new Promise((resolve) => {
    const installer = spawn(process.execPath, [path.join(packageFolder, 'install.js')], { stdio: 'ignore' });
    const limit = setTimeout(() => installer.kill('SIGKILL'), FETCH_LIMIT_MS);
    installer.on('error', () => resolve(false));
    installer.on('exit', (code) => {
      clearTimeout(limit);
      resolve(code === 0);
    });
  });
}

/**
 * Runs Electron's own installer, at most 60 s and once for each version: one that failed is noted in
 * `noteFile` and not tried at every start.
 */
export async function fetchElectronOnce(packageFolder: string, noteFile: string, say: (sentence: string) => void): Promise<void> {
  const version = (JSON.parse(readFileSync(path.join(packageFolder, 'package.json'), 'utf8')) as { version: string }).version;
  if (existsSync(noteFile) && readFileSync(noteFile, 'utf8').trim() === version) return;
  say('Fetching Electron for a window of its own, for at most a minute; this happens once.');
  writeFileSync(noteFile, `${version}\n`);
  await runInstaller(packageFolder);
}
