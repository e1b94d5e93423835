/**
 * Soak and store. Brine at 60 °F or below at the start, and a room at 38 °F or below for more than
 * 4 h: State of New York, 1 NYCRR 262.5(a), and Michigan Administrative Code R 285.569.5 (both
 * read); brine for three batches: Alaska 18 AAC 34.310(f) (read). Store at 38 °F: Michigan
 * R 285.569.8 and Maine chapter 359 § 3 (read); 41 °F: US FDA Food Code 3-501.16 as enacted in
 * Wisconsin (read). The records and their verdicts are worked examples of our own (computed).
 */
import { describe, expect, it } from 'vitest';
import { aloneContext, judgeCheck } from '../../app/limits/judge.ts';
import type { CaseFacts, JudgeCase } from '../../app/limits/judge-case.ts';
import { findCheck } from '../../app/limits/limit-set.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { checkIn, judgeLog, judgeOne, limitBook, steady, type LogInput, type Points } from '../support/judged-log.ts';

describe('the soak', () => {
  const soak = (brine: number, hours: number, room: number): LogInput => ({
    process: 'hot', marks: { inMinute: 0, outMinute: hours * 60 },
    readings: { unit: 'F', places: [{ name: 'Tub', role: 'brine', points: [[0, brine]] }, { name: 'Room', role: 'room', points: steady(room, 0, hours * 60, 30) }] },
    checkIds: ['BRINE-START-60', 'BRINE-4H-38'],
  });

  it('B1: 58 °F at the start and 3.5 h in a room of 60 °F', () => {
    const answer = judgeLog(soak(58, 3.5, 60));
    expect(checkIn(answer, 'BRINE-START-60').verdict).toBe('meets');
    expect(checkIn(answer, 'BRINE-4H-38').verdict).toBe('does-not-apply');
    expect(answer.verdict).toBe('meets');
  });
  it('B2: over 4 h the room must be at 38 °F or below', () => {
    expect(checkIn(judgeLog(soak(58, 5, 45)), 'BRINE-4H-38').verdict).toBe('misses');
    expect(checkIn(judgeLog(soak(58, 5, 38)), 'BRINE-4H-38').verdict).toBe('meets');
    expect(checkIn(judgeLog(soak(58, 4, 45)), 'BRINE-4H-38').verdict).toBe('does-not-apply');
  });
  it('B3: 62 °F at the start misses', () => expect(judgeLog(soak(62, 3.5, 36)).verdict).toBe('misses'));
  it('B4: a fourth batch of the same brine misses in Alaska, and any second one elsewhere', () => {
    expect(byFacts('BRINE-REUSE-AK', { brineBatchNumber: 4 })).toBe('misses');
    expect(byFacts('BRINE-REUSE-AK', { brineBatchNumber: 3, brineAgeMinutes: 200 })).toBe('meets');
    expect(byFacts('BRINE-REUSE-AK', { brineBatchNumber: 3, brineAgeMinutes: 241 })).toBe('misses');
    expect(byFacts('BRINE-REUSE', { brineReused: true })).toBe('misses');
    expect(byFacts('BRINE-REUSE', { brineReused: false })).toBe('meets');
    expect(byFacts('BRINE-REUSE', {})).toBe('not-proven');
  });
});

describe('the store', () => {
  const store = (checkId: string, value: number) => judgeOne(checkId, 'store', steady(value, 0, 1440, 5), { pack: 'vacuum', store: 'refrigerated' }).verdict;

  it('S1: 39 °F misses 38 °F and meets 40 and 41 °F', () => {
    expect(['STORE-38', 'STORE-40', 'STORE-41', 'STORE-4C-ON', 'STORE-8C-UK'].map((id) => store(id, 39))).toEqual(['misses', 'meets', 'meets', 'meets', 'meets']);
  });
  it('S2: 38.0 °F meets every legal store limit', () => {
    expect(['STORE-38', 'STORE-40', 'STORE-41', 'STORE-4C-ON', 'STORE-8C-UK'].map((id) => store(id, 38))).toEqual(Array(5).fill('meets'));
  });
  it('runs from the first reading at or below the limit, and shows the stretch before', () => {
    const points: Points = [[0, 50], [30, 44], ...steady(37, 60, 1440, 30)];
    const found = judgeOne('STORE-38', 'store', points);
    expect(found.verdict).toBe('meets');
    expect(found.spans[0]).toMatchObject({ fromMinute: 0, toMinute: 60, counts: false });
    expect(judgeOne('STORE-38', 'store', [...points, [1470, 38.1]]).verdict).toBe('misses');
  });
  it('asks a frozen store a reading a day', () => {
    expect(judgeOne('FROZEN-0F', 'store', steady(-2, 0, 4320, 1440), { store: 'frozen' }).verdict).toBe('meets');
    expect(judgeOne('FROZEN-0F', 'store', steady(-2, 0, 4323, 1441), { store: 'frozen' }).verdict).toBe('not-proven');
  });
});

function byFacts(checkId: string, facts: CaseFacts): string {
  const check = findCheck(limitBook, checkId);
  if (check === undefined) throw new Error(checkId);
  const closed = { open: false };
  const judged: JudgeCase = { process: 'hot', points: [], records: { process: closed, soak: closed, freezer: closed, store: closed }, errorTicks: 0, saltSamples: [], facts };
  return judgeCheck(check, judged, aloneContext(limitBook, minuteWords('F'))).verdict;
}
