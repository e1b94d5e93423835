/**
 * The note beside an open book that says which program holds it, for the sentence of BOOK_BUSY.
 * It is only a note: the database's own lock decides, so one left by a crash blocks nobody.
 */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { z } from 'zod';
import { Refusal } from '../refusal.ts';

const Holder = z.object({ pid: z.int(), since: z.string() });

function holderFile(file: string): string {
  return `${file}.holder`;
}

/** Writes the note. That it can't be written is no reason not to open the book. */
export function noteHolder(file: string, nowMs: number): void {
  try {
    writeFileSync(holderFile(file), `${JSON.stringify({ pid: process.pid, since: new Date(nowMs).toISOString() })}\n`);
  } catch {
    // The lock of the database holds without the note.
  }
}

export function removeHolder(file: string): void {
  rmSync(holderFile(file), { force: true });
}

/** BOOK_BUSY, naming the process that holds the book and since when, as far as its note says. */
export function busyRefusal(file: string): Refusal {
  const name = basename(file);
  const holder = readHolder(file);
  const who = holder === undefined ? 'another program' : `another Alderbook (process ${holder.pid}, since ${holder.since.slice(0, 16).replace('T', ' ')} UTC)`;
  return new Refusal('BOOK_BUSY', `${name} is open in ${who}.`, { remedy: 'Use it there; or close it there, then start this program again. One program at a time writes a book.' });
}

function readHolder(file: string): z.infer<typeof Holder> | undefined {
  try {
    return Holder.safeParse(JSON.parse(readFileSync(holderFile(file), 'utf8'))).data;
  } catch {
    return undefined;
  }
}
