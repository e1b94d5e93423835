/** Faults planted for the linter, the compiler and the search for unused code. */
import { file } from './planted.ts';
import type { Planted } from './planted.ts';
import type { SourceFile } from './source-file.ts';

const LOOSE = `: an${'y'}`;

export const PLANTED_FOR_LINTER: readonly Planted[] = [
  {
    rule: 'import(no-cycle)',
    what: 'two files that import each other',
    faulty: [file('app/limits/a.ts', `import { b } from './b.ts';\nexport function a(): number { return b(); }`), file('app/limits/b.ts', `import { a } from './a.ts';\nexport function b(): number { return a(); }`)],
    says: 'Dependency cycle',
    clean: [file('app/limits/a.ts', `import { b } from './b.ts';\nexport function a(): number { return b(); }`), file('app/limits/b.ts', `export function b(): number { return 1; }`)],
  },
  {
    rule: 'import(no-default-export)',
    what: 'a default export',
    faulty: [file('app/limits/a.ts', `export default function a(): number { return 1; }`)],
    says: 'Prefer named exports',
    clean: [file('electron.config.ts', `export default {};`), file('app/limits/a.ts', `export function a(): number { return 1; }`)],
  },
  {
    rule: 'typescript(no-explicit-any)',
    what: 'a type that lets everything through',
    faulty: [file('app/limits/a.ts', `export function a(value${LOOSE}): void { value(); }`)],
    says: 'Specify a different type',
    clean: [file('app/limits/a.ts', `export function a(value: unknown): unknown { return value; }`)],
  },
  {
    rule: 'eslint(max-lines)',
    what: 'a file of 301 lines',
    faulty: [file('app/limits/a.ts', `${'// one more line\n'.repeat(300)}export const a = 1;`)],
    says: 'too many lines',
    clean: [file('app/limits/a.ts', `${'// one more line\n'.repeat(299)}export const a = 1;`)],
  },
  {
    rule: 'unicorn(filename-case)',
    what: 'a file name in camel case',
    faulty: [file('app/limits/holdRule.ts', `export const a = 1;`)],
    says: 'kebab-case',
    clean: [file('app/limits/hold-rule.ts', `export const a = 1;`)],
  },
  {
    rule: 'eslint(no-console)',
    what: 'a console in a service',
    faulty: [file('main/backroom/services/a.ts', `console.log(1);`)],
    says: 'Unexpected console',
    clean: [file('main/browser/run.ts', `console.log(1);`)],
  },
  {
    rule: 'react(set-state-in-effect)',
    what: 'a state set in an effect',
    faulty: [file('renderer/parts/a.tsx', `import { useEffect, useState } from 'react';\nexport function A() {\n  const [now, setNow] = useState(0);\n  useEffect(() => { setNow(1); }, []);\n  return <p>{now}</p>;\n}`)],
    says: 'effect',
    clean: [file('renderer/parts/a.tsx', `import { useState } from 'react';\nexport function A() {\n  const [now, setNow] = useState(0);\n  return <button type="button" onClick={() => setNow(1)}>{now}</button>;\n}`)],
  },
  {
    rule: 'react-hooks(exhaustive-deps)',
    what: 'an effect that forgets what it depends on',
    faulty: [file('renderer/parts/a.tsx', `import { useEffect } from 'react';\nexport function A({ name }: { name: string }) {\n  useEffect(() => { document.title = name; }, []);\n  return null;\n}`)],
    says: 'missing dependency',
    clean: [file('renderer/parts/a.tsx', `import { useEffect } from 'react';\nexport function A({ name }: { name: string }) {\n  useEffect(() => { document.title = name; }, [name]);\n  return null;\n}`)],
  },
];

