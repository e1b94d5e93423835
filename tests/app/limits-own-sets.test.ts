import { describe, expect, it } from 'vitest';
import { StoredOwnSet } from '../../app/contract/assets-limits.ts';
import { figuresOf } from '../../app/limits/figures.ts';
import { checkIdsOf, isInForce, sourceOf, type Source } from '../../app/limits/limit-set.ts';
import { judgeSet } from '../../app/limits/judge-set.ts';
import type { FiledRecord } from '../../app/limits/on-file.ts';
import { bookWith, loosenCheck, ownSetFrom, setFromLetter, tightenCheck, type OwnSet } from '../../app/limits/own-set.ts';
import { minuteWords } from '../../app/limits/words.ts';
import type { Outcome } from '../../app/measures/outcome.ts';
import { batchOf, needCheck, needSet, pieceF } from '../support/judge-cases.ts';
import { limitBook, steady } from '../support/judged-log.ts';

const words = minuteWords('F');
const OURS: Source = { publisher: 'Tamarack Narrows Lodge', title: 'Kitchen plan', section: 'smoking', year: 2026, mark: 'common practice' };
const STAMP = { id: 'tamarack', name: 'Tamarack plan', version: '1', effectiveFrom: '2026-05-01', note: 'Our own plan.' };
const VARIANCE: FiledRecord = { what: 'variance', number: 'V-2', holder: 'Tamarack Narrows Lodge', onFileMs: 0, validUntilMs: 1000 };
const LETTER = { authority: 'Northwater Process Authority', number: 'L-7', writtenOn: '2026-04-20', fileId: 'file-1' };

function must<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}
function problem(outcome: Outcome<unknown>): string {
  if (outcome.ok) throw new Error('was not refused');
  return outcome.problem.message;
}
const plan = (baseId = 'lodge-default') => must(ownSetFrom(needSet(baseId), limitBook, STAMP));
const tighten = (checkId: string, figures: Parameters<typeof tightenCheck>[3], set: OwnSet = plan()) => tightenCheck(set, limitBook, checkId, figures, OURS);
const hold = (set: OwnSet, degrees: number) => judgeSet(set, batchOf(['A', 'B', 'C'].map((name) => pieceF(name, steady(degrees, 0, 30, 5)))), bookWith(limitBook, [set]), { words, paper: false }).units.find((unit) => unit.question === 'chamber');

