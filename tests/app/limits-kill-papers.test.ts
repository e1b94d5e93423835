/** Days, papers and brine on the edges that the worked cases don't reach. The papers are invented. */
import { describe, expect, it } from 'vitest';
import { judgeCheck, aloneContext } from '../../app/limits/judge.ts';
import type { CaseFacts, JudgeCase } from '../../app/limits/judge-case.ts';
import type { Check } from '../../app/limits/limit-set.ts';
import { batchSpan, standingOf, type FiledRecord } from '../../app/limits/on-file.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, judgeAlone, minutes, needCheck, pieceF } from '../support/judge-cases.ts';
import { limitBook } from '../support/judged-log.ts';

const words = minuteWords('F');
const at = (day: string) => Date.parse(`${day}T12:00:00Z`);
const judgeFacts = (checkId: string, facts: CaseFacts, more: Partial<JudgeCase> = {}) => judgeAlone(checkId, batchOf([], { ...more, facts }));

describe('a record kept for years from 29 February', () => {
  const keepFour = (madeOn: string, keptUntil: string) => {
    const check = needCheck('REC-KEEP-1Y');
    const four: Check = check.kind === 'retention' ? { ...check, length: { years: 4 } } : check;
    return judgeCheck(four, batchOf([], { store: 'refrigerated', facts: { keeping: { madeOn, keptUntil } } }), aloneContext(limitBook, words)).verdict;
  };
  it('is kept to 29 February where the last year has one', () => {
    expect([keepFour('2024-02-29', '2028-02-28'), keepFour('2024-02-29', '2028-02-29')]).toEqual(['misses', 'meets']);
  });
  it('is kept to the same day otherwise, 29 March and 28 February included', () => {
    expect([keepFour('2025-03-29', '2029-03-28'), keepFour('2025-03-29', '2029-03-29')]).toEqual(['misses', 'meets']);
    expect([keepFour('2025-02-28', '2029-02-27'), keepFour('2025-02-28', '2029-02-28')]).toEqual(['misses', 'meets']);
  });
});

describe('several papers of a kind', () => {
  const paper = (number: string, from: string, until?: string): FiledRecord => ({ what: 'permission', number, holder: 'Lodge', onFileMs: at('2020-01-01'), validFromMs: at(from), ...(until === undefined ? {} : { validUntilMs: at(until) }) });
  const span = { fromMs: at('2026-06-01'), toMs: at('2026-06-02') };
  const named = (records: FiledRecord[]) => standingOf(records, 'permission', span, words).record?.number;
  it('are told by the one that lasts longest, then the one that began first, then by number', () => {
    const [short, long, endless] = [paper('A', '2026-01-01', '2026-07-01'), paper('B', '2026-01-01', '2026-08-01'), paper('C', '2026-01-01')];
    expect([named([short, long]), named([long, short]), named([short, endless, long])]).toEqual(['B', 'B', 'C']);
    expect([named([paper('D', '2026-02-01', '2026-08-01'), long]), named([long, paper('D', '2026-02-01', '2026-08-01')])]).toEqual(['B', 'B']);
    expect([named([paper('E', '2026-01-01', '2026-08-01'), long]), named([long, paper('E', '2026-01-01', '2026-08-01')])]).toEqual(['B', 'B']);
  });
  it('say the latest end where none is valid', () => {
    expect(standingOf([paper('A', '2025-01-01', '2026-01-01'), paper('B', '2025-01-01', '2026-03-01')], 'permission', span, words).text).toContain('expired on 1 Mar 2026.');
    expect(standingOf([paper('A', '2026-01-01', '2026-06-01')], 'permission', span, words).text).toContain('before the batch was finished');
    expect(standingOf([paper('A', '2026-06-02')], 'permission', span, words).text).toContain('valid only from 2 Jun 2026');
  });
});

