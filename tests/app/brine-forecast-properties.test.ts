/** Laws of the salt's uptake that hold for every piece, bath and time. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { brinedFish, equilibriumFraction } from '../../app/brine/balance.ts';
import { scaledComplement } from '../../app/brine/scaled-complement.ts';
import { soakForecast, type PieceForecast } from '../../app/brine/soak-forecast.ts';
import type { SoakOrder } from '../../app/brine/soak-order.ts';
import { centreApproach, finiteBathApproach, fourierNumber, fourierOfApproach, hoursToApproach, largeBathApproach, type Skin } from '../../app/brine/uptake.ts';
import { coefficientAt, usualCoefficient } from '../../app/brine/uptake-coefficient.ts';
import { saltPerWater } from '../../app/brine/water-phase.ts';

function between(min: number, max: number): fc.Arbitrary<number> {
  return fc.double({ min, max, noNaN: true });
}

/** Evenly over the powers of ten. */
function scaled(min: number, max: number): fc.Arbitrary<number> {
  return between(Math.log(min), Math.log(max)).map(Math.exp);
}

const NOISE = 1e-11;
const fourier = scaled(1e-6, 20);
const alpha = fc.oneof(scaled(0.05, 1000), fc.constant(Infinity));
const skin = fc.constantFrom<Skin>('on', 'off');
const piece = fc.record({ thicknessMm: scaled(2, 200), skin, squareMetresPerSecond: scaled(5e-11, 3e-9) });
const order: fc.Arbitrary<SoakOrder> = fc.record({
  fish: fc.record({ grams: between(500, 20_000), moistureFraction: between(0.55, 0.82), saltFraction: between(0, 0.005) }),
  ratio: between(0.5, 4),
  strength: between(0.02, 0.26),
  mm: fc.tuple(between(4, 60), between(4, 60)),
  skin,
  celsius: between(0, 20),
  fatPercent: between(0, 25),
  soakHours: scaled(0.2, 100),
}).map(({ fish, ratio, strength, mm, ...rest }) => ({
  fish,
  bath: { saltGrams: fish.grams * ratio * strength, waterGrams: fish.grams * ratio * (1 - strength) },
  thickestMm: Math.max(...mm),
  thinnestMm: Math.min(...mm),
  ...rest,
}));

function thickestOf(given: SoakOrder): PieceForecast {
  const outcome = soakForecast(given);
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value.thickest;
}

describe('uptake of a slab', () => {
  test('mean and middle go from 0 to 1, ever on, the middle behind', () => {
    fc.assert(fc.property(fourier, alpha, between(1.0001, 3), (time, water, later) => {
      for (const approach of [finiteBathApproach, centreApproach]) {
        const now = approach(time, water);
        expect(now).toBeGreaterThanOrEqual(0);
        expect(now).toBeLessThanOrEqual(1);
        expect(approach(time * later, water)).toBeGreaterThanOrEqual(now - NOISE);
      }
      expect(centreApproach(time, water)).toBeLessThanOrEqual(finiteBathApproach(time, water) + NOISE);
    }));
  });

  test('the less brine, the sooner its equilibrium is near', () => {
    fc.assert(fc.property(fourier, scaled(0.05, 1000), between(1.001, 5), (time, water, more) => {
      expect(finiteBathApproach(time, water * more)).toBeLessThanOrEqual(finiteBathApproach(time, water) + NOISE);
      expect(largeBathApproach(time)).toBeLessThanOrEqual(finiteBathApproach(time, water * more) + NOISE);
    }));
  });

  test('it comes further with hours and a quicker coefficient, less far with thickness and skin', () => {
    fc.assert(fc.property(piece, scaled(0.01, 240), alpha, between(1.001, 3), (soaked, hours, water, more) => {
      function come(changes: Partial<typeof soaked & { hours: number }>): number {
        return finiteBathApproach(fourierNumber({ ...soaked, hours, ...changes }), water);
      }
      const now = come({});
      expect(come({ hours: hours * more })).toBeGreaterThanOrEqual(now - NOISE);
      expect(come({ squareMetresPerSecond: soaked.squareMetresPerSecond * more })).toBeGreaterThanOrEqual(now - NOISE);
      expect(come({ thicknessMm: soaked.thicknessMm * more })).toBeLessThanOrEqual(now + NOISE);
      expect(come({ skin: 'on' })).toBeLessThanOrEqual(come({ skin: 'off' }) + NOISE);
    }));
  });

  test('the hours to a point of the way lead there, and the end is never reached', () => {
    fc.assert(fc.property(piece, alpha, between(0.001, 0.999), (soaked, water, approach) => {
      const hours = hoursToApproach(approach, water, soaked);
      expect(Math.abs(finiteBathApproach(fourierNumber({ ...soaked, hours: hours ?? NaN }), water) - approach)).toBeLessThan(1e-10);
      expect(hoursToApproach(1, water, soaked)).toBeUndefined();
      expect(hoursToApproach(0, water, soaked)).toBe(0);
      expect(fourierOfApproach(NaN, water)).toBeUndefined();
    }));
  });

  test('what the fish gains the bath has lost, to 1e-9, as the bath’s own equation has it', () => {
    fc.assert(fc.property(order, scaled(1e-5, 0.039), ({ fish, bath }, time) => {
      const water = bath.waterGrams / (fish.grams * fish.moistureFraction);
      const own = fish.saltFraction / fish.moistureFraction;
      const brined = brinedFish(fish, bath, finiteBathApproach(time, water));
      const gained = brined.saltGrams - fish.grams * fish.saltFraction;
      // Before salt meets in the middle, the bath's salt per water falls as exp(x²)·erfc(x) from its own to the fish's.
      const left = bath.waterGrams * (own + (bath.saltGrams / bath.waterGrams - own) * scaledComplement(Math.sqrt(time) / water));
      expect(Math.abs(bath.saltGrams - left - gained)).toBeLessThan(1e-9 * (bath.saltGrams + gained));
    }));
  });

  test('at the end fish and bath are equally salt, to 1e-9', () => {
    fc.assert(fc.property(order, ({ fish, bath }) => {
      const brined = brinedFish(fish, bath, finiteBathApproach(50, bath.waterGrams / (fish.grams * fish.moistureFraction)));
      const left = bath.saltGrams + fish.grams * fish.saltFraction - brined.saltGrams;
      expect(Math.abs(left / bath.waterGrams - brined.saltGrams / brined.waterGrams)).toBeLessThan(1e-9);
      expect(Math.abs(brined.saltGrams / brined.waterGrams - saltPerWater(equilibriumFraction(fish, bath)))).toBeLessThan(1e-9);
    }));
  });

  test('warmth hastens, fat slows', () => {
    fc.assert(fc.property(between(0, 29), between(0.01, 1), between(0, 30), between(0, 10), (celsius, warmer, fat, fatter) => {
      expect(coefficientAt(usualCoefficient(fat), celsius + warmer)).toBeGreaterThan(coefficientAt(usualCoefficient(fat), celsius));
      expect(usualCoefficient(fat + fatter).squareMetresPerSecond).toBeLessThanOrEqual(usualCoefficient(fat).squareMetresPerSecond);
    }));
  });
});

