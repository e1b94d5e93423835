/** The request `log.judge` from outside: what it refuses, in a sentence, and what it always answers with. */
import { describe, expect, it } from 'vitest';
import { LogJudgeIn } from '../../app/contract/requests/log-judge.ts';
import { isPaper } from '../../app/limits/judge.ts';
import { Refusal } from '../../main/backroom/refusal.ts';
import { judgeLog, judgeOne, limitBook, steady, type LogInput } from '../support/judged-log.ts';

const base: LogInput = { process: 'hot', readings: { unit: 'F', places: [{ name: 'A', role: 'piece', points: steady(146, 0, 30, 5) }] } };

describe('what is refused', () => {
  const rows: [string, Partial<LogInput>, string, (string | number)[]][] = [
    ['both a set and single checks', { setId: 'me', checkIds: ['HOT-145-30'] }, 'both', ['checkIds']],
    ['an unknown set', { setId: 'atlantis' }, 'atlantis', ['setId']],
    ['an unknown check', { checkIds: ['HOT-145-30', 'HOT-999'] }, 'HOT-999', ['checkIds', 1]],
    ['an id that is none', { checkIds: ['COOL-5-12'] }, 'COOL-5-12', ['checkIds', 0]],
    ['an out mark before the in mark', { marks: { inMinute: 10, outMinute: 9 } }, 'before the in mark', ['marks', 'outMinute']],
    ['salt and moisture over 100 %', { saltSamples: [{ saltPercent: 50, moisturePercent: 51 }] }, '100 %', ['saltSamples', 0]],
    ['a sample without moisture', { saltSamples: [{ saltPercent: 0, moisturePercent: 0 }] }, 'moisture', ['saltSamples', 0, 'moisturePercent']],
    ['a number that is no temperature', { readings: { unit: 'F', places: [{ name: 'A', role: 'piece', points: [[0, 1e-80]] }] } }, 'not a temperature', ['readings', 'places', 0, 'points', 0]],
  ];
  it.each(rows)('refuses %s', (_title, more, words, path) => {
    const refused = refusalOf({ ...base, ...more });
    expect(refused.code).toBe('INVALID_INPUT');
    expect(refused.message).toContain(words);
    expect(refused.remedy).toMatch(/\.$/);
    expect(refused.fields?.[0]?.path).toEqual(path);
  });

  it('refuses every check of a record on paper', () => {
    const paper = limitBook.checks.filter(isPaper);
    expect(paper.map((check) => check.id)).toEqual(expect.arrayContaining(['REC-REVIEW-7D', 'REC-KEEP-1Y', 'REC-KEEP-2Y', 'REC-KEEP-90D', 'CAL-1Y', 'LIFE-14-MI', 'LIFE-30-FC', 'LIFE-14-FC', 'ROP-48H-FC', 'OTR-2000-CA', 'OTR-10000', 'BRINE-REUSE', 'BRINE-REUSE-AK']));
    for (const check of paper) expect(refusalOf({ ...base, checkIds: [check.id] }).code, check.id).toBe('INVALID_INPUT');
  });

  it('refuses unknown keys and numbers that are not finite', () => {
    const bad: unknown[] = [
      { ...base, extra: 1 },
      { ...base, marks: { inMinutes: 0 } },
      { ...base, readings: { unit: 'K', places: [] } },
      { ...base, readings: { unit: 'F', places: [{ name: 'A', role: 'piece', points: [[0, Number.NaN]] }] } },
      { ...base, readings: { unit: 'F', places: [{ name: 'A', role: 'piece', points: [[Number.POSITIVE_INFINITY, 1]] }] } },
      { ...base, readings: { unit: 'F', places: [{ name: 'A', role: 'piece', points: [[0, 1, 2]] }] } },
      { ...base, instrumentError: -1 },
      { ...base, saltSamples: [{ saltPercent: -1, moisturePercent: 60 }] },
      { ...base, nominalIntervalMinutes: 0 },
    ];
    for (const input of bad) expect(LogJudgeIn.safeParse(input).success, JSON.stringify(input)).toBe(false);
  });
});

describe('what is always answered', () => {
  it('judges every check that is not on paper on an empty record without proving anything', () => {
    for (const check of limitBook.checks.filter((one) => !isPaper(one))) {
      const answer = judgeLog({ process: 'hot', readings: { unit: 'F', places: [] }, checkIds: [check.id] });
      expect(['not-proven', 'no-figure', 'does-not-apply'], check.id).toContain(answer.checks[0]?.verdict);
      expect(answer.checks[0]?.reason, check.id).toMatch(/\.$/);
    }
  });

  it('judges by every set on an empty record without proving anything', () => {
    for (const set of limitBook.sets) {
      for (const process of ['hot', 'cold'] as const) {
        const { verdict } = judgeLog({ process, readings: { unit: 'F', places: [] }, setId: set.id });
        expect(['not-proven', 'no-figure'], `${set.id} ${process}`).toContain(verdict);
      }
    }
  });

  it('gives proven and possible minutes with holds and freezings, shortest and longest with descents, and spans in minutes', () => {
    const kinds = new Map(limitBook.checks.map((check) => [check.id, check.kind]));
    const cold = judgeLog({ process: 'cold', readings: { unit: 'F', places: [{ name: 'Freezer', role: 'store', points: steady(-5, 0, 600, 60) }, { name: 'Smoker', role: 'chamber', points: steady(75, 0, 600, 5) }] } });
    const hot = judgeLog(base);
    for (const check of [...hot.checks, ...cold.checks]) {
      const kind = kinds.get(check.checkId);
      if (kind === 'hold' || kind === 'freeze') expect([typeof check.provenMinutes, typeof check.possibleMinutes], check.checkId).toEqual(['number', 'number']);
      if (kind === 'descent') expect([typeof check.shortestMinutes, typeof check.longestMinutes], check.checkId).toEqual(['number', 'number']);
    }
    expect(judgeOne('HOT-145-30', 'piece', [[0, 140], [5, 146], [35, 146]], { maxGapMinutes: 30 }).spans).toEqual([
      { fromMinute: 0, toMinute: 0, counts: false, why: 'not 145 °F or above' },
      { fromMinute: 5, toMinute: 35, counts: true, why: '145 °F or above' },
    ]);
  });

  it('says in plain words which piece, which minutes and what hides the rest', () => {
    expect(judgeOne('HOT-145-30', 'piece', [[0, 146], [5, 146], [40, 146], [45, 146], [50, 140]], { maxGapMinutes: 10 }).reason)
      .toBe('Piece A: 5 of 30 min proven; a gap from minute 5 to minute 40 hides the rest.');
    expect(judgeOne('HOT-145-30', 'piece', [[0, 140], [5, 144.86]]).reason).toBe('Piece A was never 145 °F or above; the nearest reading is 144.86 °F at minute 5.');
  });
});

function refusalOf(input: LogInput): Refusal {
  try {
    judgeLog(input);
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('was not refused');
}
