import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import type { AddressInfo } from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { expect, test } from '@playwright/test';

const ROOT = path.resolve(import.meta.dirname, '..', '..');

interface Started {
  readonly child: ChildProcess;
  /** The first line on standard output that is an address and nothing else. */
  readonly address: Promise<string>;
  readonly output: { out: string; err: string };
  readonly exitCode: Promise<number | null>;
}

const running = new Set<ChildProcess>();

/** What `npm start -- …` runs; without `more`, nothing of a display is in its environment. */
function startIn(more: Record<string, string>, ...typed: string[]): Started {
  const { DISPLAY: _display, WAYLAND_DISPLAY: _wayland, ...environment } = process.env;
  const child = spawn(process.execPath, ['main/start/run.mjs', 'start', ...typed], { cwd: ROOT, env: { ...environment, ...more }, stdio: ['ignore', 'pipe', 'pipe'] });
  running.add(child);
  child.once('exit', () => running.delete(child));
  const output = { out: '', err: '' };
  const exitCode = new Promise<number | null>((resolve) => child.once('exit', resolve));
  child.stderr.on('data', (part: Buffer) => { output.err += part.toString(); });
  const address = new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (part: Buffer) => {
      output.out += part.toString();
      const line = output.out.split('\n').slice(0, -1).find((one) => one.startsWith('http://'));
      if (line !== undefined) resolve(line);
    });
    void exitCode.then((code) => reject(new Error(`ended with ${code}: ${output.err}`)));
  });
  address.catch(() => undefined);
  return { child, address, output, exitCode };
}

function startWith(...typed: string[]): Started {
  return startIn({}, ...typed);
}

let folder: string;
test.beforeEach(() => { folder = mkdtempSync(path.join(os.tmpdir(), 'alderbook-start-')); });
test.afterEach(async () => {
  // Only after a test that failed is anything left to end.
  await Promise.all([...running].map((child) => new Promise((resolve) => {
    child.once('exit', resolve);
    child.kill('SIGTERM');
  })));
  rmSync(folder, { recursive: true, force: true });
});

/** Waits until the demonstration book is made and open, and answers the address that was printed. */
async function startDemo(...more: string[]): Promise<Started> {
  const started = startWith('--browser', '--no-open', '--port', '0', '--book', path.join(folder, 'demo.alderbook'), '--demo', ...more);
  await started.address;
  await expect.poll(() => existsSync(path.join(folder, 'demo.alderbook.holder')), { timeout: 15_000 }).toBe(true);
  return started;
}

test('prints the whole address on a line of its own, makes the demonstration book, and Ctrl-C leaves it closed', async () => {
  const { child, address, output, exitCode } = await startDemo();
  expect(await address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/\?key=[\w-]{32}$/);
  expect(output.out).not.toContain('\u001b');
  child.kill('SIGINT');
  expect(await exitCode).toBe(0);
  expect(readdirSync(folder)).toEqual(['demo.alderbook']);
});

test('a second start opens the same demonstration book again', async () => {
  const first = await startDemo();
  first.child.kill('SIGTERM');
  expect(await first.exitCode).toBe(0);
  const second = await startDemo();
  second.child.kill('SIGTERM');
  expect(await second.exitCode).toBe(0);
  expect(second.output.err).toBe('');
});

test('the book is closed even when the starting process is killed outright', async () => {
  const { child } = await startDemo();
  child.kill('SIGKILL');
  await expect.poll(() => readdirSync(folder), { timeout: 10_000 }).toEqual(['demo.alderbook']);
});

/** A program in a folder of its own that writes down what it was started with. */
function writeNotingProgram(name: string): { file: string; noted: () => string[] } {
  const file = path.join(folder, 'programs', name);
  const note = path.join(folder, `${name}.noted`);
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, `#!/bin/sh\nprintf '%s\\n' "$@" > '${note}'\n`);
  chmodSync(file, 0o755);
  return { file, noted: () => (existsSync(note) ? readFileSync(note, 'utf8').trim().split('\n') : []) };
}

