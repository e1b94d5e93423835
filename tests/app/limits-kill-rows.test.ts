/** What is known of a row of readings at a glance, its parts, and the places in it. */
import { describe, expect, it } from 'vitest';
import type { Reading } from '../../app/limits/judge-case.ts';
import { factsOfRow, firstPlace, partOfRow, placeAfter, placeOf, type RowFacts } from '../../app/limits/reading-order.ts';
import { betweenMarks, intervalMs, joinPoints, mergeReadings, spanMs } from '../../app/limits/readings.ts';
import { cutAround, outsOf, touches } from '../../app/limits/spot-checks.ts';
import { findStretches, intersect, intersectAll, lengthOf, longest, unbrokenRuns } from '../../app/limits/stretches.ts';
import { heatRule, measurePlace } from '../../app/limits/hold-rule.ts';
import { batchOf, minutes, needCheck, pieceF, readingsF } from '../support/judge-cases.ts';
import { steady, type Points } from '../support/judged-log.ts';

const PLAIN: RowFacts = { isPlain: true, hasDoubt: false, hasEntered: false, shortestMs: 0, longestMs: 0 };
const row = (...at: number[]): Reading[] => readingsF(at.map((minute) => [minute, 146]));
const changed = (readings: readonly Reading[], index: number, more: Partial<Reading>) => readings.map((reading, place) => (place === index ? { ...reading, ...more } : reading));

describe('a row', () => {
  it('is plain where each reading is later than the one before', () => {
    expect(factsOfRow([])).toEqual(PLAIN);
    expect(factsOfRow(row(5))).toEqual(PLAIN);
    expect(factsOfRow(row(5, 7))).toEqual({ ...PLAIN, shortestMs: minutes(2), longestMs: minutes(2) });
    expect(factsOfRow(row(-5, -3, 4, 8))).toEqual({ ...PLAIN, shortestMs: minutes(2), longestMs: minutes(7) });
    expect(factsOfRow(row(5, 5, 7))).toMatchObject({ isPlain: false, shortestMs: 0, longestMs: minutes(2) });
    expect(factsOfRow(row(5, 7, 6)).isPlain).toBe(false);
  });
  it('is not plain with a reading that covers a stretch or was put there for one', () => {
    expect(factsOfRow(changed(row(1, 2, 3), 1, { coversSinceMs: 0 }))).toMatchObject({ isPlain: false, hasDoubt: false, hasEntered: false });
    expect(factsOfRow(changed(row(1, 2, 3), 0, { isReset: true }))).toMatchObject({ isPlain: false, hasDoubt: false, hasEntered: false });
    expect(factsOfRow(changed(row(1, 2, 3), 0, { isReset: false })).isPlain).toBe(true);
  });
  it('tells whether one is in doubt or was entered late', () => {
    expect(factsOfRow(changed(row(1, 2, 3), 2, { doubt: 'a jump' }))).toEqual({ ...PLAIN, hasDoubt: true, shortestMs: minutes(1), longestMs: minutes(1) });
    expect(factsOfRow(changed(row(1, 2, 3), 0, { entered: 'late' }))).toEqual({ ...PLAIN, hasEntered: true, shortestMs: minutes(1), longestMs: minutes(1) });
  });
  it('is looked at once', () => {
    const readings = row(1, 2, 3);
    expect(factsOfRow(readings)).toBe(factsOfRow(readings));
    expect(factsOfRow(row(1, 2, 3))).not.toBe(factsOfRow(readings));
  });
});

describe('a part of a row', () => {
  const steadyRow = row(0, 5, 10, 15, 20);
  it('is the row itself where it is all of it', () => {
    expect([partOfRow(steadyRow, 0, 5), partOfRow(steadyRow, -1, 9)].every((part) => part === steadyRow)).toBe(true);
    expect([partOfRow(steadyRow, 1, 5), partOfRow(steadyRow, 0, 4)].map((part) => part.length)).toEqual([4, 4]);
    expect(partOfRow(steadyRow, 1, 3)).toEqual(row(5, 10));
  });
  it('of a steady row is known without a look, and has no step where it is one reading', () => {
    expect(factsOfRow(partOfRow(steadyRow, 1, 4))).toBe(factsOfRow(steadyRow));
    expect(factsOfRow(partOfRow(steadyRow, 2, 4))).toBe(factsOfRow(steadyRow));
    expect(factsOfRow(partOfRow(steadyRow, 2, 3))).toEqual(PLAIN);
    expect(factsOfRow(partOfRow(steadyRow, 3, 3))).toEqual(PLAIN);
  });
  it('of any other row is looked at anew', () => {
    const uneven = row(0, 5, 7, 9);
    expect(factsOfRow(partOfRow(uneven, 1, 4))).toEqual({ ...PLAIN, shortestMs: minutes(2), longestMs: minutes(2) });
    expect(factsOfRow(partOfRow(changed(steadyRow, 0, { doubt: 'a jump' }), 1, 5)).hasDoubt).toBe(false);
    expect(factsOfRow(partOfRow(changed(steadyRow, 0, { entered: 'paper' }), 1, 5)).hasEntered).toBe(false);
    expect(factsOfRow(partOfRow(changed(steadyRow, 0, { coversSinceMs: -9 }), 1, 5)).isPlain).toBe(true);
  });
});

