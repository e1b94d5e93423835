/**
 * How a set's answers become a verdict, on edges that the worked cases don't reach: groups, silences, the
 * scheduled process as one more option for a salt minimum and for nothing else, and what a gate says.
 */
import { describe, expect, it } from 'vitest';
import { mayPass } from '../../app/limits/gates.ts';
import { judgeSet, contextOf, type SetOptions, type SetResult } from '../../app/limits/judge-set.ts';
import type { JudgeCase } from '../../app/limits/judge-case.ts';
import type { Answer, Check, LimitBook } from '../../app/limits/limit-set.ts';
import type { ScheduledProcess } from '../../app/limits/scheduled-process.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, judgeAlone, minutes, needCheck, needSet, pieceF } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const words = minuteWords('F');
const lodge = needSet('lodge-default');
const COOLED: Points = [[0, 150], [5, 130], [60, 69], [150, 50], [240, 40]];
const VACUUM = { pack: 'vacuum', store: 'refrigerated' } as const;

function setOf(answers: readonly Answer[], batch: JudgeCase = batchOf([]), options: Partial<SetOptions> = {}, book: LimitBook = limitBook): SetResult {
  return judgeSet({ ...lodge, answers }, batch, book, { words, paper: false, ...options });
}
const verdictsOf = (result: SetResult, question: string) => result.units.filter((unit) => unit.question === question).map(({ deciding, verdict }) => `${deciding.checkId} ${verdict}`);

describe('a set', () => {
  it('keeps its hold together beside an answer that says nothing of it', () => {
    const besides: Answer = { question: 'chamber', checks: ['PERMIT-FC'], besides: true };
    expect(contextOf({ ...lodge, answers: [...lodge.answers, besides] }, batchOf([]), limitBook, words).together).toBe(true);
  });
  it('leaves out the questions that it is told to, names them, and judges the rest', () => {
    const result = judgeSet(lodge, batchOf([pieceF('A', COOLED)], VACUUM), limitBook, { words, paper: true, leaveOut: ['salt', 'store'] });
    expect(result.units.map(({ question }) => question).filter((question) => question === 'salt' || question === 'store')).toEqual([]);
    expect(result.notJudgedHere).toEqual(expect.arrayContaining(['salt', 'store']));
    expect(verdictsOf(result, 'cooling')).toEqual(['COOL-AFDO meets']);
    expect(result.notJudgedHere).not.toContain('cooling');
  });
  it('is silent on a question that only something beside it is judged for', () => {
    const result = setOf([{ question: 'cooling', checks: ['COOL-FC'], besides: true }], batchOf([pieceF('A', COOLED)]));
    expect(verdictsOf(result, 'cooling')).toEqual(['COOL-FC meets', 'cooling no-figure']);
    expect(result.units.find(({ verdict }) => verdict === 'no-figure')?.deciding).toMatchObject({ takesNoPart: false, frozenStandsIn: false, reason: 'Lodge default gives no figure for this. Silence is not a pass.' });
  });
  it('is not silent where one check of an answer applies and another does not', () => {
    const result = setOf([{ question: 'cooling', checks: ['COOL-FC', 'COOL-CHUB'] }], batchOf([pieceF('A', COOLED)], { species: 'Salvelinus namaycush' }));
    expect(verdictsOf(result, 'cooling')).toEqual(['COOL-FC meets', 'COOL-CHUB does-not-apply']);
  });
});

describe('a group', () => {
  it('of one option is judged by it', () => {
    expect(verdictsOf(setOf([{ question: 'cooling', oneOf: ['COOL-FC'] }], batchOf([pieceF('A', COOLED)])), 'cooling')).toEqual(['COOL-FC meets']);
  });
  it('of papers alone is nothing where no papers are kept', () => {
    expect(verdictsOf(setOf([{ question: 'pack', oneOf: ['PERMIT-FC', 'PERMIT-AK'] }]), 'record')).toEqual([]);
  });
  it('is not proven where an option might take part, though another does not apply', () => {
    const result = setOf([{ question: 'salt', oneOf: ['WPS-ROP-3.0-N', 'WPS-AIR-2.5'] }], batchOf([], { ...VACUUM, species: 'Oncorhynchus nerka' }));
    expect(verdictsOf(result, 'salt')).toEqual(['WPS-ROP-3.0-N not-proven']);
  });
});

