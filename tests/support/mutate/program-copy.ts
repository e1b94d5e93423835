/** A copy of the program to mutate, the tests that reach what is mutated, and every mutant by number. */
import { cpSync, mkdtempSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { instrumentFile, type Mutant } from './instrument.ts';

const COPIED = ['app', 'assets', 'main', 'renderer', 'tests', 'package.json', 'tsconfig.json'];
const MUTATED = ['app/limits', 'app/heat'];
const TESTED = ['tests/published', 'tests/app'];
const IMPORT = /from '(\.[^']+)'/g;
/** Drawn records and properties come last: they take longest, and most mutants are dead by then. */
const SLOW = /propert|oracle/;

/** Copies the program into a folder of its own, so that nobody's work on it changes what is tried. */
export function copyProgram(root: string): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'alderbook-mutants-'));
  for (const name of COPIED) cpSync(path.join(root, name), path.join(folder, name), { recursive: true });
  symlinkSync(path.join(root, 'node_modules'), path.join(folder, 'node_modules'));
  return folder;
}

/** The files that are mutated, from the root, in order; the data of types alone has no mutants. */
export function mutatedFiles(folder: string): string[] {
  return MUTATED.flatMap((part) => readdirSync(path.join(folder, part)).filter((name) => name.endsWith('.ts')).map((name) => `${part}/${name}`)).sort();
}

/** Every file with all its mutants in it, numbered through from 1. */
export function instrumentAll(folder: string): { readonly texts: ReadonlyMap<string, string>; readonly mutants: readonly Mutant[] } {
  const texts = new Map<string, string>();
  const mutants: Mutant[] = [];
  for (const file of mutatedFiles(folder)) {
    const made = instrumentFile(file, readFileSync(path.join(folder, file), 'utf8'), mutants.length + 1);
    texts.set(file, made.text);
    mutants.push(...made.mutants);
  }
  return { texts, mutants };
}

/** The tests that import, directly or not, anything that is mutated; quick ones first. */
export function relatedTests(folder: string): string[] {
  const mutated = new Set(mutatedFiles(folder));
  const reaches = new Map<string, boolean>();
  function doesReach(file: string): boolean {
    if (mutated.has(file)) return true;
    const known = reaches.get(file);
    if (known !== undefined) return known;
    reaches.set(file, false);
    const found = /\.tsx?$/.test(file) && importsOf(folder, file).some(doesReach);
    reaches.set(file, found);
    return found;
  }
  const tests = TESTED.flatMap((part) => readdirSync(path.join(folder, part)).filter((name) => /\.test\.tsx?$/.test(name)).map((name) => `${part}/${name}`));
  const related = tests.filter(doesReach);
  return [...related.filter((name) => !SLOW.test(name)), ...related.filter((name) => SLOW.test(name))];
}

function importsOf(folder: string, file: string): string[] {
  const text = readFileSync(path.join(folder, file), 'utf8');
  return [...text.matchAll(IMPORT)].flatMap(([, specifier]) => (specifier === undefined ? [] : [path.posix.join(path.posix.dirname(file), specifier)]));
}
