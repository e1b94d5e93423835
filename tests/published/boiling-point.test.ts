/**
 * Boiling water as a reference. International Association for the Properties of Water and Steam, Revised Release
 * on the Industrial Formulation 1997 (IF97), tables 35 and 36, 2007 (second-hand: the same in several open
 * implementations). ASHRAE, Handbook of Fundamentals, chapter 1, tables 1 and 3, 2017 (second-hand: by way of the
 * open psychrometrics library's tests). The tables by altitude and pressure are computed.
 */
import { describe, expect, it } from 'vitest';
import { boilingPoint, saturationKelvin, saturationPascal, standardPascal, stationPascal } from '../../app/heat/boiling-point.ts';
import { degreesFromTicks } from '../../app/measures/temperature.ts';

function kelvinAt(pascal: number): number {
  const found = saturationKelvin(pascal);
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

function known(place: Parameters<typeof boilingPoint>[0]) {
  const found = boilingPoint(place);
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

describe('IF97, region 4', () => {
  it.each([[300, 0.353658941e-2], [500, 2.63889776], [600, 12.3443146]])('table 35: the pressure at %d K is %d MPa', (kelvin, megapascal) => {
    expect((saturationPascal(kelvin) / 1e6).toPrecision(9)).toBe(megapascal.toPrecision(9));
  });

  it.each([[0.1, 372.755919], [1, 453.035632], [10, 584.149488]])('table 36: the temperature at %d MPa is %d K', (megapascal, kelvin) => {
    expect(kelvinAt(megapascal * 1e6).toPrecision(9)).toBe(kelvin.toPrecision(9));
  });

  it.each([
    [0.01, 0.61166], [5, 0.87257], [10, 1.22818], [15, 1.70574], [20, 2.33921], [25, 3.16975], [30, 4.24669], [40, 7.38443], [45, 9.59439], [50, 12.35127],
    [55, 15.76141], [60, 19.9458], [65, 25.0411], [70, 31.20064], [75, 38.59536], [80, 47.41472], [85, 57.86745], [90, 70.18236], [95, 84.60894],
    [100, 101.41798], [105, 120.90206], [110, 143.37597], [120, 198.6654], [121.1, 205.68528],
  ])('steam table (computed): %d °C is %d kPa', (celsius, kilopascal) => {
    expect(saturationPascal(celsius + 273.15) / 1000).toBeCloseTo(kilopascal, 4);
  });

  it.each([[25, 3169.7], [50, 12351.3], [5, 872.6], [100, 101418]])('ASHRAE table 3: %d °C is %d Pa', (celsius, pascal) => {
    expect(Math.abs(saturationPascal(celsius + 273.15) - pascal)).toBeLessThan(celsius === 100 ? 0.5 : 0.06);
  });

  it('has no boiling point outside the saturation line, and one at both its ends', () => {
    expect(saturationKelvin(611.212).ok).toBe(false);
    expect(saturationKelvin(22_064_001)).toMatchObject({ ok: false, problem: { field: 'stationPascal' } });
    expect(saturationKelvin(Number.NaN).ok).toBe(false);
    expect(kelvinAt(611.213)).toBeCloseTo(273.15, 4);
    expect(kelvinAt(22_064_000)).toBeCloseTo(647.096, 3);
  });
});

describe('pressure of the air', () => {
  it.each([[-500, 107478], [0, 101325], [500, 95461], [1000, 89875], [4000, 61640], [10000, 26436]])('ASHRAE table 1: at %d m it is %d Pa, to 1 Pa', (metres, pascal) => {
    expect(Math.abs(standardPascal(metres) - pascal)).toBeLessThanOrEqual(1);
  });

  it('ASHRAE: 102484 Pa brought to sea level is 101226.5 Pa at 105 m and 17.19 °C, to 1 Pa', () => {
    expect(Math.abs(stationPascal(102_484, 105, 17.19) - 101_226.5)).toBeLessThanOrEqual(1);
    expect(stationPascal(102_484, 0, 17.19)).toBe(102_484);
    // By hand: the column's middle is 9.75 °C warmer than the air at 3000 m, 287.055 × 282.90 / 9.807 = 8280.7 m.
    expect(stationPascal(101_325, 3000, 0)).toBeCloseTo(101_325 * Math.exp(-3000 / ((287.055 * 282.9) / 9.807)), 6);
    expect(stationPascal(102_484, 105, -20)).toBeLessThan(stationPascal(102_484, 105, 17.19));
  });
});

describe('boiling point of the kitchen (computed)', () => {
  it.each([
    [0, 99.97, 211.95], [500, 99.47, 211.04], [1000, 98.96, 210.13], [1500, 98.45, 209.22], [2000, 97.95, 208.31], [2500, 97.44, 207.39], [3000, 96.93, 206.48],
    [4000, 95.92, 204.65], [5000, 94.9, 202.83], [6000, 93.89, 201], [7000, 92.87, 199.16], [8000, 91.85, 197.33], [9000, 90.83, 195.5], [10000, 89.81, 193.66],
  ])('at %d ft it is %d °C or %d °F', (feet, celsius, fahrenheit) => {
    const { bounds } = known({ altitudeMetres: feet * 0.3048 });
    expect(Math.abs(degreesFromTicks(bounds.lowTicks, 'C') - celsius)).toBeLessThan(0.0051);
    expect(Math.abs(degreesFromTicks(bounds.highTicks, 'F') - fahrenheit)).toBeLessThan(0.0051);
    expect(bounds.highTicks - bounds.lowTicks).toBe(1);
  });

  it.each([[100, 99.64], [200, 99.31], [300, 98.98], [400, 98.64], [500, 98.31], [600, 97.98], [800, 97.31], [1000, 96.65], [1200, 95.98], [1400, 95.32], [1600, 94.65], [1800, 93.98], [2000, 93.32], [2500, 91.64], [3000, 89.97]])(
    'at %d m it is %d °C', (metres, celsius) => {
      expect(Math.abs(degreesFromTicks(known({ altitudeMetres: metres }).bounds.lowTicks, 'C') - celsius)).toBeLessThan(0.0051);
    });

  it.each([
    [700, 89.932], [750, 91.758], [800, 93.485], [850, 95.125], [900, 96.687], [920, 97.292], [940, 97.885], [960, 98.469], [980, 99.042], [990, 99.325],
    [1000, 99.606], [1010, 99.884], [1013.25, 99.974], [1020, 100.16], [1030, 100.434], [1040, 100.706],
  ])('at %d hPa it is %d °C', (hectopascal, celsius) => {
    expect(Math.abs(degreesFromTicks(known({ stationPascal: hectopascal * 100 }).bounds.lowTicks, 'C') - celsius)).toBeLessThan(0.00062);
  });

  it('leaves 0.56 °C open for the weather where only the altitude is given at sea level, and 0.03 °C with a barometer', () => {
    expect(degreesFromTicks(known({ altitudeMetres: 0 }).errorTicks, 'C')).toBeCloseTo(0.56, 2);
    expect(degreesFromTicks(known({ stationPascal: 101_325 }).errorTicks, 'C')).toBeCloseTo(0.028, 3);
  });

  it('says how it is known', () => {
    expect(known({ altitudeMetres: 304.8 }).ground).toBe('boiling water at 305 m, weather unknown');
    expect(known({ stationPascal: 98_600 }).ground).toBe('boiling water at 986 hPa');
    expect(boilingPoint({ stationPascal: 1013 })).toMatchObject({ problem: { message: '10.13 hPa is no air pressure of a kitchen.' } });
  });

  it('rounds what it leaves open up, never down', () => {
    const exact = (kelvinAt(98_600) - kelvinAt(98_500)) * 9000;
    const { errorTicks } = known({ stationPascal: 98_600 });
    expect(errorTicks - exact).toBeGreaterThan(0);
    expect(errorTicks - exact).toBeLessThan(1);
  });

  it('lies below 212 °F minus 1.8 °F for every 1000 ft (from memory) by no more than half a degree', () => {
    for (let feet = 0; feet <= 10_000; feet += 500) {
      expect(Math.abs(degreesFromTicks(known({ altitudeMetres: feet * 0.3048 }).bounds.lowTicks, 'F') - (212 - (1.8 * feet) / 1000))).toBeLessThan(0.5);
    }
  });

  it.each([[{ altitudeMetres: -431 }, 'altitudeMetres'], [{ altitudeMetres: 5501 }, 'altitudeMetres'], [{ altitudeMetres: Number.NaN }, 'altitudeMetres'], [{ stationPascal: 49_999 }, 'stationPascal'], [{ stationPascal: 110_001 }, 'stationPascal']] as const)(
    'refuses %j, naming the field', (place, field) => {
      expect(boilingPoint(place)).toMatchObject({ ok: false, problem: { field } });
    });

  it.each([[{ altitudeMetres: -430 }], [{ altitudeMetres: 5500 }], [{ stationPascal: 50_000 }], [{ stationPascal: 110_000 }]] as const)('takes %j', (place) => {
    expect(boilingPoint(place).ok).toBe(true);
  });
});
