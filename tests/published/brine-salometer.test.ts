/** The salometer tables of the trade, against the arithmetic. Each table's publisher, title and mark stand beside it in the fixtures. */
import { describe, expect, test } from 'vitest';
import { densityKgPerM3 } from '../../app/brine/density.ts';
import { brineByVolume, brineStrength, percentOfSalometer, strengthOfPercent, type BrineStrength } from '../../app/brine/strength.ts';
import { TORRY_WEIGHTS, UK_TRADE_ROWS, US_TRADE_ROWS } from '../fixtures/brine-tables.ts';
import { SALOMETER_COLUMNS, SALOMETER_TABLE, type SalometerColumn } from '../fixtures/salometer-table.ts';

function strengthAt(degrees: number): BrineStrength {
  const strength = brineStrength('salometerDegrees', degrees);
  if (!strength.ok) throw new Error(strength.problem.message);
  return strength.value;
}

function columnsAt(degrees: number): Record<SalometerColumn, number> {
  const strength = strengthAt(degrees);
  return {
    ...strength,
    ...brineByVolume(strength.percentByWeight / 100),
    poundsSaltPerUsGallonWater: strength.poundsPerUsGallonWater,
    gramsSaltPerLitreWater: strength.gramsPerLitreWater,
    firstSolidCelsius: strength.freezingPointC,
    firstSolidFahrenheit: strength.freezingPointC * 1.8 + 32,
  };
}

/** A printed figure is right when the exact one rounds to it, either way at a half. */
function halfDigit(decimals: number): number {
  return 0.5 * 10 ** -decimals + 1e-9;
}

describe('the salometer at 60 °F, all 101 degrees', () => {
  test('the table has a row for each degree from 0 to 100 with all its columns', () => {
    expect(SALOMETER_TABLE.map(([degrees]) => degrees)).toEqual(Array.from({ length: 101 }, (_, degrees) => degrees));
    expect(SALOMETER_TABLE.every((row) => row.length === SALOMETER_COLUMNS.length + 1)).toBe(true);
  });

  test.each(SALOMETER_COLUMNS.map(([column, decimals], index) => ({ column, decimals, index })))('$column agrees to its last printed digit in every row', ({ column, decimals, index }) => {
    const misses = SALOMETER_TABLE.filter(([degrees = NaN, ...printed]) => !(Math.abs(columnsAt(degrees)[column] - (printed[index] ?? NaN)) <= halfDigit(decimals)));
    expect(misses).toEqual([]);
  });
});

describe('check rows of the US trade', () => {
  test.each(US_TRADE_ROWS)('%d °SAL is %d per cent and %d lb salt per US gallon of water', (degrees, percent, poundsSalt, poundsWater) => {
    const { percentByWeight, poundsPerUsGallonWater } = strengthAt(degrees);
    expect(Math.abs(percentByWeight - percent)).toBeLessThanOrEqual(0.0005 + 1e-9);
    expect(Math.abs(poundsPerUsGallonWater - poundsSalt)).toBeLessThanOrEqual(0.001);
    if (poundsWater !== null) {
      expect(Math.abs(brineByVolume(percentByWeight / 100).poundsWaterPerUsGallonBrine - poundsWater)).toBeLessThanOrEqual(0.006);
    }
  });

  test('two figures of the read copy are misprints: 0.526 % at 2 °SAL and 8.162 % at 31 °SAL', () => {
    // Brining solution table (deejayssmokepit.net), read.
    expect(strengthAt(2).percentByWeight).toBeCloseTo(0.528, 3);
    expect(Math.abs(strengthAt(2).percentByWeight - 0.526)).toBeGreaterThan(0.001);
    expect(strengthAt(31).percentByWeight).toBeCloseTo(8.182, 3);
    expect(Math.abs(strengthAt(31).percentByWeight - 8.162)).toBeGreaterThan(0.01);
  });

  test('the Canadian 1.882 lb at 60 °SAL is per imperial gallon, the US 1.568 lb per US gallon', () => {
    // Fish Safety Notes (Canada), “Preparing a Saltbrine” (read): 15.8 %, 1.882 lb, 187.8 g/L.
    const { poundsPerUsGallonWater, gramsPerLitreWater, percentByWeight } = strengthAt(60);
    expect(percentByWeight).toBeCloseTo(15.8, 1);
    expect(Math.abs(poundsPerUsGallonWater * 1.20095 - 1.882)).toBeLessThanOrEqual(0.001);
    expect(Math.abs(poundsPerUsGallonWater - 1.882)).toBeGreaterThan(0.3);
    expect(Math.abs(gramsPerLitreWater - 187.8)).toBeLessThanOrEqual(0.3);
  });

  test('a saturated brine is 2.986 lb per US gallon of water but 2.647 lb per US gallon of brine', () => {
    // Definition values of the US trade (read; the second as recalled).
    expect(strengthAt(100).poundsPerUsGallonWater).toBeCloseTo(2.986, 3);
    expect(brineByVolume(0.26395).poundsSaltPerUsGallonBrine).toBeCloseTo(2.647, 3);
    expect(brineByVolume(0.26395).poundsWaterPerUsGallonBrine).toBeCloseTo(7.38, 3);
  });

  test('the old kitchen rule in ounces per US gallon of water is too weak, the more so the stronger', () => {
    // Rockwell, Save It For Winter, “Directions for making brine” (read).
    const rule: readonly (readonly [percent: number, ounces: number, exact: number])[] = [
      [1, 4 / 3, 1.35], [2, 8 / 3, 2.72], [3, 4, 4.12], [4, 16 / 3, 5.55], [5, 20 / 3, 7.01], [10, 14.25, 14.8], [15, 68 / 3, 23.5],
    ];
    for (const [percent, ounces, exact] of rule) {
      const computed = strengthOfPercent(percent).poundsPerUsGallonWater * 16;
      expect(Math.abs(computed - exact)).toBeLessThanOrEqual(exact < 10 ? 0.005 : 0.05);
      expect(ounces).toBeLessThan(computed);
    }
  });

  test('one part of saturated brine in nine of water is 3.1 %, not a 10° brine', () => {
    // International Labour Office, Small-Scale Processing of Fish (1982), II.3 Brine salting (read), calls it 10°.
    const saltGrams = brineByVolume(0.26395).gramsSaltPerLitreBrine;
    const percent = (100 * saltGrams) / (1000 * brineByVolume(0.26395).kilogramsPerLitreBrine + 9 * 1000 * brineByVolume(0).kilogramsPerLitreBrine);
    expect(percent).toBeCloseTo(3.1, 1);
    expect(percent / percentOfSalometer(1)).toBeCloseTo(11.8, 1);
  });
});