// xdg-open and DISPLAY are Linux’s own.
if (process.platform === 'linux') test.describe('on Linux with a display', () => {
  test('the address opens in the person’s browser, and with --no-open it does not', async () => {
    const { file, noted } = writeNotingProgram('xdg-open');
    const environment = { DISPLAY: ':99', PATH: `${path.dirname(file)}:${process.env['PATH'] ?? ''}` };
    const book = path.join(folder, 'x.alderbook');
    const quiet = startIn(environment, '--browser', '--no-open', '--book', book);
    await quiet.address;
    quiet.child.kill('SIGTERM');
    expect(await quiet.exitCode).toBe(0);
    expect(noted()).toEqual([]);
    const loud = startIn(environment, '--browser', '--book', book);
    const address = await loud.address;
    await expect.poll(noted).toEqual([address]);
    loud.child.kill('SIGTERM');
    expect(await loud.exitCode).toBe(0);
  });

  test('ending npm itself, which tells nobody, closes the book too', async () => {
    const book = path.join(folder, 'x.alderbook');
    const child = spawn('npm', ['start', '--', '--browser', '--no-open', '--book', book, '--demo'], { cwd: ROOT, stdio: 'ignore' });
    running.add(child);
    child.once('exit', () => running.delete(child));
    await expect.poll(() => existsSync(`${book}.holder`), { timeout: 20_000 }).toBe(true);
    child.kill('SIGTERM');
    await expect.poll(() => readdirSync(folder), { timeout: 10_000 }).toEqual(['x.alderbook']);
  });

  test('a missing xdg-open is no fault', async () => {
    const environment = { DISPLAY: ':99', PATH: path.join(folder, 'nothing') };
    const { child, address, output, exitCode } = startIn(environment, '--browser', '--book', path.join(folder, 'x.alderbook'));
    await address;
    child.kill('SIGTERM');
    expect(await exitCode).toBe(0);
    expect(output.err).toBe('');
  });

  test('the window is chosen where Electron is, with the book that was named', async () => {
    const { file, noted } = writeNotingProgram('electron');
    const { exitCode } = startIn({ DISPLAY: ':99', ELECTRON_EXEC_PATH: file }, '--book', path.join(folder, 'x.alderbook'), '--demo');
    expect(await exitCode).toBe(0);
    expect(noted()).toEqual([ROOT, '--front=window', `--book=${path.join(folder, 'x.alderbook')}`, '--demo']);
  });

  test('the browser is chosen where Electron is but there is no display, or when it is asked for', async () => {
    const { file, noted } = writeNotingProgram('electron');
    for (const [display, typed] of [['', []], [':99', ['--browser', '--no-open']]] as const) {
      const started = startIn({ DISPLAY: display, ELECTRON_EXEC_PATH: file }, '--book', path.join(folder, 'x.alderbook'), ...typed);
      expect(await started.address).toContain('/?key=');
      started.child.kill('SIGTERM');
      expect(await started.exitCode).toBe(0);
    }
    expect(noted()).toEqual([]);
  });
});

test('a port that is taken is a sentence and exit code 1', async () => {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const { output, exitCode } = startWith('--browser', '--no-open', '--port', String(port), '--book', path.join(folder, 'x.alderbook'));
  expect(await exitCode).toBe(1);
  expect(output.err).toContain(`Port ${port} is used by another program.`);
  expect(output.out).toBe('');
  await new Promise((resolve) => server.close(resolve));
});

test('an unknown option is a sentence and exit code 2', async () => {
  const { output, exitCode } = startWith('--brwoser');
  expect(await exitCode).toBe(2);
  expect(output).toEqual({ out: '', err: 'There is no option --brwoser. Options after -- are --browser, --port N, --book FILE, --demo and --no-open.\n' });
});
