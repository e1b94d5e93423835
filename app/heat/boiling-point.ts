/**
 * The temperature at which water boils where the kitchen stands, for checking a thermometer.
 * Saturation line: International Association for the Properties of Water and Steam, Revised Release
 * on the Industrial Formulation 1997 (IF97), region 4, equations 30 and 31, 2007 (second-hand: the
 * coefficients agree in several open implementations, and its printed check values come out).
 * Pressure by altitude: US Standard Atmosphere as in ASHRAE, Handbook of Fundamentals, chapter 1,
 * equation 3, 2017 (second-hand).
 */
import { TICKS_PER_CELSIUS, type TickBounds } from '../measures/temperature.ts';
import { bad, good, type Outcome } from '../measures/outcome.ts';

const KELVIN_AT_ZERO_CELSIUS = 273.15;
const PASCAL_PER_MEGAPASCAL = 1e6;
/** Coefficients n1 to n10 of region 4. */
const N1 = 1167.0521452767;
const N2 = -724213.16703206;
const N3 = -17.073846940092;
const N4 = 12020.82470247;
const N5 = -3232555.0322333;
const N6 = 14.91510861353;
const N7 = -4823.2657361591;
const N8 = 405113.40542057;
const N9 = -0.23855557567849;
const N10 = 650.17534844798;
/** The ends of the saturation line: 273.15 K and the critical point. */
const LEAST_SATURATION_PASCAL = 611.213;
const MOST_SATURATION_PASCAL = 22_064_000;

/** Kitchens stand between the Dead Sea's shore and the highest towns. */
const LOWEST_METRES = -430;
const HIGHEST_METRES = 5500;
const LEAST_KITCHEN_PASCAL = 50_000;
const MOST_KITCHEN_PASCAL = 110_000;
/** How far the weather moves the pressure from the standard atmosphere's (common practice). */
const WEATHER_PASCAL = 2000;
/** How far a barometer that is read to the hectopascal may be off (common practice). */
const BAROMETER_PASCAL = 100;
/** ASHRAE, Handbook of Fundamentals, chapter 1, 2017: gas constant of dry air and standard gravity (second-hand). */
const DRY_AIR_CONSTANT = 287.055;
const STANDARD_GRAVITY = 9.807;
const LAPSE_CELSIUS_PER_METRE = 0.0065;

/** A temperature that nature gives, to hold a thermometer against. */
export interface KnownTemperature {
  readonly bounds: TickBounds;
  /** How far it may be from that, as a difference in ticks. */
  readonly errorTicks: number;
  /** How it is known, in words. */
  readonly ground: string;
}

/** Where the water boils: the pressure at the place itself, or failing that its altitude. */
export type BoilingPlace = { readonly stationPascal: number } | { readonly altitudeMetres: number };

/**
 * Saturation pressure of water (IF97 equation 30).
 * @param kelvin 273.15 to 647.096
 * @returns pascal
 */
export function saturationPascal(kelvin: number): number {
  const theta = kelvin + N9 / (kelvin - N10);
  const a = theta ** 2 + N1 * theta + N2;
  const b = N3 * theta ** 2 + N4 * theta + N5;
  const c = N6 * theta ** 2 + N7 * theta + N8;
  return ((2 * c) / (-b + Math.sqrt(b ** 2 - 4 * a * c))) ** 4 * PASCAL_PER_MEGAPASCAL;
}

/**
 * Saturation temperature of water by pressure (IF97 equation 31, the backward equation).
 * @param pascal 611.213 to 22,064,000
 * @returns kelvin, or a problem outside the saturation line
 */
export function saturationKelvin(pascal: number): Outcome<number> {
  if (!(pascal >= LEAST_SATURATION_PASCAL && pascal <= MOST_SATURATION_PASCAL)) {
    return bad(`Water has no boiling point at ${pascal} Pa.`, 'stationPascal', 'Give the air pressure at the place itself, about 1013 hPa at sea level.');
  }
  const beta = (pascal / PASCAL_PER_MEGAPASCAL) ** 0.25;
  const e = beta ** 2 + N3 * beta + N6;
  const f = N1 * beta ** 2 + N4 * beta + N7;
  const g = N2 * beta ** 2 + N5 * beta + N8;
  const d = (2 * g) / (-f - Math.sqrt(f ** 2 - 4 * e * g));
  return good((N10 + d - Math.sqrt((N10 + d) ** 2 - 4 * (N9 + N10 * d))) / 2);
}

/** Pressure of the standard atmosphere in pascal, by altitude in metres (to 11,000). */
export function standardPascal(altitudeMetres: number): number {
  return 101_325 * (1 - 2.25577e-5 * altitudeMetres) ** 5.2559;
}

/**
 * The pressure at the place, from the one that weather services print, which they bring down to sea level
 * (ASHRAE, Handbook of Fundamentals, chapter 1, 2017, by way of the open psychrometrics library; second-hand).
 * @param airCelsius the air's temperature at the place
 * @returns pascal
 */
export function stationPascal(seaLevelPascal: number, altitudeMetres: number, airCelsius: number): number {
  const columnKelvin = airCelsius + (LAPSE_CELSIUS_PER_METRE * altitudeMetres) / 2 + KELVIN_AT_ZERO_CELSIUS;
  return seaLevelPascal / Math.exp((altitudeMetres * STANDARD_GRAVITY) / (DRY_AIR_CONSTANT * columnKelvin));
}

/**
 * The boiling point at a place, for a check of a thermometer.
 * @returns the two neighbouring ticks, with what the weather (by altitude) or the barometer leaves open; or a
 *   problem on `altitudeMetres` or `stationPascal` for a place where no kitchen stands
 */
export function boilingPoint(place: BoilingPlace): Outcome<KnownTemperature> {
  if ('altitudeMetres' in place) {
    const metres = place.altitudeMetres;
    if (!(metres >= LOWEST_METRES && metres <= HIGHEST_METRES)) {
      return bad(`No kitchen stands at ${metres} m.`, 'altitudeMetres', `Give the altitude in metres, ${LOWEST_METRES} to ${HIGHEST_METRES}; 1000 ft are 305 m.`);
    }
    return good(knownAt(standardPascal(metres), WEATHER_PASCAL, `boiling water at ${Math.round(metres)} m, weather unknown`));
  }
  const pascal = place.stationPascal;
  if (!(pascal >= LEAST_KITCHEN_PASCAL && pascal <= MOST_KITCHEN_PASCAL)) {
    return bad(`${Math.round(pascal) / 100} hPa is no air pressure of a kitchen.`, 'stationPascal', 'Give the pressure at the place itself, 500 to 1100 hPa.');
  }
  return good(knownAt(pascal, BAROMETER_PASCAL, `boiling water at ${Math.round(pascal / 100)} hPa`));
}

function knownAt(pascal: number, openPascal: number, ground: string): KnownTemperature {
  const ticks = boilingTicks(pascal);
  // The line is steeper below, so a fall of pressure moves the boiling point further than a rise.
  const errorTicks = Math.ceil(ticks - boilingTicks(pascal - openPascal));
  return { bounds: { lowTicks: Math.floor(ticks), highTicks: Math.ceil(ticks) }, errorTicks, ground };
}

function boilingTicks(pascal: number): number {
  const kelvin = saturationKelvin(pascal);
  if (!kelvin.ok) throw new Error(kelvin.problem.message);
  return (kelvin.value - KELVIN_AT_ZERO_CELSIUS) * TICKS_PER_CELSIUS;
}
