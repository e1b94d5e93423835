/** The coefficient fitted to invented samples made from a known one: it comes back, within the range it states. */
import { describe, expect, test } from 'vitest';
import { brinedFish, finishedFraction } from '../../app/brine/balance.ts';
import { finiteBathApproach, fourierNumber } from '../../app/brine/uptake.ts';
import { coefficientAt, usualCoefficient } from '../../app/brine/uptake-coefficient.ts';
import { fitUptake, type UptakeSample } from '../../main/backroom/services/uptake-fit.ts';

const USUAL = usualCoefficient(4);
/** 8 kg of fish in 12 kg of brine of 10 %. */
const FISH = { grams: 8000, moistureFraction: 0.74, saltFraction: 0.0015 };
const BATH = { saltGrams: 1200, waterGrams: 10_800 };

type Soak = Pick<UptakeSample, 'thicknessMm' | 'skin' | 'hours' | 'celsius' | 'yieldPercent'>;
const SOAKS: readonly Soak[] = [
  { thicknessMm: 18, skin: 'off', hours: 4, celsius: 3 }, { thicknessMm: 25, skin: 'off', hours: 10, celsius: 4 }, { thicknessMm: 14, skin: 'on', hours: 8, celsius: 2 },
  { thicknessMm: 30, skin: 'off', hours: 16, celsius: 5 }, { thicknessMm: 20, skin: 'on', hours: 12, celsius: 4, yieldPercent: 84 }, { thicknessMm: 22, skin: 'off', hours: 6, celsius: 3, yieldPercent: 80 },
];

/** A sample that a piece of this true coefficient would give, off by some points of water-phase salt. */
function sampleOf(soak: Soak, trueCoefficient: number, offBy = 0): UptakeSample {
  const fourier = fourierNumber({ ...soak, squareMetresPerSecond: coefficientAt({ squareMetresPerSecond: trueCoefficient }, soak.celsius) });
  const brined = brinedFish(FISH, BATH, finiteBathApproach(fourier, BATH.waterGrams / (FISH.grams * FISH.moistureFraction)));
  const percent = 100 * (finishedFraction(brined, (soak.yieldPercent ?? 100) / 100) ?? NaN);
  return { ...soak, fish: FISH, bath: BATH, measuredWaterPhasePercent: percent + offBy };
}

