/** Makes a new book: complete under its name, or not there at all. */
import { closeSync, existsSync, fsyncSync, linkSync, mkdirSync, openSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { Refusal } from '../refusal.ts';
import type { OpenBook } from '../room.ts';
import type { Author } from './entries.ts';
import { fileRefusal } from './file-errors.ts';
import { makeHandle } from './handle.ts';
import { migrate } from './migrate.ts';
import { MIGRATIONS } from './migrations/index.ts';
import { connect } from './open.ts';
import { sqliteRefusal } from './sqlite-errors.ts';

/**
 * Makes a book file with its first contents, in its folder (made too if absent). It is built under
 * another name and takes its own only when it is closed and whole.
 * Refuses with CONFLICT when something of that name is there, BOOK_READ_ONLY, DISK_FULL; what `fill` throws goes on.
 */
export function createBookFile(file: string, fill: (as: (author: Author) => OpenBook) => void): void {
  const name = basename(file);
  const unfinished = `${file}.${process.pid}.unfinished`;
  try {
    mkdirSync(dirname(file), { recursive: true });
    refuseTaken(file, name);
    rmSync(unfinished, { force: true });
    build(unfinished, fill);
    giveName(unfinished, file, name);
    syncFolder(dirname(file));
  } catch (problem) {
    throw problem instanceof Refusal ? problem : (sqliteRefusal(problem) ?? fileRefusal(problem, name) ?? problem);
  } finally {
    for (const ending of ['', '-journal', '-wal', '-shm']) rmSync(`${unfinished}${ending}`, { force: true });
  }
}

function build(unfinished: string, fill: (as: (author: Author) => OpenBook) => void): void {
  const database = connect(unfinished);
  try {
    migrate(database, MIGRATIONS, null);
    const handle = makeHandle({
      database,
      file: unfinished,
      fileName: basename(unfinished),
      readOnly: false,
      openedAtMs: 0,
      backUp: () => Promise.reject(new Error('A book is not backed up while it is made.')),
      today: () => '',
      close: () => database.close(),
    });
    handle.command(fill);
    // So that opening it has nothing to write.
    database.pragma('journal_mode = WAL');
  } finally {
    database.close();
  }
}

/** A log left behind by a book that was moved away would be taken for this one's. */
function refuseTaken(file: string, name: string): void {
  for (const ending of ['', '-wal', '-journal']) {
    if (!existsSync(`${file}${ending}`)) continue;
    throw new Refusal('CONFLICT', `There is already a file ${name}${ending}.`, { remedy: 'Open that book, or move the file away first.' });
  }
}

/** A link fails when the name was taken meanwhile; some disks know no links. */
function giveName(unfinished: string, file: string, name: string): void {
  try {
    linkSync(unfinished, file);
  } catch {
    refuseTaken(file, name);
    renameSync(unfinished, file);
  }
}

function syncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
