/** Density, freezing point, solubility and float against printed tables; publisher, title and mark beside each table in the fixtures. */
import { describe, expect, test } from 'vitest';
import { densityKgPerM3, waterDensityKgPerM3, type BrineMixture } from '../../app/brine/density.ts';
import { floatReading, percentFromFloat } from '../../app/brine/float.ts';
import { firstSolidCelsius, saturatedPercent } from '../../app/brine/freezing.ts';
import { percentOfSalometer, salometerOfPercent } from '../../app/brine/strength.ts';
import {
  CRC_CELSIUS, CRC_DENSITIES, DENSITY_VECTORS, DENSITY_VECTOR_CELSIUS, FLOAT_CORRECTIONS, FLOAT_WITH_SUGAR, LANGE_FREEZING, MELINDER_FREEZING,
  POLISH_15C_DENSITIES, POLISH_20C_DENSITIES, SALT_GRAMS_PER_MOLE, SALT_INSTITUTE_SOLUBILITY,
} from '../fixtures/brine-tables.ts';

function fractionOfMolality(molality: number): number {
  const saltGrams = molality * SALT_GRAMS_PER_MOLE;
  return saltGrams / (1000 + saltGrams);
}

function mixture(saltPercent: number, sugarPercent: number): BrineMixture {
  return { saltGrams: saltPercent, waterGrams: 100 - saltPercent - sugarPercent, sugarGrams: sugarPercent, alcoholGrams: 0, otherGrams: 0, spiceGrams: 0 };
}

describe('density of salt water', () => {
  test.each(CRC_CELSIUS.map((celsius, index) => ({ celsius, index })))('is within 0.02 % of the reference data at $celsius °C, 0 to 5 mol/kg', ({ celsius, index }) => {
    expect(CRC_DENSITIES).toHaveLength(10);
    for (const [molality = NaN, ...printed] of CRC_DENSITIES) {
      const density = printed[index] ?? NaN;
      expect(Math.abs(densityKgPerM3(fractionOfMolality(molality), celsius) / density - 1)).toBeLessThanOrEqual(0.0002);
    }
  });

  test('is within 0.13 kg/m³ of the reference data from 0 to 40 °C', () => {
    const errors = CRC_DENSITIES.flatMap(([molality = NaN, ...printed]) => printed.slice(0, 6).map((density, index) => Math.abs(densityKgPerM3(fractionOfMolality(molality), CRC_CELSIUS[index] ?? NaN) - density)));
    expect(errors).toHaveLength(60);
    expect(Math.max(...errors)).toBeLessThanOrEqual(0.135);
  });

  test.each(DENSITY_VECTORS)('agrees with figures worked out by a second hand at a salt fraction of %d', (fraction, ...printed) => {
    const computed = DENSITY_VECTOR_CELSIUS.map((celsius) => densityKgPerM3(fraction ?? NaN, celsius));
    expect(computed.filter((density, index) => !(Math.abs(density - (printed[index] ?? NaN)) <= 0.0051))).toEqual([]);
  });

  test.each(POLISH_20C_DENSITIES.filter(([percent]) => percent !== 2 && percent < 26.4))('agrees with a table for 20 °C that the formula was not fitted to: %d per cent is %d kg/m³', (percent, printed) => {
    expect(Math.abs(densityKgPerM3(percent / 100, 20) - printed)).toBeLessThanOrEqual(0.13);
  });

  test('that table is inexact at 2 %, where it rounds oddly, and at 26.4 %', () => {
    const errorOf = (percent: number): number => Math.abs(densityKgPerM3(percent / 100, 20) - (POLISH_20C_DENSITIES.find(([row]) => row === percent)?.[1] ?? NaN));
    expect(errorOf(2)).toBeGreaterThan(0.25);
    expect(errorOf(2)).toBeLessThanOrEqual(0.275);
    expect(errorOf(26.4)).toBeGreaterThan(2.5);
    expect(errorOf(26.4)).toBeLessThan(3.2);
  });

  test('the same handbook’s “15 °C” column is that of 10 °C', () => {
    for (const [percent, printed] of POLISH_15C_DENSITIES) {
      expect(Math.abs(densityKgPerM3(percent / 100, 10) - printed)).toBeLessThanOrEqual(0.13);
      expect(Math.abs(densityKgPerM3(percent / 100, 15) - printed)).toBeGreaterThan(0.5);
    }
  });

  test('water at 60 °F is 999.014 kg/m³', () => {
    // G. S. Kell, J. Chem. Eng. Data 20 (1975) 97 (from memory; computed).
    expect(waterDensityKgPerM3(140 / 9)).toBeCloseTo(999.014, 3);
  });
});

