import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = path.resolve(import.meta.dirname, '..', '..');

/** Paths of this repository and npm scripts that a text names in code marks; what holds a <placeholder> is left out. */
function namedIn(text: string): { paths: string[]; scripts: string[] } {
  const marked = [...text.matchAll(/`([^`\n]+)`/g)].map((match) => match[1] ?? '').filter((word) => !word.includes('<'));
  const paths = marked.filter((word) => /^(app|main|renderer|tests|assets)\/[\w./-]*$/.test(word) || /^\.?[\w-]+\.(json|ts|md)$/.test(word) && !word.includes('/'));
  const scripts = [...text.matchAll(/npm run (?:-s )?([a-z]+)/g)].map((match) => match[1] ?? '');
  return { paths, scripts };
}

/** Of those, what is not there. A bare file name may stand for one that the same sentence names by its folder. */
function missingFrom(text: string, exists: (file: string) => boolean, scripts: readonly string[]): string[] {
  const named = namedIn(text);
  const isThere = (file: string): boolean => exists(file) || (!file.includes('/') && ['app/contract', 'assets/limits'].some((folder) => exists(`${folder}/${file}`)));
  return [...named.paths.filter((file) => !isThere(file)), ...named.scripts.filter((script) => !scripts.includes(script))];
}

const scripts = Object.keys((JSON.parse(readFileSync(path.join(ROOT, 'package.json'), 'utf8')) as { scripts: Record<string, string> }).scripts);

describe.each(['DEVELOPERS.md', 'README.md'])('%s', (file) => {
  const text = readFileSync(path.join(ROOT, file), 'utf8');

  it('names only paths and scripts that are there', () => {
    expect(missingFrom(text, (named) => existsSync(path.join(ROOT, named)), scripts)).toEqual([]);
  });
});

describe('the check of what a text names', () => {
  it('finds a path and a script that are gone, and lets a placeholder be', () => {
    const planted = 'See `app/limits/gone.ts`, `app/limits`, `assets/limits/<set>.json` and run `npm run vanish`.';
    expect(missingFrom(planted, (named) => named === 'app/limits', ['check'])).toEqual(['app/limits/gone.ts', 'vanish']);
  });

  it('sees the paths of DEVELOPERS.md at all', () => {
    expect(namedIn(readFileSync(path.join(ROOT, 'DEVELOPERS.md'), 'utf8')).paths.length).toBeGreaterThan(50);
  });
});
