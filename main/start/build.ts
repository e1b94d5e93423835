/** Builds the program when its sources differ from those it was last built from. */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, openSync, closeSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync, writeSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';

/** Everything that goes into the build; a change anywhere in them asks for a new one. */
const SOURCES: readonly string[] = ['app', 'main', 'renderer', 'assets', 'electron.config.ts', 'package.json', 'package-lock.json'];
const RESULTS: readonly string[] = ['out/main/index.js', 'out/preload/index.cjs', 'out/renderer/index.html'];
const OTHER_BUILD_LIMIT_MS = 120_000;
const LOOK_AGAIN_MS = 100;

function listFiles(root: string, name: string): string[] {
  const file = path.join(root, name);
  if (!existsSync(file)) return [];
  if (!statSync(file).isDirectory()) return [name];
  return readdirSync(file).sort().flatMap((part) => listFiles(root, path.posix.join(name, part)));
}

/** SHA-256 over the names and contents of all sources, as hexadecimal text. */
export function digestSources(root: string): string {
  const digest = createHash('sha256');
  for (const name of SOURCES.flatMap((source) => listFiles(root, source))) {
    const bytes = readFileSync(path.join(root, name));
    digest.update(`${name}\0${bytes.length}\0`).update(bytes);
  }
  return digest.digest('hex');
}

function stampFile(root: string): string {
  return path.join(root, 'out', 'built.json');
}

/** Whether what lies in `out` was built from sources of this digest, and is there. */
export function isBuiltFrom(root: string, digest: string): boolean {
  try {
    const stamp: unknown = JSON.parse(readFileSync(stampFile(root), 'utf8'));
    const isSame = typeof stamp === 'object' && stamp !== null && 'digest' in stamp && stamp.digest === digest;
    return isSame && RESULTS.every((name) => existsSync(path.join(root, name)));
  } catch {
    return false;
  }
}

/** Runs the builder; rejects with all it printed when it fails. */
function runBuilder(root: string): Promise<void> {
  const { NODE_ENV: _ignored, ...environment } = process.env;
  return new Promise((resolve, reject) => {
    const builder = spawn(
      process.execPath,
      [path.join(root, 'node_modules', 'electron-vite', 'bin', 'electron-vite.js'), 'build', '-c', 'electron.config.ts'],
      { cwd: root, env: environment, stdio: ['ignore', 'pipe', 'pipe'] },
    );
    let printed = '';
    builder.stdout.on('data', (part: Buffer) => { printed += part.toString(); });
    builder.stderr.on('data', (part: Buffer) => { printed += part.toString(); });
    builder.on('error', reject);
    builder.on('exit', (code) => (code === 0 ? resolve() : reject(new Error(`The build failed.\n${printed}`))));
  });
}

function isRunning(processId: number): boolean {
  try {
    process.kill(processId, 0);
    return true;
  } catch {
    return false;
  }
}

/** Takes the right to build, waiting for another build of the same folder to end; answers how to give it back. */
async function takeTurn(root: string): Promise<() => void> {
  const lockFile = path.join(root, 'out', 'building.lock');
  const giveUpAtMs = performance.now() + OTHER_BUILD_LIMIT_MS;
  mkdirSync(path.dirname(lockFile), { recursive: true });
  while (performance.now() < giveUpAtMs) {
    try {
      const handle = openSync(lockFile, 'wx');
      writeSync(handle, String(process.pid));
      closeSync(handle);
      return () => rmSync(lockFile, { force: true });
    } catch {
      const holder = existsSync(lockFile) ? Number(readFileSync(lockFile, 'utf8')) : 0;
      // An empty lock is one being written just now; one of a dead process was left behind.
      if (holder > 0 && !isRunning(holder)) rmSync(lockFile, { force: true });
      else await wait(LOOK_AGAIN_MS);
    }
  }
  throw new Error(`Another build has not ended for two minutes. If there is none, delete ${lockFile} and start again.`);
}

/**
 * Builds into `out` when needed; answers whether it did.
 * Rejects with what the builder printed when the sources don't build.
 */
export async function buildWhatChanged(root: string, say: (sentence: string) => void): Promise<boolean> {
  if (isBuiltFrom(root, digestSources(root))) return false;
  const giveBack = await takeTurn(root);
  try {
    const digest = digestSources(root);
    if (isBuiltFrom(root, digest)) return false;
    say('Building Alderbook from its sources; this takes a few seconds.');
    rmSync(stampFile(root), { force: true });
    await runBuilder(root);
    writeFileSync(stampFile(root), `${JSON.stringify({ digest })}\n`);
    return true;
  } finally {
    giveBack();
  }
}
