/**
 * Lethality. US Food and Drug Administration, Fish and Fishery Products Hazards and Controls Guidance, 4th edition,
 * appendix 4, tables, 2011 (from memory). Food and Agriculture Organization, Fisheries Circular 784, on
 * canning, 1985 (read in extract). American Society for Microbiology, Applied and Environmental Microbiology 65,
 * pages 3449 to 3457, table 1, 1999 (read). Runs, ramps and steady temperatures are computed.
 */
import { describe, expect, it } from 'vitest';
import { BOTULINUM_TARGET, CANNING_TARGET, HEAT_TARGETS, LISTERIA_TARGET, type HeatTarget } from '../../app/heat/heat-targets.ts';
import { fitZ, fittedMinutes, zBetween } from '../../app/heat/heat-resistance.ts';
import { accumulateLethality, lethalRate, minutesNeeded, segmentMinutes, subscriptText } from '../../app/heat/lethality.ts';
import { constantsUntil, rampLagTicks, settledShare } from '../../app/heat/sensor-lag.ts';
import { estimateInsideMs } from '../../app/heat/straight-line.ts';
import type { Reading } from '../../app/limits/judge-case.ts';
import { ticksFromNumber } from '../../app/measures/temperature.ts';

type Log = readonly (readonly [minute: number, celsius: number])[];
const HALF_DAY_MS = 12 * 3_600_000;

function ticks(celsius: number): number {
  return ticksFromNumber(celsius, 'C').lowTicks;
}

function readings(log: Log): Reading[] {
  return log.map(([minute, celsius]) => ({ atMs: minute * 60_000, ...ticksFromNumber(celsius, 'C') }));
}

function logMean(log: Log, target: HeatTarget): number {
  return accumulateLethality(readings(log), target, HALF_DAY_MS).minutes;
}

/** The trapezoid rule, which the older texts use, over our lethal rates. */
function trapezoid(log: Log, target: HeatTarget): number {
  return log.slice(1).reduce((sum, [minute, celsius], index) => {
    const [before, from] = log[index] ?? [minute, celsius];
    return sum + ((minute - before) * (lethalRate(ticks(from), target) + lethalRate(ticks(celsius), target))) / 2;
  }, 0);
}

/** The run of a hot smoke with a reading every 5 min. */
const RUN: readonly (readonly [minute: number, celsius: number, rate: number, trapezoid: number, logMean: number])[] = [
  [0, 10, 0, 0, 0], [5, 18, 0, 0, 0], [10, 27, 0.000002, 0, 0], [15, 36, 0.000029, 0.0001, 0.0001], [20, 45, 0.000464, 0.0013, 0.0008],
  [25, 53, 0.005412, 0.016, 0.0109], [30, 59, 0.034145, 0.1149, 0.0889], [35, 62.8, 0.109648, 0.4744, 0.4125], [40, 63.5, 0.135936, 1.0883, 1.0241],
  [45, 64.2, 0.168526, 1.8495, 1.7823], [50, 65, 0.215443, 2.8094, 2.7375], [55, 65.4, 0.243594, 3.957, 3.8836], [60, 65.1, 0.22216, 5.1214, 5.0472],
  [65, 58, 0.025119, 5.7396, 5.4992], [70, 48, 0.001166, 5.8053, 5.5382], [75, 38, 0.000054, 5.8084, 5.54],
];

describe('FDA table A-3, Listeria monocytogenes', () => {
  const rows: [number, number, number][] = [
    [63, 0.117, 17.154], [64, 0.158, 12.619], [65, 0.215, 9.283], [66, 0.293, 6.829], [67, 0.398, 5.024], [68, 0.541, 3.696], [69, 0.736, 2.719], [70, 1, 2],
    [71, 1.359, 1.471], [72, 1.848, 1.082], [73, 2.512, 0.796], [74, 3.415, 0.586], [75, 4.642, 0.431], [76, 6.31, 0.317], [77, 8.577, 0.233], [78, 11.659, 0.172],
    [79, 15.849, 0.126], [80, 21.544, 0.093], [81, 29.286, 0.068], [82, 39.81, 0.05], [83, 54.116, 0.037], [84, 73.564, 0.027], [85, 100, 0.02],
  ];
  it.each(rows)('%d °C has a lethal rate of %d and needs %d min', (celsius, rate, minutes) => {
    expect(Math.abs(lethalRate(ticks(celsius), LISTERIA_TARGET) - rate)).toBeLessThan(0.00151);
    expect(minutesNeeded(ticks(celsius), LISTERIA_TARGET).toFixed(3)).toBe(minutes.toFixed(3));
  });

  it('runs on whole °C: 145 °F itself has 0.109', () => {
    expect(lethalRate(ticksFromNumber(145, 'F').lowTicks, LISTERIA_TARGET).toFixed(3)).toBe('0.109');
  });
});

