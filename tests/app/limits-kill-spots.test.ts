/** Spot checks on the edges of the others' hold, doubts in a cooling, and early records without marks. */
import { describe, expect, it } from 'vitest';
import type { JudgeCase, MeasuredPoint } from '../../app/limits/judge-case.ts';
import { holdsNamed } from '../../app/limits/judge.ts';
import { nextFreezerReading } from '../../app/limits/next-reading.ts';
import { spanOf } from '../../app/limits/readings.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, judgeAlone, minutes, needCheck, pieceF, readingsF } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const FULL = steady(146, 10, 50, 5);

describe('a spot check', () => {
  const withSpots = (...spots: Points[]) => judgeAlone('HOT-145-30', batchOf([pieceF('A', FULL), ...spots.map((points, index) => pieceF(`S${index}`, points))]));
  it('spoils a hold of just 30 min at its very first and last minute, and not beside them', () => {
    const just = steady(146, 10, 40, 5);
    const verdictAt = (minute: number) => judgeAlone('HOT-145-30', batchOf([pieceF('A', just), pieceF('S', [[minute, 140]])])).verdict;
    expect([9, 10, 40, 41].map(verdictAt)).toEqual(['meets', 'not-proven', 'not-proven', 'meets']);
  });
  it('leaves a hold that runs long enough on one side of it, from the piece’s own next reading', () => {
    expect(withSpots([[10, 140]])).toMatchObject({ verdict: 'meets', provenMinutes: 35 });
    expect(withSpots([[16, 140]])).toMatchObject({ verdict: 'meets', provenMinutes: 30 });
    expect(withSpots([[21, 140]])).toMatchObject({ verdict: 'not-proven', provenMinutes: 40 });
    expect(withSpots([[16, 140], [45, 140]]).verdict).toBe('not-proven');
  });
  it('is named by the earliest reading, then by the name', () => {
    expect(withSpots([[40, 140]], [[20, 141]]).reason).toContain('Piece S1 was only spot-checked and read 141 °F at minute 20');
    expect(withSpots([[20, 140]], [[40, 141]]).reason).toContain('Piece S0 was only spot-checked and read 140 °F at minute 20');
    expect(withSpots([[20, 140]], [[20, 141]]).reason).toContain('Piece S0');
  });
  it('spoils the hold of any piece that it lies in', () => {
    const other = pieceF('B', steady(146, 60, 100, 5));
    expect(judgeAlone('HOT-145-30', batchOf([pieceF('A', FULL), other, pieceF('S', [[20, 140]])])).verdict).toBe('not-proven');
  });
  it('in a freezing shows the warmer side of its reading', () => {
    const core = (name: string, points: Points): MeasuredPoint => pieceF(name, points, { record: 'freezer' });
    const cold = core('A', steady(-6, 0, 1500, 60));
    const spot: MeasuredPoint = { ...core('S', []), readings: [{ atMs: minutes(600), lowTicks: -190_000, highTicks: -170_000 }] };
    expect(judgeAlone('PARA-EU-20-24', batchOf([cold, spot], { process: 'cold' }))).toMatchObject({ verdict: 'not-proven' });
    expect(judgeAlone('PARA-EU-20-24', batchOf([cold, spot], { process: 'cold' })).reason).toContain('read −2 °F at minute 600');
  });
});

describe('a doubted reading in a cooling', () => {
  const cooling: Points = [[0, 150], [5, 130], [60, 90], [100, 69], [200, 50], [310, 41], [400, 38]];
  const judged = (doubtedAt: number, points: Points = cooling, role: 'piece' | 'room' = 'piece') => judgeAlone('COOL-FC', batchOf([
    { ...pieceF('A', points), readings: readingsF(points).map((reading) => (role === 'piece' && reading.atMs === minutes(doubtedAt) ? { ...reading, doubt: 'a jump' } : reading)) },
    { name: 'Room', role: 'room', readings: readingsF([[0, 60]]).map((reading) => ({ ...reading, doubt: 'a jump' })) },
  ])).verdict;
  it('counts where that is worse, and is left out where that is', () => {
    expect([judged(-1), judged(60)]).toEqual(['meets', 'meets']);
    // Without it the fish is first known to be at 70 °F at 200 min.
    expect(judged(100)).toBe('not-proven');
    // With it the fish was above 70 °F again.
    expect(judged(130, [...cooling.slice(0, 4), [130, 75], ...cooling.slice(4)])).toBe('misses');
    expect(judged(100, cooling, 'room')).toBe('meets');
  });
});

describe('the marks of a record before the chamber', () => {
  const CLOSED = { open: false };
  const spanIn = (process: JudgeCase['records']['process'], more: Partial<JudgeCase> = {}) => spanOf(batchOf([], { records: { process, soak: CLOSED, freezer: CLOSED, store: CLOSED }, ...more }), 'raw');
  it('are its own, else the process’s where readings stand for marks, else open until the fish goes in', () => {
    expect(spanOf(batchOf([], { records: { process: CLOSED, soak: CLOSED, freezer: CLOSED, store: CLOSED, raw: { open: true, inMs: 5 } } }), 'raw')).toEqual({ open: true, inMs: 5 });
    expect(spanIn({ open: true, inMs: 7 }, { readingsStandForMarks: true })).toEqual({ open: true, inMs: 7 });
    expect([spanIn({ open: true }), spanIn({ open: true, inMs: 7 }), spanIn({ open: false })]).toEqual([{ open: true }, { open: false }, { open: false }]);
  });
});

describe('the next reading of a freezer', () => {
  const check = needCheck('PARA-FREEZE-A');
  const due = (points: Points, more: Partial<JudgeCase> = {}, checkId = 'PARA-FREEZE-A') => {
    const freezing = checkId === 'PARA-FREEZE-A' ? check : needCheck(checkId);
    if (freezing.kind !== 'freeze') throw new Error(`${checkId} is no freezing`);
    const batch = batchOf([{ name: 'Freezer', role: 'store', readings: readingsF(points) }], { process: 'cold', records: { process: { open: false }, soak: { open: false }, store: { open: false }, freezer: { open: true, inMs: 0 } }, ...more });
    const [point] = batch.points;
    if (point === undefined) throw new Error('no freezer');
    const context = { words: minuteWords('F'), alone: true, holds: holdsNamed(limitBook, ['HOT-145-30']), together: false, probesAsked: 1 };
    const found = nextFreezerReading(freezing, point, batch, context, minutes(1));
    return found?.dueMs === undefined ? undefined : found.dueMs / 60_000;
  };
  it('is within a day, within what is no gap, and within a seventh of the time', () => {
    expect(due(steady(-6, 0, 2880, 1440))).toBe(2880 + 1440);
    expect(due(steady(-6, 0, 2880, 1440), { maxGapMs: minutes(300) })).toBe(2880 + 300);
    expect(due(steady(-6, 0, 120, 60))).toBe(120 + 120);
    expect(due([])).toBe(0);
  });
});
