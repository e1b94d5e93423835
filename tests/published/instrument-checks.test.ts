/**
 * Checks of thermometers. Melting ice and boiling water as references; what law allows: State of California, Health
 * and Safety Code 114159(c) (read); US Food and Drug Administration, Food Code 4-203.11 (from memory). Worked
 * corrections and cases H12 and T1 are our own (computed).
 */
import { describe, expect, it } from 'vitest';
import { correctionFrom, correctTicks, coverReadings, coverTicks, type Correction } from '../../app/probes/correction.ts';
import { besideReference, DUE_SOURCES, FULL_CHECK_MONTHS, inBoilingWater, inIce, PUBLISHED_ACCURACY, ticksOf } from '../../app/probes/instrument-check.ts';
import { formatDegrees, ticksFromNumber, differenceTicks, type TickBounds } from '../../app/measures/temperature.ts';
import { batchOf, judgeAlone, minutes } from '../support/judge-cases.ts';

function celsius(value: number): TickBounds {
  return ticksFromNumber(value, 'C');
}

/** Ice reads 0.4 °C; boiling water, which is 94.65 °C at 1600 m, reads 95.3 °C. */
function worked(): Correction {
  const found = correctionFrom([inIce(celsius(0.4)), besideReference(celsius(95.3), celsius(94.65), 0)]);
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

describe('a worked two-point correction', () => {
  it.each([[62.8, 62.236], [57.2, 56.65], [4, 3.591], [-18, -18.352], [63.366, 62.8]])('a shown %d °C is %d °C', (shown, corrected) => {
    const { lowTicks, highTicks } = correctTicks(worked(), celsius(shown));
    expect(lowTicks / 9000).toBeGreaterThan(corrected - 0.00062);
    expect(highTicks / 9000).toBeLessThan(corrected + 0.00062);
    expect(highTicks - lowTicks).toBeLessThanOrEqual(1);
  });

  it('is the slope 94.65 / 94.9 through the ice point, as a fraction of whole ticks', () => {
    const { lowTicks, highTicks } = correctTicks(worked(), celsius(62.8));
    const exact = ((62.8 - 0.4) * 94.65) / 94.9;
    expect(lowTicks).toBe(Math.floor(exact * 9000));
    expect(highTicks).toBe(Math.ceil(exact * 9000));
  });

  it('is the same with the boiling point of 1600 m itself, to a hundredth', () => {
    const boiling = inBoilingWater(celsius(95.3), { altitudeMetres: 1600 });
    if (!boiling.ok) throw new Error(boiling.problem.message);
    const found = correctionFrom([inIce(celsius(0.4)), boiling.value]);
    if (!found.ok) throw new Error(found.problem.message);
    const { lowTicks, highTicks } = correctTicks(found.value, celsius(62.8));
    expect(Math.abs(lowTicks / 9000 - 62.236)).toBeLessThan(0.01);
    expect(highTicks - lowTicks).toBeLessThanOrEqual(2);
  });
});

describe('H12, constant 62.8 °C for 30 min by a thermometer that reads 0.564 °C high', () => {
  const raw = Array.from({ length: 7 }, (_, index) => ({ atMs: minutes(index * 5), ...celsius(62.8) }));
  const judged = (correction: Correction | undefined) => judgeAlone('HOT-145-30', batchOf([{ name: 'A', role: 'piece', readings: coverReadings(correction, raw) }], { maxGapMs: minutes(10) }));

  it('meets 145 °F as read and misses it by the check: 62.236 °C, which is 144.02 °F', () => {
    const offset = correctionFrom([besideReference(celsius(63.364), celsius(62.8), 0)]);
    if (!offset.ok) throw new Error(offset.problem.message);
    const { lowTicks, highTicks } = correctTicks(offset.value, celsius(62.8));
    expect([lowTicks, highTicks]).toEqual([560_124, 560_124]);
    expect(formatDegrees(lowTicks, 'F', 2)).toBe('144.02');
    expect(judged(undefined).verdict).toBe('meets');
    expect(judged(offset.value)).toMatchObject({ verdict: 'misses', provenMinutes: 0 });
  });

  it('misses by the two-point check too', () => {
    expect(judged(worked()).verdict).toBe('misses');
  });

  it('is not helped by a thermometer that reads low: the raw value still counts', () => {
    const low = correctionFrom([inIce(celsius(-0.564))]);
    if (!low.ok) throw new Error(low.problem.message);
    expect(coverTicks(low.value, celsius(62.8))).toEqual({ lowTicks: 565_200, highTicks: 570_276 });
    const colder = raw.map((reading) => ({ ...reading, ...celsius(62.7) }));
    expect(judgeAlone('HOT-145-30', batchOf([{ name: 'A', role: 'piece', readings: coverReadings(low.value, colder) }], { maxGapMs: minutes(10) })).verdict).toBe('misses');
  });
});

describe('T1, against 145 °F', () => {
  const judged = (value: number, error: number) => judgeAlone('HOT-145-30', batchOf([{ name: 'A', role: 'piece', readings: coverReadings(undefined, Array.from({ length: 7 }, (_, index) => ({ atMs: minutes(index * 5), ...celsius(value) }))) }], { maxGapMs: minutes(10), errorTicks: differenceTicks(error, 'C') })).verdict;

  it.each([[63.88, 1.1, 'meets'], [63.88, 1.11, 'meets-within-error'], [62.777, 0, 'misses'], [62.778, 0, 'meets']])('constant %d °C for 30 min with an error of %d °C: %s', (value, error, verdict) => {
    expect(judged(value, error)).toBe(verdict);
  });
});

describe('what texts ask of a thermometer', () => {
  it('±1 °C, or ±2 °F where it shows °F only', () => {
    expect(ticksOf(PUBLISHED_ACCURACY.celsius)).toBe(9000);
    expect(ticksOf(PUBLISHED_ACCURACY.fahrenheit)).toBe(10_000);
    expect(PUBLISHED_ACCURACY.sources.map(({ mark }) => mark)).toEqual(['read', 'from memory']);
  });
  it('a check on the day of use (from memory) and a full one within 12 months (read)', () => {
    expect(FULL_CHECK_MONTHS).toBe(12);
    expect(DUE_SOURCES['same-day'].mark).toBe('from memory');
    expect(DUE_SOURCES.months).toMatchObject({ section: 'R 285.569.3(2): at least yearly', mark: 'read' });
  });
});
