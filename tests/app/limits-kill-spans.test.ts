/** Holds of several pieces and spot checks on edges that the worked cases don't reach, the count of pieces, and readings that people take out. */
import { describe, expect, it } from 'vitest';
import { applyExclusions } from '../../app/limits/exclusions.ts';
import type { JudgeContext } from '../../app/limits/finding.ts';
import { aloneContext, judgeCheck } from '../../app/limits/judge.ts';
import type { ExcludedReading, MeasuredPoint, Reading } from '../../app/limits/judge-case.ts';
import type { Check } from '../../app/limits/limit-set.ts';
import { enteredHow, intervalMs } from '../../app/limits/readings.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, judgeAlone, minutes, needCheck, pieceF, ticksF } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const alone = aloneContext(limitBook, minuteWords('F'));
const together: JudgeContext = { ...alone, alone: false, together: true, probesAsked: 2 };
const at = (minute: number, lowTicks: number, highTicks: number): Reading => ({ atMs: minutes(minute), lowTicks, highTicks });

describe('a spot check among pieces that keep one hold', () => {
  const kept = (...spots: Points[]) => judgeCheck(needCheck('HOT-145-30'), batchOf([
    pieceF('A', steady(146, 0, 60, 5)), pieceF('B', steady(146, 10, 40, 5)), ...spots.map((points, index) => pieceF(`S${index + 1}`, points)),
  ]), together);
  it('spoils only what they keep together, and only that is told', () => {
    expect(kept([[5, 140]]).verdict).toBe('meets');
    expect(kept([[5, 140]], [[20, 141]])).toMatchObject({ verdict: 'not-proven', reason: 'Piece S2 was only spot-checked and read 141 °F at minute 20, inside the others’ hold.' });
  });
  it('leaves each piece’s own stretch whole', () => {
    const found = judgeCheck(needCheck('HOT-145-30'), batchOf([pieceF('A', steady(146, 0, 100, 5)), pieceF('B', steady(146, 0, 100, 5)), pieceF('S', [[10, 140]])]), together);
    expect([found.verdict, found.provenMinutes, found.pieces.map(({ provenMs }) => provenMs)]).toEqual(['meets', 85, [minutes(100), minutes(100), 0]]);
  });
});

describe('a spot check', () => {
  it('outside the hold is not the one that is named', () => {
    const found = judgeAlone('HOT-145-30', batchOf([pieceF('A', steady(146, 10, 40, 5)), pieceF('S1', [[5, 140]]), pieceF('S2', [[20, 141]])]));
    expect(found.reason).toContain('Piece S2 was only spot-checked and read 141 °F at minute 20');
  });
  it('is told by the less favourable side of its reading', () => {
    const spot: MeasuredPoint = { ...pieceF('S', []), readings: [at(20, ticksF(140), ticksF(150))] };
    expect(judgeAlone('HOT-145-30', batchOf([pieceF('A', steady(146, 10, 40, 5)), spot])).reason).toContain('read 140 °F at minute 20');
    const core: MeasuredPoint = { name: 'Core', role: 'piece', record: 'freezer', readings: [at(0, ticksF(-5), ticksF(2)), at(60, ticksF(-5), ticksF(3))] };
    expect(judgeAlone('PARA-EU-20-24', batchOf([core], { process: 'cold' })).reason).toContain('the nearest reading is 2 °F at minute 0');
  });
});

describe('pieces counted through the hold', () => {
  const counted = (pieces: readonly Points[], context: JudgeContext = { ...alone, probesAsked: 2 }) => {
    const check = needCheck('HOT-PROBES-3');
    const two: Check = check.kind === 'probe-count' ? { ...check, pieces: 2 } : check;
    return judgeCheck(two, batchOf(pieces.map((points, index) => pieceF(`P${index}`, points))), context).reason;
  };
  it('are counted by their length where the hold was missed by a tick', () => {
    expect(counted([steady(144.9998, 0, 30, 5), steady(144.9998, 60, 90, 5)])).toBe('2 of 2 pieces recorded through the hold.');
    expect(counted([steady(145, 0, 30, 5), steady(145, 60, 90, 5)])).toBe('1 of 2 pieces recorded through the hold.');
  });
  it('are counted where any of their runs spans the hold', () => {
    expect(counted([steady(146, 0, 30, 5), [...steady(146, 0, 30, 5), ...steady(140, 100, 140, 5)]])).toBe('2 of 2 pieces recorded through the hold.');
  });
  it('must be recorded through a hold that was kept, and not through the same time elsewhere', () => {
    expect(counted([steady(146, 0, 30, 5), steady(140, 60, 90, 5), steady(140, 60, 90, 5)])).toBe('1 of 2 pieces recorded through the hold.');
  });
  it('are counted by their length where all keep one hold and none was proven', () => {
    expect(counted([steady(146, 0, 30, 5), steady(146, 60, 90, 5)], together)).toBe('2 of 2 pieces recorded through the hold.');
  });
  it('are none under a set without a hold', () => {
    expect(counted([steady(146, 0, 30, 5)], { ...alone, holds: [] })).toBe('0 of 2 pieces recorded through the hold.');
  });
});

describe('an excluded reading', () => {
  const out = (points: readonly MeasuredPoint[], excluded: Partial<ExcludedReading>) => applyExclusions(batchOf(points, { excluded: [{ pointName: 'A', atMs: minutes(10), reason: 'pulled probe', byInitials: 'KM', ...excluded }] }));
  it('is found in whichever instrument of the piece read it', () => {
    const found = out([pieceF('A', [[0, 140], [5, 141]]), pieceF('A', [[10, 142]])], {});
    expect([found.applied.length, found.refused.length, found.judged.points.map(({ readings }) => readings.length)]).toEqual([1, 0, [2, 0]]);
  });
  it('is the one that has both its ticks, where two at that moment share one', () => {
    const readings = [at(10, 10, 20), at(10, 10, 30), at(10, 5, 20)];
    const found = out([{ ...pieceF('A', []), readings }], { lowTicks: 10, highTicks: 20 });
    expect(found.judged.points[0]?.readings).toEqual([at(10, 10, 30), at(10, 5, 20)]);
  });
});

describe('how readings came', () => {
  it('have the interval of their lower median step, down to a millisecond', () => {
    expect(intervalMs([0, 1, 101].map((atMs) => ({ atMs, lowTicks: 0, highTicks: 0 })), undefined)).toBe(1);
  });
  it('are late by the time between reading and entry, in whatever year', () => {
    const readAt = Date.parse('2026-07-14T10:00:00Z');
    expect([enteredHow(readAt, readAt + minutes(30), false), enteredHow(readAt, readAt + minutes(30) + 1, false)]).toEqual([undefined, 'late']);
  });
});
