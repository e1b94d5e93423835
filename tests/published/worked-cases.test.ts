/**
 * Worked cases that reach past one request, and the list of them all: each is tested by its name
 * somewhere in this folder. 145 °F for 30 continuous minutes: Michigan Administrative Code R 285.569.7
 * (read); cooling: US FDA Food Code 3-501.14 (read), Fish and Fishery Products Hazards and Controls
 * Guidance chapter 12 (from memory). The logs and their verdicts are worked examples of our own (computed).
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { measureDescent } from '../../app/limits/descent.ts';
import type { Reading } from '../../app/limits/judge-case.ts';
import { aloneContext } from '../../app/limits/judge.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { ticksFromNumber } from '../../app/measures/temperature.ts';
import { batchOf, judgeAlone, minutes, needCheck, pieceF } from '../support/judge-cases.ts';
import { inHours, judgeOne, limitBook, steady, type Points } from '../support/judged-log.ts';

const TEN = { maxGapMinutes: 10 };
const H2: Points = [[0, 143.8], [5, 145], [10, 146.1], [15, 147], [20, 147.5], [25, 147.9], [30, 148], [35, 144.9]];

describe('holds', () => {
  it('H2-open: a running cook can’t miss a hold', () => {
    expect(judgeOne('HOT-145-30', 'piece', H2, { ...TEN, open: true })).toMatchObject({ verdict: 'open', provenMinutes: 25 });
  });
  it('H2-dead: the log ends in, and the gap to the out mark may have held', () => {
    expect(judgeOne('HOT-145-30', 'piece', H2.slice(1, 7), { ...TEN, marks: { outMinute: 45 } })).toMatchObject({ verdict: 'not-proven', provenMinutes: 25, possibleMinutes: 40 });
  });
  it('H12: 62.8 °C by a thermometer that reads 0.564 °C high is 62.236 °C, and the less favourable counts', () => {
    const raw = ticksFromNumber(62.8, 'C').lowTicks;
    const corrected = ticksFromNumber(62.236, 'C').lowTicks;
    const readings = (lowTicks: number) => steady(0, 0, 30, 5).map(([minute]): Reading => ({ atMs: minutes(minute), lowTicks, highTicks: raw }));
    expect(judgeAlone('HOT-145-30', batchOf([{ name: 'A', role: 'piece', readings: readings(corrected) }]))).toMatchObject({ verdict: 'misses', reason: 'Piece A was never 145 °F or above; the nearest reading is 144.025 °F at minute 0.' });
    expect(judgeAlone('HOT-145-30', batchOf([{ name: 'A', role: 'piece', readings: readings(raw) }])).verdict).toBe('meets');
  });
});

describe('coolings', () => {
  const K5 = inHours([[0, 145], [0.5, 130], [1, 110], [2, 78], [2.75, 60], [3, 50], [5, 46], [6.5, 44], [8, 42], [10, 40], [12, 38]]);
  it('K5: stage 1 alone took 1.5 to 2.75 h and is not proven, though the whole misses', () => {
    const check = needCheck('COOL-FC');
    if (check.kind !== 'descent') throw new Error('kind');
    const judged = batchOf([pieceF('A', K5)], { endOfSmokingMs: 0 });
    const piece = measureDescent(check, pieceF('A', K5), judged, aloneContext(limitBook, minuteWords('F')), 0);
    expect(piece.descents[0]?.stages[0]).toMatchObject({ verdict: 'not-proven', shortestMs: minutes(90), longestMs: minutes(165) });
    expect(piece.verdict).toBe('misses');
  });
  const rows: [string, Points, string][] = [
    ['K2: FDA 12', [[0, 135], [1, 100], [2, 78], [2.5, 70], [4, 52], [5.5, 41], [5.75, 40]], 'misses'],
    ['K3: FDA 12', [[0, 135], [1, 70], [3, 52], [5, 43], [5.5, 41], [5.75, 40]], 'misses'],
    ['K7: FDA 12', [[0, 135], [1, 100], [2, 78]], 'not-proven'],
    ['K8: FDA 12', [[0, 135], [1, 100], [2, 80], [2.25, 76]], 'misses'],
  ];
  it.each(rows)('%s', (_title, points, verdict) => expect(judgeOne('COOL-FDA12', 'piece', inHours(points)).verdict).toBe(verdict));
});

it('every worked case is tested by its name', () => {
  const numbered = (letter: string, most: number) => Array.from({ length: most }, (_none, index) => `${letter}${index + 1}`);
  const ids = [
    ...numbered('H', 11), 'H2-open', 'H2-dead', 'H3b', 'H12', ...numbered('H', 17).slice(12), ...numbered('C', 10), ...numbered('K', 16), 'K2b',
    ...numbered('W', 12), 'W8b', ...numbered('P', 6), ...numbered('B', 4), ...numbered('S', 2), ...numbered('R', 2), 'X1', 'T1',
  ];
  const folder = new URL('./', import.meta.url);
  const texts = readdirSync(folder).filter((name) => name.endsWith('.test.ts')).map((name) => readFileSync(new URL(name, folder), 'utf8')).join('\n');
  // A title begins with the case's id; the rows of a table do too.
  const isNamed = (id: string) => new RegExp(`['"\`]${id}(?![\\w-])`).test(texts.replaceAll(/const ids = \[[^;]*\];/g, ''));
  expect(ids.length).toBe(76);
  expect(ids.filter((id) => !isNamed(id))).toEqual([]);
});
