/** The soak forecast by example: what it tells, what it refuses. */
import { describe, expect, test } from 'vitest';
import { brinedFish, equilibriumFraction, finishedFraction } from '../../app/brine/balance.ts';
import { soakForecast, LONG_SOAK_HOURS, type SoakForecast } from '../../app/brine/soak-forecast.ts';
import type { SoakOrder } from '../../app/brine/soak-order.ts';
import { finiteBathApproach, fourierNumber } from '../../app/brine/uptake.ts';
import { coefficientAt, usualCoefficient } from '../../app/brine/uptake-coefficient.ts';
import { waterPhaseFraction } from '../../app/brine/water-phase.ts';

/** 5 kg of whitefish fillets, 20 mm to 12 mm, in 10 kg of 8 % brine at 38 °F. */
const ORDER: SoakOrder = {
  fish: { grams: 5000, moistureFraction: 0.73, saltFraction: 0.0016 },
  bath: { saltGrams: 800, waterGrams: 9200 },
  thickestMm: 20, thinnestMm: 12, skin: 'off', celsius: 10 / 3, fatPercent: 6, soakHours: 8,
  target: { finishedWaterPhasePercent: 3.5, yieldPercent: 82 },
};

function forecast(changes: Partial<SoakOrder> = {}): SoakForecast {
  const outcome = soakForecast({ ...ORDER, ...changes });
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

describe('a soak forecast', () => {
  test('the likely figure is that of the slab in the limited bath, brined and finished', () => {
    const { thickest } = forecast();
    const squareMetresPerSecond = coefficientAt(usualCoefficient(6), 10 / 3);
    const approach = finiteBathApproach(fourierNumber({ hours: 8, thicknessMm: 20, skin: 'off', squareMetresPerSecond }), 9200 / 3650);
    const brined = brinedFish(ORDER.fish, ORDER.bath, approach);
    expect(thickest.afterSoak.brined.percent).toBeCloseTo(100 * waterPhaseFraction(brined.saltGrams, brined.waterGrams), 10);
    expect(thickest.afterSoak.finished?.percent).toBeCloseTo(100 * (finishedFraction(brined, 0.82) ?? NaN), 10);
  });

  test('the range is that of the corners: coefficient × 0.6 to 1.6, thickness ± 10 %, moisture ± 2.5 points, yield ± 1 point', () => {
    const brinedEnds: number[] = [];
    const finishedEnds: number[] = [];
    for (const [speed, moistureFraction, yieldFraction] of [0.6, 1.6].flatMap((factor) => [0.705, 0.755].flatMap((moisture) => [0.81, 0.83].map((share) => [factor, moisture, share] as const)))) {
      const fish = { ...ORDER.fish, moistureFraction };
      const fourier = fourierNumber({ hours: 8, thicknessMm: speed < 1 ? 22 : 18, skin: 'off', squareMetresPerSecond: speed * coefficientAt(usualCoefficient(6), 10 / 3) });
      const brined = brinedFish(fish, ORDER.bath, finiteBathApproach(fourier, 9200 / (5000 * moistureFraction)));
      brinedEnds.push(100 * waterPhaseFraction(brined.saltGrams, brined.waterGrams));
      finishedEnds.push(100 * (finishedFraction(brined, yieldFraction) ?? NaN));
    }
    const { brined, finished } = forecast().thickest.afterSoak;
    expect(brined.lowPercent).toBeCloseTo(Math.min(...brinedEnds), 10);
    expect(brined.highPercent).toBeCloseTo(Math.max(...brinedEnds), 10);
    expect(finished?.lowPercent).toBeCloseTo(Math.min(...finishedEnds), 10);
    expect(finished?.highPercent).toBeCloseTo(Math.max(...finishedEnds), 10);
  });

  test('the thin piece is there first, takes more, and its range lies around the likely figure', () => {
    const { thickest, thinnest } = forecast();
    for (const key of ['earliestHours', 'likelyHours', 'latestHours'] as const) expect(thinnest.reaches?.[key] ?? NaN).toBeLessThan(thickest.reaches?.[key] ?? NaN);
    expect(thinnest.afterSoak.brined.percent).toBeGreaterThan(thickest.afterSoak.brined.percent);
    for (const { reaches, afterSoak } of [thickest, thinnest]) {
      expect(reaches?.earliestHours ?? NaN).toBeLessThan(reaches?.likelyHours ?? NaN);
      expect(reaches?.likelyHours ?? NaN).toBeLessThan(reaches?.latestHours ?? NaN);
      for (const range of [afterSoak.brined, afterSoak.finished]) {
        expect(range?.lowPercent ?? NaN).toBeLessThan(range?.percent ?? NaN);
        expect(range?.percent ?? NaN).toBeLessThan(range?.highPercent ?? NaN);
      }
    }
  });

  test('a long soak is 48 hours and leaves the thick piece saltier, below equilibrium', () => {
    const { thickest, equilibriumPercent } = forecast();
    expect(thickest.afterLongSoak.hours).toBe(LONG_SOAK_HOURS);
    expect(thickest.afterLongSoak.brined.percent).toBeGreaterThan(thickest.afterSoak.brined.percent);
    expect(thickest.afterLongSoak.brined.percent).toBeLessThan(equilibriumPercent);
    expect(forecast({ soakHours: 48 }).thickest.afterSoak).toEqual(thickest.afterLongSoak);
    expect(equilibriumPercent).toBeCloseTo(100 * equilibriumFraction(ORDER.fish, ORDER.bath), 12);
  });

  test('skin makes a piece as slow as one of double its thickness', () => {
    const withSkin = forecast({ skin: 'on', thickestMm: 20 }).thickest;
    const doubled = forecast({ thickestMm: 40 }).thickest;
    expect(withSkin.reaches).toEqual(doubled.reaches);
    expect(withSkin.reaches?.likelyHours ?? NaN).toBeCloseTo(4 * (forecast().thickest.reaches?.likelyHours ?? NaN), 9);
  });

  test('the middle lags behind the mean and comes up to it in a long soak', () => {
    const { thickest } = forecast();
    expect(thickest.afterSoak.innermostPercent).toBeLessThan(thickest.afterSoak.brined.percent);
    expect(forecast({ soakHours: 240, thickestMm: 12 }).thickest.afterSoak.innermostPercent).toBeCloseTo(forecast().equilibriumPercent, 4);
  });

  test('a target above equilibrium is never reached, one that only some fish reach has no latest', () => {
    const equilibrium = forecast().equilibriumPercent;
    expect(forecast({ target: { brinedWaterPhasePercent: equilibrium + 1 } }).thickest.reaches).toEqual({ earliestHours: null, likelyHours: null, latestHours: null });
    const barely = forecast({ target: { brinedWaterPhasePercent: equilibrium - 0.001 } }).thickest.reaches;
    expect(barely?.earliestHours).toBeGreaterThan(0);
    expect(barely?.likelyHours).toBeGreaterThan(barely?.earliestHours ?? NaN);
    expect(barely?.latestHours).toBeNull();
  });

  test('fish that has the salt already is there at once', () => {
    expect(forecast({ target: { brinedWaterPhasePercent: 0.1 } }).thickest.reaches).toEqual({ earliestHours: 0, likelyHours: 0, latestHours: 0 });
    const freshening = { bath: { saltGrams: 0, waterGrams: 10_000 } };
    expect(forecast({ ...freshening, target: { brinedWaterPhasePercent: 1 } }).thickest.reaches?.likelyHours).toBeNull();
    expect(forecast({ ...freshening, target: { brinedWaterPhasePercent: 0.1 } }).thickest.reaches?.latestHours).toBe(0);
  });

  test('without a yield there is no finished figure, without a target no hours, with a drying yield no finished figure', () => {
    const brinedOnly = forecast({ target: { brinedWaterPhasePercent: 3 } }).thickest;
    expect(brinedOnly.afterSoak).not.toHaveProperty('finished');
    expect(forecast({ target: { brinedWaterPhasePercent: 3 }, yieldPercent: 82 }).thickest.afterSoak.finished).toEqual(forecast().thickest.afterSoak.finished);
    expect(forecast({ target: undefined }).thickest).not.toHaveProperty('reaches');
    expect(forecast({ target: undefined, yieldPercent: 29 }).thickest.afterSoak).not.toHaveProperty('finished');
  });

  test('a fitted coefficient comes before the fat, and its narrower range narrows the forecast', () => {
    const fitted = { squareMetresPerSecond: usualCoefficient(6).squareMetresPerSecond, lowFactor: 0.8, highFactor: 1.25, ground: 'fitted', samples: 6 } as const;
    const narrower = forecast({ coefficient: fitted });
    expect(narrower.coefficient).toBe(fitted);
    expect(narrower.thickest.afterSoak.brined.percent).toBe(forecast().thickest.afterSoak.brined.percent);
    expect(narrower.thickest.afterSoak.brined.lowPercent).toBeGreaterThan(forecast().thickest.afterSoak.brined.lowPercent);
    expect(narrower.thickest.afterSoak.brined.highPercent).toBeLessThan(forecast().thickest.afterSoak.brined.highPercent);
  });
});

describe('a soak forecast that can’t be', () => {
  const fish = ORDER.fish;
  test.each<[string, Partial<SoakOrder>]>([
    ['thickestMm', { thickestMm: 0 }], ['thickestMm', { thickestMm: 300 }], ['thickestMm', { thickestMm: NaN }], ['thickestMm', { thickestMm: -3 }],
    ['thinnestMm', { thinnestMm: 0 }], ['thinnestMm', { thinnestMm: 21 }], ['thinnestMm', { thinnestMm: NaN }],
    ['celsius', { celsius: -1 }], ['celsius', { celsius: 31 }], ['celsius', { celsius: NaN }],
    ['soakHours', { soakHours: 0 }], ['soakHours', { soakHours: -2 }], ['soakHours', { soakHours: 240.1 }], ['soakHours', { soakHours: NaN }],
    ['fatPercent', { fatPercent: undefined }], ['fatPercent', { fatPercent: -1 }], ['fatPercent', { fatPercent: 101 }],
    ['coefficient', { coefficient: { squareMetresPerSecond: 0, lowFactor: 0.6, highFactor: 1.6, ground: 'fitted', samples: 3 } }],
    ['coefficient', { coefficient: { squareMetresPerSecond: 5e-10, lowFactor: 1.2, highFactor: 1.6, ground: 'fitted', samples: 3 } }],
    ['yieldPercent', { yieldPercent: 0 }], ['yieldPercent', { yieldPercent: 101 }], ['yieldPercent', { yieldPercent: NaN }],
    ['target.yieldPercent', { target: { finishedWaterPhasePercent: 3.5, yieldPercent: 0 } }],
    ['target.yieldPercent', { target: { finishedWaterPhasePercent: 3.5, yieldPercent: 100.5 } }],
    ['target.yieldPercent', { target: { finishedWaterPhasePercent: 3.5, yieldPercent: 25 } }],
    ['target.finishedWaterPhasePercent', { target: { finishedWaterPhasePercent: -1, yieldPercent: 82 } }],
    ['target.brinedWaterPhasePercent', { target: { brinedWaterPhasePercent: 100 } }],
    ['fish.grams', { fish: { ...fish, grams: 0 } }], ['fish.grams', { fish: { ...fish, grams: Infinity } }],
    ['fish.moistureFraction', { fish: { ...fish, moistureFraction: 0 } }], ['fish.moistureFraction', { fish: { ...fish, saltFraction: 0.5 } }],
    ['bath.waterGrams', { bath: { saltGrams: 1, waterGrams: 0 } }], ['bath.saltGrams', { bath: { saltGrams: -1, waterGrams: 9 } }],
  ])('says so at %s', (field, changes) => {
    const outcome = soakForecast({ ...ORDER, ...changes });
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    expect(outcome.problem.field).toBe(field);
    expect(outcome.problem.message).toMatch(/\.$/);
    expect(outcome.problem.remedy).toMatch(/\.$/);
  });

  test('200 mm and 240 hours are still taken', () => {
    expect(forecast({ thickestMm: 200, soakHours: 240 }).thickest.afterSoak.brined.percent).toBeGreaterThan(0);
  });
});
