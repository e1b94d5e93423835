import { describe, expect, it } from 'vitest';
import { judgeSet } from '../../app/limits/judge-set.ts';
import type { JudgeCase } from '../../app/limits/judge-case.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, judgeAlone, minutes, needSet, pieceF, running } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const FULL = steady(146, 0, 40, 5);
const hold = (batch: JudgeCase) => judgeAlone('HOT-145-30', batch);
const together = (batch: JudgeCase) => judgeSet(needSet('lodge-default'), batch, limitBook, { words: minuteWords('F'), paper: false }).checks.find((check) => check.checkId === 'HOT-145-30');

describe('spot checks', () => {
  it('prove nothing and break nothing when another piece carries a full record', () => {
    const result = hold(batchOf([pieceF('A', FULL), pieceF('B', [[50, 120]])]));
    expect(result.verdict).toBe('meets');
    expect(result.pieces.map((piece) => [piece.name, piece.verdict])).toEqual([['A', 'meets'], ['B', 'does-not-apply']]);
  });
  it('leave the hold not proven when they read below inside it', () => {
    const result = hold(batchOf([pieceF('A', FULL), pieceF('B', [[20, 140]])]));
    expect(result.verdict).toBe('not-proven');
    expect(result.reason).toContain('Piece B was only spot-checked and read 140 °F at minute 20');
    expect(result.provenMinutes).toBe(40);
  });
  it('are judged like any piece when too few others carry a full record', () => {
    const two = batchOf([pieceF('A', FULL), pieceF('B', steady(146, 0, 25, 5))]);
    expect(hold(two).verdict).toBe('meets');
    expect(together(two)).toMatchObject({ verdict: 'misses', provenMinutes: 25 });
  });
  it('count as running on an open record', () => {
    expect(hold(running(batchOf([pieceF('A', FULL), pieceF('B', [[20, 140]])]))).verdict).toBe('open');
  });
});

describe('a hold of all pieces together', () => {
  const shifted = (from: number): Points => [...(from > 0 ? steady(140, 0, from - 5, 5) : []), ...steady(146, from, from + 40, 5), [from + 45, 140]];

  it('is the longest common stretch, and its clock is shown', () => {
    const batch = batchOf(['A', 'B', 'C'].map((name, index) => pieceF(name, shifted(index * 5))));
    expect(together(batch)).toMatchObject({ verdict: 'meets', provenMinutes: 30, possibleMinutes: 30 });
    expect(hold(batch).provenMinutes).toBe(40);
  });
  it('is not proven while gaps may hide it', () => {
    const broken: Points = [[0, 146], [5, 146], [35, 146], [40, 146], [45, 140]];
    expect(together(batchOf([pieceF('A', FULL), pieceF('B', FULL), pieceF('C', broken)], { maxGapMs: minutes(10) }))).toMatchObject({ verdict: 'not-proven', provenMinutes: 5, possibleMinutes: 40 });
  });
  it('is not decided by a piece that was never read', () => {
    expect(together(batchOf([pieceF('A', FULL), pieceF('B', FULL), pieceF('C', [])]))).toMatchObject({ verdict: 'not-proven', provenMinutes: 0, possibleMinutes: 40 });
  });
  it('asks three pieces through the same hold', () => {
    const words = { words: minuteWords('F'), paper: false };
    const probes = (batch: JudgeCase) => judgeSet(needSet('lodge-default'), batch, limitBook, words).checks.find((check) => check.checkId === 'HOT-PROBES-3')?.verdict;
    expect(probes(batchOf(['A', 'B', 'C'].map((name) => pieceF(name, FULL))))).toBe('meets');
    expect(probes(batchOf(['A', 'B'].map((name) => pieceF(name, FULL))))).toBe('not-proven');
    expect(probes(running(batchOf(['A', 'B'].map((name) => pieceF(name, FULL)))))).toBe('open');
  });
});

describe('the worst piece', () => {
  it('is by verdict, then the one that proves least', () => {
    const result = hold(batchOf([pieceF('A', [...steady(146, 0, 20, 5), ...steady(140, 25, 60, 5)]), pieceF('B', [...steady(146, 0, 10, 5), ...steady(140, 15, 60, 5)])]));
    expect(result).toMatchObject({ verdict: 'misses', provenMinutes: 10 });
  });
});

describe('marks', () => {
  it('leave out what was read before the fish went in', () => {
    const batch = batchOf([pieceF('A', FULL)]);
    const marked = { ...batch, records: { ...batch.records, process: { inMs: minutes(15), open: false } } };
    expect(hold(marked)).toMatchObject({ verdict: 'misses', provenMinutes: 25 });
  });
  it('count a stretch to the in mark as possible, never as proven', () => {
    const batch = batchOf([pieceF('A', steady(146, 15, 40, 5))]);
    const marked = { ...batch, records: { ...batch.records, process: { inMs: 0, outMs: minutes(40), open: false } } };
    expect(hold(marked)).toMatchObject({ verdict: 'not-proven', provenMinutes: 25, possibleMinutes: 40 });
  });
  it('close a running record at the out mark of the chamber', () => {
    const batch = batchOf([pieceF('A', steady(146, 0, 20, 5))]);
    const out = { ...batch, records: { ...batch.records, process: { inMs: 0, outMs: minutes(20), open: true } } };
    expect(hold(out).verdict).toBe('misses');
  });
});

describe('probes without a proven hold', () => {
  it('are counted when their record is as long as the hold', () => {
    const cold = (longest: number) => batchOf([pieceF('A', steady(140, 0, 30, 5)), pieceF('B', steady(140, 0, 30, 5)), pieceF('C', steady(140, 0, longest, 5))]);
    expect(judgeAlone('HOT-PROBES-3', cold(30)).verdict).toBe('meets');
    expect(judgeAlone('HOT-PROBES-3', cold(25)).verdict).toBe('not-proven');
  });
});

describe('probes recorded one after another', () => {
  it('are not recorded through the same hold', () => {
    const at = (from: number) => steady(146, from, from + 30, 5);
    expect(judgeAlone('HOT-PROBES-3', batchOf([pieceF('A', at(0)), pieceF('B', at(100)), pieceF('C', at(200))])).verdict).toBe('not-proven');
    expect(judgeAlone('HOT-PROBES-3', batchOf([pieceF('A', steady(146, 0, 40, 5)), pieceF('B', steady(146, 5, 45, 5)), pieceF('C', steady(146, 10, 50, 5))])).verdict).toBe('meets');
  });
});

describe('a piece that was never read', () => {
  it('does not keep the others from being told that they can’t have kept it together', () => {
    const judged = batchOf([pieceF('A', []), pieceF('B', steady(146, 0, 20, 5)), pieceF('C', [...steady(146, 0, 15, 5), [20, 140]])]);
    const found = together(judged);
    expect(found?.verdict).toBe('misses');
    expect(found?.reason).toContain('All pieces together');
  });
});

describe('entries kept as they came', () => {
  it('says so when readings were copied from paper or entered late', () => {
    const point = pieceF('A', FULL);
    const batch = batchOf([{ ...point, readings: point.readings.map((reading, index) => (index < 2 ? { ...reading, entered: 'paper' as const } : index === 2 ? { ...reading, entered: 'late' as const } : reading)) }]);
    expect(hold(batch).reason).toMatch(/1 reading was entered late \(over 30 min after reading\)\. 2 readings were copied from paper\.$/);
  });
});
