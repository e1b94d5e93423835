/** What to read next and what a piece still needs, on the exact tick and the exact minute; the clock that all pieces share. */
import { describe, expect, it } from 'vitest';
import { commonHold } from '../../app/limits/common-hold.ts';
import type { JudgeContext } from '../../app/limits/finding.ts';
import type { JudgeCase, MeasuredPoint } from '../../app/limits/judge-case.ts';
import { aloneContext } from '../../app/limits/judge.ts';
import type { DescentCheck, HoldCheck } from '../../app/limits/limit-set.ts';
import { nextCoolingReading, nextHoldReading } from '../../app/limits/next-reading.ts';
import { coolingChecks, pieceNeed } from '../../app/limits/piece-need.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, minutes, needCheck, needSet, pieceF, readingsF, running } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const alone = aloneContext(limitBook, minuteWords('F'));
const together: JudgeContext = { ...alone, together: true };
const TWICE: Points = [...steady(146, 0, 30, 5), [40, 130], [90, 69], [200, 50], [300, 40], ...steady(146, 400, 430, 5)];

function needHold(more: Partial<HoldCheck> = {}): HoldCheck {
  const check = needCheck('HOT-145-30');
  if (check.kind !== 'hold') throw new Error('no hold');
  return { ...check, ...more };
}
function needCooling(checkId: string): DescentCheck {
  const check = needCheck(checkId);
  if (check.kind !== 'descent') throw new Error(`${checkId} is no cooling`);
  return check;
}
function firstOf(batch: JudgeCase): MeasuredPoint {
  const [point] = batch.points;
  if (point === undefined) throw new Error('no piece');
  return point;
}

describe('the clock that all pieces share', () => {
  const shared = (...pieces: Points[]) => commonHold(needHold(), running(batchOf(pieces.map((points, index) => pieceF(`P${index}`, points)))), together);
  it('counts exactly the limit, and nothing a tick below it', () => {
    expect(shared(steady(145, 0, 20, 5), steady(145, 0, 20, 5))).toEqual({ provenMs: minutes(20), running: { fromMs: 0, toMs: minutes(20) } });
    expect(shared(steady(144.9998, 0, 20, 5), steady(145, 0, 20, 5))).toEqual({ provenMs: 0, running: undefined });
  });
  it('goes on up to the last reading of the piece that was read longest ago', () => {
    expect(shared(steady(146, 0, 25, 5), steady(146, 0, 20, 5))?.running).toEqual({ fromMs: 0, toMs: minutes(20) });
  });
});

describe('the next reading for a hold', () => {
  const next = (points: Points) => {
    const batch = running(batchOf([pieceF('A', points)]));
    return nextHoldReading(needHold(), firstOf(batch), batch, alone, minutes(1))?.text;
  };
  it('is a row from exactly the limit on, and none a tick below it', () => {
    expect(next([[0, 145]])).toBe('Piece A: read by minute 5: must show 145 °F or more. Kept 0 of 30 min.');
    expect(next([[0, 144.9998]])).toContain('From the first 145 °F on');
  });
  it('is one step on while no stretch of all pieces goes on, however short the hold', () => {
    const batch = running(batchOf([pieceF('A', [[0, 140], [0.5, 146]]), pieceF('B', [[0, 146], [0.5, 140]])]));
    expect(nextHoldReading(needHold({ minutes: 1 }), firstOf(batch), batch, together, minutes(0.5))?.dueMs).toBe(minutes(5.5));
  });
});

describe('the next reading for a cooling', () => {
  const next = (points: Points, more: Partial<JudgeCase> = { endOfSmokingMs: 0 }, checkId = 'COOL-FC') => {
    const batch = running(batchOf([pieceF('A', points)], more));
    return nextCoolingReading(needCooling(checkId), firstOf(batch), batch, alone, minutes(1))?.text;
  };
  it('is asked a tick above the last target, and no more at it', () => {
    const cooled = (last: number): Points => [[0, 150], [10, 130], [60, 69], [200, last]];
    expect(next(cooled(41))).toBeUndefined();
    expect(next(cooled(41.0002))).toContain('41 °F or less by minute 360');
  });
  it('is of the newest cooling, and of none while the piece is hot again', () => {
    expect(next([...TWICE, [440, 130], [450, 120]], { endOfSmokingMs: minutes(35) })).toContain('read by minute 550: must show 70 °F or less');
    expect(next([...steady(146, 0, 30, 5), [40, 130], ...steady(146, 50, 80, 5)], { endOfSmokingMs: minutes(35) })).toContain('still above 135 °F. Read it again within 15 min');
  });
  it('waits for the mark where that starts the clock', () => {
    const batch = batchOf([]);
    const records = { ...batch.records, process: { open: true, outMs: minutes(60) } };
    expect(next([[70, 120]], { records }, 'COOL-CHUB')).toContain('the end of smoking is not marked yet');
  });
  it('must show the target where its time ends just when the next reading is due', () => {
    expect(next([[-5, 150], [0, 135]], { endOfSmokingMs: minutes(-5) })).toBe('Piece A: read by minute 120: must show 70 °F or less.');
  });
});

describe('what a piece needs', () => {
  const need = (points: Points, coolings: string[] = [], context: JudgeContext = { ...alone, holds: [] }) => {
    const batch = running(batchOf([pieceF('A', points)]));
    return pieceNeed(firstOf(batch), batch, context, coolings.map(needCooling));
  };
  const cooled = (last: number): Points => [[0, 150], [10, 130], [60, 69], [200, last]];
  it('is nothing at the last target, and the target a tick above it', () => {
    expect([need(cooled(41), ['COOL-FC']).text, need(cooled(41.0002), ['COOL-FC']).text]).toEqual(['cooled', '41 °F or less by minute 360']);
  });
  it('counts a second target from the start, or from the first target where it has a clock of its own', () => {
    expect([need(cooled(50), ['COOL-FC']).text, need(cooled(50), ['COOL-AFDO']).text]).toEqual(['41 °F or less by minute 360', '40 °F or less by minute 250']);
  });
  it('is that of the newest cooling', () => {
    expect(need([...TWICE, [440, 130]], ['COOL-FC'], alone).text).toBe('70 °F or less by minute 550');
  });
  it('is said in whole minutes that are kept', () => {
    expect(need([...steady(146, 0, 20, 5), [22.5, 146]], [], alone).provenMinutes).toBe(22);
  });
  it('is a person’s word where the last reading is at the limit and in doubt', () => {
    const readings = readingsF([[0, 140], [5, 145]]).map((reading) => (reading.atMs === minutes(5) ? { ...reading, doubt: 'a jump' } : reading));
    const batch = running(batchOf([{ ...pieceF('A', []), readings }]));
    expect(pieceNeed(firstOf(batch), batch, alone, []).text).toBe('its last reading is in doubt');
  });
});

describe('the coolings that a set asks', () => {
  it('are those of its answers on cooling that fit the batch', () => {
    const set = { ...needSet('lodge-default'), answers: [
      { question: 'cooling', checks: ['COOL-OR'], when: { process: 'cold' } }, { question: 'exposure', checks: ['COOL-ON'] }, { question: 'cooling', checks: ['COOL-FC'] },
    ] as const };
    expect(coolingChecks(set, batchOf([]), limitBook).map(({ id }) => id)).toEqual(['COOL-FC']);
  });
});
