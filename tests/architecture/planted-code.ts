/** Faults planted for the rules about code, texts, files and wording. */
import { file } from './planted.ts';
import type { Planted } from './planted.ts';

function pair(rule: string, what: string, path: string, faulty: string, says: string, clean: string): Planted {
  return { rule, what, faulty: [file(path, faulty)], says, clean: [file(path, clean)] };
}

const APP = 'app/limits/a.ts';
const SERVICE = 'main/backroom/services/a.ts';
const SCREEN = 'renderer/places/office/a.tsx';
const TEST = 'tests/app/a.test.ts';

const CODE: readonly Planted[] = [
  pair('pure-app', 'Date.now in app', APP, `export const at = Date.now();`, 'Date.now', `export const at = Date.parse('2026-01-01');`),
  pair('pure-app', 'a date without an argument in app', APP, `export const at = new Date();`, 'new Date()', `export const at = new Date(0);`),
  pair('pure-app', 'Temporal.Now in app', APP, `export const at = Temporal.Now.instant();`, 'Temporal.Now', `export const at = Temporal.Instant.from(text);`),
  pair('pure-app', 'Math.random in app', APP, `export const at = Math['random']();`, 'Math.random', `export const at = Math.round(1.5);`),
  pair('pure-app', 'console in app', APP, `console.log('hot');`, 'console.log', `// console.log stands nowhere here`),
  pair('pure-app', 'process.env in app', APP, `export const home = process.env.HOME;`, 'process.env', `export function judge(process: Scheduled): number { return process.holdMinutes; }`),
  pair('one-clock', 'a second clock in the back room', SERVICE, `export const at = Date.now();`, 'main/backroom/clock.ts', `export function at(room: Room): number { return room.clock.nowMs(); }`),
  pair('one-clock', 'a date of now in the back room', SERVICE, `export const at = new Date().toISOString();`, 'main/backroom/clock.ts', `export function at(ms: number): string { return new Date(ms).toISOString(); }`),
  {
    rule: 'one-clock',
    what: 'a clock beside the clock',
    faulty: [file('main/backroom/book/clock.ts', `export const now = Date.now();`)],
    says: 'main/backroom/clock.ts',
    clean: [file('main/backroom/clock.ts', `export const now = Date.now();`)],
  },
  pair('sql-in-book', 'SQL in a service', SERVICE, `export const sql = 'SELECT id FROM batches';`, 'main/backroom/book', `export const text = 'Select the fish from the list.';`),
  pair('sql-in-book', 'SQL in a template', SERVICE, 'export const sql = `DELETE FROM ${table} WHERE id = 1`;', 'main/backroom/book', 'export const text = `Delete from ${list}.`;'),
  pair('sql-in-book', 'a prepared statement in a front', 'main/browser/a.ts', `book.prepare('values (1)');`, 'main/backroom/book', `service.prepare(room, input);`),
  {
    rule: 'sql-in-book',
    what: 'SQL beside the book',
    faulty: [file('main/backroom/bookkeeping.ts', `export const sql = 'PRAGMA foreign_keys';`)],
    says: 'main/backroom/book',
    clean: [file('main/backroom/book/open.ts', `export const sql = 'PRAGMA foreign_keys';`)],
  },
  pair('one-bridge', 'fetch in a place', SCREEN, `await fetch('/request');`, 'renderer/bridge', `query.refetch();`),
  pair('one-bridge', 'the window’s surface in a place', SCREEN, `window.alderbook.request('a');`, 'renderer/bridge', `ask('line.get', {});`),
  pair('one-bridge', 'an event stream in a place', SCREEN, `new EventSource('/events');`, 'renderer/bridge', `subscribe(hear);`),
  pair('one-bridge', 'the surface by its name as a text', SCREEN, `Reflect.get(window, 'alderbook');`, 'renderer/bridge', `Reflect.get(window, 'name');`),
  pair('module-folders', 'a module’s own folder in the back room', SERVICE, `new URL('./hand.js', import.meta.url);`, 'main/index.ts', `new Worker(files.hand);`),
  pair('top-level-function', 'an arrow function at the top of a file', APP, `export const judge = (ticks: number): boolean => ticks > 0;`, 'write function name()', `export function judge(all: number[]): number[] { return all.filter((ticks) => ticks > 0); }`),
  pair('text-in-words', 'a text in JSX', SCREEN, `export function A() { return <p>Fish in</p>; }`, '“Fish in”', `export function A() { return <p>{words.fishIn} · &nbsp;{count}</p>; }`),
  pair('text-in-words', 'a text in a choice', SCREEN, `export function A() { return <p>{done ? 'Done' : words.waiting}</p>; }`, '“\'Done\'”', `export function A() { return <p className={done ? 'done' : 'waiting'}>{done ? words.done : words.waiting}</p>; }`),
  pair('text-in-words', 'a text in a template', SCREEN, 'export function A() { return <>{`${count} fish`}</>; }', 'fish', 'export function A() { return <>{`${count}/${all}`}</>; }'),
  pair('text-in-words', 'a text that is only heard', SCREEN, `export function A() { return <nav aria-label="Places" />; }`, '“"Places"”', `export function A() { return <nav aria-label={words.places} id="places" />; }`),
];

