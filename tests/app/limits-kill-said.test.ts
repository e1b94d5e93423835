/** Words, orders and dates on their edges: lengths of time, verdicts, exclusions told in one, years with a 29 February, windows. */
import { describe, expect, it } from 'vitest';
import { bothWords } from '../../app/limits/exclusions.ts';
import { judgeFilm, judgeLabel, judgeRetention } from '../../app/limits/keeping.ts';
import type { CaseFacts, ExcludedReading } from '../../app/limits/judge-case.ts';
import type { RetentionCheck } from '../../app/limits/limit-set.ts';
import { aloneContext } from '../../app/limits/judge.ts';
import { isInside, judgeScheduledProcess } from '../../app/limits/scheduled-process.ts';
import { best, compareVerdicts, isMet, rank, VERDICTS, worst } from '../../app/limits/verdict.ts';
import { clockWords, dayWords, listText, minuteWords, nameText } from '../../app/limits/words.ts';
import { batchOf, minutes, needCheck, pieceF } from '../support/judge-cases.ts';
import { limitBook, steady } from '../support/judged-log.ts';

const words = minuteWords('F');

describe('lengths of time', () => {
  const book = clockWords('F', (ms) => `clock ${ms}`);
  it('are minutes below three hours and hours from there on', () => {
    expect([179, 179.9, 180, 181, 240, 0.5].map((count) => book.lasting(minutes(count)))).toEqual(['179 min', '179 min', '3 h', '3 h 1 min', '4 h', '0 min']);
    expect([book.part(minutes(60.9), minutes(179)), book.part(minutes(60.9), minutes(180)), book.part(minutes(190), minutes(240))]).toEqual(['60 of 179 min', '60 min of 3 h', '3 h 10 min of 4 h']);
    expect([words.lasting(minutes(1.256)), words.at(minutes(-2.5)), words.part(minutes(1.25), minutes(30))]).toEqual(['1.26 min', 'minute −2.5', '1.25 of 30 min']);
  });
  it('and days are told in words', () => {
    expect([dayWords('2026-03-14'), dayWords('2026-01-02'), dayWords('2026-12-31'), book.day(0)]).toEqual(['14 Mar 2026', '2 Jan 2026', '31 Dec 2026', '1 Jan 1970']);
  });
});

describe('differences', () => {
  it('are rounded up, and a hair is no nothing', () => {
    expect([0, 1, 499, 500, 501, 5000].map((ticks) => words.difference(ticks))).toEqual(['0.0 °F', 'less than 0.1 °F', 'less than 0.1 °F', '0.1 °F', '0.2 °F', '1.0 °F']);
    expect([899, 900, 901].map((ticks) => minuteWords('C').difference(ticks))).toEqual(['less than 0.1 °C', '0.1 °C', '0.2 °C']);
  });
});

describe('names and lists', () => {
  it('are as a sentence wants them', () => {
    expect([nameText('piece', 'B'), nameText('piece', 'Piece 3'), nameText('chamber', 'Smoker 1'), nameText('brine', ' ')]).toEqual(['Piece B', 'Piece 3', 'Smoker 1', 'The brine']);
    expect([listText([]), listText(['A']), listText(['A', 'B']), listText(['A', 'B', 'C'])]).toEqual(['', 'A', 'A and B', 'A, B and C']);
  });
});

describe('verdicts', () => {
  it('stand worst first, with silence as bad as no proof', () => {
    expect(VERDICTS.map(rank)).toEqual([0, 1, 1, 3, 4, 5, 6]);
    expect(VERDICTS.filter(isMet)).toEqual(['meets-within-error', 'meets']);
    expect([compareVerdicts('not-proven', 'no-figure') < 0, compareVerdicts('no-figure', 'open') < 0, compareVerdicts('meets', 'meets')]).toEqual([true, true, 0]);
  });
  it('become the worst or the best of those that apply', () => {
    expect([worst([]), worst(['does-not-apply']), worst(['meets', 'does-not-apply', 'open']), worst(['no-figure', 'not-proven'])]).toEqual(['not-proven', 'not-proven', 'open', 'not-proven']);
    expect([best([]), best(['does-not-apply']), best(['misses', 'open', 'does-not-apply']), best(['not-proven', 'no-figure'])]).toEqual([undefined, undefined, 'open', 'no-figure']);
  });
});

