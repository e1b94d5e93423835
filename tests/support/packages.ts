/** Where the programs of installed packages are, so that they can be run by the Node that runs us. */
import { readFileSync } from 'node:fs';
import path from 'node:path';

/** The repository's root. */
export const ROOT = path.resolve(import.meta.dirname, '..', '..');

/**
 * The JavaScript file of a package's program, as its `bin` says.
 * Throws when the package isn't installed or has no such program.
 */
export function programOf(packageName: string, programName: string): string {
  const folder = path.join(ROOT, 'node_modules', packageName);
  const { bin } = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8')) as { bin?: string | Record<string, string> };
  const file = typeof bin === 'string' ? bin : bin?.[programName];
  if (file === undefined) throw new Error(`The package ${packageName} has no program ${programName}.`);
  return path.join(folder, file);
}
