/**
 * Salt moving into a slab: J. Crank, The Mathematics of Diffusion, 2nd ed. (1975), chapter 4 (equations
 * from memory). The figures of its tables and examples here were computed by another hand from those
 * equations, and are asserted to their printed digits.
 */
import { describe, expect, test } from 'vitest';
import { brinedFish } from '../../app/brine/balance.ts';
import {
  centreApproach, finiteBathApproach, fourierNumber, fourierOfApproach, hoursToApproach, largeBathApproach, longCentreApproach, longMeanApproach, shortCentreApproach, shortMeanApproach,
} from '../../app/brine/uptake.ts';
import { coefficientAt, usualCoefficient } from '../../app/brine/uptake-coefficient.ts';
import { bathRoots } from '../../app/brine/uptake-roots.ts';
import { saltPerWater, waterPhaseFraction } from '../../app/brine/water-phase.ts';

/** Half a unit in the last place of a printed figure, with a float's noise. */
function halfUnit(printed: string): number {
  return 0.5 * 10 ** -(printed.split('.')[1]?.length ?? 0) + 1e-9;
}

function expectPrinted(value: number | undefined, printed: string): void {
  expect(Math.abs((value ?? NaN) - Number(printed)), `${value} printed as ${printed}`).toBeLessThanOrEqual(halfUnit(printed));
}

describe('a slab in a large bath (Crank, chapter 4; computed)', () => {
  test.each([
    [0.001, 0.0357], [0.002, 0.0505], [0.005, 0.0798], [0.01, 0.1128], [0.02, 0.1596], [0.03, 0.1954], [0.04, 0.2257], [0.05, 0.2523],
    [0.06, 0.2764], [0.08, 0.3192], [0.1, 0.3568], [0.15, 0.4369], [0.2, 0.5041], [0.25, 0.5622], [0.3, 0.6132], [0.4, 0.6979],
    [0.5, 0.764], [0.6, 0.8156], [0.8, 0.8874], [1, 0.9313], [1.5, 0.98], [2, 0.9942],
  ])('at a Fourier number of %d the mean has come %d of the way', (fourier, approach) => {
    expect(Math.abs(largeBathApproach(fourier) - approach)).toBeLessThan(1e-4);
  });

  test.each([[0.25, '0.0491'], [0.5, '0.1967'], [0.75, '0.4767'], [0.9, '0.8481'], [0.95, '1.1290'], [0.99, '1.7813']])('%d of the way is a Fourier number of %s', (approach, fourier) => {
    expectPrinted(fourierOfApproach(approach, Infinity), fourier);
  });

  test.each([[0.1, 0.3568], [0.15, 0.437]])('twice the root of Fo over π is within half a per cent below half way, at %d', (fourier, short) => {
    expect(Math.abs(shortMeanApproach(fourier, Infinity) / largeBathApproach(fourier) - 1)).toBeLessThan(0.005);
    expect(Math.abs(shortMeanApproach(fourier, Infinity) - short)).toBeLessThan(2e-4);
  });

  test('the term of the first root alone is the rest of the way late in the soak', () => {
    expect(largeBathApproach(0.6)).toBeCloseTo(1 - (8 / Math.PI ** 2) * Math.exp((-(Math.PI ** 2) * 0.6) / 4), 5);
  });

  test('the middle follows the mid-plane sum of the profile', () => {
    for (const fourier of [0.03, 0.05, 0.2, 0.6]) {
      let sum = 1;
      for (let n = 0; n < 200; n += 1) sum -= ((4 / Math.PI) * (-1) ** n * Math.exp((-((2 * n + 1) ** 2) * Math.PI ** 2 * fourier) / 4)) / (2 * n + 1);
      expect(centreApproach(fourier, Infinity)).toBeCloseTo(sum, 12);
    }
  });
});

