import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Reading } from '../../app/limits/judge-case.ts';
import { factsOfRow, firstPlace, partOfRow, placeAfter, placeOf } from '../../app/limits/reading-order.ts';
import { betweenMarks, intervalMs, mergeReadings } from '../../app/limits/readings.ts';
import { findStretches, unbrokenRuns } from '../../app/limits/stretches.ts';

const row = (...atMs: number[]): Reading[] => atMs.map((at) => ({ atMs: at, lowTicks: at, highTicks: at }));

describe('What is known of a row of readings', () => {
  it('is its shortest and its longest step, where each is later than the one before', () => {
    expect(factsOfRow(row(0, 10, 40, 60))).toEqual({ isPlain: true, hasDoubt: false, hasEntered: false, shortestMs: 10, longestMs: 30 });
    expect(factsOfRow(row(5))).toEqual({ isPlain: true, hasDoubt: false, hasEntered: false, shortestMs: 0, longestMs: 0 });
    expect(factsOfRow([])).toMatchObject({ isPlain: true, shortestMs: 0, longestMs: 0 });
  });
  it('is that it isn’t plain: out of order, twice at an instant, covering a stretch, or put there for one', () => {
    expect(factsOfRow(row(0, 20, 10)).isPlain).toBe(false);
    expect(factsOfRow(row(0, 10, 10)).isPlain).toBe(false);
    expect(factsOfRow([...row(0), { atMs: 9, lowTicks: 0, highTicks: 0, coversSinceMs: 3 }]).isPlain).toBe(false);
    expect(factsOfRow([{ atMs: 0, lowTicks: 0, highTicks: 0, isReset: true }, ...row(9)]).isPlain).toBe(false);
  });
  it('is whether one is in doubt, or came late', () => {
    expect(factsOfRow([...row(0), { atMs: 9, lowTicks: 0, highTicks: 0, doubt: 'spike' }])).toMatchObject({ isPlain: true, hasDoubt: true, hasEntered: false });
    expect(factsOfRow([...row(0), { atMs: 9, lowTicks: 0, highTicks: 0, entered: 'late' }])).toMatchObject({ isPlain: true, hasDoubt: false, hasEntered: true });
  });
  it('is worked out once a row', () => {
    const readings = row(0, 10);
    expect(factsOfRow(readings)).toBe(factsOfRow(readings));
    expect(factsOfRow(row(0, 10))).not.toBe(factsOfRow(readings));
  });
});

describe('A part of a row', () => {
  it('is the row itself where it is all of it, and knows its own steps', () => {
    const readings = row(0, 10, 40, 60);
    expect(partOfRow(readings, 0, 4)).toBe(readings);
    expect(partOfRow(readings, -1, 9)).toBe(readings);
    expect(partOfRow(readings, 1, 4).map(({ atMs }) => atMs)).toEqual([10, 40, 60]);
    expect(factsOfRow(partOfRow(readings, 1, 4))).toMatchObject({ shortestMs: 20, longestMs: 30 });
    const steady = row(0, 10, 20, 30);
    expect(factsOfRow(partOfRow(steady, 1, 4))).toMatchObject({ isPlain: true, shortestMs: 10, longestMs: 10 });
    expect(factsOfRow(partOfRow(steady, 1, 2))).toMatchObject({ isPlain: true, shortestMs: 0, longestMs: 0 });
    expect(factsOfRow(partOfRow(steady, 2, 2))).toMatchObject({ shortestMs: 0, longestMs: 0 });
    const doubted = [...row(0), { atMs: 10, lowTicks: 0, highTicks: 0, doubt: 'spike' }, ...row(20, 30)];
    expect(factsOfRow(partOfRow(doubted, 2, 4)).hasDoubt).toBe(false);
    const late = [{ atMs: 0, lowTicks: 0, highTicks: 0, entered: 'late' as const }, ...row(10, 20)];
    expect(factsOfRow(partOfRow(late, 1, 3)).hasEntered).toBe(false);
  });
});

describe('A place in a row', () => {
  it('is that of the first reading at or after an instant, after it, or where something begins to hold', () => {
    const readings = row(0, 10, 20);
    expect([-1, 0, 1, 10, 20, 21].map((at) => placeOf(readings, at))).toEqual([0, 0, 1, 1, 2, 3]);
    expect([-1, 0, 1, 10, 20, 21].map((at) => placeAfter(readings, at))).toEqual([0, 1, 1, 2, 3, 3]);
    expect(firstPlace(readings, ({ atMs }) => atMs > 15)).toBe(2);
    expect(firstPlace(readings, () => false)).toBe(3);
    expect(firstPlace([], () => true)).toBe(0);
  });
});

describe('A plain row', () => {
  const rows = fc.uniqueArray(fc.integer({ min: 0, max: 3000 }), { minLength: 1, maxLength: 30 }).map((list) => list.toSorted((left, right) => left - right));
  /** The same readings with one that covers nothing: looked at reading by reading. */
  const unplain = (readings: readonly Reading[]): Reading[] => readings.map((reading, index) => (index === 0 ? { ...reading, coversSinceMs: reading.atMs } : reading));

  it('is cut, merged and measured as one that isn’t', () => {
    fc.assert(fc.property(rows, fc.integer({ min: -10, max: 3010 }), fc.integer({ min: -10, max: 3010 }), (list, one, other) => {
      const readings = row(...list);
      const times = (found: readonly Reading[]) => found.map(({ atMs }) => atMs);
      expect(mergeReadings(readings, 'lower')).toBe(readings);
      expect(times(mergeReadings(unplain(readings), 'lower'))).toEqual(list);
      expect(times(betweenMarks(readings, one, other))).toEqual(list.filter((at) => at >= one && at <= other));
      expect(intervalMs(readings, undefined)).toBe(intervalMs(unplain(readings), undefined));
      expect(intervalMs(row(0, 10, 20), undefined)).toBe(10);
      expect(intervalMs(row(0), undefined)).toBeUndefined();
      expect(intervalMs(readings, 7)).toBe(7);
    }));
  });

  it('has the stretches and runs of one that isn’t, with gaps and without', () => {
    fc.assert(fc.property(rows, fc.integer({ min: 0, max: 3000 }), fc.constantFrom(50, 400, 5000), fc.boolean(), (list, limit, maxGapMs, hasMarks) => {
      const readings = row(...list);
      const rule = { isIn: (reading: Reading) => reading.lowTicks >= limit, maxGapMs, ...(hasMarks ? { inMs: -100, outMs: 4000 } : {}) };
      const beyond = { isIn: (reading: Reading) => reading.lowTicks % 3 !== 0, maxGapMs, ...(hasMarks ? { inMs: -100, outMs: 4000 } : {}) };
      for (const each of [rule, beyond]) expect(findStretches(readings, each)).toEqual(findStretches(unplain(readings), each));
      expect(unbrokenRuns(readings, maxGapMs)).toEqual(unbrokenRuns(unplain(readings), maxGapMs));
      expect(unbrokenRuns([], maxGapMs)).toEqual([]);
    }));
  });
});
