/**
 * Hot smoke: 145 °F (62.8 °C) for 30 continuous minutes at the coldest part of the fish. State of
 * Michigan, Administrative Code R 285.569.7 (read); State of Maine, Code of Maine Rules 01-001
 * chapter 359 § 2 (read). Three pieces: US FDA and Institute of Food Technologists, Processing
 * Parameters Needed to Control Pathogens in Cold-Smoked Fish, chapter VI, 2001 (second-hand). The
 * logs and their verdicts are worked examples of our own (computed).
 */
import { describe, expect, it } from 'vitest';
import { checkIn, judgeLog, judgeOne, steady, type LogInput, type Points } from '../support/judged-log.ts';

const TEN = { maxGapMinutes: 10 };
const H1: Points = [[0, 143.8], [5, 145], [10, 146.1], [15, 147], [20, 147.5], [25, 147.9], [30, 148], [35, 148.2]];
const H2: Points = [...H1.slice(0, -1), [35, 144.9]];
const H3: Points = [[0, 145.5], [5, 145.8], [10, 146], [15, 144.9], [20, 145.2], [25, 146], [30, 146.5], [35, 147], [40, 147.2]];

function hold(points: Points, more: Partial<LogInput> = TEN, checkId = 'HOT-145-30') {
  return judgeOne(checkId, 'piece', points, more);
}

describe('one piece held at 145 °F for 30 min', () => {
  const rows: [string, Points, Partial<LogInput>, string, number, number][] = [
    ['H1 counts from exactly 145.0 for exactly 30 min', H1, TEN, 'meets', 30, 30],
    ['H2 ends with a reading of 144.9 after 25 min', H2, TEN, 'misses', 25, 25],
    ['H2 on a record still running can’t have missed yet', H2, { ...TEN, open: true }, 'open', 25, 25],
    ['H2 with a dead probe and an out mark may have held', H1.slice(1, 7), { ...TEN, marks: { outMinute: 45 } }, 'not-proven', 25, 40],
    ['H3 adds up to 30 min but is broken at 15', H3, TEN, 'misses', 20, 20],
    ['H3b starts again and lasts 30 min', [...H3, [45, 147.4], [50, 147.5]], TEN, 'meets', 30, 30],
    ['H4 has a 20 min gap', [[0, 146], [5, 146], [25, 148], [30, 148.5], [35, 149]], TEN, 'not-proven', 10, 35],
    ['H13 is read every 30 min, and the longest step is never over 12 min', [[0, 146], [30, 147], [60, 147]], {}, 'not-proven', 0, 60],
    ['H14 follows the cook’s procedure by hand', [[0, 60], [30, 95], [60, 128], [80, 141], [90, 145.4], [100, 146.2], [110, 147], [120, 147.5]], {}, 'meets', 30, 30],
    ['H15 has a gap beside a reading below', [[0, 140], [5, 144], [50, 147], [55, 147], [60, 146], [65, 144]], TEN, 'not-proven', 10, 55],
    ['H16 has two values at minute 10, and the lower counts', [...steady(146, 0, 40, 5), [10, 144.9]], TEN, 'misses', 25, 25],
  ];
  it.each(rows)('%s', (_title, points, more, verdict, proven, possible) => {
    const found = hold(points, more);
    expect(found.verdict).toBe(verdict);
    expect(found.provenMinutes).toBe(proven);
    expect(found.possibleMinutes).toBe(possible);
  });

  it('derives the same longest step from five-minute readings', () => {
    expect(hold(H1, {}).verdict).toBe('meets');
    expect(hold(H2, {}).provenMinutes).toBe(25);
  });
});