describe('a scheduled process', () => {
  const process: ScheduledProcess = {
    name: 'Plan 7', window: [{ what: 'soak in min', limit: '600', side: 'at-least', actual: '600' }], letter: { authority: 'Northwater Process Authority', number: 'L-7', fileId: 'file-1' },
    verifiedFromMs: 0, verifiedUntilMs: minutes(1000),
  };
  const batch = (more: Partial<JudgeCase> = {}, points: Points = steady(140, 0, 60, 5)): JudgeCase => {
    const plain = batchOf([pieceF('A', points)], { ...VACUUM, scheduledProcess: process, ...more });
    return { ...plain, records: { ...plain.records, process: { open: false, inMs: 0, outMs: minutes(60) } } };
  };
  const sample = { saltSamples: [{ saltPercent: '2', moisturePercent: '65' }] };
  it('stands for the salt minimum, also where that is a single check, under its own name', () => {
    const result = setOf([{ question: 'salt', checks: ['WPS-ROP-3.5'] }], batch());
    expect(verdictsOf(result, 'salt')).toEqual(['SCHEDULED meets']);
    expect(result.units.find(({ question }) => question === 'salt')?.deciding.title).toBe('Plan 7');
  });
  it('stands for nothing else: a hold that is missed stays missed', () => {
    const result = judgeSet(lodge, batch(), limitBook, { words, paper: false });
    expect(verdictsOf(result, 'chamber')).toEqual(['HOT-145-30 misses', 'HOT-PROBES-3 not-proven']);
    expect([...new Set(result.units.filter(({ checks }) => checks.some(({ checkId }) => checkId === 'SCHEDULED')).map(({ question }) => question))]).toEqual(['salt']);
  });
  it('stands for no salt minimum of another pack', () => {
    expect(verdictsOf(setOf([{ question: 'salt', checks: ['WPS-AIR-2.5'] }], batch()), 'salt')[0]).toBe('WPS-AIR-2.5 does-not-apply');
  });
  it('stands for a total of salt as it does for the water phase', () => {
    expect(verdictsOf(setOf([{ question: 'salt', checks: ['SALT-9-CA'] }], batch()), 'salt')).toEqual(['SCHEDULED meets']);
  });
  it('is contradicted only where a sample misses every option that takes part', () => {
    const other: Check = { ...needCheck('WPS-ROP-3.5'), id: 'SALT-N', kind: 'water-phase-salt', percent: '2.5', nitritePpm: { least: '100', most: '200' }, frozenStandsIn: true };
    const book = { ...limitBook, checks: [...limitBook.checks, other] };
    // 2 of 67 parts are 2.98 %: over 2.5 and under 3.5, and the sample says nothing of nitrite.
    expect(verdictsOf(setOf([{ question: 'salt', oneOf: ['WPS-ROP-3.5', 'SALT-N'] }], batch(sample), {}, book), 'salt')).toEqual(['SCHEDULED meets']);
    expect(verdictsOf(setOf([{ question: 'salt', oneOf: ['WPS-ROP-3.5'] }], batch(sample)), 'salt')).toEqual(['SCHEDULED not-proven']);
  });
  it('is not contradicted by an option that takes no part', () => {
    const unknown = batch({ ...sample, species: 'Oncorhynchus nerka' });
    expect(verdictsOf(setOf([{ question: 'salt', oneOf: ['WPS-ROP-3.0-N'] }], unknown), 'salt')).toEqual(['SCHEDULED meets']);
  });
});

describe('a gate', () => {
  const plan = { pack: 'vacuum', store: 'frozen' } as const;
  const marked = (more: Partial<SetResult>): SetResult => ({ ...setOf([]), units: [], ...more });
  it('calls a manager’s initials by their name', () => {
    const result = setOf([{ question: 'record', checks: ['REC-INITIALS-MI'] }], batchOf([], { facts: { onFile: [] } }), { paper: true });
    const record = marked({ units: result.units.filter(({ question }) => question === 'record'), sealedMs: 2, frozenMs: 1, labelledAsSealed: true });
    expect(mayPass('leave', plan, record).line).toBe('May not leave: manager’s initials not proven.');
  });
  it('says that marks are missing where they are, taken out of the freezer or not', () => {
    const needs = mayPass('leave', plan, marked({ sealedMs: 100, thawedMs: 50, labelledAsSealed: true }));
    expect(needs.blocking.map(({ reason }) => reason)).toEqual(['When it was sealed and frozen is not marked.']);
  });
  it('asks for initials within the thermometer’s error', () => {
    const result = setOf([{ question: 'chamber', checks: ['HOT-145-30'] }], batchOf([pieceF('A', steady(145, 0, 30, 5))], { errorTicks: 1 }));
    const heat = marked({ units: result.units.filter(({ question }) => question === 'chamber') });
    expect(mayPass('pack', { pack: 'unpacked', store: 'refrigerated' }, heat)).toMatchObject({ needsInitials: true, line: 'May be served, with initials: within the thermometer’s error.' });
  });
});

describe('a check judged alone', () => {
  it('rests on its first source, and says of itself whether freezing stands in for it', () => {
    const check = needCheck('HOT-145-30');
    expect(check.sources.length).toBeGreaterThan(1);
    expect(judgeAlone('HOT-145-30', batchOf([])).source).toEqual(check.sources[0]);
    expect(['HOT-145-30', 'WPS-AIR-2.5', 'WPS-ROP-3.5'].map((checkId) => judgeAlone(checkId, batchOf([])).frozenStandsIn)).toEqual([false, false, true]);
  });
  it('is within the thermometer’s error by a single tick', () => {
    const judged = (errorTicks: number) => judgeAlone('HOT-145-30', batchOf([pieceF('A', steady(145, 0, 30, 5))], { errorTicks })).verdict;
    expect([judged(0), judged(1)]).toEqual(['meets', 'meets-within-error']);
  });
  it('of dry salted fish does not apply to brined fish, and says so', () => {
    expect(judgeAlone('DRYSALT-38', batchOf([], { facts: { cure: 'wet' } })).reason).toBe('Does not apply: the fish was brined.');
    expect(judgeAlone('BRINE-START-60', batchOf([], { facts: { cure: 'dry' } })).reason).toBe('Does not apply: the fish was dry salted.');
  });
});
