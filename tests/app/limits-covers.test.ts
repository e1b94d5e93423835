/** A maximum–minimum thermometer covers the stretch since it was reset, with its less favourable end, in every kind of check. */
import { describe, expect, it } from 'vitest';
import type { JudgeCase, MeasuredPoint, Reading, RecordSpan } from '../../app/limits/judge-case.ts';
import { betweenMarks, enteredHow, mergeReadings } from '../../app/limits/readings.ts';
import { ticksFromNumber } from '../../app/measures/temperature.ts';
import { batchOf, judgeAlone, minutes } from '../support/judge-cases.ts';

/** A reading of lowest and highest °F since a minute; without it a plain reading of one value. */
function since(minute: number, lowest: number, highest = lowest, fromMinute?: number): Reading {
  return {
    atMs: minutes(minute), lowTicks: ticksFromNumber(lowest, 'F').lowTicks, highTicks: ticksFromNumber(highest, 'F').highTicks,
    coversSinceMs: fromMinute === undefined ? undefined : minutes(fromMinute),
  };
}
const closed = (inMinute?: number, outMinute?: number): RecordSpan => ({ inMs: inMinute === undefined ? undefined : minutes(inMinute), outMs: outMinute === undefined ? undefined : minutes(outMinute), open: false });
function judge(checkId: string, role: MeasuredPoint['role'], readings: Reading[], mark: RecordSpan = closed(), more: Partial<JudgeCase> = {}): ReturnType<typeof judgeAlone> {
  const batch = batchOf([{ name: 'A', role, readings }], more);
  return judgeAlone(checkId, { ...batch, records: { process: mark, soak: mark, freezer: mark, store: mark } });
}

