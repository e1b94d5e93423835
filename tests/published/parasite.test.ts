/**
 * Freezing against parasites. US FDA Food Code 3-402.11 as enacted in Washington and Minnesota
 * (−4 °F for 168 h; −31 °F until solid, then −31 °F for 15 h or −4 °F for 24 h; read). European
 * Union, Regulation (EC) 853/2004 before 2012 (−20 °C in all parts for 24 h; read). The logs and
 * their verdicts are worked examples of our own (computed), with a reading every hour.
 */
import { describe, expect, it } from 'vitest';
import { checkIn, judgeLog, judgeOne, steady, type LogInput, type Points } from '../support/judged-log.ts';

const hourly = (value: number, fromHour: number, toHour: number): Points => steady(value, fromHour * 60, toHour * 60, 60);
const freezer = (checkId: string, points: Points, more: Partial<LogInput> = {}) => judgeOne(checkId, 'store', points, { process: 'cold', ...more });

describe('option A: −4 °F for 168 h', () => {
  it('P1 meets at exactly −4.0 °F for exactly 168 h', () => expect(freezer('PARA-FREEZE-A', hourly(-4, 0, 168))).toMatchObject({ verdict: 'meets', provenMinutes: 10_080 }));
  it('P2 misses by an hour', () => expect(freezer('PARA-FREEZE-A', hourly(-4, 0, 167))).toMatchObject({ verdict: 'misses', provenMinutes: 10_020, possibleMinutes: 10_020 }));
  it('P3 starts again after an hour at −2 °F', () => {
    expect(freezer('PARA-FREEZE-A', [...hourly(-5, 0, 100), ...hourly(-2, 101, 101), ...hourly(-5, 102, 202)])).toMatchObject({ verdict: 'misses', provenMinutes: 6000 });
  });
  it('P4: a core at −20 °C for 30 h meets the European rule and misses option A', () => {
    const judged = (checkId: string) => judgeLog({ process: 'cold', readings: { unit: 'C', places: [{ name: 'Core', role: 'piece', points: hourly(-20, 0, 30) }] }, checkIds: [checkId] }).checks[0];
    expect(judged('PARA-EU-20-24')).toMatchObject({ verdict: 'meets', provenMinutes: 1800 });
    expect(judged('PARA-FREEZE-A')).toMatchObject({ verdict: 'misses', provenMinutes: 1800 });
  });
  it('P5: 0 °F never qualifies, whatever the days', () => {
    expect(freezer('PARA-FREEZE-A', hourly(0, 0, 720))).toMatchObject({ verdict: 'misses', provenMinutes: 0, possibleMinutes: 0 });
    const group = judgeLog({ process: 'cold', readings: { unit: 'F', places: [{ name: 'Freezer', role: 'store', points: hourly(0, 0, 720) }] } });
    expect(['PARA-FREEZE-A', 'PARA-FREEZE-B', 'PARA-FREEZE-C'].map((id) => checkIn(group, id).verdict)).toEqual(['misses', 'misses', 'misses']);
  });
  it('P6 counts only from the in mark on', () => {
    expect(freezer('PARA-FREEZE-A', hourly(-8, 0, 720), { marks: { inMinute: 696 * 60, outMinute: 720 * 60 } })).toMatchObject({ verdict: 'misses', provenMinutes: 1440 });
  });
  it('is still running on an open record', () => expect(freezer('PARA-FREEZE-A', hourly(-8, 0, 24), { open: true })).toMatchObject({ verdict: 'open', provenMinutes: 1440 }));
  it('takes no step over a seventh of the time for proof, however the readings are spaced', () => {
    const daily = (hours: number[]): Points => hours.map((hour) => [hour * 60, -8]);
    expect(freezer('PARA-FREEZE-A', daily([0, 24, 48, 72, 96, 120, 144, 168])).verdict).toBe('meets');
    expect(freezer('PARA-FREEZE-A', daily([0, 25, 50, 75, 100, 125, 150, 175])).verdict).toBe('not-proven');
  });
});

describe('options B and C: −31 °F until frozen solid', () => {
  const solidAt = (hour: number) => ({ marks: { frozenMinute: hour * 60 } });

  it('B counts 15 h from frozen solid', () => {
    expect(freezer('PARA-FREEZE-B', hourly(-33, 0, 21), solidAt(6))).toMatchObject({ verdict: 'meets', provenMinutes: 900 });
    expect(freezer('PARA-FREEZE-B', hourly(-33, 0, 20), solidAt(6))).toMatchObject({ verdict: 'misses', provenMinutes: 840 });
    expect(freezer('PARA-FREEZE-B', hourly(-31, 0, 15), solidAt(0)).verdict).toBe('meets');
  });
  it('C may be kept at −4 °F after that, for 24 h', () => {
    expect(freezer('PARA-FREEZE-C', [...hourly(-35, 0, 6), ...hourly(-4, 7, 30)], solidAt(6)).verdict).toBe('meets');
    expect(freezer('PARA-FREEZE-B', [...hourly(-35, 0, 6), ...hourly(-4, 7, 30)], solidAt(6)).verdict).toBe('misses');
  });
  it('C misses when the freezer was warmer than −31 °F before the fish was solid', () => {
    expect(freezer('PARA-FREEZE-C', hourly(-10, 0, 30), solidAt(6)).verdict).toBe('misses');
  });
  it('proves nothing without the mark, unless no mark could have helped', () => {
    expect(freezer('PARA-FREEZE-B', hourly(-33, 0, 48)).verdict).toBe('not-proven');
    expect(freezer('PARA-FREEZE-C', hourly(-10, 0, 48)).verdict).toBe('misses');
  });
  it('proves nothing when no reading shows the freezing itself', () => {
    expect(freezer('PARA-FREEZE-C', hourly(-10, 6, 48), solidAt(5)).verdict).toBe('not-proven');
  });
});

describe('heat against parasites', () => {
  it('asks 60 °C for a minute (European Union, Regulation (EU) 1276/2011, from memory)', () => {
    const judged = (points: Points) => judgeLog({ process: 'hot', readings: { unit: 'C', places: [{ name: 'Core', role: 'piece', points }] }, checkIds: ['PARA-EU-HEAT'] }).verdict;
    expect(judged([[0, 60], [1, 60]])).toBe('meets');
    expect(judged([[0, 60], [1, 59.999]])).toBe('misses');
  });
});