describe('freezing and falling out', () => {
  test.each(LANGE_FREEZING)('ice forms in a brine of %d per cent at %d °C, within 0.03 °C', (percent, celsius) => {
    expect(Math.abs(firstSolidCelsius(percent) - celsius)).toBeLessThanOrEqual(0.035);
  });

  test.each(MELINDER_FREEZING)('a second source agrees within 0.1 °C: %d per cent, %d °C', (percent, celsius) => {
    expect(Math.abs(firstSolidCelsius(percent) - celsius)).toBeLessThanOrEqual(0.1);
  });

  test.each([[10, -6.53], [11, -7.33], [12, -8.15], [13, -9.02], [14, -9.93]])('the rows Lange’s copy has lost are filled: %d per cent, %d °C (computed)', (percent, celsius) => {
    expect(firstSolidCelsius(percent)).toBeCloseTo(celsius, 2);
  });

  test.each(SALT_INSTITUTE_SOLUBILITY)('at %d °F (%d °C) water holds %d per cent salt', (fahrenheit, celsius, percent) => {
    expect(Math.abs(celsius - (fahrenheit - 32) / 1.8)).toBeLessThanOrEqual(0.1);
    expect(saturatedPercent(celsius)).toBeCloseTo(percent, 9);
    if (percent > 23.31) expect(firstSolidCelsius(percent)).toBeCloseTo(celsius, 9);
  });

  test('at 32 °F water holds 26.29 % salt; the 23.3 % of an encyclopaedia is the eutectic', () => {
    // “Brine” (encyclopaedia copy, read) confuses the two.
    expect(saturatedPercent(0)).toBeCloseTo(26.29, 9);
    expect(firstSolidCelsius(23.3)).toBeLessThan(-21);
  });
});

describe('the float', () => {
  test.each(FLOAT_CORRECTIONS)('at %d °F a reading needs the correction of the table', (fahrenheit, ...added) => {
    const celsius = ((fahrenheit ?? NaN) - 32) / 1.8;
    for (const [index, correction] of added.entries()) {
      const shown = 10 * (index + 1);
      const percent = percentFromFloat(shown, celsius);
      if (shown + correction > 100.05) expect(percent.ok).toBe(false);
      else if (percent.ok) expect(Math.abs(salometerOfPercent(percent.value) - shown - correction)).toBeLessThanOrEqual(0.0501);
      else expect(shown + correction).toBeGreaterThan(99.95);
    }
  });

  test('the rule of one degree for each 10 °F holds from 50 to 100 °SAL and over-corrects weak cold brine', () => {
    // Fish Safety Notes (Canada), “Preparing a Saltbrine” (read): subtract 2.2 °SAL at 38 °F.
    const correctionAt38 = (shown: number): number => {
      const percent = percentFromFloat(shown, 10 / 3);
      return percent.ok ? salometerOfPercent(percent.value) - shown : NaN;
    };
    expect(Math.abs(correctionAt38(60) + 2.2)).toBeLessThan(0.4);
    expect(Math.abs(correctionAt38(10) + 2.2)).toBeGreaterThan(1.4);
  });

  test.each(FLOAT_WITH_SUGAR)('%d per cent salt with %d per cent sugar has a specific gravity of %d and shows %d °SAL', (salt, sugar, gravity, shown) => {
    const brine = mixture(salt, sugar);
    const reading = floatReading(brine, 140 / 9);
    if (reading.kind !== 'shows') throw new Error('off the scale');
    expect(reading.degrees).toBeCloseTo(shown, 1);
    expect(densityKgPerM3(percentOfSalometer(reading.degrees) / 100, 140 / 9) / waterDensityKgPerM3(140 / 9)).toBeCloseTo(gravity, 4);
  });
});
