/** The stage of a freezing until frozen solid, on its edges: US FDA Food Code 3-402.11 (read); how its record is read is our own rule. */
import { describe, expect, it } from 'vitest';
import type { MeasuredPoint, RecordSpan } from '../../app/limits/judge-case.ts';
import { batchOf, judgeAlone, minutes, readingsF } from '../support/judge-cases.ts';
import { steady, type Points } from '../support/judged-log.ts';

/** Frozen solid at minute 360 unless said otherwise; kept cold for the 15 h after. Gaps of up to 900/7 min are none. */
const AFTER = steady(-33, 420, 1320, 60);
const BEFORE = steady(-33, 0, 300, 60);

function freeze(points: Points, more: { readonly role?: 'piece' | 'store'; readonly span?: Partial<RecordSpan>; readonly frozen?: number; readonly maxGap?: number; readonly others?: MeasuredPoint[]; readonly doubted?: number } = {}) {
  const readings = readingsF(points).map((reading) => (more.doubted !== undefined && reading.atMs === minutes(more.doubted) ? { ...reading, doubt: 'a jump' } : reading));
  const closed = { open: false };
  return judgeAlone('PARA-FREEZE-B', batchOf([{ name: 'Freezer', role: more.role ?? 'store', readings }, ...(more.others ?? [])], {
    process: 'cold', frozenMs: minutes(more.frozen ?? 360), maxGapMs: minutes(more.maxGap ?? 60),
    records: { process: closed, soak: closed, store: closed, freezer: { open: false, inMs: 0, ...more.span } },
  }));
}

describe('until frozen solid', () => {
  it('every reading is at the limit or below', () => {
    expect(freeze([...BEFORE, [360, -33], ...AFTER]).verdict).toBe('meets');
    expect(freeze([[0, -31], ...BEFORE.slice(1), [360, -31], ...AFTER]).verdict).toBe('meets');
    expect(freeze([[0, -30.9], ...BEFORE.slice(1), [360, -33], ...AFTER])).toMatchObject({ verdict: 'misses' });
  });
  it('names the first reading above it', () => {
    expect(freeze([[0, -33], [60, -20], [120, -10], ...BEFORE.slice(3), [360, -33], ...AFTER]).reason).toContain('read −20 °F at minute 60');
  });
  it('is not proven by a doubted reading, and the first is named', () => {
    expect(freeze([...BEFORE, [360, -33], ...AFTER], { doubted: 120 })).toMatchObject({ verdict: 'not-proven' });
    expect(freeze([...BEFORE, [360, -33], ...AFTER], { doubted: 120 }).reason).toContain('the reading at minute 120');
  });
  it('is not proven across a gap from going in, between readings, or to the mark', () => {
    const late: Points = [...BEFORE.slice(1), [360, -33], ...AFTER];
    expect(freeze(late).verdict).toBe('meets');
    expect(freeze(late, { span: { inMs: minutes(-1) } }).reason).toContain('a gap in the record before the fish was frozen solid');
    expect(freeze([...BEFORE.slice(0, 2), ...BEFORE.slice(3), [360, -33], ...AFTER]).reason).toContain('a gap in the record before');
    // The next reading after the mark closes the stage where none stands at it.
    expect(freeze([...BEFORE, [361, -33], [420, -33], ...AFTER], { frozen: 360 }).reason).toContain('a gap in the record before');
    expect(freeze([...BEFORE, [360, -33], ...AFTER], { frozen: 361 }).verdict).toBe('meets');
  });
  it('is not proven where nothing was read until then', () => {
    expect(freeze(AFTER, { frozen: 400, span: { inMs: minutes(400) } }).reason).toContain('no reading shows −31 °F or below until the fish was frozen solid');
  });
  it('misses where the freezer was never cold enough, whatever the core shows', () => {
    const core: MeasuredPoint = { name: 'Core', role: 'piece', readings: readingsF([[360, -33], ...AFTER]) };
    const warm = steady(-20, 0, 1320, 60);
    expect(freeze(warm, { others: [core] }).verdict).toBe('misses');
  });
});
