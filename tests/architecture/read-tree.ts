/** Reads the repository's own files, as they lie on disk. */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { ROOT } from '../support/packages.ts';
import type { SourceFile } from './source-file.ts';

/** What is made by running, installing or building, and never kept. */
const MADE: ReadonlySet<string> = new Set(['.git', 'node_modules', 'out', 'test-results', 'playwright-report', 'coverage']);
/** What editors and file managers leave anywhere. */
const LEFT_BY_OTHERS: ReadonlySet<string> = new Set(['.vscode', '.idea', '.DS_Store', 'Thumbs.db']);
const TEXT = /\.(ts|tsx|mts|cts|mjs|cjs|js|css|html|md|json|txt|sql)$/;

function listFiles(folder: string): string[] {
  return readdirSync(path.join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    const name = folder === '' ? entry.name : `${folder}/${entry.name}`;
    const isMade = folder === '' && (MADE.has(entry.name) || entry.name.endsWith('.log'));
    if (isMade || LEFT_BY_OTHERS.has(entry.name)) return [];
    return entry.isDirectory() ? listFiles(name) : [name];
  });
}

/** Every file of the repository; of what isn't text only the name. */
export function readTree(): SourceFile[] {
  return listFiles('').toSorted().map((name) => ({ path: name, text: TEXT.test(name) ? readFileSync(path.join(ROOT, name), 'utf8') : '' }));
}

/** The same files by another way, to count against: those that git knows or would add. Null without git. */
export function listByGit(): string[] | null {
  try {
    const listed = execFileSync('git', ['ls-files', '-co', '--exclude-standard', '-z'], { cwd: ROOT, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'], maxBuffer: 64 * 1024 * 1024 });
    return [...new Set(listed.split('\0').filter((name) => name !== ''))];
  } catch {
    return null;
  }
}
