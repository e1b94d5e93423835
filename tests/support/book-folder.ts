/** A folder of its own for each test that opens book files, with books in it made the real way. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { createBookFile } from '../../main/backroom/book/create.ts';
import type { Author } from '../../main/backroom/book/entries.ts';
import type { BookHandle } from '../../main/backroom/book/handle.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import type { OpenBook } from '../../main/backroom/room.ts';

/** 25 November 2026, 14:00 UTC. */
export const TEST_NOW_MS = Date.UTC(2026, 10, 25, 14);
export const TEST_CLOCK = { nowMs: () => TEST_NOW_MS };

/** A fresh folder, removed when the test is over. */
export function makeBookFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'alderbook-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

let idsGiven = 0;

/** The chef of these tests; ids are counted so that they never repeat. */
export function testAuthor(more: Partial<Author> = {}): Author {
  return {
    personId: 'person-1',
    initials: 'JR',
    device: 'this computer',
    commandId: null,
    nowMs: () => TEST_NOW_MS,
    newId: () => `id-${(idsGiven += 1)}`,
    ...more,
  };
}

/** Makes a book at `file` with whatever `fill` puts into it, and leaves it closed. */
export function makeBook(file: string, fill: (book: OpenBook) => void = () => undefined): void {
  createBookFile(file, (as) => fill(as(testAuthor())));
}

/** Opens a book and closes it when the test is over. */
export function openForTest(file: string): BookHandle {
  const handle = openBookFile(file, { clock: TEST_CLOCK });
  onTestFinished(() => handle.close());
  return handle;
}

/** Runs one command as the chef. */
export function write<T>(handle: BookHandle, run: (book: OpenBook) => T): T {
  return handle.command((as) => run(as(testAuthor())));
}

/** Notes that something was done, in one entry. */
export function recordOne(book: OpenBook, summary = 'Something was done'): void {
  book.record({ kind: 'test.done', subjectId: 'subject-1', happenedAtMs: TEST_NOW_MS, summary, after: { done: true } });
}
