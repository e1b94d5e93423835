import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { ReadingColumns } from '../../app/probes/reading-columns.ts';
import { openBlockCache } from '../../main/backroom/book/block-cache.ts';
import type { BookHandle } from '../../main/backroom/book/handle.ts';
import { knowDocuments } from '../../main/backroom/book/known-documents.ts';
import { connect } from '../../main/backroom/book/open.ts';
import { rememberReadings } from '../../main/backroom/book/remembered-readings.ts';
import type { SeriesReading } from '../../main/backroom/room.ts';
import { makeBook, makeBookFolder, openForTest, recordOne, TEST_NOW_MS, write } from '../support/book-folder.ts';

const ABOUT = { pointId: 'probe-1', instrumentId: null, how: 'file', source: 'log.csv' } as const;

function columnsOf(ticks: readonly number[], fromMs = TEST_NOW_MS): ReadingColumns {
  return { unit: 'C', cut: null, texts: { decimals: 0, mark: '.' }, atMs: Float64Array.from(ticks, (_, index) => fromMs + index * 1000), lowTicks: Int32Array.from(ticks) };
}

function openNew(): BookHandle {
  const file = join(makeBookFolder(), 'kitchen.alderbook');
  makeBook(file);
  return openForTest(file);
}

function keep(handle: BookHandle, columns: ReadingColumns): void {
  write(handle, (book) => {
    book.keepColumns(ABOUT, columns);
    recordOne(book);
  });
}

/** Keeps readings, looks at them within the command, and then lets it fail. */
function keepInVain(handle: BookHandle, columns: ReadingColumns): number[] {
  let seen: number[] = [];
  expect(() => write(handle, (book) => {
    book.keepColumns(ABOUT, columns);
    recordOne(book);
    seen = [...book.seriesOf(ABOUT.pointId).lowTicks, ...book.readings(ABOUT.pointId).map(({ lowTicks }) => lowTicks)];
    throw new Error('in vain');
  })).toThrow('in vain');
  return seen;
}

const ticksOf = (handle: BookHandle): number[] => [...handle.reader().seriesOf(ABOUT.pointId).lowTicks];

describe('Readings that were asked for before', () => {
  it('are the same array as long as nothing was added, and new ones then', () => {
    const handle = openNew();
    keep(handle, columnsOf([9000, 18_000]));
    const book = handle.reader();
    const [before, numbers] = [book.readings(ABOUT.pointId), book.seriesOf(ABOUT.pointId)];
    expect(book.readings(ABOUT.pointId)).toBe(before);
    expect(book.seriesOf(ABOUT.pointId)).toBe(numbers);
    keep(handle, columnsOf([27_000], TEST_NOW_MS + 5000));
    expect(book.readings(ABOUT.pointId)).toHaveLength(3);
    expect(ticksOf(handle)).toEqual([9000, 18_000, 27_000]);
    expect(before).toHaveLength(2);
  });
  it('are new ones after a reading came in live, and after it was closed', () => {
    const handle = openNew();
    const book = handle.reader();
    expect(book.readings(ABOUT.pointId)).toEqual([]);
    book.keepLive({ ...ABOUT, unit: 'C' }, [{ atMs: TEST_NOW_MS, lowTicks: 9000, highTicks: 9000, text: '1' }]);
    expect(book.readings(ABOUT.pointId).map(({ entry }) => entry)).toEqual([0]);
    write(handle, (writing) => {
      writing.closeLive(ABOUT.pointId);
      recordOne(writing);
    });
    expect(book.readings(ABOUT.pointId).map(({ entry }) => entry > 0)).toEqual([true]);
  });
  it('of a command that failed are never given again, though the next take their place', () => {
    const handle = openNew();
    keep(handle, columnsOf([9000]));
    expect(ticksOf(handle)).toEqual([9000]);
    expect(keepInVain(handle, columnsOf([18_000], TEST_NOW_MS + 5000))).toEqual([9000, 18_000, 9000, 18_000]);
    expect(ticksOf(handle)).toEqual([9000]);
    keep(handle, columnsOf([27_000], TEST_NOW_MS + 5000));
    expect(ticksOf(handle)).toEqual([9000, 27_000]);
    expect(handle.reader().readings(ABOUT.pointId).map(({ lowTicks }) => lowTicks)).toEqual([9000, 27_000]);
  });
  it('of a command that failed are not taken for the next ones, asked at once', () => {
    const handle = openNew();
    keep(handle, columnsOf([9000]));
    keepInVain(handle, columnsOf([18_000], TEST_NOW_MS + 5000));
    keep(handle, columnsOf([27_000], TEST_NOW_MS + 5000));
    expect(ticksOf(handle)).toEqual([9000, 27_000]);
    expect(handle.reader().readings(ABOUT.pointId).map(({ lowTicks }) => lowTicks)).toEqual([9000, 27_000]);
  });
  it('of many points are kept only as far as there is room, the last ones asked for', () => {
    const file = join(makeBookFolder(), 'kitchen.alderbook');
    makeBook(file);
    const database = connect(file);
    const remembered = rememberReadings(database, 5);
    const ask = (pointId: string, count: number): boolean => {
      let isRead = false;
      remembered.readings(pointId, () => {
        isRead = true;
        return Array.from({ length: count }, (): SeriesReading => ({ atMs: 0, lowTicks: 0, highTicks: 0, text: '', instrumentId: null, how: 'file', unit: 'C', entry: 1 }));
      });
      return isRead;
    };
    expect([ask('a', 2), ask('b', 2), ask('a', 2), ask('c', 3)]).toEqual([true, true, false, true]);
    expect([ask('a', 2), ask('c', 3), ask('b', 2)]).toEqual([false, false, true]);
    database.close();
  });
});

