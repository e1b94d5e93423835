/** Opens and makes book files; the only file that loads the database engine. */
import { accessSync, constants, existsSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { localDay } from '../../../app/measures/zone.ts';
import { Refusal } from '../refusal.ts';
import type { Clock } from '../room.ts';
import { backUpBeside } from './backup.ts';
import type { Connection } from './connection.ts';
import { fileRefusal } from './file-errors.ts';
import { hasLog, inspectBookFile } from './file-header.ts';
import { type BookHandle, makeHandle } from './handle.ts';
import { busyRefusal, noteHolder, removeHolder } from './holder.ts';
import { migrate, type Migration, newestVersion } from './migrate.ts';
import { MIGRATIONS } from './migrations/index.ts';
import { refuseNetworkDisk } from './network-disk.ts';
import { openShelf } from './shelves.ts';
import { sqliteRefusal } from './sqlite-errors.ts';

/** How long to wait for another program's lock before saying who has it. */
const BUSY_TIMEOUT_MS = 500;

/** The lock before all others: some of them read the file, and a log once opened for sharing stays so. Kitchens lose power: every answer is on the disk before it is given. */
const SETTINGS = [
  'locking_mode = EXCLUSIVE',
  'trusted_schema = OFF',
  'cell_size_check = ON',
  'recursive_triggers = ON',
  'synchronous = FULL',
  'fullfsync = ON',
  'checkpoint_fullfsync = ON',
  'foreign_keys = ON',
] as const;

/** Files this thread holds. Looking at one of them again would drop our own lock on it (POSIX locks). */
const held = new Set<string>();

export interface OpenOptions {
  readonly clock: Clock;
  /** Replaced in tests only. */
  readonly migrations?: readonly Migration[];
}

/**
 * Opens a book file and holds it for this program alone. A file that may not be written is opened
 * for looking: its bytes are read into memory and the file is never touched.
 * Refuses with NOT_FOUND, BOOK_DAMAGED, BOOK_TOO_NEW, BOOK_BUSY, BOOK_READ_ONLY, FILE_UNREADABLE, DISK_FULL.
 */
export function openBookFile(named: string, options: OpenOptions): BookHandle {
  const file = existsSync(named) ? realpathSync(named) : resolve(named);
  if (held.has(file)) throw busyRefusal(file);
  const migrations = options.migrations ?? MIGRATIONS;
  inspectBookFile(file, newestVersion(migrations));
  refuseNetworkDisk(file);
  return isWritable(file) ? openWritable(file, migrations, options.clock) : openForLooking(file, migrations, options.clock);
}

/** A connection with the settings every book is used with; the first statement that reads the file locks it for us alone. */
export function connect(source: string | Buffer): Connection {
  const database: Connection = new Database(source, { timeout: BUSY_TIMEOUT_MS });
  try {
    for (const setting of SETTINGS) database.pragma(setting);
    return database;
  } catch (problem) {
    database.close();
    throw problem;
  }
}

function openWritable(file: string, migrations: readonly Migration[], clock: Clock): BookHandle {
  const database = connectOrRefuse(file, file);
  try {
    // Nothing is written before the check is through.
    refuseDamage(database, file);
    database.pragma('journal_mode = WAL');
    migrate(database, migrations, { file, day: new Date(clock.nowMs()).toISOString().slice(0, 10) });
    database.pragma('wal_checkpoint(TRUNCATE)');
    const handle = makeHandle({
      database,
      file,
      fileName: basename(file),
      readOnly: false,
      openedAtMs: clock.nowMs(),
      backUp: (day) => backUpBeside(database, file, day),
      today: () => kitchenDay(database, clock),
      close: () => closeWritable(database, file),
    });
    noteHolder(file, clock.nowMs());
    held.add(file);
    return handle;
  } catch (problem) {
    database.close();
    throw openingRefusal(problem, file);
  }
}

/** Leaves one file: the log is written back and gone. Should the disk refuse that, the log stays and is read at the next opening. */
function closeWritable(database: Connection, file: string): void {
  if (!database.open) return;
  try {
    database.pragma('wal_checkpoint(TRUNCATE)');
  } catch (problem) {
    if (sqliteRefusal(problem) === undefined) throw problem;
  } finally {
    database.close();
    held.delete(file);
    removeHolder(file);
  }
}

function openForLooking(file: string, migrations: readonly Migration[], clock: Clock): BookHandle {
  const name = basename(file);
  if (hasLog(file)) {
    throw new Refusal('BOOK_READ_ONLY', `${name} is read-only and was not closed properly, so it can’t be shown whole.`, {
      remedy: `Copy ${name} and ${name}-wal to a folder you can write to, and open the copy.`,
    });
  }
  const database = connectOrRefuse(rollbackCopy(file), file);
  try {
    refuseDamage(database, file);
    migrate(database, migrations, null);
    database.pragma('query_only = ON');
    return makeHandle({
      database,
      file,
      fileName: name,
      readOnly: true,
      openedAtMs: clock.nowMs(),
      backUp: () => Promise.reject(new Refusal('BOOK_READ_ONLY', `${name} can only be looked at, so no backup can be written beside it.`, { remedy: 'Copy the file itself: it is closed and whole.' })),
      today: () => kitchenDay(database, clock),
      close: () => database.close(),
    });
  } catch (problem) {
    database.close();
    throw openingRefusal(problem, file);
  }
}

/** The file's bytes with the write-ahead mark taken off: a database in memory can't have a log. */
function rollbackCopy(file: string): Buffer {
  try {
    const bytes = readFileSync(file);
    bytes.writeUInt8(1, 18);
    bytes.writeUInt8(1, 19);
    return bytes;
  } catch (problem) {
    throw fileRefusal(problem, basename(file)) ?? problem;
  }
}

function connectOrRefuse(source: string | Buffer, file: string): Connection {
  try {
    return connect(source);
  } catch (problem) {
    throw openingRefusal(problem, file);
  }
}

function refuseDamage(database: Connection, file: string): void {
  const found = database.pragma('quick_check(1)', { simple: true });
  if (found !== 'ok') throw new Refusal('BOOK_DAMAGED', `${basename(file)} is damaged.`, { remedy: 'Open your latest backup, and keep the damaged file.' });
}

function openingRefusal(problem: unknown, file: string): unknown {
  if (problem instanceof Refusal) return problem;
  const refusal = sqliteRefusal(problem) ?? fileRefusal(problem, basename(file));
  if (refusal?.code === 'BOOK_BUSY') return busyRefusal(file);
  return refusal ?? problem;
}

/** Marked read-only counts even for a user whom the system would let write. */
function isWritable(file: string): boolean {
  return [file, dirname(file)].every((path) => (statSync(path).mode & 0o222) !== 0 && mayWrite(path));
}

function mayWrite(path: string): boolean {
  try {
    accessSync(path, constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

function kitchenDay(database: Connection, clock: Clock): string {
  const kitchen = openShelf(database, 'kitchen', () => undefined).get('kitchen');
  return localDay(clock.nowMs(), kitchen?.timeZone ?? 'UTC');
}