describe('the UK trade table, whose densities are those of 20 °C', () => {
  test.each(UK_TRADE_ROWS.filter(([degrees]) => degrees <= 90))('%d °SAL: per cent, litres and grams in a litre of brine', (degrees, percent, addedGrams, litresMade, gramsPerLitre, litresPerKilogram, waterPerLitre, saltPerLitre) => {
    const fraction = percentOfSalometer(degrees) / 100;
    const density = densityKgPerM3(fraction, 20);
    // 23.755 is printed as 23.75.
    expect(Math.abs(percentOfSalometer(degrees) - percent)).toBeLessThanOrEqual(0.006);
    // A kilogram of water to the litre, or its 998.2 g: the column was not all computed one way.
    expect(Math.abs((1000 * fraction) / (1 - fraction) - addedGrams)).toBeLessThanOrEqual(0.3);
    expect(Math.abs(998.2 / (1 - fraction) / density - litresMade)).toBeLessThanOrEqual(0.01);
    expect(Math.abs(density - gramsPerLitre)).toBeLessThanOrEqual(1);
    expect(Math.abs(1000 / density - litresPerKilogram)).toBeLessThanOrEqual(0.001);
    expect(Math.abs((density * (1 - fraction)) / 1000 - waterPerLitre)).toBeLessThanOrEqual(0.001);
    expect(Math.abs(density * fraction - saltPerLitre)).toBeLessThanOrEqual(0.3);
  });

  test('its last row, 100 °SAL, is inexact: its salt in a litre is 0.3 g too much', () => {
    const printed = UK_TRADE_ROWS.find(([degrees]) => degrees === 100);
    const tooMuch = (printed?.[7] ?? NaN) - densityKgPerM3(0.26395, 20) * 0.26395;
    expect(tooMuch).toBeGreaterThan(0.3);
    expect(tooMuch).toBeLessThan(0.4);
  });

  test('at 60 °F its densities would be out by more than 1 kg/m³', () => {
    const worst = Math.max(...UK_TRADE_ROWS.map(([degrees, , , , gramsPerLitre]) => Math.abs(densityKgPerM3(percentOfSalometer(degrees) / 100, 140 / 9) - gramsPerLitre)));
    expect(worst).toBeGreaterThan(1);
  });
});

describe('brineometer degrees against “weight of salt”', () => {
  test.each(TORRY_WEIGHTS)('%d° is %d g of salt in a kilogram of brine', (degrees, printed) => {
    expect(Math.abs(percentOfSalometer(degrees) * 10 - printed)).toBeLessThanOrEqual(0.06);
  });

  test('read as grams in a litre, as its cover says, the figures are inexact: 26.9 at 10° and 244.7 at 80°', () => {
    expect(brineByVolume(percentOfSalometer(10) / 100).gramsSaltPerLitreBrine).toBeCloseTo(26.9, 1);
    expect(brineByVolume(percentOfSalometer(80) / 100).gramsSaltPerLitreBrine).toBeCloseTo(244.7, 1);
    for (const [degrees, printed] of TORRY_WEIGHTS) expect(brineByVolume(percentOfSalometer(degrees) / 100).gramsSaltPerLitreBrine).toBeGreaterThan(printed + 0.4);
  });
});
