import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { buildWhatChanged, digestSources, isBuiltFrom } from '../../main/start/build.ts';
import { fetchElectronOnce, findElectron, hasDisplay } from '../../main/start/electron-binary.ts';

let folder: string;
beforeEach(() => { folder = mkdtempSync(path.join(os.tmpdir(), 'alderbook-start-')); });
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function write(name: string, text: string): string {
  const file = path.join(folder, name);
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, text);
  return file;
}

describe('Electron’s program', () => {
  test('is not there in a package as it comes from the registry', () => {
    write('package.json', '{}');
    expect(findElectron(folder, {})).toBeNull();
  });

  test('is there once its installer wrote down its name and the file exists', () => {
    write('path.txt', 'electron');
    expect(findElectron(folder, {})).toBeNull();
    const file = write('dist/electron', '');
    expect(findElectron(folder, {})).toBe(file);
  });

  test('is not there when the installer was stopped in the middle', () => {
    write('dist/electron', '');
    expect(findElectron(folder, {})).toBeNull();
  });

  test('may lie elsewhere, named by Electron’s own variables', () => {
    const elsewhere = path.dirname(write(`else/${process.platform === 'win32' ? 'electron.exe' : 'electron'}`, ''));
    const named = write('named', '');
    expect(findElectron(folder, { ELECTRON_OVERRIDE_DIST_PATH: elsewhere })).toBe(path.join(elsewhere, process.platform === 'win32' ? 'electron.exe' : 'electron'));
    expect(findElectron(folder, { ELECTRON_OVERRIDE_DIST_PATH: path.join(folder, 'nowhere') })).toBeNull();
    expect(findElectron(folder, { ELECTRON_EXEC_PATH: named })).toBe(named);
    expect(findElectron(folder, { ELECTRON_EXEC_PATH: path.join(folder, 'nowhere') })).toBeNull();
  });
});

test('a display is there on Linux when one is named, and always elsewhere', () => {
  expect([{}, { DISPLAY: '' }, { DISPLAY: ':0' }, { WAYLAND_DISPLAY: 'wayland-0' }].map((environment) => hasDisplay('linux', environment))).toEqual([false, false, true, true]);
  expect([hasDisplay('darwin', {}), hasDisplay('win32', {})]).toEqual([true, true]);
});

describe('fetching Electron', () => {
  test('runs its own installer once for each version, saying so, even when it fails', async () => {
    const said: string[] = [];
    const note = path.join(folder, 'tried.txt');
    write('package.json', '{"version":"1.0.0"}');
    write('install.js', `require('node:fs').appendFileSync(${JSON.stringify(path.join(folder, 'runs'))}, 'x'); process.exit(1);`);
    await fetchElectronOnce(folder, note, (sentence) => said.push(sentence));
    await fetchElectronOnce(folder, note, (sentence) => said.push(sentence));
    expect(readFileSync(path.join(folder, 'runs'), 'utf8')).toBe('x');
    expect(said).toEqual([expect.stringContaining('Fetching Electron')]);
    write('package.json', '{"version":"1.0.1"}');
    await fetchElectronOnce(folder, note, (sentence) => said.push(sentence));
    expect(readFileSync(path.join(folder, 'runs'), 'utf8')).toBe('xx');
  });
});

/** A program whose builder copies its one source, and counts how often it ran. */
function writeProgram(): void {
  write('main/index.ts', 'one');
  write('node_modules/electron-vite/bin/electron-vite.js', `
    const fs = require('node:fs');
    fs.appendFileSync('runs', 'x');
    if (fs.readFileSync('main/index.ts', 'utf8') === 'broken') { console.error('main/index.ts:1 is broken'); process.exit(1); }
    for (const name of ['main/index.js', 'preload/index.cjs', 'renderer/index.html']) {
      fs.mkdirSync('out/' + name.split('/')[0], { recursive: true });
      fs.writeFileSync('out/' + name, fs.readFileSync('main/index.ts', 'utf8'));
    }
    setTimeout(() => undefined, 200);`);
}
function runs(): number {
  const file = path.join(folder, 'runs');
  return existsSync(file) ? readFileSync(file, 'utf8').length : 0;
}

describe('building', () => {
  const quiet = (): void => undefined;
  beforeEach(writeProgram);

  test('happens at first, and then only when a source changed in name or content', async () => {
    expect(await buildWhatChanged(folder, quiet)).toBe(true);
    expect(await buildWhatChanged(folder, quiet)).toBe(false);
    for (const [name, text] of [['main/index.ts', 'two'], ['app/new.ts', ''], ['renderer/page.tsx', 'x'], ['assets/limits/a.json', '{}'], ['package-lock.json', '{}'], ['electron.config.ts', '']] as const) {
      write(name, text);
      expect(await buildWhatChanged(folder, quiet), name).toBe(true);
      expect(await buildWhatChanged(folder, quiet), name).toBe(false);
    }
    write('README.md', 'x');
    write('tests/x.ts', 'x');
    write('main/index.ts', 'two');
    expect(await buildWhatChanged(folder, quiet)).toBe(false);
    expect(runs()).toBe(7);
  });

  test('happens again when a result is gone', async () => {
    await buildWhatChanged(folder, quiet);
    rmSync(path.join(folder, 'out', 'preload'), { recursive: true });
    expect(await buildWhatChanged(folder, quiet)).toBe(true);
  });

  test('that fails says what the builder said, and is tried again next time', async () => {
    await buildWhatChanged(folder, quiet);
    write('main/index.ts', 'broken');
    await expect(buildWhatChanged(folder, quiet)).rejects.toThrow('main/index.ts:1 is broken');
    expect(isBuiltFrom(folder, digestSources(folder))).toBe(false);
    write('main/index.ts', 'one');
    expect(await buildWhatChanged(folder, quiet)).toBe(true);
  });

  test('twice at the same time is done once', async () => {
    expect((await Promise.all([buildWhatChanged(folder, quiet), buildWhatChanged(folder, quiet)])).sort()).toEqual([false, true]);
    expect(runs()).toBe(1);
  });

  test('is not held up by the lock of a process that is gone', async () => {
    write('out/building.lock', '999999999');
    expect(await buildWhatChanged(folder, quiet)).toBe(true);
    expect(existsSync(path.join(folder, 'out', 'building.lock'))).toBe(false);
  });

  test('that can’t write says so', async () => {
    if (process.getuid?.() === 0) {
      // Root may write everywhere: a file in the place of the folder is in its way too.
      write('out', 'a file');
    } else {
      mkdirSync(path.join(folder, 'out'));
      chmodSync(path.join(folder, 'out'), 0o500);
    }
    await expect(buildWhatChanged(folder, quiet)).rejects.toThrow(/EEXIST|EACCES/);
  });
});
