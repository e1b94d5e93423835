/**
 * Time in growth temperatures. US Food and Drug Administration, Fish and Fishery Products Hazards and Controls
 * Guidance, 4th edition, appendix 4, table A-2 and summary for ready-to-eat products, 2011 (from memory, its first
 * rows read). Province of British Columbia, overview sheet on smoked fish (read). US Department of Agriculture,
 * Food Safety and Inspection Service, Cooking Guideline for Meat and Poultry Products, 2021 (read). The two logs
 * and their figures are worked examples of our own (computed).
 */
import { describe, expect, it } from 'vitest';
import { EXPOSURE_RULES } from '../../app/heat/exposure-rules.ts';
import { measureExposure, type Exposure, type ExposureOptions } from '../../app/heat/exposure.ts';
import type { ExposureStep } from '../../app/heat/exposure-stretches.ts';
import { GROWTH_ORGANISMS } from '../../app/heat/growth-bands.ts';
import { estimateFallMs, estimateInsideMs } from '../../app/heat/straight-line.ts';
import type { Reading } from '../../app/limits/judge-case.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { exactTicks, ticksFromNumber } from '../../app/measures/temperature.ts';

type Log = readonly (readonly [at: number, degrees: number])[];
const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const NO_GAP = 24 * HOUR_MS;

function readings(log: Log, unitMs: number, unit: 'C' | 'F' = 'C'): Reading[] {
  return log.map(([at, degrees]) => ({ atMs: Math.round(at * unitMs), ...ticksFromNumber(degrees, unit) }));
}

function packing(log: Log, unit: 'C' | 'F' = 'F'): ExposureStep {
  const all = readings(log, HOUR_MS, unit);
  return { kind: 'packing', name: 'Packing', fromMs: all[0]?.atMs ?? 0, toMs: all.at(-1)?.atMs ?? 0, readings: all };
}

