import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measureExposure, type Exposure, type ExposureOptions } from '../../app/heat/exposure.ts';
import { stretchesOf, timeBetween, timeInside, type ExposureStep } from '../../app/heat/exposure-stretches.ts';
import { estimateFallMs, estimateInsideMs } from '../../app/heat/straight-line.ts';
import type { Reading } from '../../app/limits/judge-case.ts';
import { minuteWords } from '../../app/limits/words.ts';

const MINUTE_MS = 60_000;
const RUNS = { numRuns: 300 };
/** 50 to 135 °F in ticks, and the degree in ticks. */
const RANGE = { aboveTicks: 90_000, belowTicks: 515_000 };
const F = (degrees: number) => Math.round((degrees - 32) * 5000);

function at(minute: number, low: number, high = low): Reading {
  return { atMs: minute * MINUTE_MS, lowTicks: F(low), highTicks: F(high) };
}

function step(kind: ExposureStep['kind'], from: number, to: number, readings: readonly Reading[] = [], more: Partial<ExposureStep> = {}): ExposureStep {
  return { kind, name: kind, fromMs: from * MINUTE_MS, toMs: to * MINUTE_MS, readings, maxGapMs: 30 * MINUTE_MS, ...more };
}

function inside(...steps: ExposureStep[]): [shortest: number, longest: number] {
  const { shortestMs, longestMs } = timeInside([...steps.flatMap(stretchesOf), ...timeBetween(steps)], RANGE);
  return [shortestMs / MINUTE_MS, longestMs / MINUTE_MS];
}

