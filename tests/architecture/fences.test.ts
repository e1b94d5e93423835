import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openYard } from './fence-yard.ts';
import type { FenceYard } from './fence-yard.ts';
import { PLANTED_TABLE } from './planted-imports.ts';
import { PLANTED_FOR_COMPILER, PLANTED_FOR_LINTER, PLANTED_UNUSED } from './planted-fences.ts';

interface Finding {
  readonly path: string;
  readonly rule: string;
  readonly message: string;
}

let yard: FenceYard;
beforeAll(() => {
  yard = openYard();
});
afterAll(() => yard.close());

describe('the linter', () => {
  const rows = [
    ...PLANTED_TABLE.flatMap((row) => (row.linterSays === null ? [] : [{ ...row, rule: 'eslint(no-restricted-imports)', says: row.linterSays }])),
    ...PLANTED_FOR_LINTER,
  ];
  let found: readonly Finding[];

  function foundIn(row: number, twin: 'faulty' | 'clean'): readonly Finding[] {
    return found.filter((finding) => finding.path.startsWith(`lint/${row}-${twin}/`) && finding.rule === rows[row]?.rule);
  }

  beforeAll(() => {
    rows.forEach((row, index) => {
      for (const twin of ['faulty', 'clean'] as const) {
        yard.copy('.oxlintrc.json', `lint/${index}-${twin}`);
        for (const file of row[twin]) yard.write(file, `lint/${index}-${twin}`);
      }
    });
    const printed = JSON.parse(yard.run('oxlint', 'oxlint', ['--format', 'json', 'lint'])) as {
      diagnostics: readonly { filename: string; code: string; message: string; help?: string }[];
    };
    found = printed.diagnostics.map(({ filename, code, message, help }) => ({ path: filename, rule: code, message: `${message} ${help ?? ''}` }));
  });

  it.each(rows.map((row, index) => ({ ...row, index })))('$rule finds $what and leaves its clean twin alone', ({ index, says }) => {
    expect(foundIn(index, 'faulty').map((finding) => finding.message).join('\n')).toContain(says);
    expect(foundIn(index, 'clean')).toEqual([]);
  });
});

describe('the compiler', () => {
  let found: readonly Finding[];

  beforeAll(() => {
    for (const folder of ['', 'app/', 'main/', 'main/preload/', 'renderer/', 'tests/']) {
      yard.copy(`${folder}tsconfig.json`);
      yard.write({ path: `${folder === '' ? 'main/' : folder}clean.ts`, text: 'export const ticks: readonly number[] = [1];\n' });
    }
    for (const { files } of PLANTED_FOR_COMPILER) for (const file of files) yard.write(file);
    const printed = yard.run('typescript', 'tsc', ['--build', '--pretty', 'false']);
    found = [...printed.matchAll(/^(\S+)\(\d+,\d+\): error (TS\d+): (.*)$/gm)].map(([, path = '', rule = '', message = '']) => ({ path, rule, message }));
  });

  it.each(PLANTED_FOR_COMPILER)('finds $what', ({ files, rule, says }) => {
    const inFile = found.filter((finding) => finding.path === files[0]?.path);
    expect(inFile.map((finding) => `${finding.rule} ${finding.message}`).join('\n')).toContain(`${rule} ${says}`);
  });

  it('leaves clean files alone in every project', () => {
    expect(found.filter((finding) => finding.path.includes('clean'))).toEqual([]);
  });
});

describe('the search for unused code', () => {
  let issues: readonly { file: string; exports: readonly { name: string }[]; types: readonly { name: string }[]; files: readonly unknown[] }[];

  beforeAll(() => {
    const own = openYard();
    own.copy('package.json');
    own.copy('tsconfig.json');
    for (const file of PLANTED_UNUSED.files) own.write(file);
    issues = (JSON.parse(own.run('knip', 'knip', ['--no-progress', '--reporter', 'json'])) as { issues: typeof issues }).issues;
    own.close();
  });

  it('finds exports that nothing imports, in every part, and only those', () => {
    const names = issues.flatMap((issue) => [...issue.exports, ...issue.types].map((each) => `${issue.file}: ${each.name}`));
    expect(names.toSorted()).toEqual(PLANTED_UNUSED.unusedExports);
  });

  it('finds files that nothing imports, and only those', () => {
    expect(issues.filter((issue) => issue.files.length > 0).map((issue) => issue.file).toSorted()).toEqual(PLANTED_UNUSED.unusedFiles);
  });
});
