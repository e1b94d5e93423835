import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { BookHandle } from '../../main/backroom/book/handle.ts';
import { Refusal } from '../../main/backroom/refusal.ts';
import type { KeptReading, OpenBook } from '../../main/backroom/room.ts';
import { makeBook, makeBookFolder, openForTest, recordOne, TEST_NOW_MS, testAuthor, write } from '../support/book-folder.ts';

function openNew(): BookHandle {
  const file = join(makeBookFolder(), 'kitchen.alderbook');
  makeBook(file);
  return openForTest(file);
}

function keep(book: OpenBook, rows: readonly KeptReading[], pointId = 'point-1'): { kept: number; alreadyThere: number } {
  const counted = book.keepReadings({ pointId, instrumentId: 'probe-1', unit: 'F', how: 'by-hand', source: 'typed', rows });
  recordOne(book);
  return counted;
}

function reading(atMs: number, lowTicks: number, highTicks = lowTicks): KeptReading {
  return { atMs, lowTicks, highTicks, text: '145' };
}

describe('shelves', () => {
  const cooler = { id: 'place-1', name: 'Walk-in', kind: 'cooler' } as const;

  it('give documents back in the order they first came, changed or not', () => {
    const handle = openNew();
    write(handle, (book) => {
      const places = book.shelf('places');
      places.put(cooler);
      places.put({ id: 'place-2', name: 'Chest', kind: 'freezer' });
      places.put({ ...cooler, name: 'Walk-in cooler' });
    });
    const places = handle.reader().shelf('places');
    expect(places.all().map((place) => place.name)).toEqual(['Walk-in cooler', 'Chest']);
    expect(places.get('place-2')?.kind).toBe('freezer');
    expect(places.get('place-3')).toBeUndefined();
  });
  it('say what is missing, in words', () => {
    expect(() => openNew().reader().shelf('fishLots').need('x')).toThrow('There is no such fish lot in the book.');
  });
  it('are looked up by their keys, and by no other', () => {
    const handle = openNew();
    write(handle, (book) => {
      for (const [id, loadId] of [['a', 'load-1'], ['b', null], ['c', 'load-1']] as const) {
        book.shelf('points').put({ id, name: id, role: 'piece', batchId: null, loadId, thicknessMm: null, rackPlace: '', instrumentId: null });
      }
    });
    const points = handle.reader().shelf('points');
    expect(points.where('loadId', 'load-1').map((point) => point.id)).toEqual(['a', 'c']);
    expect(() => points.where('name', 'a')).toThrow('The shelf points has no key name.');
  });
  it('keep nothing that does not fit its schema', () => {
    const handle = openNew();
    const wrong: { id: string; name: string; kind: 'cooler' } = { ...cooler, name: '' };
    expect(() => write(handle, (book) => book.shelf('places').put(wrong))).toThrow('too_small');
    expect(handle.reader().shelf('places').all()).toEqual([]);
  });
  it('find a damaged document when it is read', () => {
    const file = join(makeBookFolder(), 'kitchen.alderbook');
    makeBook(file, (book) => book.shelf('places').put(cooler));
    const database = new Database(file);
    database.exec("UPDATE places SET body = '{\"id\":\"place-1\"}'");
    database.close();
    expect(() => openForTest(file).reader().shelf('places').all()).toThrow('A place in the book can’t be read.');
  });
});

describe('readings', () => {
  it('come back by time, with both ticks, text and instrument', () => {
    const handle = openNew();
    write(handle, (book) => keep(book, [reading(2000, 565_000), reading(1000, 564_999, 565_000)]));
    expect(handle.reader().readings('point-1')).toEqual([
      { atMs: 1000, lowTicks: 564_999, highTicks: 565_000, text: '145', instrumentId: 'probe-1', how: 'by-hand', unit: 'F', entry: 1 },
      { atMs: 2000, lowTicks: 565_000, highTicks: 565_000, text: '145', instrumentId: 'probe-1', how: 'by-hand', unit: 'F', entry: 1 },
    ]);
    expect(handle.reader().lastReading('point-1')?.atMs).toBe(2000);
    expect(handle.reader().lastReading('point-2')).toBeUndefined();
  });
  it('are kept once, however often they come', () => {
    const handle = openNew();
    expect(write(handle, (book) => keep(book, [reading(1, 5), reading(1, 5), reading(1, 5, 6)]))).toEqual({ kept: 2, alreadyThere: 1 });
    expect(write(handle, (book) => keep(book, [reading(1, 5), reading(2, 5)]))).toEqual({ kept: 1, alreadyThere: 1 });
    expect(write(handle, (book) => keep(book, [reading(1, 5)], 'point-2'))).toEqual({ kept: 1, alreadyThere: 0 });
    expect(handle.reader().readings('point-1')).toHaveLength(3);
    expect(handle.reader().checkChain()).toMatchObject({ entries: 3, intact: true });
  });
  it('are not kept by a command that records nothing after them', () => {
    const handle = openNew();
    expect(() => write(handle, (book) => {
      recordOne(book);
      book.keepReadings({ pointId: 'p', instrumentId: null, unit: 'C', how: 'file', source: '', rows: [reading(1, 1)] });
    })).toThrow('Readings were kept without an entry after them.');
    expect(handle.reader().readings('p')).toEqual([]);
  });
  it('never lie more than one tick apart', () => {
    const handle = openNew();
    expect(() => write(handle, (book) => keep(book, [reading(1, 5, 7)]))).toThrow('more than one apart');
  });
});