describe('FDA table A-4, non-proteolytic Clostridium botulinum type B', () => {
  const rows: [number, number, number][] = [
    [85, 0.193, 51.795], [86, 0.27, 37.276], [87, 0.37, 26.827], [88, 0.52, 19.307], [89, 0.72, 13.895], [90, 1, 10], [91, 1.26, 7.943], [92, 1.6, 6.31], [93, 2, 5.012],
    [94, 2.51, 3.981], [95, 3.16, 3.162], [96, 3.98, 2.512], [97, 5.01, 1.995], [98, 6.31, 1.585], [99, 7.94, 1.259], [100, 10, 1],
  ];
  it.each(rows)('%d °C has a lethal rate of %d, to 1 %, and needs %d min', (celsius, rate, minutes) => {
    expect(Math.abs(lethalRate(ticks(celsius), BOTULINUM_TARGET) / rate - 1)).toBeLessThan(0.01);
    expect(minutesNeeded(ticks(celsius), BOTULINUM_TARGET).toFixed(3)).toBe(minutes.toFixed(3));
  });

  it('gives half an hour at 80 °C 1.12 of the 10 min', () => {
    expect(logMean([[0, 80], [30, 80]], BOTULINUM_TARGET).toFixed(2)).toBe('1.12');
  });
});

describe('example 1.3.a, FAO canning text', () => {
  it('a single rate at 120.0 °C is 0.7762', () => {
    expect(lethalRate(ticks(120), CANNING_TARGET).toFixed(4)).toBe('0.7762');
  });
  it('a rate of 0.776 in the printed sum is that of a reading at 120.0 °C', () => {
    expect((lethalRate(ticks(120), CANNING_TARGET) / 2).toFixed(3)).toBe('0.388');
  });
});

describe('example 1.3.b, a hot smoke', () => {
  it.each(RUN.map((row, index) => [index, ...row] as const))('row %i, minute %d at %d °C', (index, _minute, celsius, rate, byTrapezoid, byLogMean) => {
    const log = RUN.slice(0, index + 1).map(([at, value]) => [at, value] as const);
    expect(lethalRate(ticks(celsius), LISTERIA_TARGET).toFixed(6)).toBe(rate.toFixed(6));
    expect(trapezoid(log, LISTERIA_TARGET).toFixed(4)).toBe(byTrapezoid.toFixed(4));
    expect(logMean(log, LISTERIA_TARGET).toFixed(4)).toBe(byLogMean.toFixed(4));
  });

  it('was about 26.62 min at 62.8 °C and above, 38.10 between 10 and 57.2 and 31.38 between 21.1 and 57.2', () => {
    const log = readings(RUN.map(([minute, celsius]) => [minute, celsius]));
    const minutesIn = (above: number, below: number) => (estimateInsideMs(log, { aboveTicks: ticks(above), belowTicks: below === Infinity ? below : ticks(below) }, HALF_DAY_MS) / 60_000).toFixed(2);
    expect(minutesIn(62.8, Infinity)).toBe('26.62');
    expect(minutesIn(10, 57.2)).toBe('38.10');
    expect(minutesIn(21.1, 57.2)).toBe('31.38');
  });
});

describe('example 1.3.c, a straight ramp from 55 to 70 °C in 15 min', () => {
  it('is worth 3.22464 min, exactly by two readings alone', () => {
    expect(logMean([[0, 55], [15, 70]], LISTERIA_TARGET)).toBeCloseTo((15 * 0.99) / Math.log(100), 12);
    expect(logMean([[0, 55], [15, 70]], LISTERIA_TARGET).toFixed(5)).toBe('3.22464');
  });

  it.each([[15, 7.575, 4], [5, 3.8343, 4], [3, 3.4494, 4], [1, 3.2499, 4], [0.5, 3.231, 4], [0.25, 3.2262, 4], [0.1, 3.2249, 4], [1 / 60, 3.2246, 4]])('read every %d min the trapezoid says %d, the logarithmic mean always the same', (step, byTrapezoid, digits) => {
    const count = Math.round(15 / step);
    const log = Array.from({ length: count + 1 }, (_, index): [number, number] => [index * step, Math.round((55 + (15 * index) / count) * 1e6) / 1e6]);
    expect(trapezoid(log, LISTERIA_TARGET).toFixed(digits)).toBe(byTrapezoid.toFixed(digits));
    // Sixtieths of a degree are cut to the tick below, so the record is up to 1/9000 °C colder.
    expect(logMean(log, LISTERIA_TARGET)).toBeCloseTo(3.22464, 3);
  });
});

