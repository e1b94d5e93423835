import { describe, expect, it } from 'vitest';
import type { JudgeCase } from '../../app/limits/judge-case.ts';
import { aloneContext } from '../../app/limits/judge.ts';
import { contextOf } from '../../app/limits/judge-set.ts';
import { nextCoolingReading, nextFreezerReading, nextHoldReading } from '../../app/limits/next-reading.ts';
import { coolingChecks, pieceNeed } from '../../app/limits/piece-need.ts';
import { clockWords, minuteWords } from '../../app/limits/words.ts';
import { batchOf, minutes, needCheck, needSet, pieceF, readingsF, running } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const context = aloneContext(limitBook, minuteWords('F'));
const hold = needCheck('HOT-145-30');
const cooling = needCheck('COOL-AFDO');
const freezing = needCheck('PARA-FREEZE-A');
if (hold.kind !== 'hold' || cooling.kind !== 'descent' || freezing.kind !== 'freeze') throw new Error('kinds');

describe('a hold by hand', () => {
  const next = (points: Points, now: number, batch: Partial<JudgeCase> = {}) => {
    const piece = pieceF('A', points);
    return nextHoldReading(hold, piece, { ...running(batchOf([piece])), ...batch }, context, minutes(now));
  };
  const dueAt = (points: Points, now: number) => (next(points, now)?.dueMs ?? NaN) / 60_000;

  it('is read every 10 min from the first 145 °F on, and at the 30th', () => {
    expect(dueAt([[80, 141], [90, 145.4]], 92)).toBe(100);
    expect(dueAt([[90, 145.4], [100, 146.2]], 101)).toBe(110);
    expect(dueAt([[90, 145.4], [100, 146.2], [110, 147], [117, 147]], 118)).toBe(120);
    expect(next([[90, 145.4], [100, 146.2], [110, 147], [120, 147.5]], 121)).toBeUndefined();
  });
  it('says what it must show and how far it is', () => {
    expect(next([[90, 145.4], [100, 146.2]], 101)?.text).toBe('Piece A: read by minute 110: must show 145 °F or more. Kept 10 of 30 min.');
    expect(next([[90, 145.4], [100, 146.2]], 111)?.isOverdue).toBe(true);
  });
  it('says when the row is broken', () => {
    expect(next([[90, 145.4], [100, 146.2]], 113)?.text).toContain('start again');
  });
  it('waits for 145 °F before it names a moment', () => {
    const found = next([[60, 128], [80, 141]], 81);
    expect(found?.dueMs).toBeUndefined();
    expect(found?.text).toContain('every 10 min until 30 min');
  });
  it('asks for nothing on a closed record', () => {
    const piece = pieceF('A', [[90, 145.4]]);
    expect(nextHoldReading(hold, piece, batchOf([piece]), context, minutes(95))).toBeUndefined();
  });
  it('follows to a proven hold when it is obeyed', () => {
    let points: Points = [[0, 120], [30, 140], [50, 145.2]];
    for (let step = 0; step < 10; step += 1) {
      const due = next(points, (points.at(-1)?.[0] ?? 0) + 1)?.dueMs;
      if (due === undefined) break;
      points = [...points, [due / 60_000, 146]];
    }
    expect(points.map(([minute]) => minute)).toEqual([0, 30, 50, 60, 70, 80]);
    expect(next(points, 81)).toBeUndefined();
  });
});

describe('a hold of all pieces together by hand', () => {
  const together = { ...context, together: true, probesAsked: 3 };
  const next = (records: Points[], now: number, index = 0) => {
    const pieces = records.map((points, number) => pieceF('ABCD'[number] ?? '', points));
    const piece = pieces[index];
    if (piece === undefined) throw new Error('no such piece');
    return nextHoldReading(hold, piece, running(batchOf(pieces)), together, minutes(now));
  };
  const A: Points = [[90, 145.4], [100, 146.2], [106, 147]];

  it('says the common clock, and the piece’s own beside it', () => {
    expect(next([A, [[90, 140], [106, 144]], [[90, 141], [106, 144.5]]], 107)?.text).toBe('Piece A: read by minute 116: must show 145 °F or more. Kept 0 of 30 min, all pieces together; this piece 16 min.');
    const two: Points = [[90, 140], [100, 145.1], [106, 146]];
    expect(next([A, two, two], 107)?.text).toContain('Kept 6 of 30 min, all pieces together; this piece 16 min.');
  });
  it('goes on asking a piece that has kept its own 30 min until all have kept them together', () => {
    const early: Points = steady(146, 60, 100, 10);
    const late: Points = [[60, 130], [70, 140], [80, 145.5], [90, 146], [100, 146]];
    expect(next([early, late, late], 101)).toMatchObject({ dueMs: minutes(110), text: 'Piece A: read by minute 110: must show 145 °F or more. Kept 20 of 30 min, all pieces together; this piece 40 min.' });
    const done = (points: Points): Points => [...points, [110, 146]];
    expect(next([done(early), done(late), done(late)], 111)).toBeUndefined();
  });
  it('ends with the common run, not with the piece’s', () => {
    const late: Points = [[60, 130], [84, 145.5], [94, 146], [104, 146]];
    expect(next([steady(146, 54, 104, 10), late, late], 105)?.dueMs).toBe(minutes(114));
    expect(next([[...steady(146, 54, 104, 10), [108, 146]], [...late, [108, 146]], [...late, [108, 146]]], 109)?.dueMs).toBe(minutes(114));
  });
  it('starts again for all when one piece breaks it', () => {
    const broken: Points = [...A.slice(0, 2), [106, 144.9]];
    expect(next([A, broken, A], 107)?.text).toContain('Kept 0 of 30 min, all pieces together');
  });
  it('is not held up by a spot check beside records exactly as long as the hold, and is broken by one that reads out', () => {
    const kept = steady(146, 60, 90, 10);
    expect(next([kept, kept, kept, [[85, 146]]], 91)).toBeUndefined();
    expect(next([kept, kept, kept, [[59, 120]], [[91, 120]]], 91)).toBeUndefined();
    expect(next([kept, kept, kept, [[85, 120]]], 91)?.text).toContain('Kept 0 of 30 min, all pieces together; this piece 30 min.');
    expect(next([kept, kept, kept, [[65, 120]]], 91)).toMatchObject({ dueMs: minutes(100), text: 'Piece A: read by minute 100: must show 145 °F or more. Kept 20 of 30 min, all pieces together; this piece 30 min.' });
  });
  it('is the piece’s own clock where only one is measured', () => expect(next([A], 107)?.text).toContain('Kept 16 of 30 min.'));
});

