import { describe, expect, it } from 'vitest';
import type { JudgeCase, MeasuredPoint, RecordSpan } from '../../app/limits/judge-case.ts';
import { judgeSet } from '../../app/limits/judge-set.ts';
import type { Question } from '../../app/limits/limit-set.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, judgeAlone, minutes, needSet, pieceF, readingsF } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

type Early = 'raw' | 'thaw' | 'dry';
const span = (inMinute?: number, outMinute?: number): RecordSpan => ({ inMs: inMinute === undefined ? undefined : minutes(inMinute), outMs: outMinute === undefined ? undefined : minutes(outMinute), open: outMinute === undefined });
const raw = (points: Points): MeasuredPoint => pieceF('Box 1', points, { record: 'raw' });
const SMOKED = pieceF('A', steady(146, 0, 60, 5), { record: 'process' });

/** Into the brine at −600, into the chamber at 0. */
function batch(points: readonly MeasuredPoint[], early: Partial<Record<Early, RecordSpan>> = {}, more: Partial<JudgeCase> = {}): JudgeCase {
  const closed = batchOf(points, more);
  return { ...closed, records: { ...closed.records, process: span(0, 60), soak: span(-600, -60), ...early } };
}
const inSet = (setId: string, question: Question, judged: JudgeCase) => judgeSet(needSet(setId), judged, limitBook, { words: minuteWords('F'), paper: true }).units.find((unit) => unit.question === question);

describe('raw fish with a record of its own', () => {
  it('is judged from the first reading at or below the limit, between its marks', () => {
    const points: Points = [[-900, 44], [-870, 40], [-840, 38], [-780, 37], [-720, 36.5], [-660, 37]];
    expect(judgeAlone('RAW-38', batch([raw(points), SMOKED], { raw: span(-900, -600) })).verdict).toBe('meets');
    expect(judgeAlone('RAW-38', batch([raw([...points, [-650, 38.1]]), SMOKED], { raw: span(-900, -600) })).verdict).toBe('misses');
    expect(judgeAlone('RAW-38', batch([raw([...points, [-590, 50]]), SMOKED], { raw: span(-900, -600) })).verdict).toBe('meets');
    expect(judgeAlone('RAW-45-AK', batch([raw([...points, [-650, 44.9]]), SMOKED], { raw: span(-900, -600) })).verdict).toBe('meets');
  });
  it('is not proven by a gap to its marks, and covered by a maximum–minimum thermometer', () => {
    const two: Points = [[-900, 37], [-600, 37]];
    expect(judgeAlone('RAW-38', batch([raw(two)], { raw: span(-900, -600) })).verdict).toBe('not-proven');
    const [first, last] = readingsF(two);
    if (first === undefined || last === undefined) throw new Error('readings');
    expect(judgeAlone('RAW-38', batch([{ ...raw([]), readings: [first, { ...last, coversSinceMs: minutes(-900) }] }], { raw: span(-900, -600) })).verdict).toBe('meets');
  });
  it('is no piece of the chamber, and the pieces of the chamber are not raw', () => {
    const judged = batch([raw([[-660, 37], [-620, 37]]), SMOKED], { raw: span(-660, -600) });
    expect(judgeAlone('HOT-145-30', judged)).toMatchObject({ verdict: 'meets', pieces: [{ name: 'A' }] });
    expect(judgeAlone('RAW-38', judged)).toMatchObject({ verdict: 'meets', pieces: [{ name: 'Box 1' }] });
  });
  it('is not proven where one of two boxes was never read between the marks', () => {
    const unread = pieceF('Box 2', [[-950, 37]], { record: 'raw' });
    expect(judgeAlone('RAW-38', batch([raw([[-660, 37], [-620, 37]]), unread], { raw: span(-660, -600) })).verdict).toBe('not-proven');
  });
  it('is told from fish in the smoker without an in mark', () => {
    const closed = batchOf([raw([[-660, 37], [-620, 37]]), SMOKED]);
    const judged: JudgeCase = { ...closed, records: { ...closed.records, raw: span(-660, -600) } };
    expect(inSet('lodge-default', 'raw', judged)?.verdict).toBe('meets');
    expect(inSet('lodge-default', 'raw', { ...judged, points: [raw([[-660, 37], [-620, 39]]), SMOKED] })?.verdict).toBe('misses');
  });
  it('without a reading is open while it is kept, and not proven once it is brined', () => {
    expect(inSet('lodge-default', 'raw', batch([SMOKED], { raw: span(-900) }))?.verdict).toBe('open');
    expect(inSet('lodge-default', 'raw', batch([SMOKED], { raw: span(-900, -600) }))?.verdict).toBe('not-proven');
    expect(inSet('lodge-default', 'raw', batch([SMOKED]))?.verdict).toBe('not-proven');
  });
  it('in a store is judged by the store’s own readings, never by those of the finished fish', () => {
    const store = (record: 'raw' | 'store', value: number): MeasuredPoint => ({ name: 'Cooler', role: 'store', record, readings: readingsF(steady(value, -900, -600, 60)) });
    expect(judgeAlone('RAW-40', batch([store('raw', 40), store('store', 50)], { raw: span(-900, -600) })).verdict).toBe('meets');
    expect(judgeAlone('RAW-40', batch([store('raw', 40.1)], { raw: span(-900, -600) })).verdict).toBe('misses');
    expect(judgeAlone('RAW-40', batch([store('store', 36)], { raw: span(-900, -600) })).verdict).toBe('not-proven');
  });
});

