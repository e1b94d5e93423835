import { describe, expect, it } from 'vitest';
import { measureDescent } from '../../app/limits/descent.ts';
import { aloneContext } from '../../app/limits/judge.ts';
import type { JudgeCase } from '../../app/limits/judge-case.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, judgeAlone, minutes, needCheck, pieceF, running } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const cool = (points: Points, more: Partial<JudgeCase> = {}) => judgeAlone('COOL-FC', batchOf([pieceF('A', points)], more));
const GOOD: Points = [[0, 135], [60, 90], [110, 70], [220, 50], [330, 41]];
const HOLD = steady(146, 0, 30, 5);
const later = (points: Points, by: number): Points => points.map(([minute, value]) => [minute + by, value]);

describe('the stages of a descent', () => {
  it('leave the first stage of a cooling not proven though the whole misses', () => {
    const check = needCheck('COOL-FC');
    if (check.kind !== 'descent') throw new Error(check.kind);
    const points: Points = [[0, 145], [30, 130], [60, 110], [120, 78], [165, 60], [180, 50], [300, 46], [390, 44], [480, 42], [600, 40], [720, 38]];
    const piece = measureDescent(check, pieceF('A', points), batchOf([]), aloneContext(limitBook, minuteWords('F')), 0);
    expect(piece.descents[0]?.stages.map((stage) => [stage.verdict, stage.shortestMs / 60_000, (stage.longestMs ?? 0) / 60_000])).toEqual([
      ['not-proven', 90, 165], ['misses', 450, 600],
    ]);
  });
});

describe('where a cooling starts', () => {
  it('is before the first reading when the end of smoking is not marked, so only a miss can be shown', () => {
    expect(cool([[20, 118], [60, 90], [110, 70], [200, 55], [300, 41]])).toMatchObject({ verdict: 'not-proven', shortestMinutes: 90 });
    expect(cool([[0, 118], [60, 100], [121, 70], [200, 55], [300, 41]]).verdict).toBe('misses');
  });
  it('is at the reading when the mark is later than it', () => {
    expect(cool([[20, 118], [60, 90], [110, 70], [200, 55], [300, 41]], { endOfSmokingMs: minutes(40) })).toMatchObject({ verdict: 'meets', shortestMinutes: 90, longestMinutes: 90 });
  });
  it('is not moved by a re-warm', () => {
    expect(cool([[0, 136], [5, 134], [60, 100], [90, 136], [100, 134], [150, 70], [250, 50], [340, 41]]).verdict).toBe('misses');
  });
  it('is after the completed hold, whatever was below before it', () => {
    const come: Points = [[0, 136], [60, 120], [200, 140]];
    const points: Points = [...come, ...later(HOLD, 240), ...later(GOOD, 280)];
    expect(cool(points)).toMatchObject({ verdict: 'meets', longestMinutes: 110 });
  });
});

describe('a second hold', () => {
  const again = (first: Points, restart: number): Points => [...HOLD, ...first, ...later(HOLD, restart), ...later(GOOD, restart + 35)];

  it('opens a new descent, and the slow one before is still judged', () => {
    const result = cool(again([[40, 136], [45, 130], [100, 120], [170, 118]], 200));
    expect(result).toMatchObject({ verdict: 'misses', shortestMinutes: 125 });
  });
  it('leaves a descent that it cut short not proven, on a running record too', () => {
    const points = again([[40, 136], [45, 130], [60, 128]], 100);
    expect(cool(points).verdict).toBe('not-proven');
    expect(judgeAlone('COOL-FC', running(batchOf([pieceF('A', points)]))).verdict).toBe('not-proven');
  });
  it('opens none where the fish stayed hot between', () => {
    expect(cool(again([[35, 140], [40, 141]], 50)).verdict).toBe('meets');
  });
  it('keeps a batch waiting that is hot again', () => {
    const hot: Points = [...HOLD, [40, 100], [100, 60], [200, 41], ...later(HOLD, 300)];
    expect(cool(hot).verdict).toBe('not-proven');
    expect(judgeAlone('COOL-FC', running(batchOf([pieceF('A', hot)]))).verdict).toBe('open');
  });
});

describe('readings that are too far apart', () => {
  it('leave a cooling that would meet not proven over two hours, and not at exactly two', () => {
    expect(cool([[0, 135], [60, 90], [110, 70], [230, 50], [350, 41]]).verdict).toBe('meets');
    expect(cool([[0, 135], [60, 90], [110, 70], [231, 50], [350, 41]]).verdict).toBe('not-proven');
  });
  it('can’t be mended on a running record', () => {
    const points: Points = [[0, 135], [60, 90], [110, 70], [231, 50]];
    expect(judgeAlone('COOL-FC', running(batchOf([pieceF('A', points)]))).verdict).toBe('not-proven');
  });
  it('can’t meet any more once the longest is over, though the shortest is not', () => {
    expect(judgeAlone('COOL-FC', running(batchOf([pieceF('A', [[0, 136], [20, 134], [125, 80]])]))).verdict).toBe('not-proven');
  });
});

describe('pieces without a reading after smoking', () => {
  const marked = { endOfSmokingMs: minutes(32) };
  const whole: Points = [...HOLD, ...later(GOOD, 40)];

  it('take no part when another piece, the thickest included, has one', () => {
    expect(judgeAlone('COOL-FC', batchOf([pieceF('A', whole, { thicknessMm: 40 }), pieceF('B', HOLD, { thicknessMm: 30 })], marked)).verdict).toBe('meets');
  });
  it('leave it not proven when the thickest is among them', () => {
    expect(judgeAlone('COOL-FC', batchOf([pieceF('A', whole, { thicknessMm: 30 }), pieceF('B', HOLD, { thicknessMm: 40 })], marked)).verdict).toBe('not-proven');
  });
  it('leave it not proven when their thickness is not known and another’s is', () => {
    expect(judgeAlone('COOL-FC', batchOf([pieceF('A', whole, { thicknessMm: 30 }), pieceF('B', HOLD)], marked)).verdict).toBe('not-proven');
  });
  it('take no part when no thickness is recorded at all', () => {
    expect(judgeAlone('COOL-FC', batchOf([pieceF('A', whole), pieceF('B', HOLD)], marked)).verdict).toBe('meets');
    expect(judgeAlone('COOL-FC', batchOf([pieceF('A', whole), pieceF('B', HOLD)])).verdict).toBe('meets');
  });
  it('leave it not proven when none has one', () => {
    expect(judgeAlone('COOL-FC', batchOf([pieceF('A', HOLD), pieceF('B', HOLD)], marked)).verdict).toBe('not-proven');
  });
});

describe('a piece that cooled, was heated again and kept its hold', () => {
  it('is not done because the others, the thickest among them, have cooled', () => {
    const thick = pieceF('A', [[0, 150], [5, 134], [60, 90], [110, 69], [200, 50], [300, 39]], { thicknessMm: 40 });
    const again = pieceF('B', [[0, 150], [5, 120], ...steady(146, 270, 305, 5)], { thicknessMm: 20 });
    expect(judgeAlone('COOL-FC', running(batchOf([thick, again]))).verdict).toBe('open');
    expect(judgeAlone('COOL-FC', batchOf([thick, again])).verdict).toBe('not-proven');
    // Hot to the end and never seen to fall, it was only left unread after its smoking.
    expect(judgeAlone('COOL-FC', batchOf([thick, pieceF('B', steady(146, 270, 305, 5), { thicknessMm: 20 })])).verdict).toBe('meets');
  });
});