describe('a soak forecast', () => {
  test('the range of hours and the range of salt are the same range: at the latest hour the low end is the target', () => {
    fc.assert(fc.property(order, between(0.1, 0.9), between(70, 99), fc.boolean(), (given, share, yieldPercent, finished) => {
      const outcome = soakForecast(given);
      if (!outcome.ok) throw new Error(outcome.problem.message);
      const wanted = share * outcome.value.equilibriumPercent;
      const target = finished ? { finishedWaterPhasePercent: wanted, yieldPercent } : { brinedWaterPhasePercent: wanted };
      const { reaches } = thickestOf({ ...given, target });
      for (const [hours, end] of [[reaches?.latestHours, 'lowPercent'], [reaches?.likelyHours, 'percent'], [reaches?.earliestHours, 'highPercent']] as const) {
        if (typeof hours !== 'number' || hours < 1e-6 || hours > 240) continue;
        const { brined, finished: dried } = thickestOf({ ...given, target, soakHours: hours }).afterSoak;
        expect(Math.abs(((finished ? dried : brined)?.[end] ?? NaN) - wanted), `${end} at ${hours} h`).toBeLessThan(1e-6);
      }
    }), { numRuns: 60 });
  });

  test('a longer soak, thinner pieces and stronger brine never lower any figure; skin never raises one', () => {
    fc.assert(fc.property(order, between(1.01, 1.5), (given, more) => {
      const now = thickestOf({ ...given, yieldPercent: 90 }).afterSoak;
      const stronger = { ...given.bath, saltGrams: given.bath.saltGrams * more };
      const figures = [
        thickestOf({ ...given, yieldPercent: 90, soakHours: given.soakHours * more }).afterSoak,
        thickestOf({ ...given, yieldPercent: 90, thickestMm: given.thickestMm / more, thinnestMm: given.thinnestMm / more }).afterSoak,
        thickestOf({ ...given, yieldPercent: 90, bath: stronger }).afterSoak,
      ];
      // Weak brine over saltier fish draws salt out, and then all this turns round.
      fc.pre(given.bath.saltGrams / given.bath.waterGrams > given.fish.saltFraction / (given.fish.moistureFraction - 0.025));
      for (const after of figures) {
        for (const key of ['percent', 'lowPercent', 'highPercent'] as const) {
          expect(after.brined[key]).toBeGreaterThanOrEqual(now.brined[key] - 1e-9);
          expect(after.finished?.[key] ?? NaN).toBeGreaterThanOrEqual((now.finished?.[key] ?? NaN) - 1e-9);
        }
      }
      expect(thickestOf({ ...given, skin: 'on' }).afterSoak.brined.percent).toBeLessThanOrEqual(thickestOf({ ...given, skin: 'off' }).afterSoak.brined.percent + 1e-9);
    }), { numRuns: 100 });
  });
});