describe('A document of a shelf', () => {
  it('is the same one as long as its text is, and another once it was put anew, or the command that did so failed', () => {
    const handle = openNew();
    const place = { id: 'place-1', name: 'Walk-in cooler', kind: 'cooler' as const };
    const put = (name: string): void => write(handle, (book) => {
      book.shelf('places').put({ ...place, name });
      recordOne(book);
    });
    const places = () => handle.reader().shelf('places');
    put('Walk-in cooler');
    expect(places().need('place-1')).toBe(places().all()[0]);
    put('Cold room');
    expect(places().need('place-1').name).toBe('Cold room');
    expect(() => write(handle, (book) => {
      book.shelf('places').put({ ...place, name: 'Cellar' });
      expect(book.shelf('places').need('place-1').name).toBe('Cellar');
      throw new Error('in vain');
    })).toThrow('in vain');
    expect(places().need('place-1').name).toBe('Cold room');
  });
  it('is found by its key as it stands now, and a list of them is the asker’s own', () => {
    const handle = openNew();
    const put = (id: string, batchId: string): void => write(handle, (book) => {
      book.shelf('alarms').put({ id, loadId: batchId, key: 'k', kind: 'probe-silent', pointId: null, text: '', level: 1, atMs: 1, initials: 'MG', personId: 'p' });
      recordOne(book);
    });
    const idsOf = (loadId: string) => handle.reader().shelf('alarms').where('loadId', loadId).map(({ id }) => id);
    expect(idsOf('load-1')).toEqual([]);
    expect(handle.reader().shelf('alarms').get('a')).toBeUndefined();
    put('a', 'load-1');
    put('b', 'load-1');
    expect(idsOf('load-1')).toEqual(['a', 'b']);
    handle.reader().shelf('alarms').all().pop();
    handle.reader().shelf('alarms').where('loadId', 'load-1').pop();
    expect(idsOf('load-1')).toEqual(['a', 'b']);
    put('a', 'load-2');
    expect([idsOf('load-1'), idsOf('load-2')]).toEqual([['b'], ['a']]);
    expect(handle.reader().shelf('alarms').get('a')?.loadId).toBe('load-2');
  });
  it('can’t be changed by whoever reads it, in no part', () => {
    const known = knowDocuments();
    const document = known.of('a', '', () => ({ name: 'a', parts: [{ grams: 1 }] })) as { name: string; parts: { grams: number }[] };
    expect(() => { document.name = 'b'; }).toThrow(TypeError);
    expect(() => { document.parts.push({ grams: 2 }); }).toThrow(TypeError);
    expect(() => { Object.assign(document.parts[0] ?? {}, { grams: 2 }); }).toThrow(TypeError);
  });
  it('is parsed again once it had to make room', () => {
    const known = knowDocuments(10);
    const parsed: string[] = [];
    const ask = (id: string, body: string): unknown => known.of(id, body, (text) => {
      parsed.push(text);
      return { text };
    });
    for (const [id, body] of [['a', 'aaaa'], ['b', 'bbbb'], ['a', 'aaaa'], ['c', 'cccc'], ['a', 'aaaa'], ['c', 'cccc']] as const) ask(id, body);
    expect(parsed).toEqual(['aaaa', 'bbbb', 'cccc', 'aaaa']);
  });
});

describe('Blocks kept as numbers', () => {
  it('are worked out once, and again only where they had to make room', () => {
    const cache = openBlockCache(2 * 12);
    const worked: number[] = [];
    const ask = (position: number, isCommitted = true): number | undefined => cache.at(position, isCommitted, () => {
      worked.push(position);
      return columnsOf([position]);
    }).lowTicks[0];
    expect([ask(1), ask(2), ask(1), ask(3), ask(1), ask(2)]).toEqual([1, 2, 1, 3, 1, 2]);
    expect(worked).toEqual([1, 2, 3, 2]);
  });
  it('are not kept as long as they may be taken back', () => {
    const cache = openBlockCache();
    expect(cache.at(1, false, () => columnsOf([9000])).lowTicks[0]).toBe(9000);
    expect(cache.at(1, true, () => columnsOf([18_000])).lowTicks[0]).toBe(18_000);
    expect(cache.at(1, true, () => columnsOf([27_000])).lowTicks[0]).toBe(18_000);
  });
});
