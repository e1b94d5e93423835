/**
 * Papers that must be there. Review within 7 days by a trained person: 21 CFR 123.8(a)(3) (from
 * memory); records kept 1 year chilled, 2 years frozen: 21 CFR 123.9(b) (read); 90 days after serving:
 * State of New York, 1 NYCRR 271-2.14 (read). Permission before smoking to preserve: US FDA Food Code
 * 3-502.11 (read). Thermometers checked yearly: Michigan R 285.569.3 (read); daily before work: US FDA
 * Hazards and Controls Guidance chapter 13 (from memory). Films: Ontario Fish Plant Guidelines
 * F.B.14.19 (read). Days of shelf life: Food Code 3-501.17 (read). The papers are invented (computed).
 */
import { describe, expect, it } from 'vitest';
import type { CaseFacts, JudgeCase } from '../../app/limits/judge-case.ts';
import type { FiledRecord } from '../../app/limits/on-file.ts';
import { batchOf, judgeAlone } from '../support/judge-cases.ts';

const DAY = 86_400_000;
const at = (day: string) => Date.parse(`${day}T12:00:00Z`);
const paper = (what: FiledRecord['what'], more: Partial<FiledRecord> = {}): FiledRecord => ({ what, number: 'N-1', holder: 'Tamarack Narrows Lodge', onFileMs: at('2026-01-05'), ...more });
/** Smoked on 1 June 2026 and sealed the next day. */
function june(facts: CaseFacts, more: Partial<JudgeCase> = {}): JudgeCase {
  const batch = batchOf([], { sealedMs: at('2026-06-02'), ...more, facts });
  return { ...batch, records: { ...batch.records, process: { inMs: at('2026-06-01'), outMs: at('2026-06-01') + DAY / 4, open: false } } };
}
const found = (checkId: string, facts: CaseFacts, more: Partial<JudgeCase> = {}) => judgeAlone(checkId, june(facts, more));

describe('the review of the record', () => {
  const training = paper('training', { holder: 'R. Holm', validUntilMs: at('2027-01-05') });
  const reviewed = (days: number, onFile: FiledRecord[] = [training], reviewer?: string) => found('REC-REVIEW-7D', { onFile, review: { recordedMs: at('2026-06-02'), reviewedMs: at('2026-06-02') + days * DAY, reviewer } });

  it('R1: on day 8 misses, on day 7 by a trained person meets', () => {
    expect(reviewed(8, [training], 'R. Holm').verdict).toBe('misses');
    expect(reviewed(7, [training], 'R. Holm')).toMatchObject({ verdict: 'meets', reason: 'Reviewed by R. Holm within 7 days. Training certificate N-1 (R. Holm), valid until 5 Jan 2027.' });
  });
  it('is not proven by a person without a certificate, with one that expired, or with somebody else’s', () => {
    expect(reviewed(2, [], 'R. Holm').reason).toBe('Reviewed by R. Holm within 7 days. No training certificate is on file.');
    expect(reviewed(2, [{ ...training, validUntilMs: at('2026-05-31') }], 'R. Holm').reason).toContain('expired on 31 May 2026');
    expect([reviewed(2, [], 'R. Holm'), reviewed(2, [{ ...training, validUntilMs: at('2026-05-31') }], 'R. Holm'), reviewed(2, [training], 'K. Moss'), reviewed(2)].map((one) => one.verdict)).toEqual(Array(4).fill('not-proven'));
  });
});

