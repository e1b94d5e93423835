import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BOTULINUM_TARGET, HEAT_TARGETS, LISTERIA_TARGET } from '../../app/heat/heat-targets.ts';
import { accumulateLethality, lethalRate, segmentMinutes } from '../../app/heat/lethality.ts';
import type { Reading } from '../../app/limits/judge-case.ts';
import { ticksFromDecimal } from '../../app/measures/temperature.ts';

const MINUTE_MS = 60_000;
const RUNS = { numRuns: 300 };

function at(minute: number, celsius: number, highCelsius = celsius): Reading {
  return { atMs: minute * MINUTE_MS, lowTicks: Math.round(celsius * 9000), highTicks: Math.round(highCelsius * 9000) };
}

const target = fc.constantFrom(...HEAT_TARGETS);
const celsius = fc.integer({ min: 0, max: 110_000 }).map((thousandths) => thousandths / 1000);
const log = fc.array(fc.tuple(fc.integer({ min: 1, max: 20 }), celsius), { minLength: 1, maxLength: 30 }).map((rows) => {
  let minute = 0;
  return rows.map(([step, degrees]) => at((minute += step), degrees));
});

describe('a straight segment', () => {
  it('is what a fine numeric integration of the lethal rate gives', () => {
    fc.assert(fc.property(target, celsius, celsius, fc.integer({ min: 1, max: 600 }), (aim, from, to, minutes) => {
      const [fromTicks, toTicks] = [Math.round(from * 9000), Math.round(to * 9000)];
      const pieces = 4000;
      let sum = 0;
      for (let index = 0; index < pieces; index += 1) sum += lethalRate(fromTicks + ((toTicks - fromTicks) * (index + 0.5)) / pieces, aim);
      const found = segmentMinutes(minutes, fromTicks, toTicks, aim);
      expect(Math.abs(found - (sum * minutes) / pieces)).toBeLessThanOrEqual(found * 2e-4);
    }), { numRuns: 150 });
  });

  it('keeps its digits where both ends are nearly the same', () => {
    const reference = LISTERIA_TARGET.referenceTicks;
    expect(segmentMinutes(10, reference - 1, reference, LISTERIA_TARGET)).toBeCloseTo(10 * lethalRate(reference - 0.5, LISTERIA_TARGET), 8);
    expect(segmentMinutes(10, reference, reference, LISTERIA_TARGET)).toBe(10);
  });

  it('may be cut anywhere on its line', () => {
    fc.assert(fc.property(target, celsius, celsius, fc.integer({ min: 1, max: 99 }), (aim, from, to, percent) => {
      const [fromTicks, toTicks] = [Math.round(from * 9000), Math.round(to * 9000)];
      const middle = fromTicks + ((toTicks - fromTicks) * percent) / 100;
      const whole = segmentMinutes(100, fromTicks, toTicks, aim);
      expect(Math.abs(segmentMinutes(percent, fromTicks, middle, aim) + segmentMinutes(100 - percent, middle, toTicks, aim) - whole)).toBeLessThanOrEqual(whole * 1e-9);
    }), RUNS);
  });

  it('is the same run backwards', () => {
    fc.assert(fc.property(target, celsius, celsius, (aim, from, to) => {
      const up = segmentMinutes(7, from * 9000, to * 9000, aim);
      expect(Math.abs(segmentMinutes(7, to * 9000, from * 9000, aim) - up)).toBeLessThanOrEqual(up * 1e-9);
    }), RUNS);
  });

  it('changes z at the reference, where the target has two', () => {
    const { referenceTicks } = BOTULINUM_TARGET;
    expect(lethalRate(referenceTicks + 10 * 9000, BOTULINUM_TARGET)).toBeCloseTo(10, 12);
    expect(lethalRate(referenceTicks - 7 * 9000, BOTULINUM_TARGET)).toBeCloseTo(0.1, 12);
    expect(lethalRate(referenceTicks, BOTULINUM_TARGET)).toBe(1);
  });
});

