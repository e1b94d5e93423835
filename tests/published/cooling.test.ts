/**
 * Cooling. US FDA Food Code 3-501.14 as enacted in Minnesota and Wisconsin (135 → 70 °F in 2 h,
 * → 41 °F in 6 h altogether; read). Alaska 18 AAC 31.234 (separate clocks; read). Government of
 * Ontario, Fish Plant Guidelines F.B.14.3 (135 → 70 → 40 °F; read). US FDA, Fish and Fishery
 * Products Hazards and Controls Guidance chapter 12 (from memory). 21 CFR 172.177 for chub (from
 * memory). The logs and their bounds are worked examples of our own (computed); the printed points
 * are all the readings.
 */
import { describe, expect, it } from 'vitest';
import { checkIn, inHours, judgeLog, judgeOne, type LogInput, type Points } from '../support/judged-log.ts';

const K1 = inHours([[0, 140], [0.25, 135], [1, 95], [2, 70], [4, 50], [5.75, 41], [6, 40], [8, 38]]);
const K2 = inHours([[0, 135], [1, 100], [2, 78], [2.5, 70], [4, 52], [5.5, 41], [5.75, 40]]);
const K3 = inHours([[0, 135], [1, 70], [3, 52], [5, 43], [5.5, 41], [5.75, 40]]);
const K4 = inHours([[0, 135], [2, 70], [4, 50], [6, 41], [6.5, 40], [9, 38]]);
const K5 = inHours([[0, 145], [0.5, 130], [1, 110], [2, 78], [2.75, 60], [3, 50], [5, 46], [6.5, 44], [8, 42], [10, 40], [12, 38]]);
const K6 = inHours([[0, 135], [1.5, 82], [3.75, 60], [5.5, 41], [5.75, 40]]);
const K7 = inHours([[0, 135], [1, 100], [2, 78]]);
const K8 = inHours([[0, 135], [1, 100], [2, 80], [2.25, 76]]);
const K9: Points = [[0, 146], [20, 134], [180, 118], [200, 136], [210, 134], [320, 70], [540, 41]];
const K10 = inHours([[0, 135], [0.25, 128], [1.75, 69], [5.75, 40]]);
const K11 = inHours([[0, 135], [1, 90], [2.5, 60], [5, 40]]);
const K12: Points = [[20, 118], [60, 90], [110, 70], [200, 55], [300, 41]];
const K13: Points = [[0, 40], [60, 120], [90, 146], [100, 147], [110, 147], [120, 147], [125, 146], [140, 134], [200, 90], [250, 69], [340, 52], [430, 41]];
const K14: Points = [[0, 141], [5, 136], [20, 120], [60, 95], [121, 70], [122, 68], [200, 52], [300, 39]];
const K15: Points = [[0, 135], [60, 90], [100, 70], [150, 60], [180, 72], [200, 69], [260, 55], [350, 41]];
const K16 = (minute: number, value: number): Points => [[0, 135], [60, 100], [minute, value]];
const END_AT_0 = { marks: { endOfSmokingMinute: 0 } };
const CHUB = { ...END_AT_0, species: 'Coregonus hoyi', saltSamples: [{ saltPercent: 3, moisturePercent: 62, nitritePpm: 120 }] };

