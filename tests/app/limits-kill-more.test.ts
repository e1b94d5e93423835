/** Rules that no worked case reaches: words of a set, pieces counted together, a freezing without its mark, thermometers checked at a month's end. */
import { describe, expect, it } from 'vitest';
import { compareNames, plainFinding, worstBy } from '../../app/limits/finding.ts';
import { holdsNamed, judgeCheck } from '../../app/limits/judge.ts';
import type { CaseFacts, JudgeCase, MeasuredPoint, RecordSpan } from '../../app/limits/judge-case.ts';
import { mayPass } from '../../app/limits/gates.ts';
import { judgeSet } from '../../app/limits/judge-set.ts';
import { verdictWords } from '../../app/limits/set-words.ts';
import { minuteWords } from '../../app/limits/words.ts';
import type { Verdict } from '../../app/limits/verdict.ts';
import { batchOf, judgeAlone, minutes, needCheck, needSet, pieceF, readingsF } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const words = minuteWords('F');

describe('names and worst findings', () => {
  it('are in one order', () => {
    expect([compareNames('A', 'B'), compareNames('B', 'A'), compareNames('A', 'A')]).toEqual([-1, 1, 0]);
    expect(['b', 'a', 'c', 'a'].sort(compareNames)).toEqual(['a', 'a', 'b', 'c']);
  });
  it('can’t be chosen from nothing', () => expect(() => worstBy([], () => 0)).toThrow('nothing to choose the worst of'));
  it('are by verdict, then by the tie', () => {
    const found = [plainFinding('meets', 'b'), plainFinding('misses', 'd'), plainFinding('misses', 'c')];
    expect(worstBy(found, (left, right) => compareNames(left.reason, right.reason)).reason).toBe('c');
  });
});

describe('what is said of a set', () => {
  const set = { ...needSet('lodge-default'), name: 'The set', version: '7' };
  const said = (verdicts: Verdict[], verdict: Verdict, left: string[] = []) => verdictWords(set, verdicts, verdict, left);
  it('counts the limits that apply', () => {
    expect(said(['meets', 'does-not-apply'], 'meets')).toBe('Meets all 1 limit of The set version 7.');
    expect(said(['meets', 'meets'], 'meets', ['raw', 'thaw'])).toBe('Meets all 2 limits of The set version 7; not judged here: raw, thaw.');
    expect(said(['meets', 'meets-within-error'], 'meets-within-error', ['raw'])).toBe('Meets all 2 limits of The set version 7, 1 within the thermometer’s error; not judged here: raw.');
    expect(said(['meets', 'open', 'meets-within-error'], 'open')).toBe('So far: 2 of 3 limits of The set version 7 met.');
    expect(said(['misses', 'open', 'misses'], 'misses')).toBe('Does not meet 2 of 3 limits of The set version 7.');
    expect(said(['no-figure', 'meets'], 'no-figure')).toBe('Not proven: The set version 7 gives no figure for 1 of 2 limits.');
    expect(said(['not-proven', 'no-figure'], 'not-proven')).toBe('Not proven: 2 of 2 limits of The set version 7.');
    expect(said(['does-not-apply'], 'not-proven')).toBe('No limit of The set version 7 applies, so nothing is proven.');
  });
});

describe('pieces counted through one hold of all', () => {
  const counted = (pieces: readonly Points[], asked: 'HOT-PROBES-1' | 'HOT-PROBES-3') => judgeCheck(needCheck(asked), batchOf(pieces.map((points, index) => pieceF(`P${index}`, points))),
    { words, alone: false, holds: holdsNamed(limitBook, ['HOT-145-30']), together: true, probesAsked: 3 });
  const shifted = (from: number): Points => [...(from > 0 ? steady(140, 0, from - 5, 5) : []), ...steady(146, from, from + 40, 5), [from + 45, 140]];
  it('must be recorded through the common stretch', () => {
    expect(counted([shifted(0), shifted(5), shifted(10)], 'HOT-PROBES-3')).toMatchObject({ verdict: 'meets', reason: '3 of 3 pieces recorded through the hold.' });
    expect(counted([shifted(0), shifted(5), steady(146, 15, 40, 5)], 'HOT-PROBES-3')).toMatchObject({ verdict: 'not-proven', reason: '2 of 3 pieces recorded through the hold.', needed: '3 pieces, each read without a gap through the same hold.' });
    expect(counted([shifted(0)], 'HOT-PROBES-1').reason).toBe('1 of 1 piece recorded through the hold.');
    expect(counted([], 'HOT-PROBES-1')).toMatchObject({ verdict: 'not-proven', reason: '0 of 1 piece recorded through the hold.', needed: '1 piece, each read without a gap through the same hold.' });
  });
  it('are counted by their length where nothing was kept by all', () => {
    const broken: Points = [...steady(146, 0, 20, 5), [25, 140], ...steady(146, 30, 40, 5)];
    expect(counted([broken, shifted(0), steady(140, 0, 30, 5)], 'HOT-PROBES-3').verdict).toBe('meets');
    expect(counted([broken, shifted(0), steady(140, 0, 29, 1)], 'HOT-PROBES-3').verdict).toBe('not-proven');
  });
});