describe('places in a row', () => {
  it('are found at, after and where something begins to hold', () => {
    const readings = row(0, 5, 10);
    expect([-1, 0, 1, 5, 10, 11].map((at) => placeOf(readings, minutes(at)))).toEqual([0, 0, 1, 1, 2, 3]);
    expect([-1, 0, 1, 5, 10, 11].map((at) => placeAfter(readings, minutes(at)))).toEqual([0, 1, 1, 2, 3, 3]);
    expect([firstPlace(readings, () => true), firstPlace(readings, () => false), firstPlace([], () => true)]).toEqual([0, 3, 0]);
  });
});

describe('readings in order', () => {
  it('stay the same row where they are plain, and between marks that leave none out', () => {
    const readings = row(0, 5, 10);
    expect(mergeReadings(readings, 'lower')).toBe(readings);
    expect(betweenMarks(readings, undefined)).toBe(readings);
    expect(betweenMarks(readings, minutes(0), minutes(10))).toBe(readings);
    expect(betweenMarks(readings, minutes(1), minutes(9))).toEqual(row(5));
    expect(betweenMarks(readings, undefined, minutes(5))).toEqual(row(0, 5));
  });
  it('of one instant become one, doubted, late and covering as either was', () => {
    const [first] = readingsF([[5, 140]]);
    const [second] = readingsF([[5, 146]]);
    if (first === undefined || second === undefined) throw new Error('no reading');
    const merged = (left: Partial<Reading>, right: Partial<Reading>) => mergeReadings([{ ...first, ...left }, { ...second, ...right }], 'lower').filter((reading) => reading.isReset !== true);
    expect(merged({ entered: 'late' }, { entered: 'paper' })).toMatchObject([{ entered: 'late', lowTicks: first.lowTicks }]);
    expect(merged({}, { entered: 'paper', doubt: 'a jump' })).toMatchObject([{ entered: 'paper', doubt: 'a jump' }]);
    expect(merged({ coversSinceMs: 20 }, { coversSinceMs: 10 })).toMatchObject([{ coversSinceMs: 10 }]);
    expect(merged({}, { coversSinceMs: 10 })).toMatchObject([{ coversSinceMs: 10 }]);
    expect(merged({}, {})[0]?.coversSinceMs).toBeUndefined();
    expect(mergeReadings([second, first], 'higher')).toMatchObject([{ highTicks: second.highTicks }]);
  });
  it('that cover a stretch stand at its beginning too, unless something was read there', () => {
    const covering = changed(row(0, 60), 1, { coversSinceMs: minutes(20) });
    expect(mergeReadings(covering, 'higher').map(({ atMs, isReset, coversSinceMs }) => [atMs / 60_000, isReset, coversSinceMs])).toEqual([[0, undefined, undefined], [20, true, undefined], [60, undefined, minutes(20)]]);
    for (const since of [0, -1, 60, 61]) expect(mergeReadings(changed(row(0, 60), 1, { coversSinceMs: minutes(since) }), 'higher'), String(since)).toHaveLength(2);
    expect(betweenMarks(changed(row(60), 0, { coversSinceMs: 0 }), minutes(10)).map(({ atMs, isReset }) => [atMs / 60_000, isReset])).toEqual([[10, true], [60, undefined]]);
    for (const [since, from] of [[10, 10], [11, 10], [0, 60]] as const) expect(betweenMarks(changed(row(60), 0, { coversSinceMs: minutes(since) }), minutes(from)), `${since} ${from}`).toHaveLength(1);
  });
  it('have a length, and the lower median of their steps above zero', () => {
    expect([spanMs([]), spanMs(row(5)), spanMs(row(5, 7, 12))]).toEqual([0, 0, minutes(7)]);
    expect([intervalMs([], undefined), intervalMs(row(5), undefined), intervalMs(row(5), 60)]).toEqual([undefined, undefined, 60]);
    expect([intervalMs(row(0, 1, 3, 6), undefined), intervalMs(row(0, 1, 3), undefined), intervalMs(row(0, 4, 8), undefined)]).toEqual([minutes(2), minutes(1), minutes(4)]);
    expect(intervalMs(row(0, 0, 0, 3), undefined)).toBe(minutes(3));
  });
  it('of one piece read by two instruments are joined, with the thicker of two thicknesses', () => {
    const joined = joinPoints([pieceF('A', [[0, 1]], { thicknessMm: 20 }), pieceF('A', [[1, 1]], { thicknessMm: 30 }), pieceF('A', [[2, 1]]), pieceF('B', [[3, 1]])]);
    expect(joined.map(({ name, readings, thicknessMm }) => [name, readings.length, thicknessMm])).toEqual([['A', 3, 30], ['B', 1, undefined]]);
  });
});