describe('a tightened check', () => {
  it('decides in place of the published one, under its own id, title and source', () => {
    const set = must(tighten('HOT-145-30', [{ field: 'limit', value: '150' }]));
    expect([hold(set, 149)?.verdict, hold(set, 150)?.verdict]).toEqual(['misses', 'meets']);
    expect(hold(set, 149)?.deciding).toMatchObject({ checkId: 'HOT-145-30.TAMARACK', title: 'Core at 145 °F or above for 30 min, unbroken; here 150 °F, 30 min', source: OURS });
    expect(checkIdsOf(set)).toContain('HOT-145-30.TAMARACK');
    expect(checkIdsOf(set)).not.toContain('HOT-145-30');
    expect(checkIdsOf(needSet('lodge-default'))).toContain('HOT-145-30');
  });
  it('still counts its pieces through its own hold, together', () => {
    const set = must(tighten('HOT-145-30', [{ field: 'minutes', value: '35' }]));
    const checks = judgeSet(set, batchOf(['A', 'B', 'C'].map((name) => pieceF(name, steady(146, 0, 34, 1)))), bookWith(limitBook, [set]), { words, paper: false }).checks;
    expect(checks.find((check) => check.checkId === 'HOT-145-30.TAMARACK')).toMatchObject({ verdict: 'misses', requiredMinutes: 35, provenMinutes: 34 });
  });
  const looser: [string, string, string, RegExp][] = [
    ['HOT-145-30', 'limit', '140', /HOT-145-30: 140 °F is lower than 145 °F, which is looser, not tighter/],
    ['HOT-145-30', 'minutes', '20', /20 min is shorter than 30 min/],
    ['COLD-90-20', 'limit', '91', /91 °F is higher than 90 °F/],
    ['COLD-90-20', 'minutes', '1260', /1260 min is longer than 1200 min/],
    ['PARA-FREEZE-A', 'limit', '0', /0 °F is higher than −4 °F/],
    ['PARA-FREEZE-B', 'untilSolid', '-30', /−30 °F is higher than −31 °F/],
    ['COOL-AFDO', 'from', '135', /135 °F is lower than 140 °F/],
    ['COOL-AFDO', 'target-2', '41', /41 °F is higher than 40 °F/],
    ['COOL-AFDO', 'target-1-minutes', '121', /121 min is longer than 120 min/],
    ['HOT-PROBES-3', 'pieces', '2', /2 pieces is lower than 3 pieces/],
    ['WPS-ROP-3.5', 'percent', '3.49', /3.49 % is lower than 3.5 %/],
    ['WPS-ROP-3.0-N', 'nitriteMost', '201', /201 ppm is higher than 200 ppm/],
    ['NIT-200', 'ppm', '220', /220 ppm is higher than 200 ppm/],
    ['BRINE-REUSE', 'batches', '2', /2 batches is higher than 1 batches/],
    ['REC-REVIEW-7D', 'days', '8', /8 days is longer than 7 days/],
    ['BRINE-4H-38', 'overMinutes', '300', /300 min is longer than 240 min/],
  ];
  it.each(looser)('%s is refused as looser: %s %s', (checkId, field, value, words_) => {
    expect(problem(tighten(checkId, [{ field, value }]))).toMatch(words_);
  });
  it('is refused where one figure is stricter and another looser', () => {
    expect(problem(tighten('HOT-145-30', [{ field: 'limit', value: '160' }, { field: 'minutes', value: '10' }]))).toContain('looser');
  });
  it('is compared exactly in either scale', () => {
    expect(problem(tighten('HOT-145-30', [{ field: 'limit', value: '62.777', unit: 'C' }]))).toContain('lower than 145 °F');
    expect(must(tighten('HOT-145-30', [{ field: 'limit', value: '62.778', unit: 'C' }])).ownChecks[0]).toMatchObject({ limit: { value: '62.778', unit: 'C' } });
    expect(problem(tighten('HOT-145-30', [{ field: 'limit', value: '145.0' }]))).toContain('already');
  });
  it('is tightened again from where it stands', () => {
    const once = must(tighten('HOT-145-30', [{ field: 'limit', value: '150' }]));
    expect(problem(tighten('HOT-145-30', [{ field: 'limit', value: '148' }], once))).toContain('148 °F is lower than 150 °F');
    const twice = must(tighten('HOT-145-30', [{ field: 'limit', value: '152' }], once));
    expect(twice.ownChecks).toHaveLength(1);
    expect(twice.ownChecks[0]?.title).toBe('Core at 145 °F or above for 30 min, unbroken; here 152 °F, 30 min');
    expect(twice.changes.map((change) => change.checkId)).toEqual(['HOT-145-30', 'HOT-145-30']);
  });
  it('is refused for a check the set has not, a figure the check has not, and what is no number', () => {
    expect(problem(tighten('COOL-FC', [{ field: 'from', value: '140' }]))).toContain('no check COOL-FC');
    expect(problem(tighten('HOT-145-30', [{ field: 'percent', value: '4' }]))).toContain('no figure “percent”');
    for (const value of ['warm', '', '1e3', '145.00001']) expect(problem(tighten('HOT-145-30', [{ field: 'limit', value }])), value).toMatch(/\.$/);
    for (const value of ['0', '-5', '30.5']) expect(problem(tighten('HOT-145-30', [{ field: 'minutes', value }])), value).toMatch(/can’t be right|not a whole number/);
  });
});

describe('a loosened check', () => {
  const loosen = (onFile: FiledRecord | undefined, nowMs = 500) => loosenCheck(plan(), limitBook, 'COLD-90-20', [{ field: 'minutes', value: '1440' }], OURS, { onFile, nowMs, words });
  it('is refused without a variance on file that is valid now', () => {
    expect(problem(loosen(undefined))).toBe('No variance is on file. A limit is loosened only by a variance.');
    expect(problem(loosen({ ...VARIANCE, what: 'permission' }))).toContain('No variance is on file');
    expect(problem(loosen(VARIANCE, 1001))).toContain('expired');
  });
  it('names its variance, and asks of every batch that one was valid', () => {
    const set = must(loosen(VARIANCE));
    expect(set.changes).toEqual([{ checkId: 'COLD-90-20', ownId: 'COLD-90-20.TAMARACK', way: 'loosened', varianceNumber: 'V-2', figures: [{ field: 'minutes', value: '1440' }] }]);
    const permission = (onFile: FiledRecord[]) => {
      const batch = batchOf([], { process: 'cold', facts: { onFile } });
      const judged = { ...batch, records: { ...batch.records, process: { inMs: 500, open: false } } };
      return judgeSet(set, judged, bookWith(limitBook, [set]), { words, paper: true }).checks.find((check) => check.checkId === 'VARIANCE.TAMARACK')?.verdict;
    };
    expect([permission([VARIANCE]), permission([]), permission([{ ...VARIANCE, validUntilMs: 400 }])]).toEqual(['meets', 'not-proven', 'not-proven']);
  });
});