describe('a cooling by hand', () => {
  const HELD = steady(146, 0, 30, 10);
  const next = (points: Points, now: number) => {
    const piece = pieceF('A', [...HELD, ...points]);
    const batch = batchOf([piece], { endOfSmokingMs: minutes(40) });
    const out = { ...batch, records: { ...batch.records, process: { inMs: 0, outMs: minutes(40), open: true } } };
    return nextCoolingReading(cooling, piece, out, context, minutes(now));
  };
  const due = (points: Points) => (next(points, 41)?.dueMs ?? NaN) / 60_000;

  it('is read when it comes out, again within 15 min, then by its targets, never over 2 hours apart', () => {
    expect(due([])).toBe(40);
    expect(due([[41, 144]])).toBe(56);
    expect(due([[41, 144], [55, 138]])).toBe(161);
    expect(next([[41, 144], [55, 138]], 60)?.text).toBe('Piece A: read by minute 161: must show 70 °F or less.');
    expect(due([[41, 144], [55, 138], [160, 69]])).toBe(280);
    expect(next([[41, 144], [55, 138], [160, 69]], 161)?.text).toBe('Piece A: read by minute 280 (never over 120 min between readings); 40 °F or less by minute 295.');
    expect(next([[41, 144], [55, 138], [160, 69], [270, 45], [290, 39]], 291)).toBeUndefined();
  });
  it('asks for nothing while the fish still smokes', () => {
    const piece = pieceF('A', HELD);
    expect(nextCoolingReading(cooling, piece, running(batchOf([piece])), context, minutes(35))).toBeUndefined();
  });
});

it('reads a freezer once a day at least', () => {
  const freezer = { name: 'Freezer', role: 'store' as const, readings: readingsF([[0, -8], [1440, -8]]) };
  const batch = batchOf([freezer]);
  const open = { ...batch, records: { ...batch.records, freezer: { inMs: 0, open: true } } };
  expect(nextFreezerReading(freezing, freezer, open, context, minutes(1500))?.dueMs).toBe(minutes(2880));
});

describe('what a piece needs', () => {
  const set = needSet('lodge-default');
  const need = (points: Points, out?: number) => {
    const piece = pieceF('A', points);
    const batch = running(batchOf([piece]));
    const judged: JudgeCase = out === undefined ? batch : { ...batch, endOfSmokingMs: minutes(out), records: { ...batch.records, process: { inMs: 0, outMs: minutes(out), open: true } } };
    return pieceNeed(piece, judged, contextOf(set, judged, limitBook, minuteWords('F')), coolingChecks(set, judged, limitBook));
  };

  it('is told in degrees, then minutes, then by when', () => {
    expect(need([]).text).toBe('not read yet');
    expect(need([[0, 140.9]]).text).toBe('4.1 °F to go');
    expect([need([[0, 144.9]]).text, need([[0, 144.96]]).text, need([[0, 144.9999]]).text]).toEqual(['0.1 °F to go', 'less than 0.1 °F to go', 'less than 0.1 °F to go']);
    expect(need(steady(146, 0, 22, 1))).toMatchObject({ text: 'kept 22 of 30 min', provenMinutes: 22, requiredMinutes: 30 });
    expect(need(steady(146, 0, 30, 5)).text).toBe('kept 30 min');
    expect(need([...steady(146, 0, 30, 5), [35, 139]], 32).text).toBe('70 °F or less by minute 150');
    expect(need([...steady(146, 0, 30, 5), [35, 139], [100, 69]], 32).text).toBe('40 °F or less by minute 275');
    expect(need([...steady(146, 0, 30, 5), [35, 139], [100, 69], [200, 39]], 32).text).toBe('cooled');
  });
  it('is told in clock times and hours in the book', () => {
    const words = clockWords('C', (ms) => new Date(ms).toISOString().slice(11, 16));
    expect(words.at(minutes(845))).toBe('14:05');
    expect([words.lasting(minutes(95)), words.lasting(minutes(360)), words.lasting(minutes(365))]).toEqual(['95 min', '6 h', '6 h 5 min']);
    expect(words.part(minutes(22.7), minutes(30))).toBe('22 of 30 min');
    expect(words.difference(4500)).toBe('0.5 °C');
  });
});
