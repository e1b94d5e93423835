import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { fileRefusal } from '../../main/backroom/book/file-errors.ts';
import { sqliteRefusal } from '../../main/backroom/book/sqlite-errors.ts';
import { makeBookFolder } from '../support/book-folder.ts';

/** What the database engine throws when it does this. */
function thrownBy(work: () => unknown): unknown {
  try {
    work();
  } catch (problem) {
    return problem;
  }
  throw new Error('nothing was thrown');
}

function coded(code: string): Error {
  return Object.assign(new Error('x'), { code });
}

describe('failures of the database engine', () => {
  it('are a full disk when no page is left', () => {
    const database = new Database(join(makeBookFolder(), 'small.db'));
    database.exec('CREATE TABLE t (a TEXT)');
    database.pragma('max_page_count = 3');
    const thrown = thrownBy(() => database.prepare('INSERT INTO t VALUES (?)').run('x'.repeat(100_000)));
    database.close();
    expect(sqliteRefusal(thrown)).toMatchObject({ code: 'DISK_FULL', retryable: true, message: 'The disk is full: nothing was written.' });
  });
  it('are a busy book when another has the lock', () => {
    const file = join(makeBookFolder(), 'busy.db');
    const first = new Database(file);
    first.exec('CREATE TABLE t (a TEXT); BEGIN EXCLUSIVE');
    const second = new Database(file, { timeout: 0 });
    const thrown = thrownBy(() => second.exec('INSERT INTO t VALUES (1)'));
    second.close();
    first.close();
    expect(sqliteRefusal(thrown)).toMatchObject({ code: 'BOOK_BUSY', retryable: true });
  });
  it('are a read-only book when it may not be written', () => {
    const file = join(makeBookFolder(), 'plain.db');
    new Database(file).exec('CREATE TABLE t (a TEXT)').close();
    const database = new Database(file, { readonly: true });
    const thrown = thrownBy(() => database.exec('INSERT INTO t VALUES (1)'));
    database.close();
    expect(sqliteRefusal(thrown)).toMatchObject({ code: 'BOOK_READ_ONLY', retryable: false });
  });
  it('are a damaged book when the file is no database', () => {
    const thrown = thrownBy(() => new Database(Buffer.from('not a database'.repeat(100))).prepare('SELECT * FROM sqlite_schema').all());
    expect(sqliteRefusal(thrown)).toMatchObject({ code: 'BOOK_DAMAGED' });
  });
  it('are the disk’s when it can’t be read', () => {
    expect(sqliteRefusal(coded('SQLITE_IOERR_READ'))).toMatchObject({ code: 'FILE_UNREADABLE' });
    expect(sqliteRefusal(coded('SQLITE_CANTOPEN'))).toMatchObject({ code: 'FILE_UNREADABLE' });
  });
  it('are bugs of ours when a rule of the tables is broken or the SQL is wrong', () => {
    const database = new Database(':memory:');
    database.exec('CREATE TABLE t (a INTEGER CHECK (a > 0)) STRICT');
    expect(sqliteRefusal(thrownBy(() => database.exec('INSERT INTO t VALUES (0)')))).toBeUndefined();
    expect(sqliteRefusal(thrownBy(() => database.exec("INSERT INTO t VALUES ('x')")))).toBeUndefined();
    expect(sqliteRefusal(thrownBy(() => database.exec('SELEKT 1')))).toBeUndefined();
    expect(sqliteRefusal(new Error('SQLITE_FULL'))).toBeUndefined();
    database.close();
  });
});

describe('failures of the file system', () => {
  it.each([
    ['ENOENT', 'NOT_FOUND'],
    ['EACCES', 'BOOK_READ_ONLY'],
    ['EROFS', 'BOOK_READ_ONLY'],
    ['ENOSPC', 'DISK_FULL'],
    ['EIO', 'FILE_UNREADABLE'],
  ])('%s is %s', (code, expected) => {
    expect(fileRefusal(coded(code), 'kitchen.alderbook')).toMatchObject({ code: expected, message: expect.stringMatching(/^kitchen\.alderbook .+\.$/) });
  });
  it('that we don’t know stay what they are', () => {
    expect(fileRefusal(coded('toString'), 'x')).toBeUndefined();
    expect(fileRefusal(new Error('x'), 'x')).toBeUndefined();
    expect(fileRefusal('x', 'x')).toBeUndefined();
  });
});