describe('exclusions in a sentence', () => {
  const judged = batchOf([pieceF('A', steady(146, 0, 40, 5), { id: 'a' }), pieceF('B', steady(146, 0, 40, 5), { id: 'b' })]);
  const out = (minute: number, more: Partial<ExcludedReading> = {}): ExcludedReading => ({ pointId: 'a', atMs: minutes(minute), reason: 'pulled', byInitials: 'KM', ...more });
  const told = (...applied: ExcludedReading[]) => /\((.*)\)/.exec(bothWords('Meets it.', 'Misses it.', applied, judged, words))?.[1];
  it('are told as one stretch where one person took out one point’s readings for one reason', () => {
    expect(bothWords('Meets it.', 'Misses it.', [out(5), out(10), out(15)], judged, words)).toBe('With 3 readings excluded (Piece A from minute 5 to minute 15, 3 readings, by KM: pulled): meets it. As recorded: misses it.');
    expect(bothWords('Meets it.', 'Misses it.', [out(5)], judged, words)).toBe('With 1 reading excluded (Piece A at minute 5, by KM: pulled): meets it. As recorded: misses it.');
    expect(told(out(5), out(5))).toBe('Piece A from minute 5 to minute 5, 2 readings, by KM: pulled');
    expect(bothWords('Meets it.', 'Misses it.', [], judged, words)).toBe('');
  });
  it('are told apart by point, person, reason, and where time goes back', () => {
    expect(told(out(5), out(10, { pointId: 'b' }), out(15, { pointId: 'b' }))).toBe('Piece A at minute 5, by KM: pulled and Piece B from minute 10 to minute 15, 2 readings, by KM: pulled');
    expect(told(out(5), out(10, { byInitials: 'JR' }))).toBe('Piece A at minute 5, by KM: pulled and Piece A at minute 10, by JR: pulled');
    expect(told(out(5), out(10, { reason: 'a spike' }))).toBe('Piece A at minute 5, by KM: pulled and Piece A at minute 10, by KM: a spike');
    expect(told(out(10), out(5))).toBe('Piece A at minute 10, by KM: pulled and Piece A at minute 5, by KM: pulled');
    expect(told(out(5, { pointId: undefined, pointName: 'A' }), out(10, { pointId: undefined, pointName: 'B' }))).toBe('Piece A at minute 5, by KM: pulled and Piece B at minute 10, by KM: pulled');
    expect(told(out(5), out(10), out(15, { pointId: 'b' }), out(20))).toBe('Piece A from minute 5 to minute 10, 2 readings, by KM: pulled, Piece B at minute 15, by KM: pulled and Piece A at minute 20, by KM: pulled');
  });
});

