import { describe, expect, it } from 'vitest';
import { betweenMarks, intervalMs, isGap, limitTicks, maxGapMs, mergeReadings, pointsOf } from '../../app/limits/readings.ts';
import { batchOf, minutes, pieceF, readingsF, ticksF } from '../support/judge-cases.ts';

describe('two values at one instant', () => {
  const twice = readingsF([[10, 146], [0, 150], [10, 144.9]]);

  it('keep the lower for a hold in heat', () => expect(mergeReadings(twice, 'lower').map((reading) => reading.lowTicks)).toEqual([ticksF(150), ticksF(144.9)]));
  it('keep the higher for everything else', () => expect(mergeReadings(twice, 'higher').map((reading) => reading.highTicks)).toEqual([ticksF(150), ticksF(146)]));
});

describe('limits of law', () => {
  it('are exact in the law’s own unit: 62.78 °C is over 145 °F and under 62.8 and 63 °C', () => {
    const reading = 62.78 * 9000;
    expect(reading).toBeGreaterThanOrEqual(limitTicks({ value: '145', unit: 'F' }));
    expect(reading).toBeLessThan(limitTicks({ value: '62.8', unit: 'C' }));
    expect(reading).toBeLessThan(limitTicks({ value: '63', unit: 'C' }));
  });
  it('are refused as a broken file when they are not exact', () => expect(() => limitTicks({ value: '1.00001', unit: 'F' })).toThrow('not exact'));
});

describe('the nominal interval', () => {
  it('is the one given', () => expect(intervalMs(readingsF([[0, 1], [7, 1]]), minutes(3))).toBe(minutes(3)));
  it('is else the lower median of the steps', () => expect(intervalMs(readingsF([[0, 1], [5, 1], [10, 1], [30, 1], [60, 1]]), undefined)).toBe(minutes(5)));
  it('is unknown for a single reading', () => expect(intervalMs(readingsF([[0, 1]]), undefined)).toBeUndefined());
});

describe('the longest step that is no gap', () => {
  const every = (step: number) => readingsF([[0, 1], [step, 1], [2 * step, 1]]);
  const batch = batchOf([]);
  const heat = (step: number) => maxGapMs({ kind: 'heat-hold' }, every(step), batch) / 60_000;
  const freeze = (step: number) => maxGapMs({ kind: 'freeze-hold', requiredMs: minutes(900) }, every(step), batch) / 60_000;
  const ceiling = (step: number) => maxGapMs({ kind: 'ceiling' }, every(step), batch) / 60_000;

  it('is twice the interval in heat, at least 5 and never over 12 min', () => expect([1, 2.5, 5, 6, 10, 30].map(heat)).toEqual([5, 5, 10, 12, 12, 12]));
  it('is never over a seventh of the time asked in freezing', () => expect([1, 60, 240].map(freeze)).toEqual([5, 120, 900 / 7]));
  it('is two hours under a ceiling read every 15 min or more', () => expect([1, 5, 14, 15, 60].map(ceiling)).toEqual([5, 10, 28, 120, 120]));
  it('is a day in a frozen store', () => expect(maxGapMs({ kind: 'frozen-store' }, every(1), batch)).toBe(minutes(1440)));
  it('is the one given, as it stands', () => expect(maxGapMs({ kind: 'heat-hold' }, every(1), { ...batch, maxGapMs: minutes(40) })).toBe(minutes(40)));
  it('is exactly no gap at its own length', () => {
    const [before, after] = readingsF([[0, 1], [10, 1]]);
    if (before === undefined || after === undefined) throw new Error('readings');
    expect(isGap(before, after, minutes(10))).toBe(false);
    expect(isGap(before, after, minutes(10) - 1)).toBe(true);
  });
  it('is covered by a maximum–minimum thermometer that was reset at the reading before', () => {
    const [before, after] = readingsF([[0, 1], [600, 1]]);
    if (before === undefined || after === undefined) throw new Error('readings');
    expect(isGap(before, { ...after, coversSinceMs: 0 }, minutes(10))).toBe(false);
    expect(isGap(before, { ...after, coversSinceMs: minutes(1) }, minutes(10))).toBe(true);
  });
});

describe('marks and points', () => {
  it('keep readings exactly at a mark', () => expect(betweenMarks(readingsF([[0, 1], [5, 1], [10, 1], [15, 1]]), minutes(5), minutes(10))).toHaveLength(2));
  it('join what two instruments read of one piece', () => {
    const batch = batchOf([pieceF('A', [[0, 146]]), pieceF('A', [[5, 147]], { thicknessMm: 30 }), pieceF('B', [[0, 1]]), { ...pieceF('A', [[9, 1]]), role: 'chamber' }]);
    const points = pointsOf(batch, 'piece', 'process');
    expect(points.map((point) => [point.name, point.readings.length, point.thicknessMm])).toEqual([['A', 2, 30], ['B', 1, undefined]]);
  });
  it('serve their own record, or every record where none is named', () => {
    const batch = batchOf([pieceF('A', [], { record: 'freezer' }), pieceF('B', [])]);
    expect(pointsOf(batch, 'piece', 'process').map((point) => point.name)).toEqual(['B']);
    expect(pointsOf(batch, 'piece', 'freezer').map((point) => point.name)).toEqual(['A', 'B']);
  });
});
