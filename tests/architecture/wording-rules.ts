/** Rules about what may not be written: silenced checks, tests left out, work put off, pages and folders that readers don't have. */
import path from 'node:path';
import { Visitor } from 'vite';
import { isUnder } from './fault.ts';
import type { Fault, Rule, Tree } from './fault.ts';

type Found = Omit<Fault, 'rule'>;

const HOUSE = ['app/', 'main/', 'renderer/', 'tests/', 'electron.config.ts'];
const SILENCED = /(eslint|oxlint|biome|knip|prettier)-(disable|ignore)|@ts-(ignore|nocheck)|(istanbul|v8|c8) ignore/;
const EXPECTED_ERROR = /@ts-expect-error/;
// Written so that a search for the words doesn't find this line.
const PUT_OFF = /\b(TOD[O]|FIXM[E]|XX[X]|HAC[K])\b/;
const LEFT_OUT: ReadonlySet<string> = new Set(['skip', 'only', 'todo', 'fails', 'fail', 'fixme', 'skipIf', 'runIf']);
const TESTING: ReadonlySet<string> = new Set(['it', 'test', 'describe', 'suite']);
const LEFT_OUT_NAMES: ReadonlySet<string> = new Set(['xit', 'xtest', 'xdescribe', 'fit', 'fdescribe']);
const MACHINE_FOLDER = /(^|[^\w.-])\/(root|home|work|Users)\//;
const PAGE_NAME = /\b[\w-]+\.md\b/g;
const PAGES: ReadonlySet<string> = new Set(['README.md', 'DEVELOPERS.md', 'CHANGELOG.md']);
const WAY_UP = /(?<![\w/.])(?:\.\.\/)+[\w.-]+/g;
const LEFT_OPEN = /\/(util|utils|common|lib|misc|shared|helpers)(?![\w-])/;

function findSilenced(tree: Tree): Found[] {
  return tree.code.flatMap((file) =>
    file.comments
      .filter((comment) => SILENCED.test(comment.value) || (EXPECTED_ERROR.test(comment.value) && !file.path.startsWith('tests/')))
      .map((comment) => ({ path: file.path, line: file.lineAt(comment.start), message: 'No check is silenced here: mend what it found, or change the rule for everyone.' })),
  );
}

function findPutOff(tree: Tree): Found[] {
  return tree.code.flatMap((file) =>
    file.comments
      .filter((comment) => PUT_OFF.test(comment.value))
      .map((comment) => ({ path: file.path, line: file.lineAt(comment.start), message: 'Work put off doesn’t stand in the code: do it, or file it.' })),
  );
}

function findLeftOut(tree: Tree): Found[] {
  const message = 'A test runs or is deleted; none is left out, run alone or expected to fail.';
  return tree.code
    .filter((file) => file.path.startsWith('tests/'))
    .flatMap((file) => {
      const found: Found[] = [];
      new Visitor({
        MemberExpression(node) {
          let owner = node.object;
          while (owner.type === 'MemberExpression') owner = owner.object;
          const isTest = owner.type === 'Identifier' && TESTING.has(owner.name);
          if (isTest && node.property.type === 'Identifier' && LEFT_OUT.has(node.property.name)) found.push({ path: file.path, line: file.lineAt(node.start), message });
        },
        CallExpression(node) {
          if (node.callee.type === 'Identifier' && LEFT_OUT_NAMES.has(node.callee.name)) found.push({ path: file.path, line: file.lineAt(node.start), message });
        },
      }).visit(file.program);
      return found;
    });
}

/** Whether a way up, looked at from a file's folder, ends outside the repository or in a folder we never have. */
function leadsOut(file: string, way: string): boolean {
  // The composition root runs from where it is built to.
  const from = file === 'main/index.ts' ? 'out/main' : path.posix.dirname(file);
  return path.posix.join(from, way).startsWith('..') || LEFT_OPEN.test(way);
}

function judgeLine(file: string, line: string): string | null {
  if (MACHINE_FOLDER.test(line)) return 'It names a folder of one machine: nothing outside the repository is there for others.';
  if (line.match(WAY_UP)?.some((way) => leadsOut(file, way)) ?? false) return 'It names a folder outside the repository: nothing there is there for others.';
  const strange = line.match(PAGE_NAME)?.find((page) => !PAGES.has(page));
  return strange === undefined ? null : `It names ${strange}, a page that readers of the repository don’t have: cite the publisher, the title, the section and the year.`;
}

function findOutside(tree: Tree): Found[] {
  return tree.files
    .filter((file) => isUnder(file.path, [...HOUSE, 'README.md', 'DEVELOPERS.md', 'CHANGELOG.md', 'assets/']) && /\.(ts|tsx|mjs|css|html|md|json|txt|sql)$/.test(file.path))
    .flatMap((file) =>
      file.text.split('\n').flatMap((text, index) => {
        const message = judgeLine(file.path, text);
        return message === null ? [] : [{ path: file.path, line: index + 1, message }];
      }),
    );
}

export const WORDING_RULES: readonly Rule[] = [
  { name: 'nothing-silenced', find: findSilenced },
  { name: 'nothing-put-off', find: findPutOff },
  { name: 'no-test-left-out', find: findLeftOut },
  { name: 'nothing-outside', find: findOutside },
];
