/**
 * Ceilings and freezings on edges that the worked cases don't reach: what of a record is raw fish, when a soak
 * is long, and the stage until frozen solid. Raw and store run from the first reading at or below the limit;
 * the marks of one record say nothing of another; a soak runs from its in mark to its last brine reading.
 */
import { describe, expect, it } from 'vitest';
import { aloneContext, judgeCheck } from '../../app/limits/judge.ts';
import type { EarlyRecordKind, JudgeCase, MeasuredPoint, RecordKind, RecordSpan } from '../../app/limits/judge-case.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, judgeAlone, minutes, needCheck, pieceF, readingsF, running, ticksF } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const place = (role: MeasuredPoint['role'], points: Points, record?: RecordKind | EarlyRecordKind): MeasuredPoint => ({ name: role, role, record, readings: readingsF(points) });
const CLOSED: RecordSpan = { open: false };
function marks(more: Partial<Record<RecordKind, RecordSpan>>): Pick<JudgeCase, 'records'> {
  return { records: { process: CLOSED, soak: CLOSED, freezer: CLOSED, store: CLOSED, ...more } };
}
const inAt = (minute: number) => marks({ process: { open: false, inMs: minutes(minute) } });

describe('a ceiling on its exact tick', () => {
  it('that must stay below its limit meets one tick below, and not at it', () => {
    const store = (degrees: number) => judgeAlone('STORE-40-HOME', batchOf([place('store', steady(degrees, 0, 300, 60))], { store: 'refrigerated' })).verdict;
    expect([store(39.9998), store(40)]).toEqual(['meets', 'misses']);
  });
  it('misses by one reading a tick over it', () => {
    const store = (second: number) => judgeAlone('STORE-38', batchOf([place('store', [[0, 38], [60, second], [120, 38]])], { store: 'refrigerated' })).verdict;
    expect([store(38), store(38.0002)]).toEqual(['meets', 'misses']);
  });
  it('shows its spans in order of time, a reading before the gap that begins at it', () => {
    const found = judgeAlone('COLD-90-20', batchOf([place('chamber', [[-400, 80], [-100, 80]])], { process: 'cold' }));
    expect(found.spans.map(({ fromMs, toMs, counts }) => [fromMs / 60_000, toMs / 60_000, counts])).toEqual([[-400, -400, true], [-400, -100, false], [-100, -100, true]]);
  });
});

describe('raw fish', () => {
  const kept = place('piece', [[0, 36], [30, 36]], 'raw');
  const smoked = (points: Points) => pieceF('A', points, { record: 'process' });
  const raw = (points: readonly MeasuredPoint[], more: Partial<JudgeCase> = inAt(60), checkId = 'RAW-38') => judgeAlone(checkId, batchOf(points, more)).verdict;
  it('counts beside its own record what was read of a piece before it went in', () => {
    expect(raw([kept, smoked([[0, 36], [30, 50], [70, 146]])])).toBe('misses');
    expect(raw([kept, smoked([[0, 36], [30, 37], [70, 146]])])).toBe('meets');
  });
  it('that thawed is judged by the record of the thawing alone, where there is one', () => {
    expect(raw([{ ...kept, record: 'thaw' }, smoked([[0, 36], [30, 50], [70, 146]])], { ...inAt(60), facts: { wasFrozen: true } }, 'THAW-38')).toBe('meets');
  });
  it('takes nothing from a piece in the freezer', () => {
    expect(raw([pieceF('A', [[0, 36], [30, 36]]), pieceF('F', [[0, 36], [30, 50]], { record: 'freezer' })], {})).toBe('meets');
  });
  it('counts a single reading over the limit', () => {
    expect(raw([smoked([[0, 50], [70, 146]])])).toBe('misses');
  });
  it('is told from the smoker in readings that come in any order', () => {
    expect(raw([smoked([[70, 146], [0, 36], [30, 37], [20, 36]])])).toBe('meets');
    expect(raw([smoked([[70, 146], [0, 36], [30, 50], [20, 36]])])).toBe('misses');
  });
  it('is raw up to the brine, its own reading included, where the brine comes before the chamber', () => {
    const soaked = marks({ process: { open: false, inMs: minutes(100) }, soak: { open: false, inMs: minutes(30) } });
    expect(raw([smoked([[0, 36], [30, 37], [50, 60], [110, 146]])], soaked)).toBe('meets');
    expect(raw([smoked([[0, 36], [30, 50], [110, 146]])], soaked)).toBe('misses');
  });
  it('in a set stays open where the fish may be in the smoker already', () => {
    const batch = running(batchOf([smoked([[0, 36], [30, 50]])]));
    expect(judgeCheck(needCheck('RAW-38'), batch, { ...aloneContext(limitBook, minuteWords('F')), alone: false })).toMatchObject({ verdict: 'open', reason: expect.stringContaining('When the fish went in is not marked') });
  });
  it('in a cooler is judged past the chamber’s in mark, which is not the cooler’s', () => {
    expect(raw([place('store', [[0, 39], [60, 39], [120, 45]])], inAt(60), 'RAW-40')).toBe('misses');
  });
  it('in a cooler is bounded by the marks only where readings stand for them', () => {
    const cooler = [place('store', steady(39, 200, 380, 60))];
    const marked = marks({ process: { open: false, inMs: 0, outMs: minutes(600) } });
    expect(raw(cooler, { ...marked, readingsStandForMarks: true }, 'RAW-40')).toBe('not-proven');
    expect(raw(cooler, marked, 'RAW-40')).toBe('meets');
  });
  it('thawing in water has no record of the water where only readings are given', () => {
    const thaw = (more: Partial<JudgeCase>) => judgeAlone('THAW-WATER-70', batchOf([place('water', [[0, 60], [30, 60]], 'thaw')], more));
    expect(thaw({ readingsStandForMarks: true })).toMatchObject({ verdict: 'not-proven', reason: 'No record of ours holds the water’s temperature.' });
    expect(thaw({}).verdict).toBe('meets');
  });
});

