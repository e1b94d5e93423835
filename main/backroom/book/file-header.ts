/**
 * Looks at a file before the database engine may open it: a foreign, newer, empty or truncated file
 * is refused without a byte of it, or beside it, being changed. Layout: SQLite's “Database File
 * Format”, section 1.3, “The Database Header” (from memory, each field tested on real files).
 */
import { closeSync, fstatSync, openSync, readSync, statSync } from 'node:fs';
import { basename } from 'node:path';
import { Refusal } from '../refusal.ts';
import { APPLICATION_ID } from './connection.ts';
import { fileRefusal } from './file-errors.ts';

const HEADER_BYTES = 100;
const MAGIC = Buffer.from('SQLite format 3\0', 'latin1');

/** What the header of a book says. */
export interface BookHeader {
  readonly version: number;
}

/**
 * Reads the first 100 bytes and says which version of the book this is.
 * @param newestVersion the newest version this program knows
 * Refuses with NOT_FOUND, BOOK_DAMAGED, BOOK_TOO_NEW or FILE_UNREADABLE. Not to be called on a file
 * that this process has open: closing any handle of a file drops the process's locks on it (POSIX).
 */
export function inspectBookFile(file: string, newestVersion: number): BookHeader {
  const name = basename(file);
  const { bytes, size } = readHeader(file, name);
  if (size === 0) throw damaged(`${name} is empty: it is not an Alderbook book.`);
  if (!bytes.subarray(0, MAGIC.length).equals(MAGIC.subarray(0, bytes.length))) throw notABook(name);
  if (size < HEADER_BYTES) throw damaged(`${name} breaks off after ${size} bytes.`);
  if (bytes.readUInt32BE(68) !== APPLICATION_ID) throw notABook(name);
  const version = bytes.readUInt32BE(60);
  if (version > newestVersion) {
    throw new Refusal('BOOK_TOO_NEW', `${name} was written by a newer Alderbook (book version ${version}; this program knows up to ${newestVersion}).`, {
      remedy: 'Open it with the newer program. Nothing in it was changed.',
    });
  }
  if (version < 1) throw damaged(`${name} was never finished: it has no book in it.`);
  refuseTruncated(file, name, bytes, size);
  return { version };
}

function readHeader(file: string, name: string): { bytes: Buffer; size: number } {
  try {
    const handle = openSync(file, 'r');
    try {
      const about = fstatSync(handle);
      if (!about.isFile()) throw notABook(name);
      const bytes = Buffer.alloc(HEADER_BYTES);
      const count = readSync(handle, bytes, 0, HEADER_BYTES, 0);
      return { bytes: bytes.subarray(0, count), size: about.size };
    } finally {
      closeSync(handle);
    }
  } catch (problem) {
    throw fileRefusal(problem, name) ?? problem;
  }
}

/** A cleanly closed book is as long as its header says; with a write-ahead log beside it, the log may hold the rest. */
function refuseTruncated(file: string, name: string, bytes: Buffer, size: number): void {
  const stored = bytes.readUInt16BE(16);
  const pageBytes = stored === 1 ? 65_536 : stored;
  const pages = bytes.readUInt32BE(28);
  const countIsCurrent = bytes.readUInt32BE(24) === bytes.readUInt32BE(92);
  if (countIsCurrent && size < pageBytes * pages && !hasLog(file)) {
    throw damaged(`${name} is cut short: ${size} of ${pageBytes * pages} bytes are there.`);
  }
}

/** Whether a write-ahead log with something in it lies beside the file: the book was not closed properly. */
export function hasLog(file: string): boolean {
  return (statSync(`${file}-wal`, { throwIfNoEntry: false })?.size ?? 0) > 0;
}

function damaged(message: string): Refusal {
  return new Refusal('BOOK_DAMAGED', message, { remedy: 'Open your latest backup instead. The file was left as it is.' });
}

function notABook(name: string): Refusal {
  return new Refusal('BOOK_DAMAGED', `${name} is not an Alderbook book.`, {
    remedy: 'Choose the file that Alderbook made; it ends in .alderbook. The file was left as it is.',
  });
}
