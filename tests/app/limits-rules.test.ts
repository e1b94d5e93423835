/** Rules of single check kinds that the published cases don't reach. */
import { describe, expect, it } from 'vitest';
import { decimalFrom, quotientText } from '../../app/limits/decimals.ts';
import { judgeSet } from '../../app/limits/judge-set.ts';
import type { JudgeCase } from '../../app/limits/judge-case.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, judgeAlone, minutes, needSet, pieceF, readingsF, running } from '../support/judge-cases.ts';
import { judgeOne, limitBook, steady, type Points } from '../support/judged-log.ts';

const sample = (saltPercent: string, moisturePercent: string, errorPercent?: string) => [{ saltPercent, moisturePercent, errorPercent }];
const chilled: Partial<JudgeCase> = { pack: 'vacuum', store: 'refrigerated' };

describe('salt', () => {
  it('meets within the method’s error when the error could take it below', () => {
    expect(judgeAlone('WPS-ROP-3.5', batchOf([], { ...chilled, saltSamples: sample('2.4', '65', '0.02') })).verdict).toBe('meets');
    expect(judgeAlone('WPS-ROP-3.5', batchOf([], { ...chilled, saltSamples: sample('2.4', '65', '0.1') })).verdict).toBe('meets-within-error');
    expect(judgeAlone('WPS-ROP-3.5', batchOf([], { ...chilled, saltSamples: sample('2.3', '65', '0.1') })).verdict).toBe('misses');
  });
  it('shows a percentage cut, never rounded up to the limit', () => {
    expect(quotientText(decimalFrom('349.99999'), decimalFrom('100'), 4)).toBe('3.4999');
    expect(quotientText(decimalFrom('350'), decimalFrom('100'), 4)).toBe('3.5');
  });
  it('reads numbers as a program writes them', () => expect(decimalFrom('1e-7')).toEqual({ digits: 1n, scale: 7 }));
});

describe('ceilings', () => {
  it('prove nothing by a single reading, whatever the marks around it', () => {
    expect(judgeOne('STORE-38', 'store', [[0, 36]]).verdict).toBe('not-proven');
    expect(judgeOne('STORE-38', 'store', [[30, 36]], { marks: { inMinute: 0, outMinute: 60 } }).verdict).toBe('not-proven');
    expect(judgeOne('COLD-90-20', 'chamber', [[5, 80]], { marks: { inMinute: 0, outMinute: 10 } }).verdict).toBe('not-proven');
    expect(judgeOne('STORE-38', 'store', [[0, 36], [60, 36]]).verdict).toBe('meets');
  });
  it('miss on a running record, are not proven by a gap, and else are open', () => {
    expect(judgeOne('COLD-90-20', 'chamber', [[0, 80], [5, 91]], { open: true }).verdict).toBe('misses');
    expect(judgeOne('COLD-90-20', 'chamber', [...steady(80, 0, 30, 5), [60, 80]], { open: true }).verdict).toBe('not-proven');
    expect(judgeOne('COLD-90-20', 'chamber', steady(80, 0, 30, 5), { open: true }).verdict).toBe('open');
  });
  it('can miss a time limit by the marks alone', () => {
    expect(judgeOne('COLD-90-20', 'chamber', [], { marks: { inMinute: 0, outMinute: 1201 } }).verdict).toBe('misses');
  });
  it('need both marks for a time limit where readings may not stand for them', () => {
    const chamber = { name: 'Smoker', role: 'chamber' as const, readings: readingsF(steady(80, 0, 600, 5)) };
    const cold = (inMs?: number, outMs?: number) => {
      const batch = batchOf([chamber], { process: 'cold' });
      return judgeAlone('COLD-90-20', { ...batch, records: { ...batch.records, process: { inMs, outMs, open: false } } }).verdict;
    };
    expect([cold(), cold(0), cold(undefined, minutes(600)), cold(0, minutes(600))]).toEqual(['not-proven', 'not-proven', 'not-proven', 'meets']);
  });
  it('are judged per place, the worst decides', () => {
    const places = [{ name: 'Low', role: 'store' as const, readings: readingsF(steady(36, 0, 600, 30)) }, { name: 'High', role: 'store' as const, readings: readingsF([...steady(36, 0, 600, 30), [630, 39]]) }];
    expect(judgeAlone('STORE-38', batchOf(places))).toMatchObject({ verdict: 'misses', reason: 'High read 39 °F at minute 630, not 38 °F or below.' });
  });
  it('run from when the fish was chilled, where that is known', () => {
    const store = [{ name: 'Cooler', role: 'store' as const, readings: readingsF([[0, 50], [60, 40], [120, 37], [180, 37]]) }];
    expect(judgeAlone('STORE-38', batchOf(store)).verdict).toBe('meets');
    expect(judgeAlone('STORE-38', batchOf(store, { chilledMs: minutes(60) })).verdict).toBe('misses');
  });
  it('take the limit itself as too much where the advice says below', () => {
    expect(judgeOne('STORE-40-HOME', 'store', steady(40, 0, 120, 30)).verdict).toBe('misses');
    expect(judgeOne('STORE-40-HOME', 'store', steady(39.9, 0, 120, 30)).verdict).toBe('meets');
  });
});

