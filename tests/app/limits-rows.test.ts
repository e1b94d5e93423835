import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Reading } from '../../app/limits/judge-case.ts';
import { betweenMarks, intervalMs, mergeReadings } from '../../app/limits/readings.ts';
import { findStretches, unbrokenRuns } from '../../app/limits/stretches.ts';

const row = (...atMs: number[]): Reading[] => atMs.map((at) => ({ atMs: at, lowTicks: at, highTicks: at }));

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