describe('a record that is kept', () => {
  const retention = needCheck('REC-KEEP-1Y');
  if (retention.kind !== 'retention') throw new Error('no retention');
  const kept = (length: RetentionCheck['length'], from: string, until: string) => judgeRetention({ ...retention, length, from: 'made' }, batchOf([], { facts: { keeping: { madeOn: from, keptUntil: until } } }));
  it('until the same day of a later year; 29 February becomes 1 March where that year has none', () => {
    const until = (from: string, years: number) => / are (.*)\.$/.exec(kept({ years }, from, from).reason)?.[1];
    expect([until('2028-02-29', 1), until('2028-02-29', 4), until('2096-02-29', 4), until('2096-02-29', 304), until('2096-02-29', 8)]).toEqual(['1 Mar 2029', '29 Feb 2032', '1 Mar 2100', '29 Feb 2400', '29 Feb 2104']);
    expect([until('2028-02-28', 1), until('2028-03-29', 1), until('2028-01-29', 1), until('2027-02-28', 1)]).toEqual(['28 Feb 2029', '29 Mar 2029', '29 Jan 2029', '28 Feb 2028']);
  });
  it('to its last day is long enough', () => {
    expect([kept({ years: 1 }, '2026-05-01', '2027-05-01'), kept({ years: 1 }, '2026-05-01', '2027-04-30')].map(({ verdict, needed }) => [verdict, needed])).toEqual([['meets', ''], ['misses', 'The record kept until 1 May 2027.']]);
    expect(kept({ days: 90 }, '2026-05-01', '2026-07-30').reason).toBe('Kept until 30 Jul 2026; 90 days from 1 May 2026 are 30 Jul 2026.');
    expect([kept({ years: 1 }, '2026-05-01', '2027-05-01').reason, kept({ years: 2 }, '2026-05-01', '2028-05-02').reason]).toEqual(['Kept until 1 May 2027; 1 year from 1 May 2026 are 1 May 2027.', 'Kept until 2 May 2028; 2 years from 1 May 2026 are 1 May 2028.']);
  });
  it('has figures of labels and films', () => {
    const label = needCheck('LIFE-7-FC');
    const film = limitBook.checks.find((check) => check.kind === 'film');
    if (label.kind !== 'label' || film?.kind !== 'film') throw new Error('no label, no film');
    const context = aloneContext(limitBook, words);
    expect(judgeLabel({ ...label, lifeDays: undefined }, batchOf([], { facts: { labelLifeDays: 1 } }), context)).toMatchObject({ verdict: 'misses', reason: 'The label gives 1 day; 0 allowed.', needed: 'A label with 0 days at most, the first day counted.' });
    const rated = (...rates: string[]) => {
      const onFile: CaseFacts['onFile'] = rates.map((oxygenRate) => ({ what: 'film', number: 'F1', holder: 'Maker', onFileMs: 0, oxygenRate }));
      return judgeFilm(film, batchOf([], { facts: { filmUsed: 'F1', onFile } }));
    };
    expect([rated('2000').verdict, rated('1999.9').verdict, rated('2200', '1999', '2100').reason, rated('many').verdict]).toEqual(['meets', 'misses', 'Film F1 lets 1999 cc/m² of oxygen through a day; 2000 asked. It counts as sealed from air.', 'not-proven']);
  });
});

describe('a process authority’s window', () => {
  it('has sides, in exact decimals, and words as they stand', () => {
    const inside = (side: 'at-least' | 'at-most' | 'exactly', ...actual: (string | undefined)[]) => actual.map((one) => isInside({ what: 'x', limit: '3.5', side, actual: one }));
    expect(inside('at-least', '3.4', '3.50', '3.6', undefined, 'much')).toEqual([false, true, true, false, false]);
    expect(inside('at-most', '3.4', '3.50', '3.6', undefined, 'little')).toEqual([true, true, false, false, false]);
    expect(inside('exactly', '3.4', '3.50', '3.6', undefined)).toEqual([false, true, false, false]);
    expect([isInside({ what: 'recipe', limit: 'v3', side: 'exactly', actual: ' v3 ' }), isInside({ what: 'recipe', limit: 'v3', side: 'exactly', actual: 'v4' }), isInside({ what: 'recipe', limit: 'v3', side: 'at-most', actual: 'v3' })]).toEqual([true, false, false]);
  });
  it('names each item outside, and what is asked', () => {
    const found = judgeScheduledProcess({ name: 'Plan 7', window: [{ what: 'hours', limit: '12', side: 'at-least', actual: '11' }, { what: 'thickness', limit: '30', side: 'at-most' }, { what: 'yield', limit: '80', side: 'at-most', actual: '79' }] }, batchOf([]), aloneContext(limitBook, words));
    expect(found).toMatchObject({ verdict: 'not-proven', reason: 'Outside Plan 7: hours 11, at least 12 asked; thickness not recorded, at most 30 asked.', needed: 'hours at least 12; thickness at most 30.' });
  });
});