describe('a slab in a bath of limited size (Crank, chapter 4; computed)', () => {
  const TABLE: readonly (readonly [number, readonly string[], readonly number[]])[] = [
    [0.5, ['2.2889', '5.0870', '8.0962', '11.1727'], [0.2865, 0.5343, 0.6696, 0.8117, 0.9611, 0.9972]],
    [1, ['2.0288', '4.9132', '7.9787', '11.0855'], [0.2071, 0.4192, 0.5528, 0.7116, 0.9165, 0.9893]],
    [1.5, ['1.9071', '4.8490', '7.9378', '11.0558'], [0.1775, 0.3706, 0.499, 0.6596, 0.8861, 0.9815]],
    [2, ['1.8366', '4.8158', '7.9171', '11.0408'], [0.162, 0.3439, 0.4683, 0.6282, 0.8653, 0.9751]],
    [3, ['1.7582', '4.7820', '7.8962', '11.0258'], [0.1461, 0.3154, 0.4346, 0.5924, 0.8392, 0.9657]],
    [5, ['1.6887', '4.7544', '7.8794', '11.0137'], [0.133, 0.2912, 0.4053, 0.56, 0.8134, 0.9552]],
    [10, ['1.6320', '4.7335', '7.8667', '11.0047'], [0.123, 0.2721, 0.3818, 0.5332, 0.7906, 0.9447]],
  ];

  test.each(TABLE)('with %d of water to one of the fish’s, roots and approach are the printed ones', (alpha, roots, approaches) => {
    const found = bathRoots(alpha, 4 * Math.PI);
    for (const [index, printed] of roots.entries()) expectPrinted(found[index], printed);
    for (const [index, fourier] of [0.01, 0.05, 0.1, 0.2, 0.5, 1].entries()) {
      expect(Math.abs(finiteBathApproach(fourier, alpha) - (approaches[index] ?? NaN)), `Fo ${fourier}`).toBeLessThan(1e-4);
    }
  });

  test.each([0.001, 0.1, 0.5, 1, 3, 10, 1000, 1e7, Infinity])('short-time form and sum agree where they meet and below, with %d of water', (alpha) => {
    for (const fourier of [0.01, 0.02, 0.03, 0.04]) {
      expect(Math.abs(shortMeanApproach(fourier, alpha) - longMeanApproach(fourier, alpha)), `mean at ${fourier}`).toBeLessThan(1e-11);
      expect(Math.abs(shortCentreApproach(fourier, alpha) - longCentreApproach(fourier, alpha)), `middle at ${fourier}`).toBeLessThan(1e-11);
    }
  });

  test('the short-time form keeps its digits where the sum would want hundreds of roots', () => {
    for (const alpha of [0.5, 2, 10]) {
      for (const fourier of [1e-5, 1e-4, 1e-3]) expect(Math.abs(finiteBathApproach(fourier, alpha) - longMeanApproach(fourier, alpha)), `${alpha} at ${fourier}`).toBeLessThan(1e-9);
    }
  });
});

describe('a skinless whitefish fillet of 20 mm in much 10 % brine, D 4.0e-10 m²/s (computed)', () => {
  const fillet = { thicknessMm: 20, squareMetresPerSecond: 4e-10 };
  test.each([
    [0.5, '0.0072', '0.0957', '1.16', '0.85'], [1, '0.0144', '0.1354', '1.54', '1.13'], [2, '0.0288', '0.1915', '2.09', '1.54'], [4, '0.0576', '0.2708', '2.87', '2.11'],
    [8, '0.1152', '0.3830', '3.97', '2.93'], [12, '0.1728', '0.4689', '4.81', '3.56'], [24, '0.3456', '0.6545', '6.62', '4.93'],
  ])('after %d h: Fo %s, %s of the way, %s per cent of its water phase, %s per cent of the fish', (hours, fourier, approach, percent, saltPercent) => {
    const reached = fourierNumber({ ...fillet, hours, skin: 'off' });
    expectPrinted(reached, fourier);
    expectPrinted(largeBathApproach(reached), approach);
    // The example goes the way in per cent of the water phase, not in salt per water as the forecast does.
    const waterPhase = 0.22 + largeBathApproach(reached) * (10 - 0.22);
    expectPrinted(waterPhase, percent);
    const salt = 0.73 * saltPerWater(waterPhase / 100);
    expectPrinted((100 * salt) / (1 - 0.0016 + salt), saltPercent);
  });

  test('with its skin on it has come 0.1354 of the way in 4 h, to 1.54 %', () => {
    const fourier = fourierNumber({ ...fillet, hours: 4, skin: 'on' });
    expectPrinted(fourier, '0.0144');
    expectPrinted(largeBathApproach(fourier), '0.1354');
    expectPrinted(0.22 + largeBathApproach(fourier) * (10 - 0.22), '1.54');
  });

  test('1 kg of whitefish in 2 kg of 10 % brine, stopped at 0.40 of the way, holds 24.2 g of salt, 3.21 % of its water phase', () => {
    const fish = { grams: 1000, moistureFraction: 0.73, saltFraction: 0.0016 };
    const bath = { saltGrams: 200, waterGrams: 1800 };
    const alpha = bath.waterGrams / (fish.grams * fish.moistureFraction);
    const hours = hoursToApproach(0.4, alpha, { ...fillet, skin: 'off' }) ?? NaN;
    const stopped = brinedFish(fish, bath, finiteBathApproach(fourierNumber({ ...fillet, hours, skin: 'off' }), alpha));
    expectPrinted(stopped.saltGrams, '24.2');
    expectPrinted(100 * waterPhaseFraction(stopped.saltGrams, stopped.waterGrams), '3.21');
  });
});

