/** Faults planted for the rules about imports. */
import { file } from './planted.ts';
import type { Planted } from './planted.ts';

/** One that the linter sees too, with a part of its own message; null where it can't see it. */
export interface PlantedImport extends Planted {
  readonly linterSays: string | null;
}

function importPair(what: string, path: string, faulty: string, says: string, clean: string, linterSays: string | null): PlantedImport {
  return { rule: 'import-table', what, faulty: [file(path, faulty)], says, clean: [file(path, clean)], linterSays };
}

/** Written apart, because looked at from this folder three of them lead out of the repository. */
const UP = '../';

/** Faults against the table of imports, for the rules here and for the linter. */
export const PLANTED_TABLE: readonly PlantedImport[] = [
  importPair('electron in app', 'app/limits/a.ts', `import { app } from 'electron';`, 'the package electron', `import { good } from '../measures/outcome.ts';`, 'A subject of the trade'),
  importPair('Node in app', 'app/limits/a.ts', `import { readFile } from 'node:fs/promises';`, 'the package node:fs/promises', `import { holdMs } from './hold.ts';`, 'A subject of the trade'),
  importPair('zod in a subject', 'app/limits/a.ts', `import { z } from 'zod';`, 'the package zod', `import { Temporal } from 'temporal-polyfill';`, 'A subject of the trade'),
  importPair('the contract in a subject', 'app/limits/a.ts', `import type { Reply } from '../contract/envelope.ts';`, 'app/contract/envelope.ts', `import type { Outcome } from '../measures/outcome.ts';`, 'A subject of the trade'),
  importPair('main in app', 'app/limits/a.ts', `export { open } from '../../main/backroom/door.ts';`, 'main/backroom/door.ts', `export { open } from './open.ts';`, 'A subject of the trade'),
  importPair('a value of a subject in the contract', 'app/contract/requests/a.ts', `import { WORDS } from '../../probes/words.ts';`, 'takes types only', `import type { Words } from '../../probes/words.ts';`, 'The contract takes types only'),
  importPair('a type beside a value in the contract', 'app/contract/a.ts', `import { type Words, WORDS } from '../probes/words.ts';`, 'takes types only', `import { type Words } from '../probes/words.ts';`, 'The contract takes types only'),
  importPair('any import in names.ts', 'app/contract/names.ts', `import type { Reply } from './envelope.ts';`, 'app/contract/envelope.ts', `export const NAMES = ['a.b'] as const;`, 'names.ts imports nothing'),
  importPair('the contract in the preload', 'main/preload/a.ts', `import { contract } from '../../app/contract/contract.ts';`, 'app/contract/contract.ts', `import { REQUEST_NAMES } from '../../app/contract/names.ts';`, 'The preload knows'),
  importPair('Node in the preload', 'main/preload/a.ts', `import { readFileSync } from 'node:fs';`, 'the package node:fs', `import { contextBridge } from 'electron';`, 'The preload knows'),
  importPair('the database in the window front', 'main/window/a.ts', `import Database from 'better-sqlite3';`, 'the package better-sqlite3', `import { dialog } from 'electron';`, 'The window front imports'),
  importPair('dispatch in the window front', 'main/window/a.ts', `import { dispatch } from '../backroom/dispatch.ts';`, 'main/backroom/dispatch.ts', `import type { Door } from '../backroom/door.ts';`, 'The window front imports'),
  importPair('work of app in the window front', 'main/window/a.ts', `import { formatMass } from '../../app/measures/mass.ts';`, 'takes types only', `import type { Grams } from '../../app/measures/mass.ts';`, 'A front takes types only'),
  importPair('the contract’s schemas in the window front', 'main/window/a.ts', `import { contract } from '../../app/contract/contract.ts';`, 'app/contract/contract.ts', `import type { Reply } from '../../app/contract/envelope.ts';`, 'The window front imports'),
  importPair('electron in the browser front', 'main/browser/a.ts', `import { net } from 'electron';`, 'the package electron', `import { createServer } from 'node:http';`, 'runs without electron'),
  importPair('the window’s navigation in the browser front', 'main/browser/a.ts', `import { keepInPlace } from '../window/navigation.ts';`, 'main/window/navigation.ts', `import { contentPolicy } from '../window/content-policy.ts';`, 'runs without electron'),
  importPair('a service in the browser front', 'main/browser/a.ts', `import { lineServices } from '../backroom/services/line.ts';`, 'main/backroom/services/line.ts', `import { openDoor } from '../backroom/door.ts';`, 'asked for through its door'),
  importPair('the database in a service', 'main/backroom/services/a.ts', `import type Database from 'better-sqlite3';`, 'the package better-sqlite3', `import { z } from 'zod';`, 'Only main/backroom/book'),
  importPair('a front in the back room', 'main/backroom/services/a.ts', `import { serve } from '../../browser/serve.ts';`, 'main/browser/serve.ts', `import { Refusal } from '../refusal.ts';`, 'knows no front'),
  importPair('the renderer in the back room', 'main/backroom/a.ts', `import { words } from '../../renderer/words/words.ts';`, 'renderer/words/words.ts', `import data from '../../assets/fish/fish.json' with { type: 'json' };`, 'knows no front'),
  importPair('React in the book', 'main/backroom/book/a.ts', `import { useState } from 'react';`, 'the package react', `import Database from 'better-sqlite3';`, 'The book imports'),
  importPair('the start of the program in a service', 'main/backroom/services/a.ts', `import '../../start/node-version.ts';`, 'main/start/node-version.ts', `import '../room.ts';`, null),
  importPair('electron in main/start', 'main/start/a.ts', `import { app } from 'electron';`, 'the package electron', `import { contract } from '../../app/contract/contract.ts';`, 'What starts the program'),
  importPair('the back room’s log in main/start', 'main/start/a.ts', `import { log } from '../backroom/log.ts';`, 'main/backroom/log.ts', `import { openDoor } from '../backroom/door.ts';`, 'door.ts only'),
  importPair('a service in the composition root', 'main/index.ts', `import { lineServices } from './backroom/services/line.ts';`, 'main/backroom/services/line.ts', `import { openDoor } from './backroom/door.ts';`, 'by its door.ts'),
  importPair('zod in the composition root', 'main/index.ts', `import { z } from 'zod';`, 'the package zod', `import os from 'node:os';`, 'The composition root'),
  importPair('electron in the renderer', 'renderer/parts/a.tsx', `import { shell } from 'electron';`, 'the package electron', `import { Button } from 'react-aria-components';`, 'ask through renderer/bridge'),
  importPair('main in the renderer', 'renderer/bridge/a.ts', `import type { Door } from '../../main/backroom/door.ts';`, 'main/backroom/door.ts', `import type { Reply } from '../../app/contract/envelope.ts';`, 'never imports main'),
  importPair('the clock’s package in the renderer', 'renderer/parts/a.ts', `import { Temporal } from 'temporal-polyfill';`, 'the package temporal-polyfill', `import { dayOf } from '../../app/measures/zone.ts';`, 'reckon with dates through app'),
  importPair('one place in another', 'renderer/places/office/a.tsx', `import { Lots } from '../fish-in/lot-list.tsx';`, 'renderer/places/fish-in/lot-list.tsx', `import { Leaf } from '../../parts/leaf.tsx';`, 'One place never imports another'),
  importPair('a fetching part', 'renderer/parts/a.tsx', `import { useAsk } from '../bridge/use-ask.ts';`, 'renderer/bridge/use-ask.ts', `import { words } from '../words/words.ts';`, 'let the place ask'),
  importPair('tests in the program', 'main/backroom/a.ts', `import { kitchen } from '../../tests/support/test-kitchen.ts';`, 'tests/support/test-kitchen.ts', `import { room } from './room.ts';`, 'knows no front'),
  importPair('a type-position import', 'app/limits/a.ts', `export type Reply = import('../contract/envelope.ts').Reply;`, 'app/contract/envelope.ts', `export type Good = import('../measures/outcome.ts').Good;`, null),
  importPair('an import() of the database', 'main/window/a.ts', `export const book = import('better-sqlite3');`, 'the package better-sqlite3', `export const os = import('node:os');`, 'The window front imports'),
  importPair('React in the contract', 'app/contract/a.ts', `import type { ReactNode } from 'react';`, 'the package react', `import { z } from 'zod';`, 'The contract imports zod'),
  importPair('Node in a request', 'app/contract/requests/a.ts', `import path from 'node:path';`, 'the package node:path', `import { query } from '../endpoint.ts';`, 'The contract imports zod'),
  importPair('work of app in the browser front', 'main/browser/a.ts', `import { formatMass } from '../../app/measures/mass.ts';`, 'takes types only', `import type { Grams } from '../../app/measures/mass.ts';`, 'A front takes types only'),
  importPair('electron in a service', 'main/backroom/services/a.ts', `import { shell } from 'electron';`, 'the package electron', `import { judge } from '${UP}${UP}${UP}app/limits/judge.ts';`, 'it knows no front, no electron'),
  importPair('a front in the book', 'main/backroom/book/a.ts', `import { serve } from '../../browser/serve.ts';`, 'main/browser/serve.ts', `import { Refusal } from '../refusal.ts';`, 'knows no front: announce'),
  importPair('work of app in main/start', 'main/start/a.ts', `import { good } from '../../app/measures/outcome.ts';`, 'takes types only', `import type { Outcome } from '../../app/measures/outcome.ts';`, 'takes types only from the subjects'),
  importPair('electron in the frame', 'renderer/frame/a.tsx', `import { shell } from 'electron';`, 'the package electron', `import { useAsk } from '../bridge/use-ask.ts';`, 'ask through renderer/bridge'),
  importPair('main in a place', 'renderer/places/office/a.tsx', `import type { Door } from '${UP}${UP}${UP}main/backroom/door.ts';`, 'main/backroom/door.ts', `import { useAsk } from '../../bridge/use-ask.ts';`, 'never imports main'),
  importPair('Node in a place', 'renderer/places/office/a.tsx', `import os from 'node:os';`, 'the package node:os', `import { useState } from 'react';`, 'ask through renderer/bridge'),
  importPair('main in a part', 'renderer/parts/a.tsx', `import type { Door } from '../../main/backroom/door.ts';`, 'main/backroom/door.ts', `import { formatMass } from '../../app/measures/mass.ts';`, 'never imports main'),
  importPair('a folder that the table doesn’t know', 'main/cellar/a.ts', `import os from 'node:os';`, 'no folder of the import table', ``, null),
];