describe('a set from a process authority’s letter', () => {
  const changes = [{ checkId: 'HOT-145-30', figures: [{ field: 'limit', value: '150' }, { field: 'minutes', value: '20' }] }, { checkId: 'COOL-AFDO', figures: [{ field: 'target-1-minutes', value: '150' }] }];
  const fromLetter = (letter = LETTER, stamp = STAMP) => setFromLetter(needSet('lodge-default'), limitBook, stamp, letter, changes);

  it('is the base set with the letter’s figures, stricter or looser, each resting on the letter', () => {
    const set = must(fromLetter());
    expect(set).toMatchObject({ id: 'tamarack', version: '1', base: { setId: 'lodge-default', version: needSet('lodge-default').version }, letter: LETTER });
    const own = set.ownChecks.find((check) => check.id === 'HOT-145-30.TAMARACK');
    if (own === undefined) throw new Error('no own check');
    expect(own).toMatchObject({ limit: { value: '150', unit: 'F' }, minutes: 20 });
    expect(sourceOf(own, set)).toEqual({ publisher: 'Northwater Process Authority', title: 'Process authority’s letter', section: 'L-7', year: 2026, mark: 'read' });
    expect(set.changes.map((change) => change.way)).toEqual(['letter', 'letter']);
  });
  it('is refused without its file, its number, a change, or a name of its own', () => {
    expect(problem(fromLetter({ ...LETTER, fileId: '' }))).toContain('file');
    expect(problem(fromLetter({ ...LETTER, number: ' ' }))).toContain('number');
    expect(problem(setFromLetter(needSet('me'), limitBook, STAMP, LETTER, []))).toContain('changes no figure');
    expect(problem(fromLetter(LETTER, { ...STAMP, id: 'me' }))).toContain('already');
    expect(problem(fromLetter(LETTER, { ...STAMP, id: 'Our Plan' }))).toContain('can’t name a set');
    expect(problem(fromLetter(LETTER, { ...STAMP, effectiveFrom: 'soon' }))).toContain('in force');
  });
  it('is kept by the book and read back the same, and refused when it was tampered with', () => {
    const set = must(fromLetter());
    expect(StoredOwnSet.parse(JSON.parse(JSON.stringify(set)))).toEqual(JSON.parse(JSON.stringify(set)));
    expect(StoredOwnSet.safeParse({ ...set, extra: 1 }).success).toBe(false);
    expect(StoredOwnSet.safeParse({ ...set, ownChecks: set.ownChecks.map((check) => ({ ...check, minutes: -1 })) }).success).toBe(false);
    const stored = bookWith(limitBook, [StoredOwnSet.parse(JSON.parse(JSON.stringify(set)))]);
    expect(stored.sets).toHaveLength(limitBook.sets.length + 1);
    expect(() => bookWith(stored, [set])).toThrow('twice');
  });
});

describe('figures and versions', () => {
  it('has a figure for every check that compares something', () => {
    const without = limitBook.checks.filter((check) => figuresOf(check).length === 0).map((check) => check.kind);
    expect([...new Set(without)].toSorted()).toEqual(['calibration', 'frozen-before-seal', 'nitrite-none', 'no-figure', 'pack-ban', 'permission', 'unmeasured']);
    expect(figuresOf(needCheck('BRINE-REUSE-AK')).map((figure) => figure.value)).toEqual(['3', '240']);
    expect(figuresOf(needCheck('BRINE-REUSE')).map((figure) => figure.value)).toEqual(['1']);
    expect(figuresOf(needCheck('COOL-AFDO')).map((figure) => figure.field)).toEqual(['from', 'target-1', 'target-1-minutes', 'target-2', 'target-2-minutes']);
  });
  it('keeps the published sources behind its own, each once', () => {
    const michigan = needCheck('HOT-145-30').sources[0];
    if (michigan === undefined) throw new Error('no source');
    const set = must(tightenCheck(plan(), limitBook, 'HOT-145-30', [{ field: 'limit', value: '150' }], { ...michigan, title: 'Letter of advice' }));
    expect(set.ownChecks[0]?.sources).toHaveLength(needCheck('HOT-145-30').sources.length + 1);
    const same = must(tightenCheck(plan(), limitBook, 'HOT-145-30', [{ field: 'limit', value: '150' }], michigan));
    expect(same.ownChecks[0]?.sources).toHaveLength(needCheck('HOT-145-30').sources.length);
  });
  it('tells whether a version is in force on a day', () => {
    const set = { ...needSet('me'), effectiveFrom: '2026-05-01', effectiveUntil: '2026-12-31' };
    expect(['2026-04-30', '2026-05-01', '2026-12-31', '2027-01-01'].map((day) => isInForce(set, day))).toEqual([false, true, true, false]);
    expect(isInForce(needSet('me'), '2099-01-01')).toBe(true);
  });
});
