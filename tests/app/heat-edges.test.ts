/** Exposure, lethality and the boiling point on the exact minute and the exact tick. What is shown is information; no check decides by it. */
import { describe, expect, it } from 'vitest';
import { boilingPoint, saturationKelvin, standardPascal } from '../../app/heat/boiling-point.ts';
import { disagreementsOf, type Compared } from '../../app/heat/exposure-disagreements.ts';
import { EXPOSURE_RULES, type RuleExposure } from '../../app/heat/exposure-rules.ts';
import { stretchesOf, timeInside, type ExposureStep } from '../../app/heat/exposure-stretches.ts';
import { measureExposure, type Exposure, type ExposureOptions } from '../../app/heat/exposure.ts';
import { GROWTH_ORGANISMS } from '../../app/heat/growth-bands.ts';
import { BOTULINUM_TARGET, FISH_FLORA_TARGET, HEAT_TARGETS } from '../../app/heat/heat-targets.ts';
import { lethalRate, segmentMinutes } from '../../app/heat/lethality.ts';
import type { Reading } from '../../app/limits/judge-case.ts';
import { minuteWords } from '../../app/limits/words.ts';

const MINUTE_MS = 60_000;
const F = (degrees: number) => Math.round((degrees - 32) * 5000);
const at = (minute: number, low: number, high = low): Reading => ({ atMs: minute * MINUTE_MS, lowTicks: F(low), highTicks: F(high) });