describe('raw fish', () => {
  const RAW: Points = [[-180, 45], [-120, 38], [-60, 37]];
  it('is judged before the smoker, from the first reading at or below the limit', () => {
    const marked = { marks: { inMinute: 0 } };
    expect(judgeOne('RAW-38', 'piece', [...RAW, [0, 60], [60, 146]], marked).verdict).toBe('meets');
    expect(judgeOne('RAW-38', 'piece', [...RAW, [-30, 39], [0, 60]], marked).verdict).toBe('misses');
    expect(judgeOne('THAW-38', 'piece', [...RAW, [0, 60]], marked).verdict).toBe('misses');
    expect(judgeOne('RAW-38', 'piece', [[0, 60], [60, 146]], marked).verdict).toBe('not-proven');
  });
  it('is its own record when judged alone without marks', () => expect(judgeOne('RAW-38', 'piece', [...RAW, [0, 39]]).verdict).toBe('misses'));
  it('can’t be told from fish in the smoker in a set without an in mark', () => {
    const raw = (points: Points) => judgeSet(needSet('lodge-default'), batchOf([pieceF('A', points)]), limitBook, { words: minuteWords('F'), paper: false }).checks.find((check) => check.checkId === 'RAW-38')?.verdict;
    expect(raw([...RAW, [0, 60], [60, 146]])).toBe('not-proven');
    expect(raw(RAW)).toBe('meets');
  });
});

describe('the soak', () => {
  const room = { name: 'Room', role: 'room' as const, readings: readingsF(steady(45, 0, 300, 30)) };
  const brine = (points: Points) => ({ name: 'Tub', role: 'brine' as const, readings: readingsF(points) });
  it('is as long as its brine readings where marks are missing', () => {
    expect(judgeAlone('BRINE-4H-38', batchOf([room, brine([[0, 58], [240, 50]])])).verdict).toBe('does-not-apply');
    expect(judgeAlone('BRINE-4H-38', batchOf([room, brine([[0, 58], [241, 50]])])).verdict).toBe('misses');
    expect(judgeAlone('BRINE-4H-38', batchOf([room, brine([[0, 58]])])).verdict).toBe('misses');
  });
  it('has no length by a brine that nobody read, so its room is judged', () => {
    const unread = batchOf([room, brine([])]);
    expect(judgeAlone('BRINE-4H-38', { ...unread, records: { ...unread.records, soak: { inMs: minutes(-5), open: false } } }).verdict).toBe('misses');
  });
  it('is not over 4 h yet while it runs', () => {
    const batch = running(batchOf([room, brine([[0, 58], [200, 50]])]));
    expect(judgeAlone('BRINE-4H-38', { ...batch, records: { ...batch.records, soak: { inMs: 0, open: true } } }).verdict).toBe('open');
  });
  it('is not told by a brine first read hours later', () => {
    const late = (minute: number) => judgeOne('BRINE-START-60', 'brine', [[minute, 50]], { marks: { inMinute: 0 } }).verdict;
    expect([late(0), late(120), late(121)]).toEqual(['meets', 'meets', 'not-proven']);
  });
});

