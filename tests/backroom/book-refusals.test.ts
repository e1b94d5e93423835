import { mkdirSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { sha256Hex } from '../../main/backroom/book/canonical.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import { Refusal } from '../../main/backroom/refusal.ts';
import { newestVersion } from '../../main/backroom/book/migrate.ts';
import { MIGRATIONS } from '../../main/backroom/book/migrations/index.ts';
import { makeBook, makeBookFolder, recordOne, TEST_CLOCK } from '../support/book-folder.ts';

/** Tries to open `file` and answers the refusal; what lies in the folder must be byte for byte as before. */
function refusalOf(folder: string, file: string): Refusal {
  const before = contentsOf(folder);
  let thrown: unknown;
  try {
    openBookFile(file, { clock: TEST_CLOCK }).close();
  } catch (problem) {
    thrown = problem;
  }
  expect(contentsOf(folder)).toEqual(before);
  if (!(thrown instanceof Refusal)) throw new Error('it was not refused', { cause: thrown });
  expect(thrown.message).not.toContain(folder);
  return thrown;
}

function contentsOf(folder: string): [string, string][] {
  return readdirSync(folder, { withFileTypes: true })
    .map((entry): [string, string] => [entry.name, entry.isFile() ? sha256Hex(readFileSync(join(folder, entry.name))) : 'folder'])
    .toSorted();
}

/** Writes over the file's bytes at an offset of its header. */
function patch(file: string, offset: number, bytes: Uint8Array): void {
  const all = readFileSync(file);
  all.set(bytes, offset);
  writeFileSync(file, all);
}

function bookFile(folder: string): string {
  const file = join(folder, 'kitchen.alderbook');
  makeBook(file, (book) => recordOne(book));
  return file;
}

describe('a file that can’t be opened as a book', () => {
  it('is refused when it is not there', () => {
    const folder = makeBookFolder();
    expect(refusalOf(folder, join(folder, 'none.alderbook'))).toMatchObject({ code: 'NOT_FOUND', message: 'none.alderbook is not there.' });
  });
  it('is refused untouched when it is empty', () => {
    const folder = makeBookFolder();
    const file = join(folder, 'empty.alderbook');
    writeFileSync(file, '');
    expect(refusalOf(folder, file)).toMatchObject({ code: 'BOOK_DAMAGED', message: 'empty.alderbook is empty: it is not an Alderbook book.' });
  });
  it('is refused untouched when it is a text, a picture or a folder', () => {
    const folder = makeBookFolder();
    writeFileSync(join(folder, 'list.txt'), 'salt, sugar, fish\n'.repeat(50));
    writeFileSync(join(folder, 'short'), 'SQL');
    mkdirSync(join(folder, 'folder.alderbook'));
    expect(refusalOf(folder, join(folder, 'list.txt'))).toMatchObject({ code: 'BOOK_DAMAGED', message: 'list.txt is not an Alderbook book.' });
    expect(refusalOf(folder, join(folder, 'short'))).toMatchObject({ code: 'BOOK_DAMAGED', message: 'short breaks off after 3 bytes.' });
    expect(refusalOf(folder, join(folder, 'folder.alderbook'))).toMatchObject({ code: 'BOOK_DAMAGED', message: 'folder.alderbook is not an Alderbook book.' });
  });
  it('is refused untouched when it is another program’s database', () => {
    const folder = makeBookFolder();
    const file = join(folder, 'other.db');
    const other = new Database(file);
    other.exec('CREATE TABLE songs (title TEXT)');
    other.close();
    expect(refusalOf(folder, file)).toMatchObject({ code: 'BOOK_DAMAGED', message: 'other.db is not an Alderbook book.' });
  });
  it('is refused untouched when a newer program wrote it', () => {
    const folder = makeBookFolder();
    const file = bookFile(folder);
    patch(file, 60, Uint8Array.of(0, 0, 0x27, 0x10));
    const refusal = refusalOf(folder, file);
    expect(refusal.code).toBe('BOOK_TOO_NEW');
    expect(refusal.message).toBe(`kitchen.alderbook was written by a newer Alderbook (book version 10000; this program knows up to ${newestVersion(MIGRATIONS)}).`);
  });
  it('is refused untouched when it was never finished', () => {
    const folder = makeBookFolder();
    const file = bookFile(folder);
    patch(file, 60, Uint8Array.of(0, 0, 0, 0));
    expect(refusalOf(folder, file).code).toBe('BOOK_DAMAGED');
  });
  it('is refused untouched when it is cut short, wherever', () => {
    for (const bytes of [1, 40, 99, 100, 4096, 5000]) {
      const folder = makeBookFolder();
      const file = bookFile(folder);
      truncateSync(file, bytes);
      expect(refusalOf(folder, file).code).toBe('BOOK_DAMAGED');
    }
  });
  it('is refused untouched when a page in its middle is damaged', () => {
    const folder = makeBookFolder();
    const file = bookFile(folder);
    patch(file, 4096, new Uint8Array(4096).fill(0xa5));
    expect(refusalOf(folder, file)).toMatchObject({ code: 'BOOK_DAMAGED' });
  });
});
