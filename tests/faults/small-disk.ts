/** Runs the cases of a full disk on one that is really small, where this system lets us make one. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { z } from 'zod';

const CHILD = new URL('./small-disk-child.ts', import.meta.url).pathname;
const DISK_MB = 8;
const LONGEST_MS = 400_000;
/** `exec` of a shell that could not make the disk. */
const NO_DISK = 77;
const CASES = 5;

const Case = z.object({ name: z.string(), answered: z.string(), faults: z.array(z.string()) });

export interface SmallDiskRun {
  /** How the disk was made small; null where it can't be done here. */
  readonly how: string | null;
  readonly cases: readonly z.infer<typeof Case>[];
}

/** Tries a small disk of our own, then a limit on the length of files. Both need Linux and its usual tools. */
export function runOnSmallDisk(): SmallDiskRun {
  const folder = mkdtempSync(join(tmpdir(), 'alderbook-disk-'));
  const mount = `mount -t tmpfs -o size=${DISK_MB}m tmpfs "$1" || exit ${NO_DISK}; exec "$2" "$3" "$1" disk`;
  try {
    const small = run('unshare', ['--user', '--map-root-user', '--mount', 'sh', '-c', mount, 'sh', folder, process.execPath, CHILD]);
    if (small !== null) return { how: `a disk of ${DISK_MB} MB`, cases: small };
    if (run('prlimit', ['--version']) === null) return { how: null, cases: [] };
    const limited = run(process.execPath, [CHILD, folder, 'limit']);
    return { how: 'a limit on the length of files', cases: limited ?? [] };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What the child told, with a case of its own for a bad end; null where there is no such tool or no such disk. */
function run(program: string, values: readonly string[]): z.infer<typeof Case>[] | null {
  const done = spawnSync(program, values, { encoding: 'utf8', timeout: LONGEST_MS });
  if (done.error !== undefined && !('code' in done.error && done.error.code === 'ETIMEDOUT')) return null;
  if (done.status === NO_DISK || (done.stdout === '' && /unshare/.test(done.stderr))) return null;
  const cases = done.stdout.split('\n').filter((line) => line.startsWith('{')).map((line) => Case.parse(JSON.parse(line)));
  if (program !== 'prlimit' && (done.status !== 0 || cases.length < CASES)) {
    cases.push({ name: 'the whole run', answered: 'broke off', faults: [`it ended with ${done.status ?? done.signal} after ${cases.length} cases: ${done.stderr.slice(0, 2000)}`] });
  }
  return cases;
}
