import { deflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { columnsOf } from '../../app/probes/reading-columns.ts';
import { ticksFromDecimal } from '../../app/measures/temperature.ts';
import { connect, openBookFile } from '../../main/backroom/book/open.ts';
import type { BookHandle } from '../../main/backroom/book/handle.ts';
import { BROTLI, packNow, unpack, type Packing } from '../../main/backroom/book/packing.ts';
import type { KeptReading } from '../../main/backroom/room.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';

const START_MS = Date.UTC(2026, 10, 20, 12);
const ABOUT = { pointId: 'probe-1', instrumentId: null, how: 'file', source: 'log.csv' } as const;

function rowsOf(count: number, fromMs = START_MS, tenths = (index: number) => 1400 + ((index * 7) % 11)): KeptReading[] {
  return Array.from({ length: count }, (_, index) => {
    const text = (tenths(index) / 10).toFixed(1);
    const ticks = ticksFromDecimal(text, 'F');
    if (!ticks.ok) throw new Error(text);
    return { atMs: fromMs + index * 1000, ...ticks.value, text };
  });
}

/** A book of its own, opened beside the services. */
async function openBook(): Promise<BookHandle> {
  const kitchen = await openTestKitchen({ nowMs: START_MS + 86_400_000 });
  await kitchen.close();
  const file = kitchen.file;
  return openBookFile(file, { clock: { nowMs: () => START_MS + 86_400_000 } });
}

const AUTHOR = { personId: null, initials: 'MG', device: 'test', commandId: null, nowMs: () => START_MS, newId: () => crypto.randomUUID() };

function keep(book: BookHandle, rows: readonly KeptReading[], how: 'file' | 'by-hand' = 'file'): { kept: number; alreadyThere: number } {
  return book.command((as) => {
    const writing = as(AUTHOR);
    const result = writing.keepReadings({ ...ABOUT, how, unit: 'F', rows });
    writing.record({ kind: 'readings.import', subjectId: 'probe-1', happenedAtMs: null, summary: 'Took over a log.', after: {} });
    return result;
  });
}

const plain = (readings: readonly KeptReading[]) => readings.map(({ atMs, lowTicks, highTicks, text }) => ({ atMs, lowTicks, highTicks, text }));

describe('A long record in the book', () => {
  it('comes back with every instant, tick and text, and the chain holds', async () => {
    const book = await openBook();
    const rows = rowsOf(40_000);
    expect(keep(book, rows)).toEqual({ kept: 40_000, alreadyThere: 0 });
    expect(plain(book.reader().readings('probe-1'))).toEqual(rows);
    expect(book.reader().lastReading('probe-1')?.text).toBe(rows.at(-1)?.text);
    expect(book.reader().checkChain().intact).toBe(true);
    book.close();
  });

  it('is kept once, however often and in whatever parts it comes', async () => {
    const book = await openBook();
    const rows = rowsOf(2000);
    keep(book, rows.slice(500, 1500));
    expect(keep(book, rows)).toEqual({ kept: 1000, alreadyThere: 1000 });
    expect(keep(book, rows.slice(0, 300))).toEqual({ kept: 0, alreadyThere: 300 });
    expect(keep(book, [...rows.slice(100, 103), ...rowsOf(1, START_MS + 5_000_000)], 'by-hand')).toEqual({ kept: 1, alreadyThere: 3 });
    expect(plain(book.reader().readings('probe-1')).slice(0, 2000)).toEqual(rows);
    expect(book.reader().checkChain().intact).toBe(true);
    book.close();
  });

  it('with two values at one instant keeps both', async () => {
    const book = await openBook();
    keep(book, rowsOf(400));
    const other = rowsOf(400, START_MS, () => 1500);
    expect(keep(book, other)).toEqual({ kept: 400, alreadyThere: 0 });
    expect(book.reader().readings('probe-1')).toHaveLength(800);
    book.close();
  });

  it('gives its numbers in order of time, and of a stretch both ends', async () => {
    const book = await openBook();
    const rows = rowsOf(1000);
    keep(book, rows.slice(500));
    keep(book, rows.slice(0, 500));
    keep(book, rowsOf(1, START_MS + 10_500), 'by-hand');
    const { atMs, lowTicks, cut } = book.reader().seriesOf('probe-1', { fromMs: START_MS + 9_000, toMs: START_MS + 12_000 });
    expect([...atMs].map((at) => at - START_MS)).toEqual([9000, 10_000, 10_500, 11_000, 12_000]);
    expect(lowTicks[0]).toBe(rows[9]?.lowTicks);
    expect(cut).toBeNull();
    expect(book.reader().seriesOf('probe-1').atMs).toHaveLength(1001);
    book.close();
  });

  it('is refused by the chain when a byte of it was changed', async () => {
    const book = await openBook();
    keep(book, rowsOf(600));
    book.close();
    const database = connect(book.file);
    database.exec('DROP TRIGGER reading_blocks_are_never_changed');
    database.exec("UPDATE reading_blocks SET source = 'other.csv'");
    database.close();
    const again = openBookFile(book.file, { clock: { nowMs: () => START_MS } });
    expect(again.reader().checkChain().intact).toBe(false);
    again.close();
  });
});

describe('What an older book has compressed with DEFLATE', () => {
  interface Packed {
    readonly position: number;
    readonly body: Uint8Array;
    readonly packing: Packing;
  }

  it('is read beside what is compressed now, readings and files', async () => {
    const book = await openBook();
    const rows = rowsOf(40_000);
    keep(book, rows);
    const log = new TextEncoder().encode('Time,P1 (F)\n2026-11-20 12:00:00,142.1\n'.repeat(100));
    const fileId = await book.takeFile('old.csv', log, { id: 'file-1', nowMs: START_MS });
    book.close();
    const database = connect(book.file);
    database.exec('DROP TRIGGER reading_blocks_are_never_changed; DROP TRIGGER inbox_is_never_changed');
    const deflate = (table: string, column: string): number => {
      const all = database.prepare<[], Packed>(`SELECT rowid AS position, ${column} AS body, packing FROM ${table}`).all();
      for (const { position, body, packing } of all) {
        expect(packing).toBe(BROTLI);
        database.prepare(`UPDATE ${table} SET ${column} = ?, packing = 0 WHERE rowid = ?`).run(deflateRawSync(unpack(body, packing)), position);
      }
      return all.length;
    };
    expect(deflate('reading_blocks', 'body')).toBe(2);
    expect(deflate('inbox', 'bytes')).toBe(1);
    database.close();
    const again = openBookFile(book.file, { clock: { nowMs: () => START_MS } });
    expect(again.reader().checkChain().intact).toBe(true);
    keep(again, rowsOf(500, START_MS + 50_000_000));
    expect(plain(again.reader().readings('probe-1'))).toEqual([...rows, ...rowsOf(500, START_MS + 50_000_000)]);
    expect(again.reader().inboxFile(fileId)?.bytes).toEqual(Buffer.from(log));
    again.close();
  });

  it('is told from what is damaged', () => {
    const packed = packNow(new TextEncoder().encode('142.1 '.repeat(1000)), 1);
    expect(new TextDecoder().decode(unpack(packed, BROTLI))).toBe('142.1 '.repeat(1000));
    expect(() => unpack(packed.subarray(0, packed.length - 1), BROTLI)).toThrow(/unexpected end/);
    expect(() => unpack(packed, 0)).toThrow(/invalid|unexpected/);
  });
});

describe('Readings that come in live', () => {
  const LIVE = { pointId: 'probe-1', instrumentId: 'gauge', unit: 'F', source: 'feed' } as const;

  it('are in the book as soon as they are kept, once, and outlive the program', async () => {
    const book = await openBook();
    const rows = rowsOf(20);
    expect(book.reader().keepLive(LIVE, rows.slice(0, 12))).toEqual({ kept: 12, alreadyThere: 0 });
    expect(book.reader().keepLive(LIVE, rows.slice(8))).toEqual({ kept: 8, alreadyThere: 4 });
    book.close();
    const again = openBookFile(book.file, { clock: { nowMs: () => START_MS } });
    expect(plain(again.reader().readings('probe-1'))).toEqual(rows);
    expect(again.reader().lastReading('probe-1')?.atMs).toBe(rows.at(-1)?.atMs);
    expect(again.reader().liveWaiting()).toEqual([{ pointId: 'probe-1', count: 20, firstMs: START_MS }]);
    again.close();
  });

  it('are vouched for by the record once they are closed, and a late repeat is known', async () => {
    const book = await openBook();
    const rows = rowsOf(900);
    book.reader().keepLive(LIVE, rows);
    const closed = book.command((as) => {
      const writing = as(AUTHOR);
      const count = writing.closeLive('probe-1');
      writing.record({ kind: 'readings.live', subjectId: 'probe-1', happenedAtMs: null, summary: 'Closed.', after: {} });
      return count;
    });
    expect(closed).toBe(900);
    expect(book.reader().liveWaiting()).toEqual([]);
    expect(plain(book.reader().readings('probe-1'))).toEqual(rows);
    expect(book.reader().keepLive(LIVE, rows.slice(5, 6))).toEqual({ kept: 0, alreadyThere: 1 });
    expect(book.reader().readings('probe-1')[0]?.how).toBe('instrument');
    expect(book.reader().checkChain().intact).toBe(true);
    book.close();
  });
});

it('Columns kept and read are the same, whatever stands in them', async () => {
  const book = await openBook();
  let point = 0;
  fc.assert(fc.property(fc.uniqueArray(fc.tuple(fc.integer({ min: 0, max: 5000 }), fc.integer({ min: -400, max: 3000 })), { minLength: 1, maxLength: 40, selector: ([second, tenths]) => `${second} ${tenths}` }), (list) => {
    point += 1;
    const rows = list.map(([second, tenths]): KeptReading => rowsOf(1, START_MS + second * 1000, () => tenths)[0] ?? { atMs: 0, lowTicks: 0, highTicks: 0, text: '' });
    const pointId = `p${point}`;
    book.command((as) => {
      const writing = as(AUTHOR);
      writing.keepColumns({ ...ABOUT, pointId }, columnsOf(rows, 'F'));
      writing.record({ kind: 'readings.import', subjectId: pointId, happenedAtMs: null, summary: 'Took over.', after: {} });
    });
    expect(plain(book.reader().readings(pointId))).toEqual(rows.toSorted((left, right) => left.atMs - right.atMs));
  }), { numRuns: 40 });
  book.close();
});