describe('a freezing from frozen solid on', () => {
  it('counts from the mark of frozen solid, not from the in mark, and never before either', () => {
    const freezer = (hours: number, inHour: number, solidHour: number) => judgeOne('PARA-FREEZE-B', 'store', steady(-33, 0, hours * 60, 60), { process: 'cold', marks: { inMinute: inHour * 60, frozenMinute: solidHour * 60 } });
    expect(freezer(20, 0, 6)).toMatchObject({ verdict: 'misses', provenMinutes: 840 });
    expect(freezer(21, 0, 6)).toMatchObject({ verdict: 'meets', provenMinutes: 900 });
    expect(freezer(20, 6, 0)).toMatchObject({ verdict: 'misses', provenMinutes: 840 });
  });
});

describe('a core in the freezer', () => {
  it('proves the stage until solid only where the freezer was recorded too', () => {
    const core = pieceF('A', [[0, 36], [60, 20], [120, -33], ...steady(-33, 180, 1200, 60)]);
    const freezer = { name: 'Freezer', role: 'store' as const, readings: readingsF(steady(-35, 0, 1200, 60)) };
    const frozen: Partial<JudgeCase> = { process: 'cold', frozenMs: minutes(120) };
    expect(judgeAlone('PARA-FREEZE-B', batchOf([core], frozen)).verdict).toBe('not-proven');
    expect(judgeAlone('PARA-FREEZE-B', batchOf([core, freezer], frozen)).verdict).toBe('meets');
  });
});

describe('the thermometer’s error', () => {
  it('moves a freezing down, a ceiling down and a cooling’s targets down', () => {
    const within = (checkId: string, role: 'store' | 'chamber' | 'piece', points: Points, instrumentError: number) => judgeOne(checkId, role, points, { process: checkId.startsWith('COOL') ? 'hot' : 'cold', instrumentError }).verdict;
    const freezer = steady(-6, 0, 168 * 60, 60);
    expect([2, 2.1].map((error) => within('PARA-FREEZE-A', 'store', freezer, error))).toEqual(['meets', 'meets-within-error']);
    expect([2, 2.1].map((error) => within('COLD-90-20', 'chamber', steady(88, 0, 600, 5), error))).toEqual(['meets', 'meets-within-error']);
    expect([2, 2.1].map((error) => within('STORE-38', 'store', steady(36, 0, 600, 30), error))).toEqual(['meets', 'meets-within-error']);
    // Only the last target is close: 41 °F less the error comes too late.
    const cooling: Points = [[0, 150], [5, 130], [60, 90], [100, 60], [200, 50], [310, 39], [400, 36]];
    expect([2, 2.1].map((error) => within('COOL-FC', 'piece', cooling, error))).toEqual(['meets', 'meets-within-error']);
  });
  it('moves the brine’s start down', () => {
    const brine = (instrumentError: number) => judgeOne('BRINE-START-60', 'brine', [[0, 58]], { instrumentError }).verdict;
    expect([brine(2), brine(2.1)]).toEqual(['meets', 'meets-within-error']);
  });
});

describe('sealing and reviewing', () => {
  const sealed = (sealedMs: number | undefined, frozenMs: number | undefined) => judgeAlone('ROP-FROZEN-FC', batchOf([], { pack: 'vacuum', store: 'frozen', sealedMs, frozenMs })).verdict;
  it('asks frozen solid before sealing', () => expect([sealed(10, 5), sealed(5, 10), sealed(5, 5), sealed(5, undefined)]).toEqual(['meets', 'misses', 'not-proven', 'not-proven']));
  it('allows a review seven days, to the moment', () => {
    const training = { what: 'training' as const, number: 'T-1', holder: 'R. Holm', onFileMs: 0 };
    const review = (days?: number) => judgeAlone('REC-REVIEW-7D', batchOf([], { facts: { onFile: [training], review: { recordedMs: 0, reviewedMs: days === undefined ? undefined : days * 86_400_000, reviewer: 'R. Holm' } } })).verdict;
    expect([review(7), review(7.001), review(8), review()]).toEqual(['meets', 'misses', 'misses', 'not-proven']);
  });
});