describe('entries', () => {
  it('say who, when, through what, and why', () => {
    const handle = openNew();
    handle.command((as) => as(testAuthor({ initials: 'CH', device: 'tablet', nowMs: () => 77 })).record({
      kind: 'soak.log', subjectId: 'batch-1', happenedAtMs: 55, summary: 'Turned', why: 'thick pieces', before: null, after: { turned: true },
    }));
    expect(handle.reader().entriesAbout(['batch-1', 'batch-2'])).toEqual([
      { sequence: 1, id: expect.any(String), enteredAtMs: 77, happenedAtMs: 55, kind: 'soak.log', subjectId: 'batch-1', person: 'CH', device: 'tablet', summary: 'Turned', why: 'thick pieces', digest: expect.stringMatching(/^[0-9a-f]{64}$/) },
    ]);
    expect(handle.reader().entriesAbout([])).toEqual([]);
  });
  it('hold together when a text has half a character in it', () => {
    const handle = openNew();
    write(handle, (book) => book.record({ kind: 'note', subjectId: 's', happenedAtMs: null, summary: 'broken \ud83d here', after: { text: '\udc00' } }));
    expect(handle.reader().checkChain()).toMatchObject({ entries: 1, intact: true });
  });
});

describe('the inbox', () => {
  const bytes = new TextEncoder().encode('time,°F\n08:00,40\n');

  it.each([
    ['short, which packing would make longer', bytes],
    ['long', new TextEncoder().encode('08:00:00,40.1\n'.repeat(5000))],
  ])('gives a file back as it came: %s', async (_what, file) => {
    const handle = openNew();
    expect(await handle.takeFile('log.csv', file, { id: 'file-1', nowMs: TEST_NOW_MS })).toBe('file-1');
    const kept = handle.reader().inboxFile('file-1');
    expect(kept?.fileName).toBe('log.csv');
    expect(Buffer.compare(kept?.bytes ?? new Uint8Array(), file)).toBe(0);
    expect(handle.reader().inboxFile('file-2')).toBeUndefined();
  });
  it('knows a file that was taken before, under whatever name', async () => {
    const handle = openNew();
    await handle.takeFile('log.csv', bytes, { id: 'file-1', nowMs: 1 });
    expect(await handle.takeFile('copy of log.csv', bytes, { id: 'file-2', nowMs: 2 })).toBe('file-1');
    expect(handle.reader().inboxFile('file-1')?.fileName).toBe('log.csv');
  });
  it('keeps a file once that comes twice at the same time', async () => {
    const handle = openNew();
    const taken = ['file-1', 'file-2'].map((id) => handle.takeFile('log.csv', bytes, { id, nowMs: 1 }));
    expect(new Set(await Promise.all(taken)).size).toBe(1);
  });
  it('says so where the book was closed meanwhile', async () => {
    const handle = openNew();
    const taking = handle.takeFile('log.csv', bytes, { id: 'file-1', nowMs: 1 });
    handle.close();
    await expect(taking).rejects.toThrow('The book was closed before log.csv was kept.');
  });
  it.each([
    ['an empty file', 'empty.csv', new Uint8Array(), 'empty.csv is empty.'],
    ['a file over 32 MB, which no log is read from', 'big.csv', new Uint8Array(32 * 1024 * 1024 + 1), 'big.csv is too large: 33 MB; a log may have at most 32 MB.'],
    ['a name with folders in it', '../log.csv', bytes, 'The file needs a plain name of 1 to 255 characters.'],
    ['no name', '', bytes, 'The file needs a plain name of 1 to 255 characters.'],
  ])('refuses %s', async (_what, name, content, message) => {
    await expect(openNew().takeFile(name, content, { id: 'file-1', nowMs: 1 })).rejects.toThrow(message);
  });
});

describe('commands already answered', () => {
  const asked = { commandId: 'c-1', name: 'soak.log', input: { b: 1, a: 2 } };

  it('get their first answer again', () => {
    const handle = openNew();
    write(handle, () => handle.keepAnswer(asked, { done: true }, TEST_NOW_MS));
    expect(handle.answered({ ...asked, input: { a: 2, b: 1 } })).toEqual({ reply: { done: true } });
    expect(handle.answered({ ...asked, commandId: 'c-2' })).toBeUndefined();
  });
  it.each([
    ['another input', { ...asked, input: { a: 2, b: 2 } }],
    ['another request', { ...asked, name: 'batch.mark' }],
  ])('are refused under the same id with %s', (_what, other) => {
    const handle = openNew();
    write(handle, () => handle.keepAnswer(asked, { done: true }, TEST_NOW_MS));
    let refusal: unknown;
    try {
      handle.answered(other);
    } catch (problem) {
      refusal = problem;
    }
    expect(refusal).toBeInstanceOf(Refusal);
    expect(refusal).toMatchObject({ code: 'CONFLICT', message: 'This was sent before with other contents.' });
  });
});
