/** Brings a book up to date, step by step; each step and its version number in one transaction. */
import { readdirSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { Refusal } from '../refusal.ts';
import { APPLICATION_ID, type Connection } from './connection.ts';

/** One step. `up` is SQL and literals only, and never changes once it has shipped. */
export interface Migration {
  readonly version: number;
  readonly name: string;
  up(database: Connection): void;
}

const BACKUPS_KEPT = 10;

/** The newest version a list of steps leads to. Throws when the list is empty or not strictly increasing (a bug). */
export function newestVersion(migrations: readonly Migration[]): number {
  let newest = 0;
  for (const { version, name } of migrations) {
    if (!Number.isInteger(version) || version <= newest) throw new Error(`Step ${version} “${name}” is out of order.`);
    newest = version;
  }
  if (newest === 0) throw new Error('There are no steps.');
  return newest;
}

export function bookVersion(database: Connection): number {
  return Number(database.pragma('user_version', { simple: true }));
}

/**
 * Applies what is pending. A book that is not new is first copied beside itself, by the database's
 * own copy, when `backUpTo` gives the file it lies in and the day (YYYY-MM-DD).
 * Refuses with BOOK_TOO_NEW, touching nothing, when the book is newer than the list.
 */
export function migrate(database: Connection, migrations: readonly Migration[], backUpTo: { file: string; day: string } | null): void {
  const newest = newestVersion(migrations);
  const found = bookVersion(database);
  if (found > newest) throw new Refusal('BOOK_TOO_NEW', `The book has version ${found}; this program knows up to ${newest}.`, { remedy: 'Open it with the newer program.' });
  const pending = migrations.filter(({ version }) => version > found);
  if (pending.length === 0) return;
  if (found > 0 && backUpTo !== null) copyBefore(database, found, backUpTo);
  for (const step of pending) applyStep(database, step);
  database.pragma('optimize');
}

function applyStep(database: Connection, step: Migration): void {
  // Inside a transaction the switch would be ignored; a rebuilt table must not cascade.
  database.pragma('foreign_keys = OFF');
  try {
    const run = database.transaction(() => {
      step.up(database);
      const faults = database.pragma('foreign_key_check');
      if (Array.isArray(faults) && faults.length > 0) throw new Error(`Step ${step.version} “${step.name}” leaves ${faults.length} rows that point nowhere.`);
      database.pragma(`user_version = ${step.version}`);
      database.pragma(`application_id = ${APPLICATION_ID}`);
    });
    run.immediate();
  } finally {
    database.pragma('foreign_keys = ON');
  }
}

function copyBefore(database: Connection, version: number, { file, day }: { file: string; day: string }): void {
  const stem = basename(file).replace(/\.alderbook$/, '');
  const folder = dirname(file);
  const start = `${stem}-before-v`;
  const taken = readdirSync(folder).filter((name) => name.startsWith(start) && name.endsWith('.backup.alderbook'));
  let number = 1;
  const named = () => `${start}${version}-${day}-${number}.backup.alderbook`;
  while (taken.includes(named())) number += 1;
  database.prepare('VACUUM INTO ?').run(join(folder, named()));
  const oldestFirst = [...taken, named()].toSorted(byDayAndNumber);
  for (const name of oldestFirst.slice(0, Math.max(0, oldestFirst.length - BACKUPS_KEPT))) rmSync(join(folder, name), { force: true });
}

function byDayAndNumber(left: string, right: string): number {
  const key = (name: string) => /-(\d{4}-\d\d-\d\d)-(\d+)\.backup/.exec(name);
  const [a, b] = [key(left), key(right)];
  const days = (a?.[1] ?? '').localeCompare(b?.[1] ?? '');
  return days === 0 ? Number(a?.[2] ?? 0) - Number(b?.[2] ?? 0) : days;
}