describe('cooling by its bounds', () => {
  type Row = [string, string, Points, Partial<LogInput>, string, number?, number?];
  const rows: Row[] = [
    ['K1 falls to 70 °F in 1.75 h and to 41 °F in 5.5 h', 'COOL-FC', K1, {}, 'meets', 105, 105],
    ['K1 takes exactly 4 h from 70 to 40 °F', 'COOL-ON', K1, {}, 'meets', 240, 240],
    ['K1', 'COOL-FDA12', K1, {}, 'meets', 240, 240],
    ['K2 takes 2.5 h to 70 °F', 'COOL-FC', K2, {}, 'misses', 150, 150],
    ['K2', 'COOL-ON', K2, {}, 'misses', 150, 150],
    ['K3 is fast first, which a shared clock allows', 'COOL-FC', K3, {}, 'meets', 330, 330],
    ['K3 takes 4.75 h from 70 to 40 °F', 'COOL-ON', K3, {}, 'misses', 285, 285],
    ['K3 takes 4.5 h from 70 to 41 °F', 'COOL-AK-FS', K3, {}, 'misses', 270, 270],
    ['K4 takes exactly 2 h and exactly 6 h', 'COOL-FC', K4, {}, 'meets', 360, 360],
    ['K4 takes 4.5 h from 70 to 40 °F', 'COOL-FDA12', K4, {}, 'misses', 270, 270],
    ['K4 takes exactly 4 h from 70 to 41 °F', 'COOL-AK-FS', K4, {}, 'meets', 240, 240],
    ['K5 takes 7.5 to 10 h altogether', 'COOL-FC', K5, END_AT_0, 'misses', 450, 600],
    ['K5', 'COOL-ON', K5, END_AT_0, 'misses'],
    ['K5 as chub with 120 ppm nitrite is at 50 °F after 3 h and at 38 °F after 12 h', 'COOL-CHUB', K5, CHUB, 'meets'],
    ['K6 crosses 70 °F somewhere in 2.25 h without a reading', 'COOL-FC', K6, {}, 'not-proven', 90, 225],
    ['K6', 'COOL-FDA12', K6, {}, 'not-proven', 90, 225],
    ['K7 ends above 70 °F at exactly 2 h', 'COOL-FC', K7, {}, 'not-proven', 120],
    ['K8 is still above 70 °F after 2.25 h', 'COOL-FC', K8, {}, 'misses', 135],
    ['K8', 'COOL-ON', K8, {}, 'misses', 135],
    ['K9 starts between 0 and 20, and the re-warm does not reset it', 'COOL-FC', K9, {}, 'misses', 300, 320],
    ['K10 is at 70 °F somewhere between 0.25 and 1.75 h, so stage 2 took 4.0 to 5.5 h', 'COOL-FDA12', K10, {}, 'not-proven', 240, 330],
    ['K11 is at 70 °F somewhere between 1 and 2.5 h', 'COOL-FC', K11, {}, 'not-proven', 60, 150],
    ['K12 has its probe put in after the trolley moved', 'COOL-FC', K12, END_AT_0, 'meets', 90, 110],
    ['K13 starts after the hold, not at the mark', 'COOL-FC', K13, { marks: { endOfSmokingMinute: 160 } }, 'not-proven', 60, 125],
    ['K14 without error', 'COOL-FC', K14, {}, 'meets', 101, 116],
    ['K14 with 2 °F of error, which also starts it earlier', 'COOL-FC', K14, { instrumentError: 2 }, 'meets-within-error', 101, 116],
    ['K15 touches 70 °F, but not for good', 'COOL-FC', K15, {}, 'misses', 180, 200],
    ['K16 at exactly 2 h, still running', 'COOL-FC', K16(120, 78), { open: true }, 'open', 120],
    ['K16 a minute later', 'COOL-FC', K16(121, 78), { open: true }, 'misses', 121],
    ['K16 found below 70 °F after 2.5 h', 'COOL-FC', K16(150, 60), { open: true }, 'not-proven', 60, 150],
  ];
  it.each(rows)('%s (%s)', (_title, checkId, points, more, verdict, shortest, longest) => {
    const found = judgeOne(checkId, 'piece', points, more);
    expect(found.verdict).toBe(verdict);
    if (shortest !== undefined) expect(found.shortestMinutes).toBe(shortest);
    if (longest !== undefined) expect(found.longestMinutes).toBe(longest);
  });

  it('K2b judges each piece by its own readings: piece A alone took 130 min', () => {
    const rest: Points = [[200, 50], [300, 38]];
    const answer = judgeLog({
      process: 'hot', checkIds: ['COOL-FC'],
      readings: { unit: 'F', places: [
        { name: 'A', role: 'piece', points: [[0, 135], [60, 100], [130, 70], ...rest] },
        { name: 'B', role: 'piece', points: [[0, 150], [60, 135], [100, 90], [125, 70], ...rest] },
      ] },
    });
    expect(checkIn(answer, 'COOL-FC')).toMatchObject({ verdict: 'misses', shortestMinutes: 130, longestMinutes: 130 });
    expect(answer.checks[0]?.reason).toContain('Piece A');
  });
});

describe('what a relaxed cooling rule needs', () => {
  it('does not apply to salmon and proves nothing without the species or the nitrite', () => {
    expect(judgeOne('COOL-CHUB', 'piece', K5, { ...CHUB, species: 'Salmo salar' }).verdict).toBe('does-not-apply');
    expect(judgeOne('COOL-CHUB', 'piece', K5, { ...END_AT_0, species: 'Coregonus hoyi' }).verdict).toBe('not-proven');
    expect(judgeOne('COOL-CHUB', 'piece', K5, { ...CHUB, species: undefined }).verdict).toBe('not-proven');
  });
});