describe('several pieces', () => {
  const at = (values: number[]): Points => values.map((value, index) => [index * 5, value]);
  const H5 = [
    { name: 'A', role: 'piece' as const, points: at([148, 149, 150, 150, 151, 151, 152]) },
    { name: 'B', role: 'piece' as const, points: at([146, 147, 148, 148, 149, 149, 150]) },
    { name: 'C', role: 'piece' as const, points: at([144.6, 145.3, 146, 147, 147, 148, 148]) },
  ];
  const H11 = [
    { name: 'A', role: 'piece' as const, points: [...steady(146, 0, 30, 5), [35, 140], [40, 140]] as Points },
    { name: 'B', role: 'piece' as const, points: [[0, 140], ...steady(146, 5, 35, 5), [40, 140]] as Points },
  ];

  it('H5 is decided by the slowest piece, with three recorded', () => {
    const answer = judgeLog({ process: 'hot', readings: { unit: 'F', places: H5 }, checkIds: ['HOT-145-30', 'HOT-PROBES-3'], ...TEN });
    expect(answer.verdict).toBe('misses');
    expect(checkIn(answer, 'HOT-145-30')).toMatchObject({ verdict: 'misses', provenMinutes: 25 });
    expect(checkIn(answer, 'HOT-145-30').reason).toContain('Piece C');
    expect(checkIn(answer, 'HOT-PROBES-3').verdict).toBe('meets');
  });

  it('H6 with one probe meets a set that asks one and proves nothing to a set that asks three', () => {
    const request = { process: 'hot' as const, readings: { unit: 'F' as const, places: [{ name: 'A', role: 'piece' as const, points: H1 }] }, ...TEN };
    expect(judgeLog({ ...request, checkIds: ['HOT-145-30', 'HOT-PROBES-1'] }).verdict).toBe('meets');
    expect(judgeLog({ ...request, checkIds: ['HOT-145-30', 'HOT-PROBES-3'] }).verdict).toBe('not-proven');
  });

  it('H11 meets piece by piece and misses as one common stretch', () => {
    const request = { process: 'hot' as const, readings: { unit: 'F' as const, places: H11 }, ...TEN };
    const each = judgeLog({ ...request, checkIds: ['HOT-145-30'] });
    expect(each.verdict).toBe('meets');
    expect(each.checks[0]).toMatchObject({ provenMinutes: 30 });
    expect(checkIn(judgeLog({ ...request, setId: 'lodge-default' }), 'HOT-145-30')).toMatchObject({ verdict: 'misses', provenMinutes: 25, possibleMinutes: 25 });
  });

  it('H17 is decided by the piece that misses, not by the one that proves least', () => {
    const places = [
      { name: 'A', role: 'piece' as const, points: [...steady(146, 0, 20, 5), ...steady(140, 25, 60, 5)] },
      { name: 'B', role: 'piece' as const, points: [[0, 146], [5, 146], [40, 146], [45, 146], [50, 140]] as Points },
    ];
    const both = judgeLog({ process: 'hot', readings: { unit: 'F', places }, checkIds: ['HOT-145-30'], ...TEN });
    expect(both.checks[0]).toMatchObject({ verdict: 'misses', provenMinutes: 20 });
    expect(both.checks[0]?.reason).toContain('Piece A');
    expect(hold(places[1]?.points ?? [])).toMatchObject({ verdict: 'not-proven', provenMinutes: 5, possibleMinutes: 45 });
  });
});

describe('the unit of the law', () => {
  const metric = (value: number, checkId: string) => judgeLog({ process: 'hot', readings: { unit: 'C', places: [{ name: 'A', role: 'piece', points: steady(value, 0, 30, 5) }] }, checkIds: [checkId], ...TEN }).verdict;

  it('H7: 62.7 °C is 144.86 °F and misses', () => expect(metric(62.7, 'HOT-145-30')).toBe('misses'));
  it('H8: 62.78 °C meets 145 °F and misses 63 °C', () => {
    expect(metric(62.78, 'HOT-145-30')).toBe('meets');
    expect(metric(62.78, 'HOT-63-30')).toBe('misses');
    expect(metric(63, 'HOT-63-30')).toBe('meets');
  });
  it('T1: 62.777 °C misses 145 °F and 62.778 °C meets it', () => {
    expect(metric(62.777, 'HOT-145-30')).toBe('misses');
    expect(metric(62.778, 'HOT-145-30')).toBe('meets');
  });
  it('H10: 146 to 150 °F for 40 min misses the home rule of 160 °F (Washington State University Extension, read) and meets 145 °F', () => {
    const points: Points = [...steady(146, 0, 20, 5), ...steady(150, 25, 40, 5)];
    expect(hold(points, TEN, 'HOT-160-30-HOME').verdict).toBe('misses');
    expect(hold(points).verdict).toBe('meets');
  });
});

describe('the thermometer’s error', () => {
  it('H9: 145.5 °F with 2 °F of error meets within it', () => {
    expect(hold(steady(145.5, 0, 35, 5), { ...TEN, instrumentError: 2 })).toMatchObject({ verdict: 'meets-within-error', provenMinutes: 35 });
    expect(hold(steady(145.5, 0, 35, 5), { ...TEN, instrumentError: 0 }).verdict).toBe('meets');
  });
  it('T1: 63.88 °C clears 145 °F by 1.1 °C of error exactly, and not by 1.11 °C', () => {
    const judged = (instrumentError: number) => judgeLog({
      process: 'hot', readings: { unit: 'C', places: [{ name: 'A', role: 'piece', points: steady(63.88, 0, 30, 5) }] }, checkIds: ['HOT-145-30'], instrumentError, ...TEN,
    }).verdict;
    expect(judged(1.1)).toBe('meets');
    expect(judged(1.11)).toBe('meets-within-error');
  });
});
