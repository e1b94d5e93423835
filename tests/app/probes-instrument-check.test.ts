import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { biasTicks, correctionFrom, correctTicks, coverReadings, coverTicks, type CheckPoint, type Correction } from '../../app/probes/correction.ts';
import { besideReference, correctionInForce, findingOf, inBoilingWater, inIce, isDue, lastCheck, pointsInForce, type InstrumentCheck, type InstrumentFacts } from '../../app/probes/instrument-check.ts';
import { remainingError } from '../../app/probes/remaining-error.ts';
import { ticksFromNumber, type TemperatureUnit } from '../../app/measures/temperature.ts';

const RUNS = { numRuns: 500 };
const DAY_MS = 86_400_000;
const FACTS: InstrumentFacts = { resolution: { value: '0.1', unit: 'F' }, accuracyClass: { value: '0.5', unit: 'C' }, scale: 'F' };

function shown(value: number, unit: TemperatureUnit = 'C') {
  return ticksFromNumber(value, unit);
}

function boiling(value: number, pascal = 101_325): CheckPoint {
  const point = inBoilingWater(shown(value), { stationPascal: pascal });
  if (!point.ok) throw new Error(point.problem.message);
  return point.value;
}

function correction(...points: [CheckPoint] | [CheckPoint, CheckPoint]): Correction {
  const found = correctionFrom(points);
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

function check(day: number, ...points: [CheckPoint] | [CheckPoint, CheckPoint]): InstrumentCheck {
  return { atMs: day * DAY_MS, points };
}

describe('a correction', () => {
  it('from one point shifts every reading by the bias there', () => {
    const found = correction(inIce(shown(0.4)));
    expect(found.kind).toBe('offset');
    expect(correctTicks(found, shown(62.8))).toEqual({ lowTicks: 561_600, highTicks: 561_600 });
    expect(biasTicks(inIce(shown(0.4)))).toEqual([3600, 3600]);
  });

  it('through two points gives their references back, whichever comes first', () => {
    for (const found of [correction(inIce(shown(-0.3)), besideReference(shown(80.5), shown(80), 0)), correction(besideReference(shown(80.5), shown(80), 0), inIce(shown(-0.3)))]) {
      expect(found.kind).toBe('two-point');
      expect(correctTicks(found, shown(-0.3))).toEqual({ lowTicks: 0, highTicks: 0 });
      expect(correctTicks(found, shown(80.5))).toEqual({ lowTicks: 720_000, highTicks: 720_000 });
    }
  });

  it('is exact: the two ticks around the fraction, for any reading', () => {
    fc.assert(fc.property(fc.integer({ min: -13_000, max: 13_000 }), fc.integer({ min: -13_000, max: 13_000 }), fc.integer({ min: -400_000, max: 4_000_000 }), (low, high, raw) => {
      const ice = inIce({ lowTicks: low, highTicks: low });
      const hot = besideReference({ lowTicks: 900_000 + high, highTicks: 900_000 + high }, shown(100), 0);
      const found = correctTicks(correction(ice, hot), { lowTicks: raw, highTicks: raw });
      const above = BigInt(raw - low) * 900_000n;
      const span = BigInt(900_000 + high - low);
      expect(BigInt(found.lowTicks) * span <= above && above < BigInt(found.lowTicks + 1) * span).toBe(true);
      expect(BigInt(found.highTicks) * span >= above && above > BigInt(found.highTicks - 1) * span).toBe(true);
    }), RUNS);
  });

  it('stays exact where the product leaves the safe whole numbers', () => {
    const found = correctTicks(correction(inIce(shown(0.4)), besideReference(shown(95.3), shown(94.65), 0)), { lowTicks: 90_000_000_003_600, highTicks: 90_000_000_003_600 });
    const exact = 90_000_000_000_000n * 851_850n;
    expect(found.lowTicks).toBe(Number(exact / 854_100n));
    expect(found.highTicks).toBe(found.lowTicks + 1);
    expect(correctTicks(correction(inIce(shown(0.4)), besideReference(shown(95.3), shown(94.65), 0)), { lowTicks: -90_000_000_003_600, highTicks: -90_000_000_003_600 }).highTicks).toBe(Number((-90_000_000_007_200n * 851_850n) / 854_100n));
  });

  it('covers every line between the ticks that its points leave open', () => {
    const found = correction(inIce({ lowTicks: 3600, highTicks: 3601 }), boiling(99.5));
    expect(found.lines).toHaveLength(4);
    const { lowTicks, highTicks } = correctTicks(found, { lowTicks: 565_000, highTicks: 565_001 });
    const exact = (m: number, low: number, reference: number) => ((m - low) * reference) / (895_500 - low);
    const reference = boiling(99.5).reference.bounds;
    const all = [3600, 3601].flatMap((low) => [reference.lowTicks, reference.highTicks].flatMap((high) => [565_000, 565_001].map((m) => exact(m, low, high))));
    expect(lowTicks).toBe(Math.floor(Math.min(...all)));
    expect(highTicks).toBe(Math.ceil(Math.max(...all)));
  });

  it('keeps the order of readings', () => {
    const found = correction(inIce(shown(0.4)), boiling(100.9));
    fc.assert(fc.property(fc.integer({ min: -400_000, max: 1_500_000 }), fc.nat(100_000), (ticks, more) => {
      const [cooler, hotter] = [ticks, ticks + more].map((one) => correctTicks(found, { lowTicks: one, highTicks: one }));
      expect((hotter?.lowTicks ?? NaN) >= (cooler?.lowTicks ?? NaN) && (hotter?.highTicks ?? NaN) >= (cooler?.highTicks ?? NaN)).toBe(true);
    }), RUNS);
  });

  it.each([
    ['more than 2 °C high', [inIce(shown(2.001))], '2 °C at the ice point'],
    ['more than 2 °C low', [inIce(shown(-2.001))], '2 °C at the ice point'],
    ['more than 2 °C off at the second point', [inIce(shown(0)), besideReference(shown(62.001), shown(60), 0)], '2 °C at the comparison'],
    ['two points less than 30 °C apart', [inIce(shown(0)), besideReference(shown(29.9), shown(29.9), 0)], '30 °C apart'],
    ['a gain of more than 3 %', [inIce(shown(1)), besideReference(shown(39), shown(40), 0)], 'more than 3 %'],
    ['a loss of more than 3 %', [inIce(shown(-1)), besideReference(shown(41), shown(40), 0)], 'more than 3 %'],
  ] as [string, [CheckPoint] | [CheckPoint, CheckPoint], string][])('is refused for %s', (_title, points, says) => {
    const found = correctionFrom(points);
    expect(found.ok).toBe(false);
    if (!found.ok) expect(found.problem.message).toContain(says);
  });

  it('is given up to 2 °C, from 30 °C apart and up to 3 %', () => {
    expect(correctionFrom([inIce(shown(2))]).ok).toBe(true);
    expect(correctionFrom([inIce(shown(-2))]).ok).toBe(true);
    expect(correctionFrom([inIce(shown(0)), besideReference(shown(30), shown(30), 0)]).ok).toBe(true);
    expect(correctionFrom([inIce(shown(0)), besideReference(shown(50), shown(51.5), 0)]).ok).toBe(true);
    expect(correctionFrom([inIce(shown(0)), besideReference(shown(50), shown(51.501), 0)]).ok).toBe(false);
    expect(correctionFrom([inIce(shown(0)), besideReference(shown(50), shown(48.5), 0)]).ok).toBe(true);
    expect(correctionFrom([inIce(shown(0)), besideReference(shown(50), shown(48.499), 0)]).ok).toBe(false);
  });
});

describe('raw and corrected', () => {
  it('are both covered, so that the less favourable decides either way', () => {
    fc.assert(fc.property(fc.integer({ min: -9000, max: 9000 }), fc.integer({ min: -400_000, max: 900_000 }), fc.nat(1), (bias, ticks, width) => {
      const raw = { lowTicks: ticks, highTicks: ticks + width };
      const found = coverTicks(correction(inIce({ lowTicks: bias, highTicks: bias })), raw);
      expect(found).toEqual({ lowTicks: ticks - Math.max(0, bias), highTicks: ticks + width - Math.min(0, bias) });
    }), RUNS);
  });

  it('are the same without a correction, and instants and remarks stay', () => {
    const reading = { atMs: 5, lowTicks: 1, highTicks: 2, entered: 'paper' as const, coversSinceMs: 3 };
    expect(coverReadings(undefined, [reading])).toEqual([reading]);
    expect(coverReadings(correction(inIce(shown(0.001))), [reading])).toEqual([{ ...reading, lowTicks: -8 }]);
  });
});

describe('what a check found', () => {
  const says = (points: [CheckPoint] | [CheckPoint, CheckPoint], facts = FACTS, unit: TemperatureUnit = 'F') => findingOf({ atMs: 0, points }, facts, unit);

  it('is said with the class it is held against', () => {
    expect(says([inIce(shown(33, 'F'))])).toEqual({ verdict: 'beyond-class', text: 'Reads 1.0 °F high at the ice point; its class allows 0.5 °C.' });
    expect(says([inIce(shown(31.8, 'F'))])).toEqual({ verdict: 'within-class', text: 'Reads 0.2 °F low at the ice point; its class allows 0.5 °C.' });
    expect(says([inIce(shown(0.5))]).verdict).toBe('within-class');
    expect(says([inIce(shown(0.501))]).verdict).toBe('beyond-class');
    expect(says([inIce(shown(0.564))], FACTS, 'C').text).toBe('Reads 0.56 °C high at the ice point; its class allows 0.5 °C.');
    expect(says([inIce(shown(32, 'F')), boiling(99.674)], FACTS, 'C').text).toBe('Reads true at the ice point and reads 0.3 °C low at the boiling point; its class allows 0.5 °C.');
    expect(says([inIce(shown(0.001))], FACTS, 'C').text).toBe('Reads less than 0.01 °C high at the ice point; its class allows 0.5 °C.');
    expect(says([besideReference(shown(60), shown(60), 0)], { ...FACTS, accuracyClass: undefined })).toEqual({ verdict: 'class-not-known', text: 'Reads true at the comparison; its class is not known.' });
  });

  it('is beyond law past 2 °F on a °F scale, and past 1 °C on any other', () => {
    expect(says([inIce(shown(34, 'F'))]).verdict).toBe('beyond-class');
    expect(says([inIce(shown(34.001, 'F'))])).toEqual({ verdict: 'beyond-law', text: 'Reads 2.0 °F high at the ice point; its class allows 0.5 °C, and the Food Code 2 °F. Don’t judge fish by it until it is mended.' });
    expect(says([inIce(shown(-1))], { ...FACTS, scale: 'both' }).verdict).toBe('beyond-class');
    expect(says([inIce(shown(-1.001))], { ...FACTS, scale: 'both' }).verdict).toBe('beyond-law');
    expect(says([inIce(shown(1.001))], { ...FACTS, scale: 'C', accuracyClass: undefined }).text).toContain('its class is not known, and the Food Code 1 °C');
    expect(says([inIce(shown(0)), boiling(98)]).verdict).toBe('beyond-law');
  });

  it('says why no check can be made where no kitchen stands', () => {
    expect(inBoilingWater(shown(99), { altitudeMetres: 9000 })).toMatchObject({ ok: false, problem: { field: 'altitudeMetres' } });
  });
});

describe('a check that is due', () => {
  const zone = 'America/Chicago';
  const at = (text: string) => Date.parse(text);
  const daily = { kind: 'same-day', timeZone: zone } as const;
  const yearly = { kind: 'months', months: 12, timeZone: zone } as const;

  it('is due each day of the kitchen, and where there is none', () => {
    expect(isDue(undefined, at('2026-07-14T12:00:00Z'), daily)).toBe(true);
    expect(isDue(at('2026-07-14T05:00:00Z'), at('2026-07-15T04:59:00Z'), daily)).toBe(false);
    expect(isDue(at('2026-07-14T04:59:00Z'), at('2026-07-14T05:00:00Z'), daily)).toBe(true);
    expect(isDue(at('2026-07-14T12:00:00Z'), at('2026-07-14T12:00:00Z'), daily)).toBe(false);
    expect(isDue(at('2026-07-14T12:01:00Z'), at('2026-07-14T12:00:00Z'), daily)).toBe(true);
  });

  it('is due after twelve months to the day', () => {
    expect(isDue(at('2025-07-14T12:00:00Z'), at('2026-07-14T20:00:00Z'), yearly)).toBe(false);
    expect(isDue(at('2025-07-14T12:00:00Z'), at('2026-07-15T12:00:00Z'), yearly)).toBe(true);
    expect(isDue(at('2024-02-29T18:00:00Z'), at('2025-02-28T18:00:00Z'), yearly)).toBe(false);
    expect(isDue(at('2024-02-29T18:00:00Z'), at('2025-03-01T18:00:00Z'), yearly)).toBe(true);
    expect(isDue(at('2025-11-30T18:00:00Z'), at('2026-02-28T18:00:00Z'), { ...yearly, months: 3 })).toBe(false);
    expect(isDue(at('2025-11-30T18:00:00Z'), at('2026-03-01T18:00:00Z'), { ...yearly, months: 3 })).toBe(true);
    expect(isDue(at('2025-12-10T18:00:00Z'), at('2026-12-10T18:00:00Z'), yearly)).toBe(false);
    expect(isDue(at('2025-12-10T18:00:00Z'), at('2026-12-11T18:00:00Z'), yearly)).toBe(true);
  });

  it('looks at the latest check by then, and for a full one at those with two points', () => {
    const checks = [check(3, inIce(shown(0))), check(1, inIce(shown(0)), boiling(100)), check(5, inIce(shown(0.1)))];
    expect(lastCheck(checks, 4 * DAY_MS, 'any')?.atMs).toBe(3 * DAY_MS);
    expect(lastCheck(checks, 3 * DAY_MS, 'any')?.atMs).toBe(3 * DAY_MS);
    expect(lastCheck(checks, 9 * DAY_MS, 'full')?.atMs).toBe(DAY_MS);
    expect(lastCheck(checks, 0, 'any')).toBeUndefined();
  });
});

describe('checks on file', () => {
  it('leave the boiling point of a full check standing beside the ice of today', () => {
    const checks = [check(9, inIce(shown(0.2))), check(1, boiling(100.2), inIce(shown(0.1)))];
    expect(pointsInForce(checks).map(({ kind, shown: { lowTicks } }) => [kind, lowTicks])).toEqual([['ice', 1800], ['boiling', 901_800]]);
    const found = correctionInForce(checks);
    expect(found.ok && found.value?.kind).toBe('two-point');
    expect(correctionInForce([])).toEqual({ ok: true, value: undefined });
    expect(correctionInForce([check(1, inIce(shown(0.2)))])).toEqual({ ok: true, value: correction(inIce(shown(0.2))) });
    expect(correctionInForce([check(1, inIce(shown(3)))]).ok).toBe(false);
  });

  it('leave 2 °F where there are none', () => {
    expect(remainingError([], FACTS, 'hot')).toMatchObject({ totalTicks: 10_000, driftTicks: undefined, ground: 'no check on file, so 2 °F' });
  });

  it('leave step, reference and drift after two checks at both ends', () => {
    const found = remainingError([check(1, inIce(shown(0)), boiling(100)), check(2, inIce(shown(0.1)), boiling(100.05))], FACTS, 'hot');
    const referenceTicks = boiling(100).reference.errorTicks;
    expect(found).toEqual({ resolutionTicks: 500, referenceTicks, driftTicks: 900, totalTicks: 500 + referenceTicks + 900, ground: 'its step, what it was checked against, and its drift between checks' });
  });

  it('take the largest drift of all checks, up or down, and of the point that drifted most', () => {
    const drift = (...values: number[]) => remainingError(values.map((value, index) => check(index, inIce(shown(value)))).toReversed(), FACTS, 'cold').driftTicks;
    expect(drift(0, 0.3, 0.2)).toBe(2700);
    expect(drift(0.3, 0, 0.1)).toBe(2700);
    expect(drift(0.3)).toBeUndefined();
    expect(remainingError([check(1, inIce(shown(0)), besideReference(shown(70), shown(70), 0)), check(2, inIce(shown(0)), besideReference(shown(70.4), shown(70), 0))], FACTS, 'hot').driftTicks).toBe(3600);
  });

  it('fall back on the class, or 2 °F, where drift or an end is not known', () => {
    const once = remainingError([check(1, inIce(shown(0)))], FACTS, 'cold');
    expect(once).toMatchObject({ totalTicks: 4500, ground: 'checked once, so its drift is not known: its class, 0.5 °C at least' });
    expect(remainingError([check(1, inIce(shown(0)))], { ...FACTS, accuracyClass: undefined }, 'cold').totalTicks).toBe(10_000);
    const iceOnly = remainingError([check(1, inIce(shown(0))), check(2, inIce(shown(0)))], FACTS, 'hot');
    expect(iceOnly).toMatchObject({ totalTicks: 4500, driftTicks: 0, ground: 'not checked at both ends: its class, 0.5 °C at least' });
    expect(remainingError([check(1, inIce(shown(0))), check(2, inIce(shown(0)))], FACTS, 'cold').totalTicks).toBe(590);
    expect(remainingError([check(1, boiling(100)), check(2, boiling(100))], FACTS, 'cold').ground).toContain('not checked at the cold end');
    expect(remainingError([check(1, inIce(shown(0))), check(2, inIce(shown(0.9)))], FACTS, 'hot').totalTicks).toBe(500 + 90 + 8100);
  });
});