describe('example 1.3.d, steady temperatures', () => {
  it('62.8 °C for 30 min is 3.2894 min and 9.87 powers of ten', () => {
    const found = accumulateLethality(readings([[0, 62.8], [30, 62.8]]), LISTERIA_TARGET, HALF_DAY_MS);
    expect(found.minutes.toFixed(4)).toBe('3.2894');
    expect(found.logReductions?.toFixed(2)).toBe('9.87');
    expect(minutesNeeded(ticks(62.8), LISTERIA_TARGET).toFixed(2)).toBe('18.24');
  });
  it('145 °F for 30 min is 3.2671 min', () => {
    const limit = ticksFromNumber(145, 'F');
    expect(accumulateLethality([{ atMs: 0, ...limit }, { atMs: 1_800_000, ...limit }], LISTERIA_TARGET, HALF_DAY_MS).minutes.toFixed(4)).toBe('3.2671');
  });
  it('63 °C for 15 s is 0.02915 min and 0.087 powers of ten', () => {
    const found = accumulateLethality(readings([[0, 63], [0.25, 63]]), LISTERIA_TARGET, HALF_DAY_MS);
    expect(found.minutes.toFixed(5)).toBe('0.02915');
    expect(found.logReductions?.toFixed(3)).toBe('0.087');
  });
  it.each([[60, 43.09], [65, 9.28], [70, 2], [80, 0.0928]])('%d °C needs %d min', (celsius, minutes) => {
    expect(Math.abs(minutesNeeded(ticks(celsius), LISTERIA_TARGET) - minutes)).toBeLessThan(0.005);
  });
});

describe('example 1.3.e, published runs with come-up and cooling', () => {
  it.each([
    [70, 8.2, 100.6, 7.8, 104.9], [75, 9.5, 280, 8, 284.6], [80, 10, 7.8, 4.7, 11.4], [80, 13.5, 64.5, 5, 69.7], [85, 9.6, 18.7, 6.9, 23.3],
    [85, 11, 46.6, 6.3, 52], [90, 11.6, 5.8, 4.5, 10.3], [90, 9.3, 6.4, 5.7, 10.9], [90, 11.9, 27.8, 5.9, 33.5],
  ])('%d °C: the whole run is worth more than its time at target, as printed', (celsius, comeUp, atTarget, cooling, printed) => {
    const target: HeatTarget = { ...BOTULINUM_TARGET, referenceTicks: ticks(celsius) };
    const run = logMean([[0, 20], [comeUp, celsius], [comeUp + atTarget, celsius], [comeUp + atTarget + cooling, 20]], target);
    expect(run).toBeGreaterThan(atTarget);
    expect(printed).toBeGreaterThan(atTarget);
    // Straight ramps from 20 °C are worth less than real ones that bend into the target.
    expect(run).toBeLessThan(printed);
  });
});

describe('example 1.3.f, a log with unequal steps', () => {
  const log: Log = [[2, 90.2], [4, 100.9], [6, 112.45], [8, 115.9], [9, 101.6], [10, 95], [16, 93]];
  it('has the rates as worked', () => {
    expect(log.map(([, celsius]) => lethalRate(ticks(celsius), CANNING_TARGET).toFixed(5))).toEqual(['0.00081', '0.00955', '0.13646', '0.30200', '0.01122', '0.00245', '0.00155']);
  });
  it('is 0.7703 min by the trapezoid, 0.7685 with 121.11 °C, and 0.6252 by the logarithmic mean', () => {
    expect(trapezoid(log, CANNING_TARGET).toFixed(4)).toBe('0.7703');
    expect(trapezoid(log, { ...CANNING_TARGET, referenceTicks: ticks(121.11) }).toFixed(4)).toBe('0.7685');
    expect(logMean(log, CANNING_TARGET).toFixed(4)).toBe('0.6252');
  });
});

describe('section 1.4, a thermometer that reads too high', () => {
  it.each([[0.5, 0.858], [1, 0.736], [2 / 1.8, 0.711]])('by %d °C: the true value is %d of the shown one', (celsius, factor) => {
    expect(lethalRate(LISTERIA_TARGET.referenceTicks - Math.round(celsius * 9000), LISTERIA_TARGET).toFixed(3)).toBe(factor.toFixed(3));
  });
  it.each([[1, 2.72], [2 / 1.8, 2.81]])('known to ±%d °C, 2.0 min need %d shown', (celsius, minutes) => {
    expect((2 / lethalRate(LISTERIA_TARGET.referenceTicks - Math.round(celsius * 9000), LISTERIA_TARGET)).toFixed(2)).toBe(minutes.toFixed(2));
  });
});