describe('thawing fish', () => {
  const thaw = (points: Points): MeasuredPoint => pieceF('Box 1', points, { record: 'thaw' });
  const thawed = { facts: { wasFrozen: true } };
  it('may never be over its limit, from its first reading on', () => {
    expect(judgeAlone('THAW-38', batch([thaw([[-1000, 5], [-900, 30], [-800, 38]])], { thaw: span(-1000, -800) }, thawed)).verdict).toBe('meets');
    expect(judgeAlone('THAW-38', batch([thaw([[-1000, 39], [-900, 30], [-800, 38]])], { thaw: span(-1000, -800) }, thawed)).verdict).toBe('misses');
    expect(judgeAlone('THAW-45', batch([thaw([[-1000, 5], [-900, 45], [-800, 38]])], { thaw: span(-1000, -800) }, thawed)).verdict).toBe('meets');
  });
  it('is asked of no fish that was never frozen, and is not proven where nobody read it', () => {
    expect(inSet('lodge-default', 'thaw', batch([SMOKED], {}, { facts: { wasFrozen: false } }))?.verdict).toBe('does-not-apply');
    expect(inSet('lodge-default', 'thaw', batch([SMOKED], {}, thawed))?.verdict).toBe('not-proven');
  });
  it('in running water is judged by the water', () => {
    const water = (value: number): MeasuredPoint => ({ name: 'Sink', role: 'water', record: 'thaw', readings: readingsF(steady(value, -1000, -900, 20)) });
    expect([70, 70.1].map((value) => judgeAlone('THAW-WATER-70', batch([water(value)], { thaw: span(-1000, -900) }, thawed)).verdict)).toEqual(['meets', 'misses']);
    expect(judgeAlone('THAW-WATER-70', batch([SMOKED], { thaw: span(-1000, -900) }, thawed)).verdict).toBe('not-proven');
  });
});

describe('drying before cold smoke', () => {
  const room = (value: number, record: 'dry' | 'soak' = 'dry'): MeasuredPoint => ({ name: 'Drying room', role: 'room', record, readings: readingsF(steady(value, -60, 0, 20)) });
  const cold = (points: readonly MeasuredPoint[], more: Partial<JudgeCase> = {}) => batch(points, { dry: span(-60, 0) }, { process: 'cold', ...more });
  it('is judged by its own room between its own marks', () => {
    expect([40, 40.1].map((value) => judgeAlone('DRY-COLD-40', cold([room(value)])).verdict)).toEqual(['meets', 'misses']);
    expect(judgeAlone('DRY-COLD-40', cold([room(36, 'soak')])).verdict).toBe('not-proven');
  });
  it('does not apply to fish dried in the chamber itself, nor to a hot process', () => {
    expect(inSet('lodge-default', 'dry', cold([], { facts: { driedApart: false } }))?.verdict).toBe('does-not-apply');
    expect(inSet('lodge-default', 'dry', cold([]))?.verdict).toBe('not-proven');
    expect(inSet('lodge-default', 'dry', cold([room(50)], { process: 'hot' }))).toBeUndefined();
  });
});

describe('dry salting', () => {
  it('goes straight into a cold room', () => {
    const verdictOf = (checkId: string, value: number) => judgeAlone(checkId, batch([{ name: 'Cellar', role: 'room', record: 'soak', readings: readingsF(steady(value, -600, -60, 60)) }], {}, { facts: { cure: 'dry' } })).verdict;
    expect([verdictOf('DRYSALT-38', 38), verdictOf('DRYSALT-38', 39), verdictOf('DRYSALT-40', 39), verdictOf('DRYSALT-40', 41)]).toEqual(['meets', 'misses', 'meets', 'misses']);
  });
  it('is named as not judged where the set speaks of brine only', () => {
    const judged = batch([], {}, { facts: { cure: 'dry' } });
    expect(judgeSet(needSet('lodge-default'), judged, limitBook, { words: minuteWords('F'), paper: true }).notJudgedHere).toContain('brine');
  });
});

it('judges every question of the lodge default once its readings are there', () => {
  const judged = batch([SMOKED]);
  const questions = judgeSet(needSet('lodge-default'), judged, limitBook, { words: minuteWords('F'), paper: true });
  expect(questions.notJudgedHere).toEqual(['exposure']);
});