/** For the compiler, the file at fault first. */
export const PLANTED_FOR_COMPILER: readonly { readonly what: string; readonly files: readonly SourceFile[]; readonly rule: string; readonly says: string }[] = [
  { what: 'the renderer importing main', files: [file('renderer/imports-main.ts', `import '../main/clean.ts';`)], rule: 'TS6307', says: 'File' },
  { what: 'main importing the renderer', files: [file('main/imports-renderer.ts', `import '../renderer/clean.ts';`)], rule: 'TS6307', says: 'File' },
  { what: 'app importing main', files: [file('app/imports-main.ts', `import '../main/clean.ts';`)], rule: 'TS6307', says: 'File' },
  { what: 'app importing the renderer', files: [file('app/imports-renderer.ts', `import '../renderer/clean.ts';`)], rule: 'TS6307', says: 'File' },
  { what: 'the preload importing main', files: [file('main/preload/imports-main.ts', `import '../clean.ts';`)], rule: 'TS6307', says: 'File' },
  { what: 'the program importing tests', files: [file('main/imports-tests.ts', `import '../tests/clean.ts';`)], rule: 'TS6307', says: 'File' },
  { what: 'a document in app', files: [file('app/draws.ts', `export const title = document.title;`)], rule: 'TS2584', says: `Cannot find name 'document'` },
  { what: 'a console in app', files: [file('app/prints.ts', `console.log(1);`)], rule: 'TS2584', says: `Cannot find name 'console'` },
  { what: 'Node in app', files: [file('app/reads.ts', `import 'node:fs';\nexport const home = process.cwd();`)], rule: 'TS2591', says: `Cannot find name 'process'` },
  { what: 'a document in main', files: [file('main/draws.ts', `export const title = document.title;`)], rule: 'TS2584', says: `Cannot find name 'document'` },
  { what: 'Node in the renderer', files: [file('renderer/reads.ts', `export const bytes = Buffer.from('a');`)], rule: 'TS2591', says: `Cannot find name 'Buffer'` },
  { what: 'an item of a list used unlooked', files: [file('app/unlooked.ts', `import { ticks } from './clean.ts';\nexport const first: number = ticks[0];`)], rule: 'TS2322', says: `Type 'number | undefined'` },
  { what: 'undefined given for what may be absent', files: [file('app/absent.ts', `export const piece: { name?: string } = { name: undefined };`)], rule: 'TS2375', says: 'Type' },
  { what: 'a type imported as a value', files: [file('app/type-import.ts', `import { Piece } from './clean-piece.ts';\nexport type Other = Piece;`), file('app/clean-piece.ts', `export interface Piece { readonly name: string }`)], rule: 'TS1484', says: `'Piece' is a type` },
  { what: 'an enum, which unbuilt source can’t run', files: [file('app/enum.ts', `export enum Scale { F, C }`)], rule: 'TS1294', says: 'This syntax is not allowed' },
  { what: 'an unused local', files: [file('app/unused-local.ts', `export function a(): number { const b = 1; return 2; }`)], rule: 'TS6133', says: `'b' is declared` },
];

function twoFunctions(name: string): string {
  return `export function used${name}(): number { return 1; }\nexport function unused${name}(): number { return 2; }`;
}

/** A small program with an unused export in every part, and three files that nothing imports. */
export const PLANTED_UNUSED: { readonly files: readonly SourceFile[]; readonly unusedExports: readonly string[]; readonly unusedFiles: readonly string[] } = {
  files: [
    file('main/index.ts', `import { usedFront } from './browser/front.ts';\nimport { usedRule } from '../app/limits/rule.ts';\nusedFront(usedRule());`),
    file('main/backroom/worker.ts', `import { usedService } from './services/service.ts';\nusedService();`),
    file('main/browser/front.ts', twoFunctions('Front')),
    file('main/backroom/services/service.ts', twoFunctions('Service')),
    file('app/limits/rule.ts', `${twoFunctions('Rule')}\nexport interface UnusedShape { readonly ticks: number }`),
    file('renderer/main.tsx', `import { usedPart } from './parts/part.tsx';\nusedPart();`),
    file('renderer/parts/part.tsx', twoFunctions('Part')),
    file('tests/app/rule.test.ts', `import { usedKitchen } from '../support/kitchen.ts';\nusedKitchen();`),
    file('tests/support/kitchen.ts', twoFunctions('Kitchen')),
    file('app/limits/forgotten.ts', `export const a = 1;`),
    file('main/window/forgotten.ts', `export const a = 1;`),
    file('renderer/parts/forgotten.tsx', `export const a = 1;`),
  ],
  unusedExports: [
    'app/limits/rule.ts: UnusedShape', 'app/limits/rule.ts: unusedRule', 'main/backroom/services/service.ts: unusedService', 'main/browser/front.ts: unusedFront',
    'renderer/parts/part.tsx: unusedPart', 'tests/support/kitchen.ts: unusedKitchen',
  ],
  unusedFiles: ['app/limits/forgotten.ts', 'main/window/forgotten.ts', 'renderer/parts/forgotten.tsx'],
};