describe('records kept', () => {
  const kept = (checkId: string, keeping: CaseFacts['keeping'], more: Partial<JudgeCase> = {}) => found(checkId, { keeping }, { store: checkId === 'REC-KEEP-2Y' ? 'frozen' : 'refrigerated', process: 'cold', ...more });

  it('R2: of frozen fish destroyed at 18 months misses', () => {
    expect(kept('REC-KEEP-2Y', { madeOn: '2026-06-01', keptUntil: '2027-12-01' })).toMatchObject({ verdict: 'misses', reason: 'Kept until 1 Dec 2027; 2 years from 1 Jun 2026 are 1 Jun 2028.', needed: 'The record kept until 1 Jun 2028.' });
  });
  it('meet on the very day', () => {
    expect(kept('REC-KEEP-2Y', { madeOn: '2026-06-01', keptUntil: '2028-06-01' }).verdict).toBe('meets');
    expect(kept('REC-KEEP-1Y', { madeOn: '2026-06-01', keptUntil: '2027-06-01' }).verdict).toBe('meets');
    expect(kept('REC-KEEP-1Y', { madeOn: '2026-06-01', keptUntil: '2027-05-31' }).verdict).toBe('misses');
    expect(kept('REC-KEEP-1Y', { madeOn: '2028-02-29', keptUntil: '2029-02-28' }).verdict).toBe('misses');
    expect(kept('REC-KEEP-1Y', { madeOn: '2028-02-29', keptUntil: '2029-03-01' }).verdict).toBe('meets');
  });
  it('count 90 days from the last serving, which must be known', () => {
    expect(kept('REC-KEEP-90D', { servedOn: '2026-06-01', keptUntil: '2026-08-30' }).verdict).toBe('meets');
    expect(kept('REC-KEEP-90D', { servedOn: '2026-06-01', keptUntil: '2026-08-29' }).verdict).toBe('misses');
    expect(kept('REC-KEEP-90D', { madeOn: '2026-06-01', keptUntil: '2030-01-01' }).verdict).toBe('not-proven');
    const batch = june({ keeping: { keptUntil: '2030-01-01' } }, { process: 'cold' });
    expect(judgeAlone('REC-KEEP-90D', { ...batch, records: { ...batch.records, store: { open: true } } }).verdict).toBe('open');
  });
  it('prove nothing without a day until which they are kept', () => expect(kept('REC-KEEP-1Y', { madeOn: '2026-06-01' })).toMatchObject({ verdict: 'not-proven', needed: 'The record kept until 1 Jun 2027.' }));
  it('are asked for one year chilled and two frozen', () => {
    expect(kept('REC-KEEP-1Y', {}, { store: 'frozen' }).verdict).toBe('does-not-apply');
    expect(kept('REC-KEEP-2Y', {}, { store: 'refrigerated' }).verdict).toBe('does-not-apply');
  });
});

describe('a permission', () => {
  const permitted = (more: Partial<FiledRecord>) => found('PERMIT-FC', { onFile: [paper('permission', more)] });

  it('says until when it is valid', () => expect(permitted({ validUntilMs: at('2026-12-31') })).toMatchObject({ verdict: 'meets', reason: 'Permission N-1 (Tamarack Narrows Lodge), valid until 31 Dec 2026.' }));
  it('must have been valid from the start of the batch to its sealing', () => {
    expect(permitted({ validUntilMs: at('2026-06-02') }).verdict).toBe('meets');
    expect(permitted({ validUntilMs: at('2026-06-02') - 1 }).reason).toContain('before the batch was finished');
    expect(permitted({ validUntilMs: at('2026-05-31') }).reason).toContain('expired on 31 May 2026');
    expect(permitted({ validFromMs: at('2026-06-02') }).reason).toContain('valid only from 2 Jun 2026');
    expect([permitted({ validUntilMs: at('2026-06-02') - 1 }), permitted({ validUntilMs: at('2026-05-31') }), permitted({ validFromMs: at('2026-06-02') })].map((one) => one.verdict)).toEqual(Array(3).fill('not-proven'));
  });
  it('put on file afterwards counts from its own date and is said to be late; without a date it counts from its filing', () => {
    expect(permitted({ validFromMs: at('2026-01-01'), onFileMs: at('2026-07-01') })).toMatchObject({ verdict: 'meets', reason: 'Permission N-1 (Tamarack Narrows Lodge), without an end, put on file on 1 Jul 2026.' });
    expect(permitted({ onFileMs: at('2026-07-01') }).verdict).toBe('not-proven');
  });
  it('is not proven without a paper, by another kind of paper, or where the batch has no date', () => {
    expect(found('PERMIT-FC', { onFile: [] }).reason).toBe('No permission is on file.');
    expect(found('PERMIT-FC', { onFile: [paper('variance')] }).verdict).toBe('not-proven');
    expect(judgeAlone('PERMIT-FC', batchOf([], { facts: { onFile: [paper('permission')] } })).verdict).toBe('not-proven');
  });
  it('of Michigan is a variance for cold smoke and for vacuum packs', () => {
    const onFile = [paper('variance')];
    expect(found('VARIANCE-MI-COLD', { onFile: [] }).verdict).toBe('does-not-apply');
    expect([found('VARIANCE-MI-COLD', { onFile: [] }, { process: 'cold' }), found('VARIANCE-MI-COLD', { onFile }, { process: 'cold' }), found('VARIANCE-MI-ROP', { onFile: [] }, { pack: 'vacuum' }), found('VARIANCE-MI-ROP', { onFile }, { pack: 'vacuum' })].map((one) => one.verdict)).toEqual(['not-proven', 'meets', 'not-proven', 'meets']);
  });
  it('as a manager’s initials must be given before the batch leaves', () => {
    const initialled = (day?: string) => {
      const batch = june({ onFile: day === undefined ? [] : [paper('manager-initials', { onFileMs: at(day) })] });
      return judgeAlone('REC-INITIALS-MI', { ...batch, records: { ...batch.records, store: { outMs: at('2026-06-10'), open: false } } }).verdict;
    };
    expect([initialled('2026-06-10'), initialled('2026-06-11'), initialled()]).toEqual(['meets', 'misses', 'not-proven']);
  });
});

