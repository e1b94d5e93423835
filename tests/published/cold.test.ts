/**
 * Cold smoke: chamber and total time of drying and smoking. State of Maine, Code of Maine Rules
 * 01-001 chapter 359 § 2 C.3.a (90 °F, 20 h) and C.3.b (50 °F, 24 h), read; sablefish 120 °F, 6 h:
 * State of New York, 1 NYCRR 262.5(g), from memory. The logs and their verdicts are worked examples
 * of our own (computed): a reading every 5 minutes on straight lines between the turning points.
 */
import { describe, expect, it } from 'vitest';
import { checkIn, inHours, judgeLog, judgeOne, onStraightLines, steady, type LogInput, type Points } from '../support/judged-log.ts';

const line = (turns: Points) => onStraightLines(inHours(turns), 5);
const outAt = (hours: number): Partial<LogInput> => ({ marks: { inMinute: 0, outMinute: hours * 60 } });
const chamber = (points: Points) => ({ unit: 'F' as const, places: [{ name: 'Smoker', role: 'chamber' as const, points }] });

describe('the chamber of a cold smoke', () => {
  const rows: [string, string, Points, Partial<LogInput>, string][] = [
    ['C1 stays at 88 °F or below for 18 h', 'COLD-90-20', line([[0, 70], [6, 84], [12, 88], [18, 86]]), outAt(18), 'meets'],
    ['C2 has one reading of 90.6 °F', 'COLD-90-20', line([[0, 70], [6, 84], [7, 90.6], [12, 88], [18, 86]]), outAt(18), 'misses'],
    ['C3 takes 20.5 h', 'COLD-90-20', line([[0, 70], [10, 84], [20.5, 80]]), outAt(20.5), 'misses'],
    ['C4 stays under 50 °F for 23.5 h', 'COLD-50-24', line([[0, 45], [10, 49.5], [23.5, 47]]), outAt(23.5), 'meets'],
    ['C7 has no reading for 3 h', 'COLD-90-20', [...line([[0, 72], [3, 85]]), ...line([[6, 86], [10, 84]])], outAt(10), 'not-proven'],
    ['C8 is exactly 90.0 °F for exactly 20.0 h', 'COLD-90-20', steady(90, 0, 1200, 5), outAt(20), 'meets'],
    ['C9 has no reading for the last 6 h', 'COLD-90-20', steady(80, 0, 720, 5), outAt(18), 'not-proven'],
    ['C10 takes 20 h 5 min, which weighs more than its gap', 'COLD-90-20', [...steady(80, 0, 595, 5), ...steady(80, 800, 1205, 5)], { marks: { inMinute: 0, outMinute: 1205 } }, 'misses'],
  ];
  it.each(rows)('%s', (_title, checkId, points, more, verdict) => {
    expect(judgeOne(checkId, 'chamber', points, more).verdict).toBe(verdict);
  });

  it('lets a first and a last reading stand for marks', () => {
    expect(judgeOne('COLD-90-20', 'chamber', steady(80, 0, 1200, 5)).verdict).toBe('meets');
    expect(judgeOne('COLD-90-20', 'chamber', steady(80, 0, 1205, 5)).verdict).toBe('misses');
  });
});

describe('either one option or the other', () => {
  const C5 = line([[0, 45], [22, 49], [22 + 5 / 60, 55], [23, 55]]);

  it('C5 misses both options, so the group misses', () => {
    const answer = judgeLog({ process: 'cold', readings: chamber(C5), ...outAt(23) });
    expect(checkIn(answer, 'COLD-90-20').verdict).toBe('misses');
    expect(checkIn(answer, 'COLD-50-24').verdict).toBe('misses');
    expect(answer.verdict).toBe('misses');
  });

  it('takes the best option of a group', () => {
    const answer = judgeLog({ process: 'cold', readings: chamber(line([[0, 45], [10, 49.5], [23.5, 47]])), ...outAt(23.5) });
    expect(checkIn(answer, 'COLD-90-20').verdict).toBe('misses');
    expect(checkIn(answer, 'COLD-50-24').verdict).toBe('meets');
    expect(answer.verdict).not.toBe('misses');
  });

  it('C6 meets for sablefish; for salmon the option does not apply and the group misses; without a species it takes no part', () => {
    const C6 = { process: 'cold' as const, readings: chamber(line([[0, 100], [3, 118], [5.5, 110]])), ...outAt(5.5) };
    expect(judgeLog({ ...C6, checkIds: ['COLD-120-6-SABLE'], species: 'Anoplopoma fimbria' }).verdict).toBe('meets');
    const salmon = judgeLog({ ...C6, setId: 'ny-plant', species: 'Salmo salar' });
    expect(checkIn(salmon, 'COLD-120-6-SABLE').verdict).toBe('does-not-apply');
    expect(salmon.verdict).toBe('misses');
    const unknown = judgeLog({ ...C6, setId: 'ny-plant' });
    expect(checkIn(unknown, 'COLD-120-6-SABLE').verdict).toBe('not-proven');
    expect(unknown.verdict).toBe('misses');
    expect(checkIn(judgeLog({ ...C6, setId: 'ny-plant', species: 'Anoplopoma fimbria' }), 'COLD-120-6-SABLE').verdict).toBe('meets');
  });
});