describe('stretches', () => {
  const ofMinutes = (list: readonly (readonly [number, number])[]) => list.map(([from, to]) => ({ fromMs: minutes(from), toMs: minutes(to) }));
  const found = (points: Points, maxGap: number, marks: { inMs?: number; outMs?: number } = {}) => {
    const { proven, possible } = findStretches(readingsF(points), { isIn: ({ lowTicks }) => lowTicks >= 0, maxGapMs: minutes(maxGap), ...marks });
    return [proven, possible].map((list) => list.map(({ fromMs, toMs }) => [fromMs / 60_000, toMs / 60_000]));
  };
  it('without a gap run from in to in, and may have lasted longer only up to a mark', () => {
    const points: Points = [[0, 50], [5, 50], [10, 0], [15, 50], [20, 0], [25, 50], [30, 50]];
    expect(found(points, 5)).toEqual([[[0, 5], [15, 15], [25, 30]], [[0, 5], [15, 15], [25, 30]]]);
    expect(found(points, 5, { inMs: minutes(-3), outMs: minutes(33) })).toEqual([[[0, 5], [15, 15], [25, 30]], [[-3, 5], [15, 15], [25, 33]]]);
    expect(found(points, 5, { inMs: minutes(2), outMs: minutes(29) })).toEqual([[[0, 5], [15, 15], [25, 30]], [[0, 5], [15, 15], [25, 30]]]);
    expect(found([[0, 0], [5, 0]], 5)).toEqual([[], []]);
    expect(found([[0, 0], [5, 50]], 5, { inMs: minutes(-9) })).toEqual([[[5, 5]], [[5, 5]]]);
  });
  it('with a gap are broken by it, and may have run through it', () => {
    expect(found([[0, 50], [5, 50], [11, 50], [16, 0], [30, 50]], 5)).toEqual([[[0, 5], [11, 11], [30, 30]], [[0, 11], [16, 30]]]);
    expect(found([[0, 0], [30, 0], [31, 0]], 5)).toEqual([[], [[0, 30]]]);
  });
  it('in common are those that every list has, nothing of no list', () => {
    const [one, other] = [ofMinutes([[0, 10], [20, 30]]), ofMinutes([[5, 10], [12, 20], [22, 40]])];
    expect(intersect(one, other)).toEqual(ofMinutes([[5, 10], [20, 20], [22, 30]]));
    expect([intersectAll([]), intersectAll([one]), intersectAll([one, other, ofMinutes([[23, 24]])])]).toEqual([[], one, ofMinutes([[23, 24]])]);
    expect([longest(one), lengthOf(longest([])), lengthOf(longest(other))]).toEqual([one[0], 0, minutes(18)]);
  });
  it('are unbroken whatever they say, one a run', () => {
    const runs = (...at: number[]) => unbrokenRuns(row(...at), minutes(5));
    expect([runs(), runs(4), runs(0, 5, 10), runs(0, 5, 11, 12)]).toEqual([[], ofMinutes([[4, 4]]), ofMinutes([[0, 10]]), ofMinutes([[0, 5], [11, 12]])]);
  });
});

describe('a stretch cut around a spot check', () => {
  const check = needCheck('HOT-145-30');
  if (check.kind !== 'hold') throw new Error('no hold');
  const rule = heatRule(check, 0);
  const measured = (points: Points) => {
    const batch = batchOf([]);
    return measurePlace(pieceF('A', points), rule, batch, batch.records.process);
  };
  it('ends at the last reading before and begins at the first after', () => {
    const hold = measured(steady(146, 0, 30, 10));
    const cut = (holds: readonly ReturnType<typeof measured>[], ...at: number[]) => cutAround(hold.stretches.proven, holds, outsOf([measured(at.map((minute) => [minute, 140]))], rule)).map(({ fromMs, toMs }) => [fromMs / 60_000, toMs / 60_000]);
    expect([cut([hold]), cut([hold], -1), cut([hold], 31)]).toEqual([[[0, 30]], [[0, 30]], [[0, 30]]]);
    expect([cut([hold], 0), cut([hold], 30), cut([hold], 10), cut([hold], 14)]).toEqual([[[10, 30]], [[0, 20]], [[0, 0], [20, 30]], [[0, 10], [20, 30]]]);
    expect(cut([hold], 14, 24, 20)).toEqual([[0, 10], [30, 30]]);
    expect(cut([hold, measured([[12, 146], [16, 146]])], 14)).toEqual([[0, 12], [16, 30]]);
  });
  it('knows only readings that are out, by their lower side in heat', () => {
    expect(outsOf([measured([[3, 146], [4, 144]])], rule).map(({ atMs, ticks }) => [atMs, ticks])).toEqual([[minutes(4), readingsF([[4, 144]])[0]?.lowTicks]]);
    expect([[0, 0], [1, 1], [2, 2], [3, 3]].map(([at]) => touches({ fromMs: 1, toMs: 2 }, at ?? 0))).toEqual([false, true, true, false]);
  });
});
