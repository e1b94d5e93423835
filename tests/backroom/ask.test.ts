import { spawn, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { REQUEST_NAMES } from '../../app/contract/names.ts';
import { makeBookFolder } from '../support/book-folder.ts';

const ROOT = new URL('../..', import.meta.url).pathname;
const RUN = join(ROOT, 'main/start/run.mjs');

interface Answered {
  readonly status: number | null;
  readonly out: string;
  readonly error: string;
}

function ask(typed: readonly string[], input = '', environment: Record<string, string> = {}): Answered {
  const done = spawnSync(process.execPath, [RUN, 'ask', ...typed], { input, encoding: 'utf8', maxBuffer: 256 * 1024 * 1024, env: { ...process.env, ...environment } });
  if (done.error !== undefined) throw done.error;
  return { status: done.status, out: done.stdout, error: done.stderr };
}

const START = {
  kitchen: {
    name: 'Asked Kitchen', address: { street: '1 Dock Road', city: 'Rainy Point', region: 'Minnesota', postalCode: '56600' },
    timeZone: 'America/Chicago', temperatureUnit: 'F', massUnit: 'lb', kind: 'food-service', decidingSetId: 'lodge-default',
  },
  people: [{ initials: 'MG', name: 'Maja Grant', role: 'manager' }],
};

describe('one request', () => {
  it('prints its value and nothing else, exit 0', () => {
    const { status, out, error } = ask(['brine.strength', '{"percentByWeight":10}']);
    expect({ status, error }).toEqual({ status: 0, error: '' });
    const value: unknown = JSON.parse(out);
    expect(value).toMatchObject({ percentByWeight: 10 });
    expect(out.endsWith('}\n')).toBe(true);
    expect(out.trim().includes('\n')).toBe(false);
  });
  it('that is refused prints the error object on standard error, exit 1', () => {
    const { status, out, error } = ask(['brine.strength', '{"percentByWeight":"10"}']);
    expect({ status, out }).toEqual({ status: 1, out: '' });
    expect(JSON.parse(error)).toEqual({
      code: 'INVALID_INPUT', message: 'percentByWeight must be a number.', retryable: false,
      fields: [{ path: ['percentByWeight'], message: 'percentByWeight must be a number.' }],
    });
  });
  it.each([
    ['an unknown name', ['brine.weakness', '{}'], 'UNKNOWN_REQUEST'],
    ['an input that is no JSON', ['brine.strength', '{percentByWeight:10}'], 'INVALID_INPUT'],
    ['an unknown option', ['--all'], 'INVALID_INPUT'],
    ['a question on a book that is not named', ['recipe.list'], 'NO_BOOK'],
    ['a person of no book', ['--as', 'MG', 'book.status'], 'NOT_ALLOWED'],
  ])('%s is refused, exit 1', (_what, typed, code) => {
    const { status, out, error } = ask(typed);
    expect({ status, out }).toEqual({ status: 1, out: '' });
    expect(JSON.parse(error)).toMatchObject({ code });
  });
});

describe('--list', () => {
  it('is one JSON array of every request with its schemas', () => {
    const { status, out, error } = ask(['--list']);
    expect({ status, error }).toEqual({ status: 0, error: '' });
    const list: { name: string; kind: string; input: { type: string }; output: { type: string } }[] = JSON.parse(out);
    expect(list.map(({ name }) => name).toSorted()).toEqual([...REQUEST_NAMES].toSorted());
    for (const { kind, input, output, ...more } of list) {
      expect(['query', 'command']).toContain(kind);
      expect([input.type, output.type]).toEqual(['object', 'object']);
      expect(Object.keys(more)).toEqual(['name']);
    }
  });
});

describe('--lines', () => {
  it('answers every line in order, whatever it is, and exits 0', () => {
    const lines = [
      '{"request":"brine.strength","input":{"salometerDegrees":40}}',
      'not json',
      '',
      '{"request":"nothing.here","input":{}}',
      '{"request":"brine.strength"}',
      '{"input":{}}',
      '{"request":"brine.strength","input":{"percentByWeight":10},"more":1}',
      '[1]',
      'null',
      '{"request":"brine.strength","input":{"percentByWeight":10}}\r',
      '{"request":"brine.strength","input":null}',
    ];
    const { status, out, error } = ask(['--lines'], lines.join('\n'));
    expect({ status, error }).toEqual({ status: 0, error: '' });
    const replies: { ok: boolean; error?: { code: string }; value?: { salometerDegrees: number } }[] = out.trimEnd().split('\n').map((line) => JSON.parse(line));
    expect(replies.map((reply) => reply.error?.code ?? 'ok')).toEqual([
      'ok', 'INVALID_INPUT', 'INVALID_INPUT', 'UNKNOWN_REQUEST', 'INVALID_INPUT', 'INVALID_INPUT', 'INVALID_INPUT', 'INVALID_INPUT', 'INVALID_INPUT', 'ok', 'INVALID_INPUT',
    ]);
    expect(replies[0]?.value?.salometerDegrees).toBe(40);
  });
  it('answers nothing to nothing', () => {
    expect(ask(['--lines'], '')).toEqual({ status: 0, out: '', error: '' });
  });
  it('answers a thousand lines in seconds', () => {
    const began = performance.now();
    const { status, out } = ask(['--lines'], '{"request":"brine.strength","input":{"percentByWeight":10}}\n'.repeat(1000));
    expect(status).toBe(0);
    expect(out.trimEnd().split('\n')).toHaveLength(1000);
    expect(performance.now() - began).toBeLessThan(10_000);
  });
  it('reads one line of several megabytes', () => {
    const points = Array.from({ length: 200_000 }, (_, minute) => [minute, 145.25]);
    const request = { request: 'log.judge', input: { process: 'hot', readings: { unit: 'F', places: [{ name: 'a', role: 'piece', points }] }, checkIds: ['HOT-145-30'] } };
    const { status, out } = ask(['--lines'], `${JSON.stringify(request)}\n{"request":"brine.strength","input":{"percentByWeight":10}}`);
    expect(status).toBe(0);
    expect(out.trimEnd().split('\n').map((line) => JSON.parse(line).ok)).toEqual([true, true]);
  });
  it('ends quietly when whoever reads it has left', async () => {
    const child = spawn(process.execPath, [RUN, 'ask', '--lines'], { stdio: ['pipe', 'pipe', 'pipe'] });
    let error = '';
    child.stderr.on('data', (part: Buffer) => {
      error += part.toString();
    });
    child.stdin.on('error', () => undefined);
    child.stdout.once('data', () => child.stdout.destroy());
    child.stdin.end('{"request":"brine.strength","input":{"percentByWeight":10}}\n'.repeat(50_000));
    const code = await new Promise((resolve) => child.on('exit', resolve));
    expect({ code, error }).toEqual({ code: 0, error: '' });
  });
});

describe('--book and --as', () => {
  it('start, ask and change a book, for a person of it', () => {
    const folder = makeBookFolder();
    const book = join(folder, 'asked.alderbook');
    expect(ask(['--book', book, 'office.get'])).toMatchObject({ status: 1, error: expect.stringContaining('No book is open: asked.alderbook is not there.') });
    expect(ask(['--book', book, 'book.start', JSON.stringify(START)]).status).toBe(0);
    expect(JSON.parse(ask(['--book', book, 'office.get']).out)).toMatchObject({ kitchen: { name: 'Asked Kitchen' } });
    const cooler = '{"name":"Walk-in","kind":"cooler"}';
    expect(JSON.parse(ask(['--book', book, 'office.addPlace', cooler]).error)).toMatchObject({ code: 'NOT_ALLOWED', remedy: 'Say who acts with --as INITIALS.' });
    expect(JSON.parse(ask(['--book', book, '--as', 'XX', 'office.addPlace', cooler]).error)).toMatchObject({ code: 'NOT_ALLOWED', message: 'Nobody in this book has the initials XX.', remedy: 'They are MG.' });
    expect(ask(['--book', book, '--as', 'mg', 'office.addPlace', cooler])).toMatchObject({ status: 0, error: '' });
    expect(JSON.parse(ask(['--book', book, 'office.get']).out)).toMatchObject({ places: [{ name: 'Walk-in' }] });
    expect(existsSync(`${book}.holder`)).toBe(false);
    expect(existsSync(`${book}-wal`)).toBe(false);
  });
  it('mean a file from where it was typed, under npm too', () => {
    const folder = makeBookFolder();
    const environment = { npm_lifecycle_event: 'ask', INIT_CWD: folder };
    expect(ask(['--book', 'here.alderbook', 'book.start', JSON.stringify(START)], '', environment).status).toBe(0);
    expect(existsSync(join(folder, 'here.alderbook'))).toBe(true);
  });
});

describe('a request that needs no book', () => {
  it('does not load the database engine', () => {
    const watcher = new URL('../support/watch-native.ts', import.meta.url).pathname;
    const done = spawnSync(process.execPath, ['--import', watcher, RUN, 'ask', 'brine.strength', '{"percentByWeight":10}'], { encoding: 'utf8' });
    expect(done.stderr).toBe('native parts loaded: none\n');
    expect(done.status).toBe(0);
  });
  it('and the watcher sees the engine where a book is opened', () => {
    const watcher = new URL('../support/watch-native.ts', import.meta.url).pathname;
    const book = join(makeBookFolder(), 'watched.alderbook');
    const done = spawnSync(process.execPath, ['--import', watcher, RUN, 'ask', '--book', book, 'book.start', JSON.stringify(START)], { encoding: 'utf8' });
    expect(done.stderr).toMatch(/^native parts loaded: .*better-sqlite3/);
  });
});
