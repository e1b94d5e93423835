/** Where a reading goes, and what becomes of it while the disk is full: without a book or a device. */
import { describe, expect, it } from 'vitest';
import type { StoredLoad, StoredPoint } from '../../main/backroom/book/stored.ts';
import { openFeedPlaces } from '../../main/backroom/feeds/feed-places.ts';
import { openFeedWriter } from '../../main/backroom/feeds/feed-writer.ts';
import type { LogLine } from '../../main/backroom/log.ts';
import { Refusal } from '../../main/backroom/refusal.ts';
import type { LiveBatch, OpenBook } from '../../main/backroom/room.ts';

function load(number: number, marks: Partial<StoredLoad> = {}): StoredLoad {
  return {
    id: `load-${number}`, number, letter: null, smokerId: 'smoker', process: 'hot', batchIds: [], openedAtMs: number * 1000, openedBy: 'CH',
    inAtMs: null, endOfSmokingAtMs: null, outAtMs: null, cooledAtMs: null, pointIds: [`piece-${number}`, `chamber-${number}`], ...marks,
  };
}
function point(name: 'piece' | 'chamber', number: number, instrumentId: string): StoredPoint {
  return { id: `${name}-${number}`, name: `${name} ${number}`, role: name, batchId: null, loadId: `load-${number}`, thicknessMm: null, rackPlace: '', instrumentId };
}

/** A book with these loads and points and nothing else. */
function bookOf(loads: readonly StoredLoad[], points: readonly StoredPoint[]): { book: OpenBook; asked: () => number } {
  let asked = 0;
  const shelf = (name: string) => (name === 'loads' ? { all: () => { asked += 1; return [...loads]; } } : { get: (id: string) => points.find((one) => one.id === id) });
  return { book: { shelf } as unknown as OpenBook, asked: () => asked };
}

describe('where a thermometer stands', () => {
  const points = [point('piece', 1, 'probe'), point('chamber', 1, 'air'), point('piece', 2, 'other'), point('chamber', 2, 'air')];
  it('in the chamber of two loads is the later one’s once the first came out, and the first’s before', () => {
    const places = openFeedPlaces(() => bookOf([load(1, { outAtMs: 1500 }), load(2)], points).book);
    expect(places.standingOf('air', null, 1400)?.pointId).toBe('chamber-1');
    expect(places.standingOf('air', null, 1600)).toBeNull();
    expect(places.standingOf('air', null, 2000)).toEqual({ pointId: 'chamber-2', name: 'chamber 2 of load 2' });
  });
  it('in a piece that came out goes on while it cools, and not once its record is closed', () => {
    expect(openFeedPlaces(() => bookOf([load(1, { outAtMs: 1500 })], points).book).standingOf('probe', null, 1600)?.pointId).toBe('piece-1');
    expect(openFeedPlaces(() => bookOf([load(1, { outAtMs: 1500, cooledAtMs: 1700 })], points).book).standingOf('probe', null, 1600)).toBeNull();
  });
  it('was nowhere before its load was opened, and is nowhere without a book', () => {
    expect(openFeedPlaces(() => bookOf([load(1)], points).book).standingOf('probe', null, 999)).toBeNull();
    expect(openFeedPlaces(() => null).standingOf('probe', null, 2000)).toBeNull();
  });
  it('in two loads is in the newer', () => {
    const both = [point('piece', 1, 'probe'), point('piece', 2, 'probe')];
    expect(openFeedPlaces(() => bookOf([load(1, { outAtMs: 1500 }), load(2)], both).book).standingOf('probe', null, 2500)?.pointId).toBe('piece-2');
  });
  it('is looked up once until the book changes', () => {
    const { book, asked } = bookOf([load(1)], points);
    const places = openFeedPlaces(() => book);
    for (let index = 0; index < 5; index += 1) places.standingOf('probe', null, 2000);
    expect(asked()).toBe(1);
    places.forget();
    places.standingOf('probe', null, 2000);
    expect(asked()).toBe(2);
  });
});

describe('writing what feeds sent', () => {
  const about = { pointId: 'p', instrumentId: 'i', source: 'Box', unit: 'C' } as const;
  const reading = (atMs: number) => ({ atMs, lowTicks: 1, highTicks: 1, text: '1' });

  function bookThat(keepLiveTogether: (batches: readonly LiveBatch[]) => { kept: number; alreadyThere: number }): OpenBook {
    return { keepLiveTogether } as unknown as OpenBook;
  }

  it('waits while the disk is full, says so, and then writes all in order', () => {
    let isFull = true;
    const kept: number[] = [];
    const lines: LogLine[] = [];
    const writer = openFeedWriter(() => bookThat((batches) => {
      if (isFull) throw new Refusal('DISK_FULL', 'The disk is full.');
      kept.push(...batches.flatMap(({ rows }) => rows.map(({ atMs }) => atMs)));
      return { kept: kept.length, alreadyThere: 0 };
    }), (line) => lines.push(line));
    for (const atMs of [1, 2]) writer.add('feed', about, reading(atMs));
    expect(writer.flush()).toEqual([]);
    expect(writer.fault()).toBe('The disk is full.');
    writer.add('feed', about, reading(3));
    expect(writer.flush()).toEqual([]);
    isFull = false;
    expect(writer.flush()).toEqual([{ feedId: 'feed', kept: 3, repeated: 0, pointIds: ['p'] }]);
    expect(kept).toEqual([1, 2, 3]);
    expect(writer.fault()).toBeNull();
    expect(writer.waitingOf('feed')).toBe(0);
    expect(lines).toEqual([]);
  });
  it('that fails by a fault of ours is logged, and the other feed is written', () => {
    const lines: LogLine[] = [];
    const writer = openFeedWriter(() => bookThat((batches) => {
      if (batches[0]?.about.source === 'Box') throw new Error('a bug');
      return { kept: 1, alreadyThere: 0 };
    }), (line) => lines.push(line));
    writer.add('one', about, reading(1));
    writer.add('two', { ...about, source: 'Other' }, reading(1));
    expect(writer.flush().map(({ feedId }) => feedId)).toEqual(['two']);
    expect(lines).toMatchObject([{ level: 'error', what: 'keep what a feed sent', detail: expect.stringContaining('a bug') }]);
    expect(writer.waitingOf('one')).toBe(1);
  });
  it('keeps a bounded number waiting, and says how many went', () => {
    const writer = openFeedWriter(() => bookThat(() => { throw new Refusal('DISK_FULL', 'The disk is full.'); }), () => undefined);
    for (let atMs = 0; atMs < 5000; atMs += 1) writer.add('feed', about, reading(atMs));
    writer.flush();
    expect(writer.waitingOf('feed')).toBeLessThan(5000);
    expect(writer.fault()).toBe(`The disk is full. ${5000 - writer.waitingOf('feed')} readings were lost so far.`);
  });
});
