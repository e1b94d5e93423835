/**
 * The tables behind exposure and lethality, typed a second time. US FDA, Fish and Fishery Products Hazards
 * and Controls Guidance, 4th edition, appendix 4, summary and tables, 2011 (the raw rows above
 * 50 and 70 °F read as quoted, the rest from memory); Province of British Columbia, overview sheet on
 * smoked fish (read); USDA FSIS, Cooking Guideline for Meat and Poultry Products, come-up time, 2021 (read).
 */
import { describe, expect, it } from 'vitest';
import { EXPOSURE_RULES, GROWTH_RANGE, type ExposureRule } from '../../app/heat/exposure-rules.ts';
import { GROWTH_ORGANISMS, GROWTH_SOURCE } from '../../app/heat/growth-bands.ts';
import { HEAT_TARGETS } from '../../app/heat/heat-targets.ts';
import { degreesFromTicks } from '../../app/measures/temperature.ts';

type Limb = ExposureRule['tiers'][number]['ways'][number][number];

function limbText({ aboveTicks, belowTicks, allowedMinutes }: Limb): string {
  return `${degreesFromTicks(aboveTicks, 'F')} to ${belowTicks === Infinity ? 'any' : degreesFromTicks(belowTicks, 'F')} °F ${allowedMinutes}`;
}

function waysText(ways: readonly (readonly Limb[])[]): string {
  return ways.map((limbs) => limbs.map(limbText).join(' and ')).join(' or ');
}

describe('the exposure rules', () => {
  const tiersOf = (id: string) => EXPOSURE_RULES.find((rule) => rule.id === id)?.tiers.map(({ hotterThanTicks, ways, staphylococcusWays }) =>
    [hotterThanTicks === -Infinity ? 'any' : degreesFromTicks(hotterThanTicks, 'F'), waysText(ways), waysText(staphylococcusWays)]);

  it('allow raw fish 5 h above 50 °F, and 2 h or 4 h with 2 h above 70 °F once it was hotter', () => {
    expect(tiersOf('FDA-RAW')).toEqual([
      ['any', '', ''],
      [50, '50 to 135 °F 300', '50 to 135 °F 720'],
      [70, '50 to 135 °F 120 or 50 to 135 °F 240 and 70 to 135 °F 120', '50 to 135 °F 180'],
    ]);
  });
  it('allow cooked fish less once it was above 80 °F', () => {
    expect(tiersOf('FDA-COOKED')).toEqual([
      ['any', '', ''],
      [50, '50 to 135 °F 300', '50 to 135 °F 720'],
      [70, '50 to 135 °F 120 or 50 to 135 °F 240 and 70 to 135 °F 120', '50 to 135 °F 180'],
      [80, '50 to 135 °F 60 or 50 to 135 °F 240 and 70 to 135 °F 60', '50 to 135 °F 180'],
    ]);
  });
  it('allow 9 h from 10 to 21 °C and 6 h above in British Columbia, 21 °C itself in the colder range', () => {
    const limbs = EXPOSURE_RULES.find(({ id }) => id === 'BC-SMOKED')?.tiers[0]?.ways[0];
    expect(limbs?.map(({ aboveTicks, belowTicks, allowedMinutes }) => [aboveTicks, belowTicks, allowedMinutes])).toEqual([[90_000, 189_001, 540], [189_000, Infinity, 360]]);
  });
  it('compare with 6 h between 50 and 130 °F while heating meat', () => expect(tiersOf('FSIS-COME-UP')).toEqual([['any', '50 to 130 °F 360', '']]));
  it('say what they read, what they leave out, and the year of their text', () => {
    expect(EXPOSURE_RULES.map(({ id, reads, leavesSmokingOut, source }) => [id, reads, leavesSmokingOut, source.year])).toEqual([
      ['FDA-RAW', 'counted', false, 2011], ['FDA-COOKED', 'counted', false, 2011], ['BC-SMOKED', 'counted', true, null], ['FSIS-COME-UP', 'smoking', false, 2021],
    ]);
  });
  it('count growth between 50 and 135 °F', () => expect([GROWTH_RANGE.aboveTicks, GROWTH_RANGE.belowTicks].map((ticks) => degreesFromTicks(ticks, 'F'))).toEqual([50, 135]));
});

describe('the growth bands', () => {
  it('begin above the degree that is printed for each organism', () => {
    const begins = GROWTH_ORGANISMS.map(({ bands }) => bands[0]).flatMap((band) => (band === undefined ? [] : [degreesFromTicks(band.aboveTicks, 'F')]));
    // Where growth begins at the single degree of its band, that degree is in: 50 °F for Vibrio cholerae, one tick below.
    expect(begins).toEqual([39.2, 86, 50, 37.9, 50, 43.7, 31.3, 41.4, 43, 44.6, 49.9998, 41, 46.4, 29.7]);
  });
  it('rest on the guidance of 2011', () => expect([GROWTH_SOURCE.year, GROWTH_SOURCE.mark]).toEqual([2011, 'from memory']));
});

describe('the heat targets', () => {
  it('have their reference, z below and above it, minutes and powers of ten', () => {
    expect(HEAT_TARGETS.map((target) => [target.id, target.referenceTicks / 9000, target.zTicks / 9000, target.zAboveTicks / 9000, target.requiredMinutes, target.requiredLogs])).toEqual([
      ['listeria-6d', 70, 7.5, 7.5, 2, 6], ['botulinum-b-6d', 90, 7, 10, 10, 6], ['fish-flora', 70, 6, 6, 15, undefined], ['canning', 121.1, 10, 10, 3, 12],
    ]);
  });
  it('name the years of their texts', () => {
    expect(HEAT_TARGETS.map(({ sources }) => sources.map(({ year }) => year))).toEqual(HEAT_TARGETS.map(({ sources }) => sources.map(({ year }) => (year === null ? null : expect.toSatisfy((value: number) => value > 1950 && value < 2027)))));
    expect(HEAT_TARGETS[0]?.sources.map(({ year }) => year)).toEqual([2011, 1989]);
  });
});