function measure(steps: ExposureStep[], more: Partial<ExposureOptions> = {}): Exposure {
  const found = measureExposure(steps, { product: 'raw', staphylococcusOnly: false, isOpen: false, ...more }, minuteWords('F'));
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

function ruleOf(found: Exposure, id: string) {
  const rule = found.rules.find((one) => one.rule.id === id);
  if (rule === undefined) throw new Error(`no rule ${id}`);
  return rule;
}

/** Steady at a temperature for so many hours, read every quarter of an hour. */
function steadyHours(fahrenheit: number, hours: number): Log {
  return Array.from({ length: hours * 4 + 1 }, (_, index) => [index / 4, fahrenheit] as const);
}

describe('test A, a fish warm twice', () => {
  const log: Log = [[0, 3], [0.5, 12], [1, 24], [2, 24], [2.5, 9], [3, 3], [3.5, 15], [4.5, 15], [5, 3]];

  it.each([[10, 3.4944], [21.1, 1.2175], [4.4, 4.6889], [3.3, 4.9333]])('was above %d °C for about %d h', (celsius, hours) => {
    const range = { aboveTicks: exactTicks(celsius, 'C'), belowTicks: Infinity };
    expect((estimateInsideMs(readings(log, HOUR_MS), range, NO_GAP) / HOUR_MS).toFixed(4)).toBe(hours.toFixed(4));
  });

  it('was above 50 °F for 2.5 h at least and 4.5 h at most by its readings alone, and above 70 °F for 1 to 2 h', () => {
    const found = measure([packing(log, 'C')]);
    expect(found.counted).toEqual({ shortestMs: 2.5 * HOUR_MS, longestMs: 4.5 * HOUR_MS });
    expect(ruleOf(found, 'FDA-RAW').limbs.map(({ text, shortestMs, longestMs }) => [text, shortestMs / HOUR_MS, longestMs / HOUR_MS])).toEqual([
      ['above 50 °F', 2.5, 4.5], ['above 50 °F', 2.5, 4.5], ['above 70 °F', 1, 2],
    ]);
  });

  it('is not proven for raw fish: the first way is missed, the second may have been kept', () => {
    expect(ruleOf(measure([packing(log, 'C')]), 'FDA-RAW')).toMatchObject({ verdict: 'not-proven', tiers: ['above 70 °F at some time'] });
    expect(ruleOf(measure([packing(log, 'C')], { product: 'cooked' }), 'FDA-COOKED')).toMatchObject({ verdict: 'not-proven', tiers: ['above 70 °F, never above 80 °F'] });
  });
});

describe('test B, a cooling', () => {
  const log: Log = [[0, 62.8], [15, 58], [30, 52.1], [45, 45.9], [60, 40.1], [75, 34.8], [90, 30.2], [105, 26.1], [120, 22.6], [150, 17.3], [180, 13.4], [210, 10.4], [240, 8.1], [270, 6.4], [300, 5.2]];
  const fall = (celsius: number) => estimateFallMs(readings(log, MINUTE_MS), exactTicks(celsius, 'C'));

  it('fell through 57 °C at about 17.54 min and 21 °C at about 129.06 min, 111.5 min later', () => {
    const [start, end] = [fall(57) ?? NaN, fall(21) ?? NaN];
    expect((start / MINUTE_MS).toFixed(2)).toBe('17.54');
    expect((end / MINUTE_MS).toFixed(2)).toBe('129.06');
    expect(((end - start) / MINUTE_MS).toFixed(1)).toBe('111.5');
  });
  it('had not reached 5 °C at 300 min, 282.5 min of the 360 used', () => {
    expect(fall(5)).toBeUndefined();
    expect(((300 * MINUTE_MS - (fall(57) ?? NaN)) / MINUTE_MS).toFixed(1)).toBe('282.5');
  });
});

describe('FDA appendix 4, summary', () => {
  const verdict = (log: Log, more: Partial<ExposureOptions> = {}) => {
    const found = measure([packing(log)], more);
    return ruleOf(found, more.product === 'cooked' ? 'FDA-COOKED' : 'FDA-RAW').verdict;
  };
  it.each([
    ['raw, 71 °F for 2 h', steadyHours(71, 2), {}, 'meets'],
    ['raw, 71 °F for 2.25 h', steadyHours(71, 2.25), {}, 'misses'],
    ['raw, 2 h of 4 h above 70 °F', [...steadyHours(60, 2), ...steadyHours(71, 1.5).map(([at, value]) => [at + 2.25, value] as const)], {}, 'meets'],
    ['raw, 70 °F for 5 h', steadyHours(70, 5), {}, 'meets'],
    ['raw, 70 °F for 5.25 h', steadyHours(70, 5.25), {}, 'misses'],
    ['raw, 70 °F for 12 h, S. aureus only', steadyHours(70, 12), { staphylococcusOnly: true }, 'meets'],
    ['raw, 70 °F for 12.25 h, S. aureus only', steadyHours(70, 12.25), { staphylococcusOnly: true }, 'misses'],
    ['raw, 71 °F for 3 h, S. aureus only', steadyHours(71, 3), { staphylococcusOnly: true }, 'meets'],
    ['raw, 71 °F for 3.25 h, S. aureus only', steadyHours(71, 3.25), { staphylococcusOnly: true }, 'misses'],
    ['raw, 50 °F for 10 days', steadyHours(50, 240), {}, 'meets'],
    ['cooked, 81 °F for 1 h', steadyHours(81, 1), { product: 'cooked' }, 'meets'],
    ['cooked, 81 °F for 1.25 h', steadyHours(81, 1.25), { product: 'cooked' }, 'misses'],
    ['cooked, 80 °F for 2 h', steadyHours(80, 2), { product: 'cooked' }, 'meets'],
    ['cooked, 80 °F for 2.25 h', steadyHours(80, 2.25), { product: 'cooked' }, 'misses'],
    ['cooked, 70 °F for 5 h', steadyHours(70, 5), { product: 'cooked' }, 'meets'],
    ['cooked, 70 °F for 5.25 h', steadyHours(70, 5.25), { product: 'cooked' }, 'misses'],
    ['cooked, 81 °F for 3 h, S. aureus only', steadyHours(81, 3), { product: 'cooked', staphylococcusOnly: true }, 'meets'],
    ['cooked, 134 °F for 1.25 h', steadyHours(134, 1.25), { product: 'cooked' }, 'misses'],
    ['cooked, 135 °F for 9 h', steadyHours(135, 9), { product: 'cooked' }, 'meets'],
  ] as [string, Log, Partial<ExposureOptions>, string][])('%s', (_title, log, more, expected) => {
    expect(verdict(log, more)).toBe(expected);
  });

  it('allows cooked fish above 80 °F 4 h with at most 1 h of it above 70 °F, and raw fish 4 h with 2 h', () => {
    const warm: Log = [...steadyHours(60, 3), ...steadyHours(81, 0.5).map(([at, value]) => [at + 3.25, value] as const)];
    expect(verdict(warm, { product: 'cooked' })).toBe('meets');
    const warmer: Log = [...steadyHours(60, 2.25), ...steadyHours(81, 1).map(([at, value]) => [at + 2.5, value] as const)];
    expect(verdict(warmer, { product: 'cooked' })).toBe('not-proven');
    expect(verdict(warmer)).toBe('meets');
  });
});

describe('British Columbia', () => {
  it.each([
    [21, 'C', 9, 'meets'], [21, 'C', 9.25, 'misses'], [10, 'C', 200, 'meets'], [22, 'C', 6, 'meets'], [22, 'C', 6.25, 'misses'],
  ] as const)('%d °%s for %d h: %s', (degrees, unit, hours, expected) => {
    expect(ruleOf(measure([packing(steadyHours(degrees, hours), unit)]), 'BC-SMOKED').verdict).toBe(expected);
  });
});

describe('USDA come-up of meat, beside the smoking', () => {
  const smoking = (hours: number): ExposureStep => ({ ...packing(steadyHours(100, hours)), kind: 'smoking', name: 'Smoking' });
  it.each([[6, 'meets'], [6.25, 'misses']])('%d h between 50 and 130 °F: %s', (hours, expected) => {
    expect(ruleOf(measure([smoking(hours)]), 'FSIS-COME-UP').verdict).toBe(expected);
  });
  it('is not shown without a smoking step', () => {
    expect(measure([packing(steadyHours(100, 1))]).rules.map(({ rule }) => rule.id)).toEqual(['FDA-RAW', 'BC-SMOKED']);
  });
});

/** Tenths of a degree, which sums in binary do not keep. */
function tenthTicks(fahrenheit: number): number {
  return exactTicks(Math.round(fahrenheit * 10) / 10, 'F');
}

describe('FDA table A-2', () => {
  const printed: Record<string, [band: string, minutes: number][]> = {
    'Bacillus cereus': [['39.2–43 °F', 7200], ['44–59 °F', 1440], ['60–70 °F', 360], ['above 70 °F', 180]],
    'Campylobacter jejuni': [['86–93 °F', 2880], ['above 93 °F', 720]],
    'Clostridium botulinum type A, proteolytic B and F': [['50–70 °F', 660], ['above 70 °F', 120]],
    'Clostridium botulinum type E, non-proteolytic B and F': [['37.9–41 °F', 10080], ['42–50 °F', 2880], ['51–70 °F', 660], ['above 70 °F', 360]],
    'Clostridium perfringens': [['50–54 °F', 30240], ['55–57 °F', 1440], ['58–70 °F', 360], ['above 70 °F', 120]],
    'Pathogenic Escherichia coli': [['43.7–50 °F', 2880], ['51–70 °F', 300], ['above 70 °F', 120]],
    'Listeria monocytogenes': [['31.3–41 °F', 10080], ['42–50 °F', 1440], ['51–70 °F', 420], ['71–86 °F', 180], ['above 86 °F', 60]],
    Salmonella: [['41.4–50 °F', 2880], ['51–70 °F', 300], ['above 70 °F', 120]],
    Shigella: [['43–50 °F', 2880], ['51–70 °F', 300], ['above 70 °F', 120]],
    'Staphylococcus aureus': [['50 °F', 20160], ['51–70 °F', 720], ['above 70 °F', 180]],
    'Vibrio cholerae': [['50 °F', 30240], ['51–70 °F', 360], ['71–80 °F', 120], ['above 80 °F', 60]],
    'Vibrio parahaemolyticus': [['41–50 °F', 30240], ['51–70 °F', 360], ['71–80 °F', 120], ['above 80 °F', 60]],
    'Vibrio vulnificus': [['46.4–50 °F', 30240], ['51–70 °F', 360], ['71–80 °F', 120], ['above 80 °F', 60]],
    'Yersinia enterocolitica': [['29.7–50 °F', 1440], ['51–70 °F', 360], ['above 70 °F', 150]],
  };

  it('has every organism with its bands and minutes', () => {
    expect(Object.fromEntries(GROWTH_ORGANISMS.map(({ name, bands }) => [name, bands.map((band) => [band.text, band.allowedMinutes])]))).toEqual(printed);
  });

  it('has bands that print their own limits: each degree lies in the band that names it, and in no other', () => {
    for (const { name, bands } of GROWTH_ORGANISMS) {
      bands.forEach((band, index) => {
        const [, from, to] = /([\d.]+)?(?:–([\d.]+))? °F/.exec(band.text) ?? [];
        const isAbove = band.text.startsWith('above');
        const inside = (fahrenheit: number) => bands.flatMap((one, at) => (tenthTicks(fahrenheit) > one.aboveTicks && tenthTicks(fahrenheit) < one.belowTicks ? [at] : []));
        const upper = isAbove ? 134.9 : Number(to ?? from);
        const second = isAbove ? Number(/[\d.]+/.exec(band.text)?.[0]) + 0.1 : Number(from) + (index === 0 && to !== undefined ? 0.1 : 0);
        expect([name, band.text, inside(upper), inside(second)]).toEqual([name, band.text, [index], [index]]);
      });
    }
  });

  it('ends at 135 °F, and 50 °F itself is in the coldest bands that print it', () => {
    for (const { bands } of GROWTH_ORGANISMS) expect(bands.at(-1)?.belowTicks).toBe(exactTicks(135, 'F'));
  });

  it.each([[45, 1440], [60, 300], [75, 120]])('allows no more than so long at %d °F for any organism: %d min', (fahrenheit, minutes) => {
    const at = exactTicks(fahrenheit, 'F');
    const allowed = GROWTH_ORGANISMS.flatMap(({ bands }) => bands).filter((band) => at > band.aboveTicks && at < band.belowTicks).map((band) => band.allowedMinutes);
    expect(Math.min(...allowed)).toBe(minutes);
  });

  it('marks the rows that its own notes weaken', () => {
    const noted = GROWTH_ORGANISMS.flatMap(({ name, bands }) => bands.filter((band) => band.note !== undefined).map((band) => [name, band.text, band.note]));
    expect(noted).toEqual([
      ['Clostridium perfringens', '58–70 °F', 'more data are needed'],
      ['Staphylococcus aureus', '51–70 °F', 'more data are needed'],
      ...['Vibrio cholerae', 'Vibrio parahaemolyticus', 'Vibrio vulnificus'].map((name) => [name, 'above 80 °F', 'cooked, ready-to-eat food only']),
    ]);
  });
});

describe('sources', () => {
  it('are named for every rule, with their marks', () => {
    expect(EXPOSURE_RULES.map(({ id, source }) => [id, source.mark, source.year])).toEqual([
      ['FDA-RAW', 'from memory', 2011], ['FDA-COOKED', 'from memory', 2011], ['BC-SMOKED', 'read', null], ['FSIS-COME-UP', 'read', 2021],
    ]);
  });
});
