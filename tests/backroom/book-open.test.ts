import { chmodSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { createBookFile } from '../../main/backroom/book/create.ts';
import { networkDiskName } from '../../main/backroom/book/network-disk.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import { makeBook, makeBookFolder, openForTest, recordOne, TEST_CLOCK, testAuthor, write } from '../support/book-folder.ts';

function bookFile(folder: string): string {
  return join(folder, 'kitchen.alderbook');
}

describe('making a book', () => {
  it('leaves one whole file, in folders that need not be there yet', () => {
    const folder = join(makeBookFolder(), 'a', 'b');
    makeBook(join(folder, 'kitchen.alderbook'), (book) => recordOne(book));
    expect(readdirSync(folder)).toEqual(['kitchen.alderbook']);
    expect(openForTest(bookFile(folder)).reader().entriesAbout(['subject-1'])).toHaveLength(1);
  });
  it('leaves nothing when its contents are refused', () => {
    const folder = makeBookFolder();
    expect(() => createBookFile(bookFile(folder), (as) => {
      recordOne(as(testAuthor()));
      throw new Error('no such zone');
    })).toThrow('no such zone');
    expect(readdirSync(folder)).toEqual([]);
  });
  it('never writes over a file, nor beside a log that another book left', () => {
    const folder = makeBookFolder();
    writeFileSync(join(folder, 'kitchen.alderbook'), 'mine');
    writeFileSync(join(folder, 'other.alderbook-wal'), 'left behind');
    expect(() => makeBook(bookFile(folder))).toThrow('There is already a file kitchen.alderbook.');
    expect(() => makeBook(join(folder, 'other.alderbook'))).toThrow('There is already a file other.alderbook-wal.');
    expect(readFileSync(bookFile(folder), 'utf8')).toBe('mine');
  });
});

describe('an open book', () => {
  it('is one file again when it is closed, with its note of who holds it gone', () => {
    const folder = makeBookFolder();
    makeBook(bookFile(folder));
    const handle = openForTest(bookFile(folder));
    write(handle, (book) => recordOne(book));
    const held = readdirSync(folder);
    expect(held).toContain('kitchen.alderbook.holder');
    expect(held).toContain('kitchen.alderbook-wal');
    expect(JSON.parse(readFileSync(`${bookFile(folder)}.holder`, 'utf8'))).toEqual({ pid: process.pid, since: '2026-11-25T14:00:00.000Z' });
    handle.close();
    expect(readdirSync(folder)).toEqual(['kitchen.alderbook']);
  });
  it('may be closed twice', () => {
    const folder = makeBookFolder();
    makeBook(bookFile(folder));
    const handle = openForTest(bookFile(folder));
    handle.close();
    expect(() => handle.close()).not.toThrow();
  });
  it('is refused a second time in the same program', () => {
    const folder = makeBookFolder();
    makeBook(bookFile(folder));
    openForTest(bookFile(folder));
    expect(() => openBookFile(bookFile(folder), { clock: TEST_CLOCK })).toThrow(/kitchen\.alderbook is open in another Alderbook \(process \d+, since 2026-11-25 14:00 UTC\)\./);
  });
  it('undoes everything of a command that fails', () => {
    const folder = makeBookFolder();
    makeBook(bookFile(folder));
    const handle = openForTest(bookFile(folder));
    expect(() => write(handle, (book) => {
      recordOne(book);
      throw new Error('half way');
    })).toThrow('half way');
    expect(handle.reader().checkChain().entries).toBe(0);
  });
  it('lets a query write nothing', () => {
    const folder = makeBookFolder();
    makeBook(bookFile(folder));
    const book = openForTest(bookFile(folder)).reader();
    expect(() => recordOne(book)).toThrow('A query tried to write into the book.');
    expect(() => book.shelf('places').put({ id: 'p', name: 'Cooler', kind: 'cooler' })).toThrow('A query tried to write into the book.');
  });
  it('lets nothing be written after its command is over', () => {
    const folder = makeBookFolder();
    makeBook(bookFile(folder));
    const handle = openForTest(bookFile(folder));
    const kept = write(handle, (book) => book);
    expect(() => recordOne(kept)).toThrow('The command is over');
    expect(() => kept.shelf('places').put({ id: 'p', name: 'Cooler', kind: 'cooler' })).toThrow('The command is over');
  });
});

describe('a book that may not be written', () => {
  it('is shown whole, and refuses every change with a sentence', async () => {
    const folder = makeBookFolder();
    makeBook(bookFile(folder), (book) => recordOne(book));
    chmodSync(bookFile(folder), 0o444);
    const before = readFileSync(bookFile(folder));
    const handle = openForTest(bookFile(folder));
    expect(handle.readOnly).toBe(true);
    expect(handle.reader().readOnly).toBe(true);
    expect(handle.reader().checkChain()).toMatchObject({ entries: 1, intact: true });
    expect(() => write(handle, (book) => recordOne(book))).toThrow('kitchen.alderbook can only be looked at: its file or folder is read-only.');
    await expect(handle.takeFile('log.csv', Uint8Array.of(1), { id: 'f', nowMs: 0 })).rejects.toThrow('can only be looked at');
    handle.close();
    expect(readFileSync(bookFile(folder)).equals(before)).toBe(true);
    expect(readdirSync(folder)).toEqual(['kitchen.alderbook']);
  });
  it('is shown when its folder is read-only', () => {
    const folder = makeBookFolder();
    makeBook(bookFile(folder), (book) => recordOne(book));
    chmodSync(folder, 0o555);
    const handle = openForTest(bookFile(folder));
    expect(handle.readOnly).toBe(true);
    handle.close();
    chmodSync(folder, 0o755);
  });
  it('is not shown in part when it was not closed properly', () => {
    const folder = makeBookFolder();
    makeBook(bookFile(folder));
    writeFileSync(`${bookFile(folder)}-wal`, 'the rest of it');
    chmodSync(bookFile(folder), 0o444);
    expect(() => openBookFile(bookFile(folder), { clock: TEST_CLOCK })).toThrow('was not closed properly, so it can’t be shown whole.');
    expect(existsSync(`${bookFile(folder)}-wal`)).toBe(true);
  });
  it('can’t be backed up beside itself', async () => {
    const folder = makeBookFolder();
    makeBook(bookFile(folder));
    chmodSync(bookFile(folder), 0o444);
    await expect(openForTest(bookFile(folder)).reader().backUp()).rejects.toThrow('can only be looked at, so no backup');
  });
});

describe('network drives', () => {
  it('are told from the computer’s own disks by their number', () => {
    expect([0x6969, 0xfe534d42, -28_095_166, 0xef53, 0x01021994].map(networkDiskName)).toEqual(['NFS', 'SMB', 'SMB', undefined, undefined]);
  });
});