function step(kind: ExposureStep['kind'], from: number, to: number, readings: readonly Reading[] = [], more: Partial<ExposureStep> = {}): ExposureStep {
  return { kind, name: kind, fromMs: from * MINUTE_MS, toMs: to * MINUTE_MS, readings, maxGapMs: 60 * MINUTE_MS, ...more };
}
function measure(steps: readonly ExposureStep[], more: Partial<ExposureOptions> = {}): Exposure {
  const found = measureExposure(steps, { product: 'raw', staphylococcusOnly: false, isOpen: false, ...more }, minuteWords('F'));
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

describe('two readings of one minute', () => {
  it('may have been as cold as the one and as hot as the other', () => {
    const { shortestMs, longestMs } = timeInside(stretchesOf(step('packing', 0, 10, [at(0, 45), at(0, 60), at(10, 45)])), { aboveTicks: F(50), belowTicks: F(135) });
    expect([shortestMs, longestMs]).toEqual([0, 10 * MINUTE_MS]);
  });
  it('cover what either of them covers', () => {
    const covering = (since: number) => ({ ...at(600, 38, 45), coversSinceMs: since * MINUTE_MS });
    const known = stretchesOf(step('packing', 0, 600, [covering(500), covering(0)])).filter((stretch) => stretch.known === 'nothing');
    expect(known).toEqual([]);
  });
});

describe('exposure', () => {
  it('is judged by the hottest that either end of a stretch proves', () => {
    const found = measure([step('packing', 0, 60, [at(0, 45), at(30, 75), at(60, 45)])]);
    expect(found.rules.find(({ rule }) => rule.id === 'FDA-RAW')?.tiers).toEqual(['above 70 °F at some time']);
  });
  it('is within what is allowed to the millisecond', () => {
    const [allowed, over] = [0, 1].map((more) => {
      const last = { ...at(300, 60), atMs: 300 * MINUTE_MS + more };
      return measure([{ ...step('packing', 0, 0, [at(0, 60), last]), toMs: last.atMs, maxGapMs: 400 * MINUTE_MS }]).rules.find(({ rule }) => rule.id === 'FDA-RAW')?.verdict;
    });
    expect([allowed, over]).toEqual(['meets', 'misses']);
  });
  it('names the first step that ends before it starts', () => {
    const found = measureExposure([step('packing', 10, 0), step('store', 10, 0)], { product: 'raw', staphylococcusOnly: false, isOpen: false }, minuteWords('F'));
    expect(found.ok ? '' : found.problem.message).toBe('The step “packing” ends before it starts.');
  });
  it('shows a smoking or a cooling without a reading apart, and none where there was none', () => {
    const smoked = measure([step('smoking', 0, 60)]);
    expect([smoked.apart.map(({ what }) => what), smoked.rules.map(({ rule }) => rule.id)]).toEqual([['smoking'], ['FDA-RAW', 'BC-SMOKED', 'FSIS-COME-UP']]);
    expect(smoked.disagreements[0]).toContain('British Columbia leaves the smoking step out of the count');
    const cooled = measure([step('cooling', 0, 60, [], { afterCompletedHold: true })]);
    expect([cooled.apart.map(({ what }) => what), cooled.disagreements[0]]).toEqual([['cooling after the hold'], expect.stringContaining('come-up time starts again after a completed cook')]);
    const packed = measure([step('packing', 0, 60, [at(0, 40), at(60, 40)])]);
    expect([packed.apart, packed.rules.map(({ rule }) => rule.id), packed.disagreements]).toEqual([[], ['FDA-RAW', 'BC-SMOKED'], []]);
  });
});

describe('the growth bands of an organism', () => {
  it('share the one tick that their printed limit is, and no more', () => {
    for (const { bands } of GROWTH_ORGANISMS) {
      bands.slice(1).forEach((band, index) => expect((bands[index]?.belowTicks ?? 0) - band.aboveTicks).toBe(1));
    }
  });
});

describe('texts that differ', () => {
  const ruleOf = (id: string, verdict: RuleExposure['verdict'], limbs: RuleExposure['limbs'] = []): RuleExposure => {
    const rule = EXPOSURE_RULES.find((one) => one.id === id);
    if (rule === undefined) throw new Error(`no rule ${id}`);
    return { rule, verdict, tiers: [], limbs, withApart: undefined };
  };
  const none = { shortestMs: 0, longestMs: 0 };
  const said = (...rules: RuleExposure[]) => disagreementsOf({ hasSmoking: false, hasCooling: false, all: none, rules } satisfies Compared, minuteWords('F'));
  it('are told with what they allow, and without brackets where one asks nothing', () => {
    expect(said(ruleOf('FDA-RAW', 'meets'), ruleOf('BC-SMOKED', 'misses', [{ ...none, text: 'above 21 °C', allowedMinutes: 360 }]))).toEqual([
      'The texts differ: FDA appendix 4, raw fish ready to eat is met; British Columbia, all steps but the smoking is not met (above 21 °C at most 360 min).',
    ]);
  });
  it('are those on the time that counts: meat’s come-up time is only compared', () => {
    expect(said(ruleOf('FDA-RAW', 'meets'), ruleOf('BC-SMOKED', 'meets'), ruleOf('FSIS-COME-UP', 'misses'))).toEqual([]);
  });
});

describe('lethality', () => {
  it('counts the second z from the first tick above the reference', () => {
    const rate = (above: number) => lethalRate(BOTULINUM_TARGET.referenceTicks + above, BOTULINUM_TARGET);
    expect(Math.log10(rate(1)) * 90_000).toBeCloseTo(1, 9);
    expect(Math.log10(rate(-1)) * 63_000).toBeCloseTo(-1, 9);
    expect(rate(0)).toBe(1);
  });
  it('splits even the shortest line across the reference', () => {
    const { referenceTicks: reference } = BOTULINUM_TARGET;
    const halves = segmentMinutes(0.5, reference - 1, reference, BOTULINUM_TARGET) + segmentMinutes(0.5, reference, reference + 1, BOTULINUM_TARGET);
    expect(segmentMinutes(1, reference - 1, reference + 1, BOTULINUM_TARGET)).toBeCloseTo(halves, 10);
  });
  it('cites texts by their year', () => {
    expect(HEAT_TARGETS.map(({ id, sources }) => [id, sources.map(({ year }) => year)])).toEqual([
      ['listeria-6d', [2011, 1989]], ['botulinum-b-6d', [2011, 2016]], ['fish-flora', [1995]], ['canning', [null]],
    ]);
    expect([BOTULINUM_TARGET, FISH_FLORA_TARGET].map(({ zTicks, zAboveTicks }) => [zTicks, zAboveTicks])).toEqual([[63_000, 90_000], [54_000, 54_000]]);
  });
});

describe('the boiling point by altitude', () => {
  it('is open by what 20 hPa of weather move it', () => {
    const ticks = (pascal: number) => {
      const kelvin = saturationKelvin(pascal);
      if (!kelvin.ok) throw new Error(kelvin.problem.message);
      return kelvin.value * 9000;
    };
    const errorAt = (altitudeMetres: number) => {
      const found = boilingPoint({ altitudeMetres });
      return found.ok ? found.value.errorTicks : undefined;
    };
    for (const metres of [0, 430, 1500, 3000]) expect(errorAt(metres)).toBe(Math.ceil(ticks(standardPascal(metres)) - ticks(standardPascal(metres) - 2000)));
  });
});
