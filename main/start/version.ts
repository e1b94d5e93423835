/** The version of the program, as its package says. */
import { readFileSync } from 'node:fs';

/** Reads it from a `package.json`. Throws when there is none, which only a broken installation can cause. */
export function readVersion(packageFile: URL): string {
  const about: unknown = JSON.parse(readFileSync(packageFile, 'utf8'));
  if (typeof about === 'object' && about !== null && 'version' in about && typeof about.version === 'string') return about.version;
  throw new Error('The package of the program names no version.');
}
