/** Years, days, papers, thermometers and a kitchen's own figures on edges that the worked cases don't reach. The papers are invented. */
import { describe, expect, it } from 'vitest';
import { decimalFrom } from '../../app/limits/decimals.ts';
import { figuresOf, strictnessOf, withFigures } from '../../app/limits/figures.ts';
import { aloneContext, judgeCheck } from '../../app/limits/judge.ts';
import type { CaseFacts, JudgeCase } from '../../app/limits/judge-case.ts';
import type { Check, Source } from '../../app/limits/limit-set.ts';
import { FILED_KINDS, FILED_WORDS, type FiledRecord } from '../../app/limits/on-file.ts';
import { bookWith, ownSetFrom, tightenCheck, type OwnSet } from '../../app/limits/own-set.ts';
import { minuteWords } from '../../app/limits/words.ts';
import type { Outcome } from '../../app/measures/outcome.ts';
import { batchOf, judgeAlone, minutes, needCheck, needSet, pieceF } from '../support/judge-cases.ts';
import { limitBook } from '../support/judged-log.ts';

const DAY_MS = 86_400_000;
const judgeFacts = (checkId: string, facts: CaseFacts, more: Partial<JudgeCase> = {}) => judgeAlone(checkId, batchOf([], { ...more, facts }));

describe('years from 29 February', () => {
  const keptTo = (madeOn: string, years: number) => {
    const check = needCheck('REC-KEEP-1Y');
    const long: Check = check.kind === 'retention' ? { ...check, length: { years } } : check;
    return judgeCheck(long, batchOf([], { store: 'refrigerated', facts: { keeping: { madeOn } } }), aloneContext(limitBook, minuteWords('F'))).needed;
  };
  it('end on 1 March of a year that has none, a century year included', () => {
    expect([keptTo('2024-02-29', 1), keptTo('2024-02-29', 2), keptTo('2024-02-29', 3)]).toEqual(['The record kept until 1 Mar 2025.', 'The record kept until 1 Mar 2026.', 'The record kept until 1 Mar 2027.']);
    expect(keptTo('2096-02-29', 4)).toBe('The record kept until 1 Mar 2100.');
  });
  it('end on 29 February of a leap year, a century year that 400 divides included', () => {
    expect([keptTo('2024-02-29', 4), keptTo('2096-02-29', 304)]).toEqual(['The record kept until 29 Feb 2028.', 'The record kept until 29 Feb 2400.']);
  });
});

describe('what is counted in days and minutes', () => {
  const review = (reviewedMs: number) => judgeFacts('REC-REVIEW-7D', { review: { recordedMs: 0, reviewedMs, reviewer: 'K. Aho' }, onFile: [] });
  it('ends seven days after the record to the millisecond, and is said in days begun', () => {
    expect([review(7 * DAY_MS).verdict, review(7 * DAY_MS + 1).verdict]).toEqual(['not-proven', 'misses']);
    expect(review(7 * DAY_MS + 1).reason).toBe('Reviewed 8 days after it was made; 7 allowed.');
  });
  it('stays open while the review may come', () => expect(judgeFacts('REC-REVIEW-7D', { review: { mayCome: true } }).verdict).toBe('open'));
  it('says how old a brine was', () => {
    expect(judgeFacts('BRINE-REUSE-AK', { cure: 'wet', brineBatchNumber: 2, brineAgeMinutes: 6000 }).reason).toBe('The brine was 6000 min old and not filtered; 240 min allowed.');
  });
  it('stays open on the reuse of a brine that the fish is in', () => {
    const { records } = batchOf([]);
    const reused = (open: boolean) => judgeFacts('BRINE-REUSE', { cure: 'wet' }, { records: { ...records, soak: { open } } }).verdict;
    expect([reused(true), reused(false)]).toEqual(['open', 'not-proven']);
  });
  it('of opened packs names the first that was used too late', () => {
    const opened = [50, 60].map((hours) => ({ openedMs: 0, usedUpMs: minutes(hours * 60) }));
    expect(judgeFacts('ROP-48H-FC', { openedPacks: opened }, { pack: 'vacuum' }).reason).toBe('Used up 3000 min after it was opened; 48 h allowed.');
  });
  it('misses for a chilled vacuum pack, whatever was frozen before', () => {
    const judged = (store: 'refrigerated' | 'frozen') => judgeFacts('ROP-FROZEN-FC', { variance: false }, { pack: 'vacuum', store, frozenMs: 1, sealedMs: 2 }).verdict;
    expect([judged('refrigerated'), judged('frozen')]).toEqual(['misses', 'meets']);
  });
});