const WAYS: readonly Planted[] = [
  {
    rule: 'hidden-import',
    what: 'require',
    faulty: [file('app/limits/a.ts', `const fs = require('fs');`)],
    says: 'require hides an import',
    clean: [file('app/limits/a.ts', `// require('fs') is not written here\nexport const text = "require('fs')";`)],
  },
  {
    rule: 'hidden-import',
    what: 'createRequire',
    faulty: [file('main/backroom/a.ts', `const load = createRequire(import.meta.url);`)],
    says: 'require hides an import',
    clean: [file('main/start/a.ts', `const url = new URL(import.meta.url);`)],
  },
  {
    rule: 'hidden-import',
    what: 'import x = require()',
    faulty: [file('main/start/a.ts', `import fs = require('node:fs');`)],
    says: 'require hides an import',
    clean: [file('main/start/a.ts', `import fs from 'node:fs';`)],
  },
  {
    rule: 'hidden-import',
    what: 'an import reckoned at run time',
    faulty: [file('main/start/a.ts', `const part = 'ask';\nawait import(\`./\${part}.ts\`);`)],
    says: 'reckoned at run time',
    clean: [file('main/start/a.ts', `await import('./ask.ts');`)],
  },
  {
    rule: 'import-extension',
    what: 'a relative import without its extension',
    faulty: [file('app/limits/a.ts', `import { hold } from './hold';`)],
    says: './hold needs its extension',
    clean: [file('app/limits/a.ts', `import { hold } from './hold.ts';`)],
  },
  {
    rule: 'electron-reached',
    what: 'electron reached by way of another file',
    faulty: [file('main/browser/a.ts', `import { policy } from '../window/content-policy.ts';`), file('main/window/content-policy.ts', `import { session } from 'electron';`)],
    says: 'main/browser/a.ts → main/window/content-policy.ts',
    clean: [file('main/browser/a.ts', `import { policy } from '../window/content-policy.ts';`), file('main/window/content-policy.ts', `import type { Session } from 'electron';`)],
  },
  {
    rule: 'database-reached',
    what: 'the database loaded at the start of a front',
    faulty: [file('main/start/a.ts', `import { openDoor } from '../backroom/door.ts';`), file('main/backroom/door.ts', `import './book/open.ts';`), file('main/backroom/book/open.ts', `import Database from 'better-sqlite3';`)],
    says: 'main/start/a.ts → main/backroom/door.ts → main/backroom/book/open.ts',
    clean: [file('main/start/a.ts', `import { openDoor } from '../backroom/door.ts';`), file('main/backroom/door.ts', `export const open = import('./book/open.ts');`), file('main/backroom/book/open.ts', `import Database from 'better-sqlite3';`)],
  },
  {
    rule: 'readable',
    what: 'a file that can’t be parsed',
    faulty: [file('app/limits/a.ts', `export function (`)],
    says: 'no rule looked at it',
    clean: [file('app/limits/a.ts', `export function hold(): void {}`)],
  },
];

export const PLANTED_IMPORTS: readonly Planted[] = [...PLANTED_TABLE, ...WAYS];