describe('section 3, D and z of published measurements', () => {
  const at = (celsius: number, minutes: number) => ({ ticks: ticks(celsius), minutes });
  const z = (measured: ReturnType<typeof at>[]) => fitZ(measured) / 9000;
  it('Rhodehamel 1991, Clostridium botulinum type E in surimi: 9.98 °C by a straight fit of four', () => {
    expect(z([at(73.9, 8.66), at(76.7, 3.49), at(79.4, 2.15), at(82.2, 1.22)]).toFixed(2)).toBe('9.98');
  });
  it('Lindström 2003, rainbow trout: 10.34 °C by fit; whitefish: 10.12 °C by two', () => {
    expect(z([at(75, 255), at(85, 98), at(93, 4.2)]).toFixed(2)).toBe('10.34');
    expect((zBetween(at(81, 55), at(90, 7.1)) / 9000).toFixed(2)).toBe('10.12');
  });
  it('Doyle and Mazzotta 2000, Salmonella: log D = 11.7 − 0.188 T is a z of 5.32 °C and 1.35 s at 71 °C', () => {
    const line = [60, 65, 75].map((celsius) => at(celsius, 10 ** (11.7 - 0.188 * celsius)));
    expect(z(line).toFixed(2)).toBe('5.32');
    expect((fittedMinutes(line, ticks(71)) * 60).toFixed(2)).toBe('1.35');
  });
  it('USDA times for meat, as the Canadian agency prints them: z 5.55 °C and 11.4 min at 60 °C, about', () => {
    const table = [
      [54.4, 112], [55, 89], [55.6, 71], [56.1, 56], [56.7, 45], [57.2, 36], [57.8, 28], [58.4, 23], [58.9, 18], [59.5, 15], [60, 12], [63.3, 169 / 60], [63.9, 134 / 60], [64.4, 107 / 60],
      [65, 85 / 60], [65.6, 67 / 60], [66.1, 54 / 60], [66.7, 43 / 60], [67.2, 34 / 60], [67.8, 27 / 60], [68.3, 22 / 60], [68.9, 17 / 60], [69.4, 14 / 60],
    ].map(([celsius = 0, minutes = 0]) => at(celsius, minutes));
    expect(Math.abs(z(table) - 5.55)).toBeLessThan(0.03);
    expect(Math.abs(fittedMinutes(table, ticks(60)) - 11.4)).toBeLessThan(0.15);
  });
  it('one temperature gives no line', () => {
    expect(() => fitZ([at(60, 1), at(60, 2)])).toThrow('60 °C');
  });
});

describe('section 5.5, the lag of a sensor', () => {
  it.each([[1, 0.632], [2, 0.865], [3, 0.95], [4, 0.982], [5, 0.9933]])('after %d time constants it has followed %d of a step', (constants, share) => {
    expect(Math.abs(settledShare(constants * 20, 20) - share)).toBeLessThan(0.0005);
  });
  it.each([[0.5, 0.693], [0.9, 2.303], [0.99, 4.605], [0.999, 6.908]])('%d takes %d time constants', (share, constants) => {
    expect(constantsUntil(share).toFixed(3)).toBe(constants.toFixed(3));
  });
  it('on half a degree a minute a sensor of 20 s lags 0.17 °C', () => {
    expect((rampLagTicks(4500 / 60, 20) / 9000).toFixed(2)).toBe('0.17');
  });
});

describe('how a value is written', () => {
  it('always has both subscripts', () => {
    expect(subscriptText(LISTERIA_TARGET)).toBe('P(70 °C, z 7.5 °C)');
    expect(subscriptText(BOTULINUM_TARGET)).toBe('F(90 °C, z 7 °C below and 10 °C above)');
    expect(subscriptText(CANNING_TARGET)).toBe('F(121.1 °C, z 10 °C)');
  });
  it('every target names its sources with their marks', () => {
    for (const target of HEAT_TARGETS) {
      expect(target.sources.length).toBeGreaterThan(0);
      for (const source of target.sources) expect(source.publisher.length * source.title.length * source.section.length * source.mark.length).toBeGreaterThan(0);
    }
  });
  it('claims no powers of ten where a text prints none', () => {
    const flora = HEAT_TARGETS.find((target) => target.id === 'fish-flora');
    if (flora === undefined) throw new Error('no such target');
    expect(accumulateLethality(readings([[0, 70], [15, 70]]), flora, HALF_DAY_MS)).toMatchObject({ minutes: 15, logReductions: undefined });
    expect(segmentMinutes(15, ticks(70), ticks(70), flora)).toBe(flora.requiredMinutes);
  });
});