describe('the thermometers', () => {
  const loadMs = Date.parse('2026-07-14T08:00:00Z');
  const paper = (what: FiledRecord['what'], onFileMs: number): FiledRecord => ({ what, number: 'T1', holder: 'K. Aho', onFileMs });
  const checked = (checkId: string, onFile: readonly FiledRecord[], points = true) => judgeAlone(checkId, batchOf(points ? [{ ...pieceF('A', []), readings: [{ atMs: loadMs, lowTicks: 0, highTicks: 0 }] }] : [], {
    facts: { probesUsed: ['T1'], loadDayStartMs: Date.parse('2026-07-14T00:00:00Z'), onFile },
  }));
  const dayBefore = loadMs - DAY_MS;
  it('prove nothing where nothing tells when they were used', () => {
    expect(checked('CAL-1Y', [paper('probe-check', 0)], false)).toMatchObject({ verdict: 'not-proven', reason: 'When the thermometers were used is not recorded.' });
  });
  it('were checked in time where that was before the first reading', () => {
    expect([checked('CAL-1Y', [paper('probe-check', dayBefore)]).verdict, checked('CAL-1Y', [paper('probe-check', loadMs + 1)]).verdict]).toEqual(['meets', 'not-proven']);
  });
  it('were checked on the day by a check in ice, and by no other paper of their number', () => {
    expect(checked('CAL-TODAY', [paper('ice-check', loadMs - 1)])).toMatchObject({ verdict: 'meets', reason: 'T1: checked on the day, before the load went in.' });
    expect(checked('CAL-TODAY', [paper('training', loadMs - 1)])).toMatchObject({ verdict: 'not-proven', reason: 'T1: no check on file.' });
    expect(checked('CAL-TODAY', [paper('ice-check', dayBefore)]).reason).toBe('T1: not checked on the day before the load went in.');
  });
  it('have a word for every kind of paper', () => expect([...FILED_KINDS].sort()).toEqual(Object.keys(FILED_WORDS).sort()));
});

describe('figures', () => {
  const percent = { field: 'percent', value: '3.5', unit: '%', stricter: 'higher' } as const;
  it('of a label are its days or the hours of an opened pack', () => {
    expect(figuresOf(needCheck('LIFE-14-MI'))).toEqual([{ field: 'lifeDays', value: '14', unit: 'days', stricter: 'lower' }]);
    expect(figuresOf(needCheck('ROP-48H-FC'))).toEqual([{ field: 'openedHours', value: '48', unit: 'h', stricter: 'lower' }]);
  });
  it('of salt are compared to any decimal', () => {
    expect(['3.50000001', '3.50', '3.49999999'].map((value) => strictnessOf(percent, { field: 'percent', value }))).toEqual(['tighter', 'same', 'looser']);
  });
  it('of temperature are exact in the unit that they are given in', () => {
    const limit = (value: string, unit: 'F' | 'C') => withFigures(needCheck('HOT-145-30'), [{ field: 'limit', value, unit }]);
    expect([limit('145.0002', 'F').ok, limit('62.0002', 'C').ok, limit('62.002', 'C').ok]).toEqual([true, false, true]);
    expect(problem(limit(`145.${'0'.repeat(61)}`, 'F'))).toContain('is not a temperature');
  });
  it('are read with an exponent as whole digits', () => expect(decimalFrom('12e1')).toEqual({ digits: 120n, scale: 0 }));
});

describe('a kitchen’s own set', () => {
  const OURS: Source = { publisher: 'Tamarack Narrows Lodge', title: 'Kitchen plan', section: 'smoking', year: 2026, mark: 'common practice' };
  const plan = (baseId: string) => must(ownSetFrom(needSet(baseId), limitBook, { id: 'tamarack', name: 'Tamarack plan', version: '1', effectiveFrom: '2026-05-01', note: 'Our own plan.' }));
  const longer = (set: OwnSet, minutesAsked: string, book = limitBook) => tightenCheck(set, book, 'HOT-145-30', [{ field: 'minutes', value: minutesAsked }], OURS);
  it('is tightened from its own newest figure, not from one that a book still has', () => {
    const first = must(longer(plan('lodge-default'), '35'));
    const book = bookWith(limitBook, [first]);
    const second = must(longer(first, '40', book));
    expect(longer(second, '36', book).ok).toBe(false);
    expect(longer(second, '41', book).ok).toBe(true);
  });
  it('cites the kitchen for the figure it tightened, and the set’s own texts for the others', () => {
    const set = must(tightenCheck(plan('mi-plant'), limitBook, 'BRINE-START-60', [{ field: 'limit', value: '55' }], OURS));
    const cited = set.answers.find(({ cites }) => cites?.['BRINE-4H-38'] !== undefined);
    expect(Object.keys(cited?.cites ?? {})).toEqual(['BRINE-4H-38', 'DRYSALT-38', 'BRINE-REUSE']);
  });
});

function must<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}
function problem(outcome: Outcome<unknown>): string {
  if (outcome.ok) throw new Error('was not refused');
  return outcome.problem.message;
}
