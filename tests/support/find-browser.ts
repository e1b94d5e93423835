/** Finds a Chromium for the tests that needs no root and no download of its own. */
import { accessSync, constants, existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { chromium } from '@playwright/test';
import type { LaunchOptions } from '@playwright/test';
import { carriedBrowser } from './carried-browser.ts';

export interface FoundBrowser {
  /** For the line that says which browser it was. */
  readonly name: string;
  readonly launchOptions: LaunchOptions;
  /** Why the browser's own sandbox is off; null when it is on. */
  readonly withoutSandboxBecause: string | null;
  /** True when it must be unpacked before its first use. */
  readonly isCarried: boolean;
}

const SYSTEM_NAMES: readonly string[] = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const SYSTEM_FILES: readonly string[] = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
];

function isProgram(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function findSystemBrowser(): string | null {
  const folders = (process.env['PATH'] ?? '').split(path.delimiter).filter((folder) => folder !== '');
  const files = [...SYSTEM_NAMES.flatMap((name) => folders.map((folder) => path.join(folder, name))), ...SYSTEM_FILES];
  return files.find(isProgram) ?? null;
}

function readSetting(file: string): string | null {
  return existsSync(file) ? readFileSync(file, 'utf8').trim() : null;
}

/** Chromium can't use its sandbox as root, nor where the kernel keeps user namespaces from ordinary users. */
function whySandboxCantBe(): string | null {
  if (process.platform !== 'linux') return null;
  if (process.getuid?.() === 0) return 'the tests run as root';
  if (readSetting('/proc/sys/kernel/unprivileged_userns_clone') === '0') return 'this kernel forbids user namespaces';
  if (readSetting('/proc/sys/kernel/apparmor_restrict_unprivileged_userns') === '1') return 'this system restricts user namespaces';
  return null;
}

/**
 * The browser to test with: `CHROMIUM_PATH`, one of the system, Playwright's own, else the one that a
 * package carries. Throws a sentence when `CHROMIUM_PATH` names no program.
 */
export function findBrowser(): FoundBrowser {
  const withoutSandboxBecause = whySandboxCantBe();
  const sandbox = { chromiumSandbox: withoutSandboxBecause === null };
  const named = process.env['CHROMIUM_PATH'];
  if (named !== undefined && named !== '') {
    if (!isProgram(named)) throw new Error(`CHROMIUM_PATH names ${named}, which is not a program that can be run.`);
    return { name: `${named} (CHROMIUM_PATH)`, launchOptions: { ...sandbox, executablePath: named }, withoutSandboxBecause, isCarried: false };
  }
  const system = findSystemBrowser();
  if (system !== null) {
    return { name: `${system} (of this system)`, launchOptions: { ...sandbox, executablePath: system }, withoutSandboxBecause, isCarried: false };
  }
  if (existsSync(chromium.executablePath())) {
    return { name: 'Playwright’s own Chromium', launchOptions: sandbox, withoutSandboxBecause, isCarried: false };
  }
  const carried = carriedBrowser();
  return {
    name: `the Chromium carried by @sparticuz/chromium ${carried.version}`,
    launchOptions: { ...sandbox, executablePath: carried.executablePath, env: carried.environment },
    withoutSandboxBecause,
    isCarried: true,
  };
}