describe('hours to a mean water-phase salt of 3.0 % from 0.2 % in much brine, D 5.0e-10 m²/s (computed)', () => {
  const SKINLESS_MM = [10, 15, 20, 25, 30, 40];
  const SKIN_ON_MM = [10, 15, 20, 25, 30];
  test.each([
    [4, '0.737', '0.4559', '6.3 14 25 40 57 101', '25 57 101 158 228'],
    [5, '0.583', '0.2699', '3.7 8.4 15 23 34 60', '15 34 60 94 135'],
    [6, '0.483', '0.1833', '2.5 5.7 10 16 23 41', '10 23 41 64 92'],
    [8, '0.359', '0.1012', '1.4 3.2 5.6 8.8 13 22', '5.6 13 22 35 51'],
    [10, '0.286', '0.0641', '0.9 2.0 3.6 5.6 8.0 14', '3.6 8.0 14 22 32'],
    [13.2, '0.215', '0.0364', '0.5 1.1 2.0 3.2 4.6 8.1', '2.0 4.6 8.1 13 18'],
    [15.84, '0.179', '0.0252', '0.3 0.8 1.4 2.2 3.1 5.6', '1.4 3.1 5.6 8.7 13'],
    [21.12, '0.134', '0.0141', '0.2 0.4 0.8 1.2 1.8 3.1', '0.8 1.8 3.1 4.9 7.0'],
  ])('in brine of %d per cent', (percent, approach, fourier, skinless, skinOn) => {
    const reached = (3 - 0.2) / (percent - 0.2);
    expectPrinted(reached, approach);
    expectPrinted(fourierOfApproach(reached, Infinity), fourier);
    for (const [index, printed] of skinless.split(' ').entries()) {
      expectPrinted(hoursToApproach(reached, Infinity, { thicknessMm: SKINLESS_MM[index] ?? NaN, skin: 'off', squareMetresPerSecond: 5e-10 }), printed);
    }
    for (const [index, printed] of skinOn.split(' ').entries()) {
      expectPrinted(hoursToApproach(reached, Infinity, { thicknessMm: SKIN_ON_MM[index] ?? NaN, skin: 'on', squareMetresPerSecond: 5e-10 }), printed);
    }
  });

  test('a dip of 3 minutes in 80 °SAL brine brings a skin-on piece of 15 mm 0.023 of the way, to about 0.6 %', () => {
    const approach = largeBathApproach(fourierNumber({ hours: 0.05, thicknessMm: 15, skin: 'on', squareMetresPerSecond: 5e-10 }));
    expectPrinted(approach, '0.023');
    expect(Math.abs(0.2 + approach * (21.12 - 0.2) - 0.6)).toBeLessThan(0.1);
  });
});

describe('the usual coefficient (computed from Whelan, Smoking Salmon & Trout, brining times for “plain brine”, read as an extract)', () => {
  /** m²/s that takes pieces of these inches so far in these hours. */
  function coefficientOf(inches: number, hours: number, approach: number): number {
    const halfMetres = (inches * 0.0254) / 2;
    return ((fourierOfApproach(approach, Infinity) ?? NaN) * halfMetres ** 2) / (hours * 3600);
  }
  test.each([['lean', 1, 2, '6.4', '4.4'], ['fat', 1, 3, '4.2', '2.9'], ['lean', 2, 16 / 3, '9.5', '6.6'], ['fat', 2, 8, '6.4', '4.4']])(
    '%s, %d inches, %d h: %se-10 by per cent of the water phase, %se-10 by salt per water', (_kind, inches, hours, byPercent, byRatio) => {
      expectPrinted(coefficientOf(inches, hours, 0.19) * 1e10, byPercent);
      expectPrinted(coefficientOf(inches, hours, saltPerWater(0.05) / saltPerWater(0.25)) * 1e10, byRatio);
    },
  );

  test('it lies between the two thicknesses of its table, for lean and for fat', () => {
    expect(usualCoefficient(2)).toEqual({ squareMetresPerSecond: 5e-10, lowFactor: 0.6, highFactor: 1.6, ground: 'usual', samples: 0 });
    expect(usualCoefficient(20).squareMetresPerSecond).toBe(3.5e-10);
    expect(usualCoefficient(10).squareMetresPerSecond).toBeCloseTo(4.25e-10, 20);
    for (const [fat, thin, thick] of [[2, 2, 16 / 3], [20, 3, 8]] as const) {
      const approach = saltPerWater(0.05) / saltPerWater(0.25);
      expect(usualCoefficient(fat).squareMetresPerSecond).toBeGreaterThan(coefficientOf(1, thin, approach));
      expect(usualCoefficient(fat).squareMetresPerSecond).toBeLessThan(coefficientOf(2, thick, approach));
    }
  });

  test('ten degrees make it 1.3 to 1.4 times as fast (Arrhenius, 20 to 25 kJ/mol; from memory)', () => {
    const tenDegrees = coefficientAt(usualCoefficient(2), 14) / coefficientAt(usualCoefficient(2), 4);
    expect(coefficientAt(usualCoefficient(2), 4)).toBe(5e-10);
    expect(tenDegrees).toBeGreaterThan(1.3);
    expect(tenDegrees).toBeLessThan(1.46);
  });
});