/** Standard normal figures from a fixed generator (mulberry32 and Box and Muller), the same in every run. */
function normals(seed: number): () => number {
  let state = seed >>> 0;
  function uniform(): number {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return (((mixed ^ (mixed >>> 14)) >>> 0) + 0.5) / 2 ** 32;
  }
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

describe('the fit of the uptake coefficient', () => {
  test.each([1.5e-10, 3e-10, 5e-10, 9e-10, 2e-9])('exact samples give back %d m²/s, with the narrowest range allowed', (truth) => {
    const fit = fitUptake(SOAKS.map((soak) => sampleOf(soak, truth)), USUAL);
    expect(Math.abs(fit.squareMetresPerSecond / truth - 1)).toBeLessThan(1e-4);
    expect(fit).toMatchObject({ lowFactor: 0.8, highFactor: 1.25, ground: 'fitted', samples: SOAKS.length, leftOut: 0 });
  });

  test('it is the least of the squares: no neighbour fits better', () => {
    const noise = normals(7);
    const samples = SOAKS.map((soak) => sampleOf(soak, 7e-10, 0.3 * noise()));
    const fit = fitUptake(samples, USUAL);
    function squares(squareMetresPerSecond: number): number {
      return samples.reduce((sum, sample) => sum + (sample.measuredWaterPhasePercent - sampleOf(sample, squareMetresPerSecond).measuredWaterPhasePercent) ** 2, 0);
    }
    for (let factor = 0.2; factor < 5; factor *= 1.01) expect(squares(fit.squareMetresPerSecond)).toBeLessThanOrEqual(squares(fit.squareMetresPerSecond * factor) + 1e-9);
  });

  test('of 300 kitchens with noisy samples at least nine in ten find the true figure inside their range', () => {
    let inside = 0;
    let wide = 0;
    for (let kitchen = 0; kitchen < 300; kitchen += 1) {
      const noise = normals(kitchen * 7919 + 1);
      const truth = 5e-10 * Math.exp(0.4 * noise());
      const fit = fitUptake(SOAKS.map((soak) => sampleOf(soak, truth, 0.45 * noise())), USUAL);
      if (truth >= fit.squareMetresPerSecond * fit.lowFactor && truth <= fit.squareMetresPerSecond * fit.highFactor) inside += 1;
      if (fit.highFactor > 1.25) wide += 1;
    }
    expect(inside).toBeGreaterThanOrEqual(270);
    // The scatter, and not only the narrowest range, has set some of them.
    expect(wide).toBeGreaterThan(50);
  });

  test('the range is two standard errors of ln D: the residuals’ scatter with one figure taken off, over the sensitivity', () => {
    const noise = normals(23);
    const samples = SOAKS.map((soak) => sampleOf(soak, 5e-10, 0.9 * noise()));
    const fit = fitUptake(samples, USUAL);
    function at(soak: Soak, factor: number): number {
      return sampleOf(soak, fit.squareMetresPerSecond * factor).measuredWaterPhasePercent;
    }
    const residuals = samples.map((sample) => sample.measuredWaterPhasePercent - at(sample, 1));
    const slopes = SOAKS.map((soak) => (at(soak, 1.001) - at(soak, 0.999)) / Math.log(1.001 / 0.999));
    const scatter = Math.sqrt(residuals.reduce((sum, each) => sum + each ** 2, 0) / (samples.length - 1));
    const twoErrors = (2 * scatter) / Math.hypot(...slopes);
    expect(Math.exp(twoErrors)).toBeGreaterThan(1.25);
    expect(fit.highFactor).toBeCloseTo(Math.exp(twoErrors), 4);
    expect(fit.lowFactor).toBeCloseTo(Math.exp(-twoErrors), 4);
  });

  test('more scatter makes the range wider, more samples make it narrower', () => {
    function rangeWith(noiseSize: number, rounds: number): number {
      const noise = normals(11);
      const soaks = Array.from({ length: rounds }, () => SOAKS).flat();
      const fit = fitUptake(soaks.map((soak) => sampleOf(soak, 5e-10, noiseSize * noise())), USUAL);
      return fit.highFactor / fit.lowFactor;
    }
    expect(rangeWith(1.5, 1)).toBeGreaterThan(rangeWith(0.8, 1));
    expect(rangeWith(1.5, 6)).toBeLessThan(rangeWith(1.5, 1));
  });

  test('one or two samples move the middle and leave the usual range around it', () => {
    for (const count of [1, 2]) {
      const fit = fitUptake(SOAKS.slice(0, count).map((soak) => sampleOf(soak, 8e-10)), USUAL);
      expect(Math.abs(fit.squareMetresPerSecond / 8e-10 - 1)).toBeLessThan(1e-4);
      expect(fit).toMatchObject({ lowFactor: USUAL.lowFactor, highFactor: USUAL.highFactor, ground: 'fitted', samples: count });
    }
  });

  test('samples at equilibrium, in brine no stronger than the fish, or with figures that can’t be are left out and counted', () => {
    const telling = SOAKS.map((soak) => sampleOf(soak, 6e-10));
    const silent: UptakeSample[] = [
      sampleOf({ thicknessMm: 8, skin: 'off', hours: 96, celsius: 4 }, 6e-10, 0.9),
      { ...sampleOf({ thicknessMm: 20, skin: 'off', hours: 6, celsius: 4 }, 6e-10), bath: { saltGrams: 10, waterGrams: 10_000 } },
      { ...sampleOf({ thicknessMm: 20, skin: 'off', hours: 6, celsius: 4 }, 6e-10), measuredWaterPhasePercent: NaN },
      { ...sampleOf({ thicknessMm: 20, skin: 'off', hours: 6, celsius: 4 }, 6e-10), hours: 0 },
      { ...sampleOf({ thicknessMm: 20, skin: 'off', hours: 6, celsius: 4 }, 6e-10), yieldPercent: 20 },
    ];
    const fit = fitUptake([...telling, ...silent], USUAL);
    expect(fit).toEqual({ ...fitUptake(telling, USUAL), leftOut: silent.length });
    expect(fit.samples).toBe(telling.length);
  });

  test('with nothing that tells, the usual coefficient stands', () => {
    expect(fitUptake([], USUAL)).toEqual({ ...USUAL, leftOut: 0 });
    expect(fitUptake([sampleOf({ thicknessMm: 8, skin: 'off', hours: 96, celsius: 4 }, 6e-10)], USUAL)).toEqual({ ...USUAL, leftOut: 1 });
  });

  test('samples that no flesh could give are no fit', () => {
    const impossible = SOAKS.map((soak) => ({ ...sampleOf(soak, 5e-10), measuredWaterPhasePercent: 30 }));
    expect(fitUptake(impossible, USUAL)).toMatchObject({ ground: 'usual', samples: 0, squareMetresPerSecond: USUAL.squareMetresPerSecond });
    expect(fitUptake(SOAKS.map((soak) => ({ ...sampleOf(soak, 5e-10), measuredWaterPhasePercent: 0 })), USUAL)).toMatchObject({ ground: 'usual', samples: 0 });
  });
});