describe('thermometers', () => {
  const check = (number: string, day: string, more: Partial<FiledRecord> = {}) => paper('probe-check', { number, onFileMs: at(day), ...more });

  it('must each have been checked within 12 months of their use', () => {
    const yearly = (onFile: FiledRecord[], probesUsed: string[] | undefined = ['P1', 'P2']) => found('CAL-1Y', { onFile, probesUsed });
    expect(yearly([check('P1', '2025-06-02'), check('P2', '2026-03-01')])).toMatchObject({ verdict: 'meets', reason: 'P1 and P2: checked, the next check due by 2 Jun 2026.' });
    expect(yearly([check('P1', '2025-06-01'), check('P2', '2026-03-01')])).toMatchObject({ verdict: 'not-proven', reason: 'P1: its check was good until 1 Jun 2026.' });
    expect(yearly([check('P1', '2026-03-01')]).reason).toBe('P2: no check on file.');
    expect(yearly([check('P1', '2026-03-01'), check('P2', '2026-06-03')]).reason).toBe('P2: checked only on 3 Jun 2026.');
    expect(yearly([check('P1', '2026-03-01'), check('P2', '2026-03-01', { validUntilMs: at('2026-05-01') })]).verdict).toBe('not-proven');
    expect(found('CAL-1Y', { onFile: [check('P1', '2026-03-01')] }).verdict).toBe('not-proven');
    expect(yearly([], []).verdict).toBe('not-proven');
  });
  it('must be checked in ice on the day, before the load goes in', () => {
    const loadDayStartMs = Date.parse('2026-06-01T00:00:00Z');
    const today = (onFileMs: number, what: FiledRecord['what'] = 'ice-check') => found('CAL-TODAY', { onFile: [paper(what, { number: 'P1', onFileMs })], probesUsed: ['P1'], loadDayStartMs }).verdict;
    expect([today(loadDayStartMs), today(at('2026-06-01')), today(at('2026-06-01'), 'probe-check')]).toEqual(['meets', 'meets', 'meets']);
    expect([today(loadDayStartMs - 1), today(at('2026-06-01') + 1)]).toEqual(['not-proven', 'not-proven']);
    expect(found('CAL-TODAY', { onFile: [paper('ice-check', { number: 'P1', onFileMs: at('2026-06-01') })], probesUsed: ['P1'] }).verdict).toBe('not-proven');
  });
});

describe('labels, packs and films', () => {
  const life = (checkId: string, days: number | undefined, more: Partial<JudgeCase> = {}) => found(checkId, { labelLifeDays: days }, { store: 'refrigerated', pack: 'vacuum', ...more }).verdict;

  it('give at most the days of shelf life that the rule allows', () => {
    expect([life('LIFE-10-UK', 10), life('LIFE-10-UK', 11), life('LIFE-10-UK', undefined), life('LIFE-10-UK', 11, { store: 'frozen' })]).toEqual(['meets', 'misses', 'not-proven', 'does-not-apply']);
    expect([life('LIFE-7-FC', 7, { pack: 'air' }), life('LIFE-7-FC', 8, { pack: 'air' }), life('LIFE-7-FC', 8)]).toEqual(['meets', 'misses', 'does-not-apply']);
    expect([life('LIFE-14-MI', 14), life('LIFE-14-MI', 15), life('LIFE-14-CA', 15, { pack: 'air' })]).toEqual(['meets', 'misses', 'misses']);
  });
  it('opened here are used up within 48 h', () => {
    const opened = (openedPacks: CaseFacts['openedPacks']) => found('ROP-48H-FC', { openedPacks }, { pack: 'vacuum' }).verdict;
    expect([opened([{ openedMs: 0, usedUpMs: 2 * DAY }]), opened([{ openedMs: 0, usedUpMs: 2 * DAY + 1 }]), opened([{ openedMs: 0 }]), opened([]), opened(undefined)]).toEqual(['meets', 'misses', 'not-proven', 'does-not-apply', 'not-proven']);
  });
  it('let enough oxygen through, by their maker’s paper', () => {
    const film = (oxygenRate: string | undefined, filmUsed: string | undefined = 'F-7') => found('OTR-2000-CA', { onFile: [paper('film', { number: 'F-7', oxygenRate })], filmUsed }, { pack: 'air' }).verdict;
    expect([film('2000'), film('1999.9'), film(undefined), film('5000', 'F-8')]).toEqual(['meets', 'misses', 'not-proven', 'not-proven']);
    expect(found('OTR-2000-CA', { onFile: [paper('film', { number: 'F-7', oxygenRate: '5000' })] }, { pack: 'air' }).verdict).toBe('not-proven');
    expect(found('OTR-10000', { onFile: [paper('film', { number: 'F-7', oxygenRate: '9999' })], filmUsed: 'F-7' }, { pack: 'air' }).verdict).toBe('misses');
  });
});
