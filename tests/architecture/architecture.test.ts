import { existsSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ROOT } from '../support/packages.ts';
import { findFaults } from './find-faults.ts';
import { IMPORT_TABLE } from './import-table.ts';
import { listByGit, readTree } from './read-tree.ts';
import { isCode, parseFile } from './source-file.ts';
import { findMissingAtTop } from './tree-rules.ts';

/** Fewer files of code than the program was first built with means that they were not found. */
const FEWEST_CODE_FILES = 400;
/** Parts that have stood from the first version on. */
const PARTS = [
  'app/measures/', 'app/brine/', 'app/limits/', 'app/probes/', 'app/packs/', 'app/contract/', 'app/contract/names.ts', 'main/preload/', 'main/window/', 'main/browser/',
  'main/backroom/', 'main/backroom/book/', 'main/start/', 'main/index.ts', 'renderer/', 'renderer/places/smokehouse/', 'electron.config.ts',
];

const files = readTree();
const code = files.filter(isCode);

describe('this repository', () => {
  it('has no fault that the architecture rules find', () => {
    expect(findFaults(files).map((fault) => `${fault.rule}: ${fault.path}:${fault.line}: ${fault.message}`)).toEqual([]);
  });

  it('holds at its top everything that belongs there', () => {
    expect(findMissingAtTop(files)).toEqual([]);
  });

  it('was looked at whole', () => {
    const seen = new Set(files.map((file) => file.path));
    const listed = (listByGit() ?? []).filter((name) => existsSync(path.join(ROOT, name)));
    expect(listed.filter((name) => !seen.has(name))).toEqual([]);
    expect(code.length).toBeGreaterThanOrEqual(FEWEST_CODE_FILES);
    expect(PARTS.filter((part) => !IMPORT_TABLE.some((row) => row.area === part) || !code.some((file) => file.path.startsWith(part)))).toEqual([]);
  });

  it('has no import that the rules overlooked', () => {
    // Planted imports stand in texts among the tests.
    const overlooked = code.filter((file) => !file.path.startsWith('tests/')).map(parseFile).filter((file) => {
      const plain = file.text.match(/^(import|export) [^;]*? from '[^']+'/gm)?.length ?? 0;
      return file.imports.length < plain;
    });
    expect(overlooked.map((file) => file.path)).toEqual([]);
  });
});