describe('a stretch that is covered', () => {
  it('is no gap of a hold, and its lowest counts', () => {
    expect(judge('HOT-145-30', 'piece', [since(0, 146), since(30, 145.2, 150, 0)])).toMatchObject({ verdict: 'meets', provenMinutes: 30 });
    expect(judge('HOT-145-30', 'piece', [since(0, 146), since(30, 144.9, 150, 0)])).toMatchObject({ verdict: 'misses', provenMinutes: 0 });
    expect(judge('HOT-145-30', 'piece', [since(0, 146), since(30, 146, 150)]).verdict).toBe('not-proven');
  });
  it('proves by one reading what it covers from the in mark on, and no more', () => {
    expect(judge('HOT-145-30', 'piece', [since(40, 146, 150, 10)], closed(0))).toMatchObject({ verdict: 'meets', provenMinutes: 30 });
    expect(judge('HOT-145-30', 'piece', [since(40, 146, 150, -60)], closed(15))).toMatchObject({ verdict: 'misses', provenMinutes: 25 });
    expect(judge('HOT-PROBES-1', 'piece', [since(40, 146, 150, 10)]).verdict).toBe('meets');
  });
  it('is no gap of a freezing, and its highest counts', () => {
    const week = 168 * 60;
    const cold = { process: 'cold' as const };
    expect(judge('PARA-FREEZE-A', 'store', [since(0, -8), since(week, -10, -4, 0)], closed(), cold)).toMatchObject({ verdict: 'meets', provenMinutes: week });
    expect(judge('PARA-FREEZE-A', 'store', [since(week, -10, -4, 0)], closed(0, week), cold).verdict).toBe('meets');
    expect(judge('PARA-FREEZE-A', 'store', [since(0, -8), since(week, -10, -3.9, 0)], closed(), cold).verdict).toBe('misses');
    expect(judge('PARA-FREEZE-B', 'store', [since(360, -40, -32, 0), since(1260, -40, -32, 360)], closed(0, 1260), { ...cold, frozenMs: minutes(360) }).verdict).toBe('meets');
  });
  it('is no gap of a ceiling, from the in mark to the out mark', () => {
    expect(judge('COLD-90-20', 'chamber', [since(600, 70, 89, 0)], closed(0, 600), { process: 'cold' }).verdict).toBe('meets');
    expect(judge('COLD-90-20', 'chamber', [since(600, 70, 91, 0)], closed(0, 600), { process: 'cold' }).verdict).toBe('misses');
    expect(judge('COLD-90-20', 'chamber', [since(600, 70, 89, 300)], closed(0, 600), { process: 'cold' }).verdict).toBe('not-proven');
    expect(judge('STORE-38', 'store', [since(0, 37), since(1440, 34, 38, 0), since(2880, 34, 38, 1440)]).verdict).toBe('meets');
    expect(judge('RAW-38', 'piece', [since(-900, 37), since(-300, 34, 38, -900)], closed(0)).verdict).toBe('meets');
    expect(judge('BRINE-4H-38', 'room', [since(720, 34, 38, 0)], closed(0, 720)).verdict).toBe('meets');
    expect(judge('BRINE-4H-38', 'room', [since(720, 34, 39, 0)], closed(0, 720)).verdict).toBe('misses');
  });
  it('covers the moment from which a store is judged', () => {
    const known = { chilledMs: minutes(300), store: 'refrigerated' as const };
    expect(judge('STORE-38', 'store', [since(0, 37), since(600, 34, 38, 0), since(630, 37)], closed(), known).verdict).toBe('meets');
    expect(judge('STORE-38', 'store', [since(0, 37), since(600, 34, 38), since(630, 37)], closed(), known).verdict).toBe('not-proven');
  });
  it('is no step of the interval, so it widens no gap', () => {
    expect(judge('COLD-90-20', 'chamber', [since(180, 70, 89, 120)], closed(130, 229), { process: 'cold' }).verdict).toBe('not-proven');
  });
  it('tells the brine’s start, by its highest', () => {
    expect(judge('BRINE-START-60', 'brine', [since(200, 40, 60, 0)], closed(0)).verdict).toBe('meets');
    expect(judge('BRINE-START-60', 'brine', [since(200, 40, 61, 0)], closed(0)).verdict).toBe('misses');
    expect(judge('BRINE-START-60', 'brine', [since(200, 40, 60)], closed(0)).verdict).toBe('not-proven');
  });
  it('is no step over two hours in a cooling, and the crossings stay as late as its highest says', () => {
    const before = [since(0, 150), since(5, 134), since(60, 90), since(110, 69)];
    expect(judge('COOL-FC', 'piece', [...before, since(270, 38, 68, 110), since(280, 38)]).verdict).toBe('meets');
    expect(judge('COOL-FC', 'piece', [...before, since(270, 38), since(280, 38)]).verdict).toBe('not-proven');
    expect(judge('COOL-FC', 'piece', [...before, since(270, 38, 71, 110), since(280, 38)]).verdict).not.toBe('meets');
  });
});

describe('readings put in order', () => {
  it('stand at the reset too, unless a reading is there or after it', () => {
    expect(mergeReadings([since(60, 1, 9, 20), since(0, 5)], 'lower').map((reading) => reading.atMs)).toEqual([0, 20, 60].map(minutes));
    expect(mergeReadings([since(60, 1, 9, 0), since(0, 5)], 'lower').map((reading) => reading.atMs)).toEqual([0, 60].map(minutes));
    expect(mergeReadings([since(60, 1, 9, 20), since(30, 5)], 'lower').map((reading) => reading.atMs)).toEqual([30, 60].map(minutes));
  });
  it('cover the in mark from there on', () => {
    expect(betweenMarks(mergeReadings([since(60, 1, 9, -20)], 'lower'), 0).map((reading) => reading.atMs)).toEqual([0, 60].map(minutes));
    expect(betweenMarks(mergeReadings([since(60, 1, 9, 20)], 'lower'), 0).map((reading) => reading.atMs)).toEqual([20, 60].map(minutes));
  });
});

it('a reading is entered late when it was typed more than 30 min after it was read', () => {
  expect([enteredHow(0, minutes(30), false), enteredHow(0, minutes(30) + 1, false), enteredHow(0, minutes(300), true), enteredHow(minutes(5), 0, false)]).toEqual([undefined, 'late', 'paper', undefined]);
});
