/** Rules about files and folders: their names, their length, and what lies at the top. */
import { isUnder } from './fault.ts';
import type { Fault, Rule, Tree } from './fault.ts';
import type { SourceFile } from './source-file.ts';

const MOST_LINES = 300;
const COUNTED = /\.(ts|tsx|mts|cts|mjs|cjs|js|css)$/;
const KEBAB = /^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9]+(-[a-z0-9]+)*)*$/;
const SAYS_NOTHING: ReadonlySet<string> = new Set(['util', 'utils', 'common', 'lib', 'libs', 'misc', 'shared', 'helper', 'helpers']);
const HOUSE = ['app/', 'main/', 'renderer/', 'tests/'];

/** What the top level must hold, whole. */
const TOP_REQUIRED = [
  'package.json', 'package-lock.json', 'tsconfig.json', 'electron.config.ts', 'README.md', 'DEVELOPERS.md', 'LICENSE', 'CHANGELOG.md',
  'app', 'main', 'renderer', 'tests', 'assets', '.ci', '.editorconfig', '.gitignore', '.node-version', '.npmrc', '.oxlintrc.json',
];
/** What it may hold besides. */
const TOP_ALLOWED = ['.gitattributes', '.github'];

function topOf(file: SourceFile): string {
  return file.path.split('/', 1)[0] ?? '';
}

function countLines(text: string): number {
  return text.split('\n').length - (text.endsWith('\n') ? 1 : 0);
}

function findLongFiles(tree: Tree): Omit<Fault, 'rule'>[] {
  return tree.files
    .filter((file) => isUnder(file.path, HOUSE) && COUNTED.test(file.path) && countLines(file.text) > MOST_LINES)
    .map((file) => ({ path: file.path, line: MOST_LINES, message: `${countLines(file.text)} lines; ${MOST_LINES} is the most. Split it by subject.` }));
}

function findBadNames(tree: Tree): Omit<Fault, 'rule'>[] {
  return tree.files
    .filter((file) => isUnder(file.path, HOUSE))
    .flatMap((file) => {
      const parts = file.path.split('/');
      return [
        ...parts.filter((part) => !KEBAB.test(part)).map((part) => ({ path: file.path, line: 1, message: `${part} is not in kebab-case.` })),
        ...parts
          .filter((part) => SAYS_NOTHING.has(part.split('.', 1)[0] ?? ''))
          .map((part) => ({ path: file.path, line: 1, message: `${part} says nothing: name the file or folder after its subject.` })),
      ];
    });
}

function findStrangersAtTop(tree: Tree): Omit<Fault, 'rule'>[] {
  const allowed = new Set([...TOP_REQUIRED, ...TOP_ALLOWED]);
  return tree.files
    .filter((file) => !allowed.has(topOf(file)))
    .map((file) => ({ path: file.path, line: 1, message: `${topOf(file)} has no place at the top: put it into the folder of its subject.` }));
}

/** What the top level lacks. */
export function findMissingAtTop(files: readonly SourceFile[]): string[] {
  const there = new Set(files.map(topOf));
  return TOP_REQUIRED.filter((entry) => !there.has(entry));
}

export const TREE_RULES: readonly Rule[] = [
  { name: 'file-length', find: findLongFiles },
  { name: 'file-name', find: findBadNames },
  { name: 'top-level', find: findStrangersAtTop },
];
