import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { makeBook, makeBookFolder, openForTest, recordOne, TEST_NOW_MS, write } from '../support/book-folder.ts';
import type { OpenBook } from '../../main/backroom/room.ts';

function keepThree(book: OpenBook): void {
  book.keepReadings({
    pointId: 'point-1', instrumentId: 'probe-1', unit: 'F', how: 'file', source: 'log.csv',
    rows: [0, 1, 2].map((minute) => ({ atMs: TEST_NOW_MS + minute * 60_000, lowTicks: 500_000 + minute, highTicks: 500_000 + minute, text: `13${minute}.0` })),
  });
  book.record({ kind: 'readings.import', subjectId: 'load-1', happenedAtMs: TEST_NOW_MS, summary: 'Three readings', before: { count: 0 }, after: { count: 3 } });
}

/** A closed book with three entries, the second of them over three readings. */
function bookOfThree(): string {
  const file = join(makeBookFolder(), 'kitchen.alderbook');
  makeBook(file, (book) => {
    recordOne(book, 'First');
    keepThree(book);
    recordOne(book, 'Third');
  });
  return file;
}

/** Does to the file what nobody may: works on it past the program, its triggers taken off. */
function tamper(file: string, sql: string): void {
  const database = new Database(file);
  database.pragma('foreign_keys = OFF');
  const triggers = database.prepare<[], { name: string }>("SELECT name FROM sqlite_schema WHERE type = 'trigger'").all();
  for (const { name } of triggers) database.exec(`DROP TRIGGER ${name}`);
  database.exec(sql);
  database.close();
}

describe('the chained record', () => {
  it('is intact as it was written, and its digest is the last entry’s', () => {
    const book = openForTest(bookOfThree()).reader();
    const chain = book.checkChain();
    expect(chain).toMatchObject({ entries: 3, intact: true });
    expect(chain.digest).toMatch(/^[0-9a-f]{64}$/);
    expect(chain.digest).toBe(book.entriesAbout(['subject-1']).at(-1)?.digest);
  });
  it('goes on being checked while entries are added', () => {
    const handle = openForTest(bookOfThree());
    const first = handle.reader().checkChain();
    write(handle, (book) => recordOne(book, 'Fourth'));
    const second = handle.reader().checkChain();
    expect(second).toMatchObject({ entries: 4, intact: true });
    expect(second.digest).not.toBe(first.digest);
  });
  it.each([
    ['one letter of a summary', "UPDATE entries SET summary = 'Fjrst' WHERE sequence = 1", 0],
    ['what stood before', "UPDATE entries SET before_json = '{\"count\":1}' WHERE sequence = 2", 1],
    ['who did it', "UPDATE entries SET person = 'XX' WHERE sequence = 3", 2],
    ['when it was entered', 'UPDATE entries SET entered_at_ms = entered_at_ms - 1 WHERE sequence = 2', 1],
    ['an entry taken out', 'DELETE FROM entries WHERE sequence = 2', 1],
    ['two entries swapped', 'UPDATE entries SET sequence = 99 WHERE sequence = 1; UPDATE entries SET sequence = 1 WHERE sequence = 2; UPDATE entries SET sequence = 2 WHERE sequence = 99', 0],
    ['one tick of a reading', 'UPDATE readings SET low_ticks = low_ticks + 1 WHERE position = 2', 1],
    ['a reading taken out', 'DELETE FROM readings WHERE position = 3', 1],
    ['a reading put in', "INSERT INTO readings (point_id, at_ms, low_ticks, cut, text, unit, instrument_id, how, source, entry_sequence) VALUES ('point-1', 5, 1, 0, '1', 'F', NULL, 'file', 'log.csv', 2)", 1],
    ['a reading of no entry', "INSERT INTO readings (point_id, at_ms, low_ticks, cut, text, unit, instrument_id, how, source, entry_sequence) VALUES ('point-1', 5, 1, 0, '1', 'F', NULL, 'file', 'log.csv', 9)", 3],
  ])('shows %s', (_what, sql, lastGood) => {
    const file = bookOfThree();
    tamper(file, sql);
    expect(openForTest(file).reader().checkChain()).toMatchObject({ entries: lastGood, intact: false });
  });
});

describe('the file itself', () => {
  it.each([
    ['change an entry', "UPDATE entries SET summary = 'x'", 'entries are never changed'],
    ['delete an entry', 'DELETE FROM entries', 'entries are never deleted'],
    ['leave a gap in the numbers', "INSERT INTO entries SELECT 7, 'new', entered_at_ms, happened_at_ms, kind, subject_id, person_id, person, device, command_id, summary, why, before_json, after_json, readings_count, readings_digest, digest_before, digest FROM entries WHERE sequence = 1", 'entries are numbered without gaps'],
    ['change a reading', 'UPDATE readings SET low_ticks = 0', 'readings are never changed'],
    ['delete a reading', 'DELETE FROM readings', 'readings are never deleted'],
    ['change a file of the inbox', "INSERT INTO inbox (id, file_name, bytes, sha256, taken_at_ms) VALUES ('f', 'n', x'00', printf('%064d', 0), 1); UPDATE inbox SET file_name = 'm'", 'files are kept as they came'],
    ['put a text where a number belongs', "INSERT INTO kitchens (position, id, body) VALUES ('one', 'k', '{}')", 'datatype mismatch'],
    ['keep a document that is no JSON', "INSERT INTO kitchens (id, body) VALUES ('k', 'x')", 'CHECK constraint failed'],
  ])('lets no program %s', (_what, sql, message) => {
    const file = bookOfThree();
    const database = new Database(file);
    expect(() => database.exec(sql)).toThrow(message);
    database.close();
  });
});