const TREE: readonly Planted[] = [
  { rule: 'file-length', what: 'a file of 301 lines', faulty: [file('main/window/a.ts', '\n'.repeat(300))], says: '301 lines', clean: [file('main/window/a.ts', '\n'.repeat(299))] },
  { rule: 'file-name', what: 'a name in camel case', faulty: [file('app/limits/holdRule.ts', '')], says: 'holdRule.ts', clean: [file('app/limits/hold-rule.test.ts', '')] },
  { rule: 'file-name', what: 'a folder whose name says nothing', faulty: [file('renderer/helpers/a.ts', '')], says: 'helpers says nothing', clean: [file('renderer/parts/a.ts', '')] },
  { rule: 'file-name', what: 'a file whose name says nothing', faulty: [file('main/backroom/utils.ts', '')], says: 'utils.ts says nothing', clean: [file('main/backroom/utility-bills.ts', '')] },
  { rule: 'top-level', what: 'a stranger at the top', faulty: [file('vitest.config.ts', '')], says: 'vitest.config.ts has no place', clean: [file('tests/vitest.config.ts', ''), file('README.md', '')] },
];

// Written in parts, so that neither these rules nor a search for such words find this file.
const [SKIP, ONLY] = ['.skip', '.only'];
const OUT = '..';

const WORDING: readonly Planted[] = [
  pair('nothing-silenced', 'a silenced linter', APP, `// oxlint${'-disable'}-next-line no-var\nvar a = 1;`, 'No check is silenced', `export const text = 'oxlint';`),
  pair('nothing-silenced', 'a silenced compiler', APP, `// @ts${'-ignore'}\nexport const a = 1;`, 'No check is silenced', `export const a = 1;`),
  {
    rule: 'nothing-silenced',
    what: 'an expected error outside the tests',
    faulty: [file(APP, `// @ts-expect-error grams are not degrees\nweigh(hot);`)],
    says: 'No check is silenced',
    clean: [file(TEST, `// @ts-expect-error grams are not degrees\nweigh(hot);`)],
  },
  pair('nothing-put-off', 'work put off', APP, `// ${'TO'}${'DO'} round\nexport const a = 1;`, 'Work put off', `// rounds last\nexport const a = 1;`),
  pair('no-test-left-out', 'a test left out', TEST, `it${SKIP}('holds', () => {});`, 'none is left out', `it('holds', () => { text.only(); });`),
  pair('no-test-left-out', 'a group that runs alone', TEST, `describe.concurrent${ONLY}('hold', () => {});`, 'none is left out', `describe.each([1])('hold', () => {});`),
  pair('no-test-left-out', 'a test left out by its name', TEST, `x${'it'}('holds', () => {});`, 'none is left out', `fits('holds', () => {});`),
  pair('nothing-outside', 'a folder beside the repository', APP, `// see ${OUT}/${OUT}/${OUT}/pages/a.txt`, 'outside the repository', `// see ${OUT}/measures/mass.ts`),
  pair('nothing-outside', 'a folder of one machine', APP, `export const book = '/${'home'}/kitchen/book';`, 'a folder of one machine', `export const book = '/kitchen/home/book';`),
  pair('nothing-outside', 'a page that isn’t here', APP, `/** Figure of table 2 in ${'brine'}.md. */`, 'cite the publisher', `/** How to add one: DEVELOPERS.md. */`),
];

export const PLANTED_CODE: readonly Planted[] = [...CODE, ...TREE, ...WORDING];