describe('a freezing whose time of being solid is not marked', () => {
  const freezer = (points: Points, span: Partial<RecordSpan>, role: 'store' | 'piece' = 'store') => {
    const closed = { open: false };
    const point: MeasuredPoint = { name: 'F', role, readings: readingsF(points) };
    return judgeAlone('PARA-FREEZE-C', batchOf([point], { process: 'cold', maxGapMs: minutes(60), records: { process: closed, soak: closed, store: closed, freezer: { open: false, ...span } } })).verdict;
  };
  const notSolid = steady(-20, 0, 1500, 60);
  it('misses where the freezer was read through and never at the first limit', () => {
    expect(freezer(notSolid, {})).toBe('misses');
    expect(freezer(notSolid, { inMs: 0, outMs: minutes(1500) })).toBe('misses');
    expect(freezer(notSolid, { inMs: minutes(-60), outMs: minutes(1560) })).toBe('misses');
    expect(freezer(notSolid, { open: true })).toBe('open');
  });
  it('is not proven where it may have been colder unseen, or only a core was read', () => {
    expect(freezer(notSolid, { inMs: minutes(-61) })).toBe('not-proven');
    expect(freezer(notSolid, { outMs: minutes(1561) })).toBe('not-proven');
    expect(freezer([[0, -31], ...notSolid.slice(1)], {})).toBe('not-proven');
    expect(freezer([...notSolid.slice(0, 3), [181, -20], ...notSolid.slice(4)], {})).toBe('not-proven');
    expect(freezer(notSolid, {}, 'piece')).toBe('not-proven');
    expect(freezer([], {})).toBe('not-proven');
  });
  it('counts nothing of a freezer after its out mark, but all of a core', () => {
    const later: Points = [...notSolid, [1560, -35]];
    expect(freezer(later, { outMs: minutes(1500) })).toBe('misses');
    expect(freezer(later, {})).toBe('not-proven');
  });
});

describe('a pack that was opened', () => {
  const HOUR = 60;
  const opened = (openedHour: number, usedHour: number | undefined, storeOpen = false) => judgeAlone('ROP-48H-FC', batchOf([], {
    pack: 'vacuum', facts: { openedPacks: [{ openedMs: minutes(openedHour * HOUR), usedUpMs: usedHour === undefined ? undefined : minutes(usedHour * HOUR) }] },
    records: { process: { open: false }, soak: { open: false }, freezer: { open: false }, store: { open: storeOpen } },
  }));
  it('is used up 48 h after it was opened, whenever that was', () => {
    expect([opened(100, 148).verdict, opened(100, 148.1).verdict, opened(100, undefined).verdict, opened(100, undefined, true).verdict]).toEqual(['meets', 'misses', 'not-proven', 'open']);
    expect(opened(100, 150).reason).toBe('Used up 3000 min after it was opened; 48 h allowed.');
  });
});

describe('a label’s days', () => {
  const label = (days: number) => judgeAlone('LIFE-7-FC', batchOf([], { facts: { labelLifeDays: days } }));
  it('are told in words', () => {
    expect([label(1).reason, label(7).verdict, label(8).verdict]).toEqual(['The label gives 1 day; 7 allowed.', 'meets', 'misses']);
    expect(label(8)).toMatchObject({ reason: 'The label gives 8 days; 7 allowed.', needed: 'A label with 7 days at most, the first day counted.' });
  });
});

describe('thermometers checked', () => {
  const at = (day: string) => Date.parse(`${day}T12:00:00Z`);
  const checkedOn = (days: readonly string[], usedOn: string) => {
    const onFile = days.map((day) => ({ what: 'probe-check' as const, number: 'T-1', holder: 'Lodge', onFileMs: at(day) }));
    const facts: CaseFacts = { probesUsed: ['T-1'], onFile };
    const used: Partial<JudgeCase> = { facts, records: { process: { open: false, inMs: at(usedOn) }, soak: { open: false }, freezer: { open: false }, store: { open: false } } };
    return judgeAlone('CAL-1Y', batchOf([], used));
  };
  it('on 29 February count until 28 February', () => {
    expect([checkedOn(['2028-02-29'], '2029-02-28').verdict, checkedOn(['2028-02-29'], '2029-03-01').verdict]).toEqual(['meets', 'not-proven']);
    expect(checkedOn(['2028-02-29'], '2028-03-01').reason).toBe('T-1: checked, the next check due by 28 Feb 2029.');
  });
  it('more than once count by the latest before their use', () => {
    expect(checkedOn(['2026-03-01', '2025-01-01'], '2026-06-01').reason).toBe('T-1: checked, the next check due by 1 Mar 2027.');
    expect(checkedOn(['2024-01-01', '2025-01-01'], '2026-06-01').reason).toBe('T-1: its check was good until 1 Jan 2026.');
    expect(checkedOn(['2026-07-01', '2026-08-01'], '2026-06-01').reason).toBe('T-1: checked only on 1 Aug 2026.');
  });
});

describe('leaving frozen', () => {
  const leave = (marks: Partial<JudgeCase>) => mayPass('leave', { pack: 'vacuum', store: 'frozen' }, judgeSet(needSet('lodge-default'), batchOf([], { pack: 'vacuum', store: 'frozen', ...marks }), limitBook, { words, paper: false }))
    .blocking.find(({ reason }) => reason.startsWith('It was taken out') || reason.startsWith('When it was sealed and frozen'))?.reason.slice(0, 16);
  it('needs both marks, and no thawing before it was sealed', () => {
    expect(leave({})).toBe('When it was seal');
    expect(leave({ sealedMs: minutes(10), frozenMs: minutes(20) })).toBeUndefined();
    expect([9, 10, 11].map((thawed) => leave({ sealedMs: minutes(10), frozenMs: minutes(5), thawedMs: minutes(thawed) }))).toEqual(['It was taken out', 'It was taken out', undefined]);
  });
});