describe('lethality of a record', () => {
  it('credits the longest step that is no gap and nothing over a longer one', () => {
    const readings = [at(0, 70), at(5, 70), at(10.001, 70), at(12, 70)];
    const found = accumulateLethality(readings, LISTERIA_TARGET, 5 * MINUTE_MS);
    expect(found.minutes).toBeCloseTo(5 + 1.999, 9);
    expect(found.creditedMs).toBe(5 * MINUTE_MS + 1.999 * MINUTE_MS);
    expect(found.gapMs).toBeCloseTo(5.001 * MINUTE_MS, 6);
    expect(found.logReductions).toBeCloseTo((6.999 / 2) * 6, 9);
  });

  it('is nothing for one reading or none', () => {
    expect(accumulateLethality([], LISTERIA_TARGET, MINUTE_MS)).toEqual({ minutes: 0, logReductions: 0, creditedMs: 0, gapMs: 0 });
    expect(accumulateLethality([at(3, 90)], LISTERIA_TARGET, MINUTE_MS)).toEqual({ minutes: 0, logReductions: 0, creditedMs: 0, gapMs: 0 });
  });

  it('counts the lower of a raw and a corrected value, and the lower of two at one instant', () => {
    expect(accumulateLethality([at(0, 70, 80), at(10, 70, 80)], LISTERIA_TARGET, 10 * MINUTE_MS).minutes).toBe(10);
    expect(accumulateLethality([at(0, 80), at(0, 70), at(10, 70), at(10, 80)], LISTERIA_TARGET, 10 * MINUTE_MS).minutes).toBe(10);
  });

  it('never depends on the order of readings or on when the record began', () => {
    fc.assert(fc.property(target, log, fc.integer({ min: -1_000_000, max: 1_000_000 }), (aim, readings, shift) => {
      const found = accumulateLethality(readings, aim, 12 * MINUTE_MS);
      expect(accumulateLethality(readings.toReversed(), aim, 12 * MINUTE_MS)).toEqual(found);
      expect(accumulateLethality(readings.map((reading) => ({ ...reading, atMs: reading.atMs + shift * 1000 })), aim, 12 * MINUTE_MS)).toEqual(found);
    }), RUNS);
  });

  it('is the same for the same temperatures in °C and °F', () => {
    fc.assert(fc.property(target, fc.array(fc.integer({ min: 0, max: 110_000 }), { minLength: 1, maxLength: 20 }), (aim, thousandths) => {
      const inUnit = (unit: 'C' | 'F') => thousandths.map((value, index): Reading => {
        const ticks = ticksFromDecimal(unit === 'C' ? `${value}e-3` : `${value * 18 + 320_000}e-4`, unit);
        if (!ticks.ok) throw new Error(ticks.problem.message);
        return { atMs: index * MINUTE_MS, ...ticks.value };
      });
      expect(accumulateLethality(inUnit('F'), aim, MINUTE_MS)).toEqual(accumulateLethality(inUnit('C'), aim, MINUTE_MS));
    }), RUNS);
  });

  it('is never lowered by a hotter reading', () => {
    fc.assert(fc.property(target, log, fc.nat(), fc.integer({ min: 0, max: 20_000 }), (aim, readings, pick, hotter) => {
      const before = accumulateLethality(readings, aim, 12 * MINUTE_MS).minutes;
      const which = pick % readings.length;
      const after = accumulateLethality(readings.map((reading, index) => (index === which ? { ...reading, lowTicks: reading.lowTicks + hotter, highTicks: reading.highTicks + hotter } : reading)), aim, 12 * MINUTE_MS).minutes;
      expect(after).toBeGreaterThanOrEqual(before * (1 - 1e-12));
    }), RUNS);
  });

  it('is never raised by a shorter allowance for gaps', () => {
    fc.assert(fc.property(target, log, fc.integer({ min: 1, max: 20 }), fc.integer({ min: 0, max: 10 }), (aim, readings, shorter, more) => {
      const tight = accumulateLethality(readings, aim, shorter * MINUTE_MS);
      const wide = accumulateLethality(readings, aim, (shorter + more) * MINUTE_MS);
      expect(tight.minutes).toBeLessThanOrEqual(wide.minutes * (1 + 1e-12));
      expect(tight.creditedMs + tight.gapMs).toBe(wide.creditedMs + wide.gapMs);
    }), RUNS);
  });
});
