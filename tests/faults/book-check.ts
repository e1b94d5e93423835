/** What must be true of a book after any end: it opens, the engine finds it whole, and its chain holds. */
import { createHash } from 'node:crypto';
import Database from 'better-sqlite3';
import { unpack, type Packing } from '../../main/backroom/book/packing.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import type { OpenBook, ReadingNumbers } from '../../main/backroom/room.ts';

/** Opens the book, which writes back its log, looks at it, and closes it. @returns the faults, in sentences */
export function checkBook(file: string, look: (book: OpenBook) => readonly string[]): string[] {
  const handle = openBookFile(file, { clock: { nowMs: () => Date.now() } });
  const faults: string[] = [];
  try {
    const book = handle.reader();
    if (!book.checkChain().intact) faults.push('the chain is broken');
    faults.push(...look(book));
  } finally {
    handle.close();
  }
  faults.push(...checkTables(file));
  return faults;
}

function checkTables(file: string): string[] {
  const faults: string[] = [];
  const database = new Database(file, { readonly: true });
  try {
    const found = database.pragma('integrity_check', { simple: true });
    if (found !== 'ok') faults.push(`integrity_check says ${String(found).slice(0, 200)}`);
    const strays = database.prepare<[], { count: number }>(`SELECT (SELECT count(*) FROM readings WHERE entry_sequence NOT IN (SELECT sequence FROM entries))
      + (SELECT count(*) FROM reading_blocks WHERE entry_sequence NOT IN (SELECT sequence FROM entries)) AS count`).get()?.count;
    if (strays !== 0) faults.push(`${strays} rows or blocks have no entry`);
    for (const { id, bytes, packed, packing, sha256 } of database.prepare<[], { id: string; bytes: Uint8Array; packed: number; packing: Packing; sha256: string }>('SELECT id, bytes, packed, packing, sha256 FROM inbox').iterate()) {
      if (createHash('sha256').update(packed === 1 ? unpack(bytes, packing) : bytes).digest('hex') !== sha256) faults.push(`the file ${id} of the inbox is not what came`);
    }
  } finally {
    database.close();
  }
  return faults;
}

/** How many rows a table has whose column is that. */
export function countRows(file: string, table: 'entries' | 'inbox' | 'live_readings', kind?: string): number {
  const database = new Database(file, { readonly: true });
  try {
    const of = kind === undefined ? '' : ' WHERE kind = ?';
    return database.prepare<string[], { count: number }>(`SELECT count(*) AS count FROM ${table}${of}`).get(...(kind === undefined ? [] : [kind]))?.count ?? -1;
  } finally {
    database.close();
  }
}

/** Whether a series is exactly what it must be, from its first reading on. */
export function differenceOf(series: ReadingNumbers, count: number, expected: (index: number) => { readonly atMs: number; readonly ticks: number }): string | undefined {
  if (series.atMs.length !== count) return `${series.atMs.length} readings instead of ${count}`;
  for (let index = 0; index < count; index += 1) {
    const { atMs, ticks } = expected(index);
    if (series.atMs[index] !== atMs || series.lowTicks[index] !== ticks) return `reading ${index} is ${series.lowTicks[index]} at ${series.atMs[index]} instead of ${ticks} at ${atMs}`;
  }
  return undefined;
}