describe('a soak', () => {
  const soak = (checkId: string, points: readonly MeasuredPoint[], span: RecordSpan = CLOSED) => judgeAlone(checkId, batchOf(points, marks({ soak: span })));
  const brine = (points: Points, name = 'brine') => ({ ...place('brine', points), name });
  const went = { open: false, inMs: 0 };
  it('has its start from one brine reading up to 2 h after the fish went in', () => {
    const at = (atMs: number) => soak('BRINE-START-60', [{ ...brine([]), readings: [{ atMs, lowTicks: ticksF(50), highTicks: ticksF(50) }] }], went).verdict;
    expect([at(minutes(120)), at(minutes(120) + 1)]).toEqual(['meets', 'not-proven']);
  });
  it('has no start from two readings that begin after a gap of their own', () => {
    expect(soak('BRINE-START-60', [brine([[60, 50], [65, 50]])], went).reason).toBe('brine: first read 60 min after the fish went in.');
  });
  it('stays open without a brine reading while the fish is in', () => {
    expect([soak('BRINE-START-60', [], { open: true }).verdict, soak('BRINE-START-60', []).verdict]).toEqual(['open', 'not-proven']);
  });
  it('runs from its in mark to a single brine reading', () => {
    expect(soak('BRINE-4H-38', [brine([[200, 40]])], went)).toMatchObject({ verdict: 'does-not-apply', reason: 'The soak took 200 min, not over 240 min.' });
    expect(soak('BRINE-4H-38', [brine([[300, 40]])], went).verdict).toBe('not-proven');
  });
  it('has a length from any two readings, however close', () => {
    const [first] = readingsF([[0, 40]]);
    if (first === undefined) throw new Error('no reading');
    expect(soak('BRINE-4H-38', [{ ...brine([]), readings: [first, { ...first, atMs: 1 }] }]).verdict).toBe('does-not-apply');
  });
  it('is as long as the brine that was read longest', () => {
    expect(soak('BRINE-4H-38', [brine(steady(40, 0, 300, 60), 'tub 1'), brine(steady(40, 0, 100, 50), 'tub 2')]).verdict).toBe('not-proven');
  });
});

describe('a freezing until frozen solid', () => {
  /** Gaps of up to an hour are none. */
  function freeze(checkId: string, points: Points, frozen: number, more: { readonly role?: 'piece' | 'store'; readonly span?: Partial<RecordSpan>; readonly doubted?: readonly number[]; readonly error?: number } = {}) {
    const readings = readingsF(points).map((reading) => (more.doubted?.includes(reading.atMs / 60_000) === true ? { ...reading, doubt: 'a jump' } : reading));
    return judgeAlone(checkId, batchOf([{ name: 'Freezer', role: more.role ?? 'store', readings }], {
      process: 'cold', frozenMs: minutes(frozen), maxGapMs: minutes(60), errorTicks: more.error ?? 0, ...marks({ freezer: { open: false, inMs: 0, ...more.span } }),
    }));
  }
  const before = steady(-33, 0, 300, 60);
  it('leaves a reading at the mark itself to the time after it', () => {
    expect(freeze('PARA-FREEZE-C', [...before, ...steady(-10, 360, 1860, 60)], 360).verdict).toBe('meets');
    expect(freeze('PARA-FREEZE-C', [...before, [360, -10], ...steady(-33, 600, 2100, 60)], 360).verdict).toBe('meets');
    expect(freeze('PARA-FREEZE-C', [...before, ...steady(-10, 360, 1860, 60)], 361).verdict).toBe('misses');
  });
  it('ends at the first reading after the mark; a later gap is none of it', () => {
    expect(freeze('PARA-FREEZE-C', [...before, [360, -33], ...steady(-33, 600, 2100, 60)], 359).verdict).toBe('meets');
  });
  it('names the first doubted reading', () => {
    expect(freeze('PARA-FREEZE-B', [...before, ...steady(-33, 360, 1320, 60)], 360, { doubted: [120, 180] }).reason).toContain('the reading at minute 120, before the fish was frozen solid');
  });
  it('counts a core’s readings past the freezer’s out mark', () => {
    expect(freeze('PARA-FREEZE-B', steady(-33, 0, 1400, 50), 350, { role: 'piece', span: { outMs: minutes(350) } }).verdict).toBe('meets');
    expect(freeze('PARA-FREEZE-B', [...before, ...steady(-33, 400, 1400, 50)], 350, { role: 'piece', span: { outMs: minutes(350) } }).reason).toContain('a gap in the record before the fish was frozen solid');
  });
  it('can no longer be proven once the mark lies more than a gap after the last reading', () => {
    const open = { span: { open: true } };
    expect([freeze('PARA-FREEZE-B', before, 360, open).verdict, freeze('PARA-FREEZE-B', before, 361, open).verdict]).toEqual(['open', 'not-proven']);
  });
  it('must keep its limit by the thermometer’s error too', () => {
    const error = ticksF(1) - ticksF(0);
    expect(freeze('PARA-FREEZE-B', [...steady(-31, 0, 300, 60), ...steady(-33, 360, 1320, 60)], 360, { error }).verdict).toBe('meets-within-error');
    expect(freeze('PARA-FREEZE-B', [...steady(-32, 0, 300, 60), ...steady(-33, 360, 1320, 60)], 360, { error }).verdict).toBe('meets');
  });
});