function measure(steps: readonly ExposureStep[], more: Partial<ExposureOptions> = {}): Exposure {
  const found = measureExposure(steps, { product: 'raw', staphylococcusOnly: false, isOpen: false, ...more }, minuteWords('F'));
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

describe('an interval between two readings', () => {
  it.each([
    ['both inside', 60, 100, 10, 10],
    ['one inside, one below', 40, 60, 0, 10],
    ['one inside, one above', 60, 140, 0, 10],
    ['on opposite sides', 40, 140, 0, 10],
    ['on opposite sides, exactly at both limits', 50, 135, 0, 10],
    ['both exactly at the lower limit', 50, 50, 0, 0],
    ['both exactly at the upper limit', 135, 135, 0, 0],
    ['both below', 40, 49.9, 0, 0],
    ['both above', 136, 145, 0, 0],
    ['one at the lower limit, one inside', 50, 51, 0, 10],
  ])('%s (%d and %d °F): %d min at least, %d at most', (_title, from, to, shortest, longest) => {
    expect(inside(step('packing', 0, 10, [at(0, from), at(10, to)]))).toEqual([shortest, longest]);
    expect(inside(step('packing', 0, 10, [at(0, to), at(10, from)]))).toEqual([shortest, longest]);
  });

  it('counts as a gap for the longest and not at all for the shortest when it is too long', () => {
    expect(inside(step('packing', 0, 30, [at(0, 40), at(30, 40)]))).toEqual([0, 0]);
    expect(inside(step('packing', 0, 31, [at(0, 40), at(31, 40)]))).toEqual([0, 31]);
    expect(inside(step('packing', 0, 31, [at(0, 60), at(31, 60)]))).toEqual([0, 31]);
  });

  it('is known where a maximum–minimum thermometer covers it', () => {
    expect(inside(step('packing', 0, 600, [at(0, 40), { ...at(600, 38, 45), coversSinceMs: 0 }]))).toEqual([0, 0]);
    expect(inside(step('packing', 0, 600, [{ ...at(600, 55, 60), coversSinceMs: 0 }]))).toEqual([600, 600]);
    expect(inside(step('packing', 0, 600, [{ ...at(600, 38, 45), coversSinceMs: MINUTE_MS }]))).toEqual([0, 600]);
  });

  it('takes both values of one instant, and both sides of a correction', () => {
    expect(inside(step('packing', 0, 10, [at(0, 60), at(0, 40), at(10, 60)]))).toEqual([0, 10]);
    expect(inside(step('packing', 0, 10, [at(0, 49, 51), at(10, 49, 51)]))).toEqual([0, 10]);
    expect(inside(step('packing', 0, 600, [at(0, 60), { ...at(600, 60), coversSinceMs: 0 }, at(600, 61)]))).toEqual([600, 600]);
  });
});

describe('a step without a temperature', () => {
  it('counts whole for the longest and not for the shortest', () => {
    expect(inside(step('drying', 0, 90))).toEqual([0, 90]);
    expect(inside(step('drying', 0, 90, [at(91, 60), at(-1, 60)]))).toEqual([0, 90]);
  });

  it('counts beside its marks: by the nearest reading where that is near, else whole', () => {
    expect(inside(step('drying', 0, 60, [at(20, 40), at(40, 40)]))).toEqual([0, 0]);
    expect(inside(step('drying', 0, 60, [at(20, 60), at(40, 60)]))).toEqual([20, 60]);
    expect(inside(step('drying', 0, 30, [at(0, 40)]))).toEqual([0, 0]);
    expect(inside(step('drying', 0, 31, [at(0, 40)]))).toEqual([0, 31]);
    expect(inside(step('drying', 0, 90, [at(31, 40), at(59, 40)]))).toEqual([0, 62]);
  });

  it('counts between steps too, and time that two steps share counts once', () => {
    expect(inside(step('soak', 0, 10, [at(0, 40), at(10, 40)]), step('drying', 25, 30, [at(25, 40), at(30, 40)]))).toEqual([0, 15]);
    expect(inside(step('drying', 25, 30), step('soak', 0, 10))).toEqual([0, 30]);
    expect(inside(step('soak', 0, 100), step('trimming', 20, 40), step('drying', 90, 120))).toEqual([0, 120]);
    expect(inside(step('soak', 0, 30, [at(0, 60), at(30, 60)]), step('trimming', 10, 40, [at(10, 60), at(40, 60)]))).toEqual([40, 40]);
  });
});

describe('the longest step that is no gap', () => {
  const every = (minutes: number, count: number) => Array.from({ length: count }, (_, index) => at(index * minutes, 40));
  const longest = (readings: Reading[], more: Partial<ExposureStep> = {}) => inside(step('store', 0, (readings.at(-1)?.atMs ?? 0) / MINUTE_MS, readings, { maxGapMs: undefined, ...more }))[1];

  it('is 120 min where readings come every 15 min or more', () => {
    expect(longest([...every(15, 5), at(180, 40)])).toBe(0);
    expect(longest([...every(15, 5), at(181, 40)])).toBe(121);
  });
  it('is else twice the interval, and 5 min at least', () => {
    expect(longest([...every(14, 5), at(84, 40)])).toBe(0);
    expect(longest([...every(14, 5), at(85, 40)])).toBe(29);
    expect(longest([...every(1, 5), at(9, 40)])).toBe(0);
    expect(longest([...every(1, 5), at(10, 40)])).toBe(6);
  });
  it('follows the interval that is given', () => {
    expect(longest([at(0, 40), at(60, 40)], { nominalIntervalMs: 10 * MINUTE_MS })).toBe(60);
    expect(longest([at(0, 40), at(60, 40)])).toBe(0);
  });
  it('is 5 min around a single reading', () => {
    expect(inside(step('store', 0, 10, [at(5, 40)], { maxGapMs: undefined }))).toEqual([0, 0]);
    expect(inside(step('store', 0, 12, [at(6, 40)], { maxGapMs: undefined }))).toEqual([0, 12]);
  });
});

describe('a batch’s exposure', () => {
  const steady = (from: number, to: number, fahrenheit: number) => Array.from({ length: (to - from) / 15 + 1 }, (_, index) => at(from + index * 15, fahrenheit));
  const soak = step('soak', 0, 60, steady(0, 60, 40));
  const drying = step('drying', 60, 180, steady(60, 180, 60));
  const smoking = step('smoking', 180, 360, steady(180, 360, 100));
  const cooling = step('cooling', 360, 420, steady(360, 420, 80));

  it('adds up the steps and shows smoking and the cooling after a completed hold apart', () => {
    const found = measure([cooling, smoking, drying, soak].map((one) => (one.kind === 'cooling' ? { ...one, afterCompletedHold: true } : one)));
    expect(found.counted).toEqual({ shortestMs: 120 * MINUTE_MS, longestMs: 120 * MINUTE_MS });
    expect(found.apart).toEqual([
      { what: 'smoking', shortestMs: 180 * MINUTE_MS, longestMs: 180 * MINUTE_MS },
      { what: 'cooling after the hold', shortestMs: 60 * MINUTE_MS, longestMs: 60 * MINUTE_MS },
    ]);
    expect(found.all).toEqual({ shortestMs: 360 * MINUTE_MS, longestMs: 360 * MINUTE_MS });
    expect(found.unknown).toEqual([]);
  });

  it('counts a cooling that followed no completed hold with the rest', () => {
    const found = measure([soak, drying, smoking, cooling]);
    expect(found.counted.longestMs).toBe(180 * MINUTE_MS);
    expect(found.apart.map(({ what }) => what)).toEqual(['smoking']);
    expect(measure([{ ...drying, afterCompletedHold: true }]).counted.longestMs).toBe(120 * MINUTE_MS);
  });

  it('lists what no temperature tells of, in order', () => {
    const found = measure([step('packing', 500, 520), soak, step('smoking', 100, 110)]);
    expect(found.unknown.map(({ fromMs, toMs }) => [fromMs / MINUTE_MS, toMs / MINUTE_MS])).toEqual([[60, 100], [100, 110], [110, 500], [500, 520]]);
    expect(found.counted.longestMs).toBe((40 + 390 + 20) * MINUTE_MS);
    const overlapping = measure([step('trimming', 40, 60), step('packing', 0, 50), step('other', 0, 20), step('receiving', 5, 5)]);
    expect(overlapping.unknown.map(({ fromMs, toMs }) => [fromMs / MINUTE_MS, toMs / MINUTE_MS])).toEqual([[0, 20], [0, 50], [40, 60]]);
    expect(measure([]).counted).toEqual({ shortestMs: 0, longestMs: 0 });
  });

  it('refuses a step that ends before it starts, by name', () => {
    const options = { product: 'raw', staphylococcusOnly: false, isOpen: false } as const;
    expect(measureExposure([step('soak', 10, 9)], options, minuteWords('F'))).toMatchObject({ ok: false, problem: { field: 'toMs', message: 'The step “soak” ends before it starts.' } });
    expect(measureExposure([step('soak', 10, 10)], options, minuteWords('F')).ok).toBe(true);
  });

  it('gives each organism’s bands with verdicts as for a descent', () => {
    const listeria = (steps: ExposureStep[], more: Partial<ExposureOptions> = {}) =>
      measure(steps, more).bands.filter(({ organism }) => organism === 'Listeria monocytogenes').map(({ band, shortestMs, longestMs, verdict }) => [band.text, shortestMs / MINUTE_MS, longestMs / MINUTE_MS, verdict]);
    expect(listeria([step('packing', 0, 435, steady(0, 435, 60))])).toEqual([
      ['31.3–41 °F', 0, 0, 'meets'], ['42–50 °F', 0, 0, 'meets'], ['51–70 °F', 435, 435, 'misses'], ['71–86 °F', 0, 0, 'meets'], ['above 86 °F', 0, 0, 'meets'],
    ]);
    expect(listeria([step('packing', 0, 420, steady(0, 420, 60))]).at(2)).toEqual(['51–70 °F', 420, 420, 'meets']);
    expect(listeria([step('packing', 0, 61)]).map(([, , , verdict]) => verdict)).toEqual(['meets', 'meets', 'meets', 'meets', 'not-proven']);
    expect(listeria([step('packing', 0, 435, steady(0, 435, 60))], { isOpen: true }).map(([, , , verdict]) => verdict)).toEqual(['open', 'open', 'misses', 'open', 'open']);
  });

  it('keeps the bands for cooked food from raw fish', () => {
    const cookedOnly = (product: 'raw' | 'cooked') => measure([soak], { product }).bands.filter(({ band }) => band.note === 'cooked, ready-to-eat food only').length;
    expect(cookedOnly('raw')).toBe(0);
    expect(cookedOnly('cooked')).toBe(3);
    expect(measure([soak]).bands.every(({ source, effect }) => source.section === 'appendix 4, table A-2' && effect.length > 0)).toBe(true);
  });

  it('names each rule’s tier, and every tier that an unknown stretch may put the fish in', () => {
    const tiers = (steps: ExposureStep[]) => measure(steps).rules.find(({ rule }) => rule.id === 'FDA-RAW')?.tiers;
    expect(tiers([soak])).toEqual(['never above 50 °F']);
    expect(tiers([step('packing', 0, 60, steady(0, 60, 70))])).toEqual(['above 50 °F, never above 70 °F']);
    expect(tiers([step('packing', 0, 60, steady(0, 60, 70.001))])).toEqual(['above 70 °F at some time']);
    expect(tiers([step('packing', 0, 60)])).toEqual(['never above 50 °F', 'above 50 °F, never above 70 °F', 'above 70 °F at some time']);
    expect(tiers([step('packing', 0, 10, [at(0, 69, 71), at(10, 69, 71)])])).toEqual(['above 50 °F, never above 70 °F', 'above 70 °F at some time']);
    expect(tiers([step('receiving', 5, 5, [at(5, 72)]), step('soak', 5, 60, [at(5, 40), ...steady(15, 60, 40)])])).toEqual(['above 70 °F at some time']);
    expect(tiers([])).toEqual(['never above 50 °F']);
  });

  it('is not proven where one possible tier is met and another missed', () => {
    const rule = (steps: ExposureStep[], more: Partial<ExposureOptions> = {}) => measure(steps, more).rules.find(({ rule: { id } }) => id === 'FDA-RAW')?.verdict;
    // 4.5 h at 60 °F is within 5 h, and more than any way of fish that was once above 70 °F.
    expect(rule([step('packing', 0, 270, steady(0, 270, 60))])).toBe('meets');
    expect(rule([step('packing', 0, 270, steady(0, 270, 60)), step('other', 270, 280)])).toBe('not-proven');
    expect(rule([step('packing', 0, 330, steady(0, 330, 60)), step('other', 330, 340)])).toBe('misses');
    expect(rule([step('packing', 0, 60, steady(0, 60, 40)), step('other', 60, 100)])).toBe('meets');
    expect(rule([step('packing', 0, 60, steady(0, 60, 40))], { isOpen: true })).toBe('open');
    expect(rule([step('packing', 0, 270, steady(0, 270, 60))], { isOpen: true })).toBe('open');
    expect(rule([step('packing', 0, 315, steady(0, 315, 60))], { isOpen: true })).toBe('misses');
  });

  it('says where the texts disagree about this history', () => {
    expect(measure([soak]).disagreements).toEqual([]);
    const smoked = measure([soak, drying, smoking]);
    expect(smoked.disagreements[0]).toBe('British Columbia leaves the smoking step out of the count; FDA appendix 4 makes no such exception. With every step counted the fish was above 50 °F for 300 min.');
    expect(smoked.disagreements).toHaveLength(1);
    expect(smoked.rules.map(({ rule, verdict, withApart }) => [rule.id, verdict, withApart])).toEqual([['FDA-RAW', 'meets', 'misses'], ['BC-SMOKED', 'meets', undefined], ['FSIS-COME-UP', 'meets', undefined]]);
    const unsure = measure([soak, step('smoking', 60, 120)]);
    expect(unsure.disagreements[0]).toContain('above 50 °F for 0 min to 60 min.');
    const cooked = measure([{ ...cooling, afterCompletedHold: true }], { product: 'cooked' });
    expect(cooked.disagreements).toEqual(['Of meat, USDA’s come-up time starts again after a completed cook; no text says so of fish, and toxins and spores outlast a smoking. The cooling is judged by its own rule.']);
    expect(measure([step('packing', 0, 360, steady(0, 360, 60))]).disagreements).toEqual([
      'The texts differ: FDA appendix 4, raw fish ready to eat is not met (above 50 °F at most 300 min); British Columbia, all steps but the smoking is met (10 to 21 °C at most 540 min, above 21 °C at most 360 min).',
    ]);
  });
});

const history = fc.array(fc.record({
  kind: fc.constantFrom('receiving' as const, 'soak' as const, 'drying' as const, 'smoking' as const, 'cooling' as const, 'store' as const),
  wait: fc.integer({ min: 0, max: 40 }),
  rows: fc.array(fc.tuple(fc.integer({ min: 0, max: 45 }), fc.integer({ min: 30, max: 150 }), fc.integer({ min: 0, max: 2 })), { maxLength: 8 }),
  more: fc.integer({ min: 0, max: 45 }),
}), { minLength: 1, maxLength: 4 }).map((parts) => {
  let minute = 0;
  return parts.map(({ kind, wait, rows, more }) => {
    const from = (minute += wait);
    const readings = rows.map(([by, degrees, width]) => at((minute += by), degrees, degrees + width));
    minute += more;
    return step(kind, from, minute, readings);
  });
});

describe('any history', () => {
  it('is at least as long at its longest as at its shortest, in every band', () => {
    fc.assert(fc.property(history, (steps) => {
      const found = measure(steps, { product: 'cooked' });
      for (const time of [found.counted, found.all, ...found.apart, ...found.bands]) expect(time.longestMs).toBeGreaterThanOrEqual(time.shortestMs);
      expect(found.all.longestMs).toBeLessThanOrEqual(Math.max(...steps.map(({ toMs }) => toMs)) - Math.min(...steps.map(({ fromMs }) => fromMs)));
    }), RUNS);
  });

  it('never depends on when it began, nor on the order of steps and readings', () => {
    fc.assert(fc.property(history, fc.integer({ min: -100_000, max: 100_000 }), (steps, shift) => {
      const times = ({ counted, apart, all, bands, rules }: Exposure) => ({ counted, apart, all, bands, rules });
      const moved = steps.map((one) => ({ ...one, fromMs: one.fromMs + shift * 1000, toMs: one.toMs + shift * 1000, readings: one.readings.map((reading) => ({ ...reading, atMs: reading.atMs + shift * 1000 })).toReversed() })).toReversed();
      expect(times(measure(moved))).toEqual(times(measure(steps)));
    }), RUNS);
  });

  it('lies around the straight-line estimate where nothing is unknown', () => {
    fc.assert(fc.property(fc.array(fc.integer({ min: 30, max: 150 }), { minLength: 2, maxLength: 20 }), (values) => {
      const readings = values.map((value, index) => at(index * 10, value));
      const [shortest, longest] = inside(step('packing', 0, (values.length - 1) * 10, readings));
      const estimate = estimateInsideMs(readings, RANGE, 30 * MINUTE_MS) / MINUTE_MS;
      expect(estimate).toBeGreaterThanOrEqual(shortest - 1e-9);
      expect(estimate).toBeLessThanOrEqual(longest + 1e-9);
    }), RUNS);
  });

  it('never knows more when a reading is taken away', () => {
    fc.assert(fc.property(history, fc.nat(), fc.nat(), (steps, whichStep, whichReading) => {
      const fewer = steps.map((one, index) => (index === whichStep % steps.length ? { ...one, readings: one.readings.filter((_, place) => place !== whichReading % Math.max(1, one.readings.length)) } : one));
      const [before, after] = [measure(steps), measure(fewer)];
      expect(after.unknown.reduce((sum, { fromMs, toMs }) => sum + toMs - fromMs, 0)).toBeGreaterThanOrEqual(before.unknown.reduce((sum, { fromMs, toMs }) => sum + toMs - fromMs, 0));
    }), RUNS);
  });
});

describe('straight-line estimates', () => {
  it('leave gaps out', () => {
    const readings = [at(0, 60), at(10, 60), at(100, 60), at(110, 60)];
    expect(estimateInsideMs(readings, RANGE, 30 * MINUTE_MS)).toBe(20 * MINUTE_MS);
    expect(estimateInsideMs(readings, RANGE, 90 * MINUTE_MS)).toBe(110 * MINUTE_MS);
  });
  it('count steady time at a limit as outside, and share a crossing', () => {
    expect(estimateInsideMs([at(0, 50), at(10, 50)], RANGE, 10 * MINUTE_MS)).toBe(0);
    expect(estimateInsideMs([at(0, 135), at(10, 135)], RANGE, 10 * MINUTE_MS)).toBe(0);
    expect(estimateInsideMs([at(0, 40), at(10, 60)], RANGE, 10 * MINUTE_MS)).toBe(5 * MINUTE_MS);
    expect(estimateInsideMs([at(10, 40), at(0, 60)], RANGE, 10 * MINUTE_MS)).toBe(5 * MINUTE_MS);
    expect(estimateInsideMs([at(0, 10), at(10, 40)], RANGE, 10 * MINUTE_MS)).toBe(0);
    expect(estimateInsideMs([at(0, 40, 60), at(10, 40, 60)], RANGE, 10 * MINUTE_MS)).toBe(10 * MINUTE_MS);
    expect(estimateInsideMs([at(0, 25), at(100, 225)], RANGE, 100 * MINUTE_MS)).toBeCloseTo(42.5 * MINUTE_MS, 6);
  });
  it('find the last fall, and none where it ends above, was never above, or only rose', () => {
    expect(estimateFallMs([at(0, 80), at(10, 60), at(20, 80), at(30, 60)], F(70))).toBe(25 * MINUTE_MS);
    expect(estimateFallMs([at(0, 80), at(10, 70)], F(70))).toBe(10 * MINUTE_MS);
    expect(estimateFallMs([at(0, 80), at(10, 75)], F(70))).toBeUndefined();
    expect(estimateFallMs([at(0, 60), at(10, 65)], F(70))).toBeUndefined();
    expect(estimateFallMs([at(0, 70), at(10, 65)], F(70))).toBeUndefined();
    expect(estimateFallMs([at(0, 80)], F(70))).toBeUndefined();
    expect(estimateFallMs([], F(70))).toBeUndefined();
    expect(estimateFallMs([at(0, 90), at(10, 60), at(20, 50), at(30, 40)], F(70))).toBeCloseTo((20 / 3) * MINUTE_MS, 6);
  });
});