describe('when a batch was made', () => {
  const spanOf = (more: Partial<JudgeCase>, record?: 'process' | 'store') => {
    const found = batchSpan(batchOf([pieceF('A', [[30, 146], [10, 140], [20, 145]], record === undefined ? {} : { record })], more));
    return found === undefined ? undefined : [found.fromMs / 60_000, found.toMs / 60_000];
  };
  it('begins with its soak or its chamber, else with its first reading, and ends with its sealing', () => {
    const records = (soakIn?: number, processIn?: number, processOut?: number): JudgeCase['records'] => ({
      process: { open: false, inMs: processIn === undefined ? undefined : minutes(processIn), outMs: processOut === undefined ? undefined : minutes(processOut) },
      soak: { open: false, inMs: soakIn === undefined ? undefined : minutes(soakIn) }, freezer: { open: false }, store: { open: false },
    });
    expect(spanOf({})).toEqual([10, 10]);
    expect(spanOf({}, 'process')).toEqual([10, 10]);
    expect(spanOf({}, 'store')).toBeUndefined();
    expect(spanOf({ records: records(2, 5, 50) })).toEqual([2, 50]);
    expect(spanOf({ records: records(undefined, 5), sealedMs: minutes(70) })).toEqual([5, 70]);
    expect(spanOf({ records: records(undefined, 5, 50), sealedMs: minutes(40) })).toEqual([5, 50]);
  });
});

describe('brine used again', () => {
  const again = (checkId: string, facts: CaseFacts) => judgeFacts(checkId, { cure: 'wet', ...facts });
  it('is told in words for new brine, for each batch and for its age', () => {
    expect(again('BRINE-REUSE-AK', { brineBatchNumber: 1 })).toMatchObject({ verdict: 'meets', reason: 'The brine was new.' });
    expect(again('BRINE-REUSE-AK', { brineBatchNumber: 2, brineFiltered: true })).toMatchObject({ verdict: 'meets', reason: 'This is batch 2 of the brine.' });
    expect(again('BRINE-REUSE-AK', { brineBatchNumber: 3, brineAgeMinutes: 240 })).toMatchObject({ verdict: 'meets', reason: 'This is batch 3 of the brine, 240 min old.' });
    expect(again('BRINE-REUSE-AK', { brineBatchNumber: 3, brineAgeMinutes: 241 })).toMatchObject({ verdict: 'misses', reason: 'The brine was 241 min old and not filtered; 240 min allowed.' });
    expect(again('BRINE-REUSE-AK', { brineBatchNumber: 4, brineFiltered: true })).toMatchObject({ verdict: 'misses', needed: 'A brine used for 3 batches at most.' });
    expect(again('BRINE-REUSE-AK', { brineBatchNumber: 2 }).verdict).toBe('not-proven');
    expect(again('BRINE-REUSE', { brineReused: true })).toMatchObject({ verdict: 'misses', needed: 'New brine.' });
    expect(again('BRINE-REUSE-AK', { brineReused: true }).verdict).toBe('not-proven');
  });
});

describe('frozen before sealing', () => {
  const sealed = (more: Partial<JudgeCase>) => judgeAlone('ROP-FROZEN-FC', batchOf([], { pack: 'vacuum', store: 'frozen', facts: { variance: false }, ...more }));
  it('names the mark that is missing', () => {
    expect(sealed({}).reason).toBe('When it was frozen solid and when it was sealed are not marked.');
    expect(sealed({ frozenMs: 0 }).reason).toBe('When it was sealed is not marked.');
    expect(sealed({ sealedMs: 0 }).reason).toBe('When it was frozen solid is not marked.');
  });
  it('waits for the sealing while the store runs, and not for the freezing', () => {
    const running = { records: { process: { open: false }, soak: { open: false }, freezer: { open: false }, store: { open: true } } };
    expect([sealed(running).verdict, sealed({ ...running, sealedMs: 0 }).verdict]).toEqual(['open', 'not-proven']);
  });
  it('is not proven of fish that was taken out before or as it was sealed', () => {
    expect([9, 10, 11].map((out) => sealed({ frozenMs: 0, sealedMs: minutes(10), thawedMs: minutes(out) }).verdict)).toEqual(['not-proven', 'not-proven', 'meets']);
  });
});
