import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ROOT } from '../support/packages.ts';

interface Named {
  readonly paths: readonly string[];
  readonly scripts: readonly string[];
}

interface Package {
  readonly scripts: Readonly<Record<string, string>>;
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
  readonly optionalDependencies: Readonly<Record<string, string>>;
}

/** A path into one of our folders, wherever it stands; one that begins elsewhere (a package's, a machine's) is not ours. */
const IN_A_FOLDER = /(?<![\w@./-])(?:app|main|renderer|tests|assets)\/[\w./<>-]+/g;
/** A file of the top level, or a folder by its bare name, between code marks. */
const AT_THE_TOP = /`(\.[a-z]\w+|[\w.-]+\.(?:json|ts|mjs|md)|app|main|renderer|tests|assets)`/g;
const SCRIPT = /\bnpm (?:run (?:-s )?([\w:-]+)|(start|test)\b)/g;

/** The paths of this repository and the npm scripts that a text names; what holds a <placeholder> is left out. */
function namedIn(text: string): Named {
  const inFolders = [...text.matchAll(IN_A_FOLDER)].map(([whole]) => whole.replace(/[./]+$/, '')).filter((name) => !name.includes('<'));
  const atTheTop = [...text.matchAll(AT_THE_TOP)].map((match) => match[1] ?? '');
  const scripts = [...text.matchAll(SCRIPT)].map((match) => match[1] ?? match[2] ?? '');
  return { paths: [...inFolders, ...atTheTop], scripts };
}

/** Of those, what is not there. */
function missingFrom(text: string, exists: (name: string) => boolean, scripts: readonly string[]): string[] {
  const named = namedIn(text);
  return [...named.paths.filter((name) => !exists(name)), ...named.scripts.filter((script) => !scripts.includes(script))];
}

/** The packages that no line of a table begins with. */
function missingReasons(text: string, packages: readonly string[]): string[] {
  const given = new Set([...text.matchAll(/^\| ([^|`→]+) \|/gm)].flatMap((match) => (match[1] ?? '').split(', ')));
  return packages.filter((name) => !given.has(name));
}

function isHere(name: string): boolean {
  return existsSync(path.join(ROOT, name));
}

const about = JSON.parse(readFileSync(path.join(ROOT, 'package.json'), 'utf8')) as Package;
const developers = readFileSync(path.join(ROOT, 'DEVELOPERS.md'), 'utf8');

describe('DEVELOPERS.md', () => {
  it('names only paths and scripts that are there', () => {
    expect(missingFrom(developers, isHere, Object.keys(about.scripts))).toEqual([]);
  });

  it('was read whole', () => {
    const named = namedIn(developers);
    expect(named.paths.length).toBeGreaterThan(90);
    expect(Object.keys(about.scripts).filter((script) => !named.scripts.includes(script))).toEqual([]);
  });

  it('gives a reason for every package that is installed', () => {
    expect(missingReasons(developers, Object.keys({ ...about.dependencies, ...about.devDependencies, ...about.optionalDependencies }))).toEqual([]);
  });

  it('begins with the house', () => {
    expect(/^## .*$/m.exec(developers)?.[0]).toBe('## The house in one page');
  });
});

describe('README.md', () => {
  it('names only paths and scripts that are there', () => {
    expect(missingFrom(readFileSync(path.join(ROOT, 'README.md'), 'utf8'), isHere, Object.keys(about.scripts))).toEqual([]);
  });
});

describe('the check of what a text names', () => {
  const exists = (name: string): boolean => ['app', 'app/limits', 'app/limits/judge.ts', '.npmrc', 'package.json'].includes(name);

  it.each([
    ['a file that is gone', 'See `app/limits/gone.ts`.', ['app/limits/gone.ts']],
    ['a folder that is gone', 'See `app/gone`, and app/limits.', ['app/gone']],
    ['a path outside code marks, as in a drawing', '  → main/gone.ts  does nothing', ['main/gone.ts']],
    ['a dotfile that is gone', 'See `.gonerc` and `.npmrc`.', ['.gonerc']],
    ['a file of the top level that is gone', 'See `gone.config.ts` and `package.json`.', ['gone.config.ts']],
    ['a script that is gone', 'Type `npm run vanish` or `npm run -s vanish-too`, then `npm test`.', ['vanish', 'vanish-too']],
  ])('finds %s', (_what, text, missing) => {
    expect(missingFrom(text, exists, ['test'])).toEqual(missing);
  });

  it('lets placeholders, and what lies elsewhere, be', () => {
    const text = 'Write `app/limits/<kind>.ts`, `app/<subject>/<file>.ts`, read `node_modules/main/x` and `npm ci`, then `app` and app/limits/judge.ts.';
    expect(namedIn(text)).toEqual({ paths: ['app/limits/judge.ts', 'app'], scripts: [] });
    expect(missingFrom(text, exists, [])).toEqual([]);
  });

  it('finds a package without a reason', () => {
    expect(missingReasons('| library | why |\n|---|---|\n| a, @b/c | both |\n', ['a', '@b/c', 'd'])).toEqual(['d']);
  });
});
