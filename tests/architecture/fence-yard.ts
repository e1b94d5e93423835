/** A folder to plant faults in, with this repository's own settings, for the tools that read from disk. */
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { programOf, ROOT } from '../support/packages.ts';
import type { SourceFile } from './source-file.ts';

export interface FenceYard {
  readonly folder: string;
  /** Copies a file of settings to the same place under `within`. */
  copy(name: string, within?: string): void;
  write(file: SourceFile, within?: string): void;
  /** Runs a package's program here; answers all it printed. */
  run(packageName: string, programName: string, values: readonly string[]): string;
  close(): void;
}

/** Makes an empty one. The packages are those of this repository. */
export function openYard(): FenceYard {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'alderbook-fences-'));
  symlinkSync(path.join(ROOT, 'node_modules'), path.join(folder, 'node_modules'), 'junction');
  const place = (name: string, within: string): string => {
    const file = path.join(folder, within, name);
    mkdirSync(path.dirname(file), { recursive: true });
    return file;
  };
  return {
    folder,
    copy: (name, within = '') => copyFileSync(path.join(ROOT, name), place(name, within)),
    write: (file, within = '') => writeFileSync(place(file.path, within), file.text),
    run: (packageName, programName, values) => {
      const ran = spawnSync(process.execPath, [programOf(packageName, programName), ...values], { cwd: folder, encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });
      if (ran.error !== undefined) throw ran.error;
      return ran.stdout + ran.stderr;
    },
    close: () => rmSync(folder, { recursive: true, force: true }),
  };
}
