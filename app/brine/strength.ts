/** The strength of a brine of salt and water in every form the trade writes it, and each form read back. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { densityKgPerM3, isBrineCelsius, SATURATED_SALT_FRACTION, SIXTY_FAHRENHEIT_CELSIUS, solveRising, waterDensityKgPerM3 } from './density.ts';
import { firstSolidCelsius } from './freezing.ts';
import { plainNumber } from './rounding.ts';

/** The ways a strength can be given; exactly one at a time. */
export const STRENGTH_FORMS = ['percentByWeight', 'salometerDegrees', 'specificGravity60F', 'baumeDegrees', 'gramsPerLitreWater'] as const;
export type StrengthForm = (typeof STRENGTH_FORMS)[number];

/** 100 °SAL in per cent by weight: water saturated at 60 °F. Salt Institute, “Chemical and physical properties of salt” (read). */
const SATURATED_PERCENT = 26.395;
/** Grams of water in a litre at 60 °F: 999.0 (computed from Kell 1975). */
const GRAMS_PER_LITRE_WATER = waterDensityKgPerM3(SIXTY_FAHRENHEIT_CELSIUS);
/** Pounds of water in a US gallon as the trade's brine tables have it: weighed in air at 60 °F (brining solution table, US meat trade; read). */
export const POUNDS_PER_US_GALLON_WATER = 8.328;
/** Modulus of the Baumé scale for liquids heavier than water, US: °Bé = 145 − 145 ÷ SG (read). */
export const BAUME_MODULUS = 145;

/** One brine of salt and water. All forms are as at 60 °F, but for the density. */
export interface BrineStrength extends Readonly<Record<StrengthForm, number>> {
  /** Salt over salt and water: the same as by weight where there is nothing else. */
  readonly waterPhasePercent: number;
  readonly poundsPerUsGallonWater: number;
  /** At the temperature asked for. */
  readonly densityKgPerM3: number;
  /** Ice up to 23.31 %; above it the temperature at which salt begins to fall out. */
  readonly freezingPointC: number;
}

/** A brine by its volume at 60 °F, in the units of the trade's tables. */
export interface BrineByVolume {
  readonly gramsSaltPerLitreBrine: number;
  readonly kilogramsPerLitreBrine: number;
  readonly litresBrinePerLitreWater: number;
  readonly poundsSaltPerUsGallonBrine: number;
  readonly poundsWaterPerUsGallonBrine: number;
}

/** Per cent by weight of a salometer degree, whole brine. */
export function percentOfSalometer(degrees: number): number {
  return (degrees * SATURATED_PERCENT) / 100;
}

/** Salometer degrees of a per cent by weight. */
export function salometerOfPercent(percent: number): number {
  return (percent * 100) / SATURATED_PERCENT;
}

/** Specific gravity 60/60 °F of salt water. */
function specificGravity(saltFraction: number): number {
  return densityKgPerM3(saltFraction, SIXTY_FAHRENHEIT_CELSIUS) / densityKgPerM3(0, SIXTY_FAHRENHEIT_CELSIUS);
}

/**
 * One strength, given in one form, in all forms.
 * @param form which form `value` is in
 * @param value 0 up to what 26.395 % is in that form, whatever the temperature
 * @param celsius of the density, 0 to 50; 60 °F unless given
 * @returns every form, or a problem naming `form` or `temperatureC`
 */
export function brineStrength(form: StrengthForm, value: number, celsius: number = SIXTY_FAHRENHEIT_CELSIUS): Outcome<BrineStrength> {
  const percent = percentOfForm(form, value);
  if (!percent.ok) return percent;
  if (!isBrineCelsius(celsius)) {
    return bad(`The density of a brine at ${plainNumber(celsius, 2)} °C is not known here.`, 'temperatureC', 'Give a temperature from 0 to 50 °C.');
  }
  return good(strengthOfPercent(percent.value, celsius));
}

/** Every form of a brine of `percent` salt by weight, 0 to 26.395; `celsius` (0 to 50) is for the density. */
export function strengthOfPercent(percent: number, celsius: number = SIXTY_FAHRENHEIT_CELSIUS): BrineStrength {
  const saltFraction = percent / 100;
  const perWater = saltFraction / (1 - saltFraction);
  const gravity = specificGravity(saltFraction);
  return {
    percentByWeight: percent,
    salometerDegrees: salometerOfPercent(percent),
    specificGravity60F: gravity,
    baumeDegrees: baumeOfGravity(gravity),
    gramsPerLitreWater: GRAMS_PER_LITRE_WATER * perWater,
    waterPhasePercent: percent,
    poundsPerUsGallonWater: POUNDS_PER_US_GALLON_WATER * perWater,
    densityKgPerM3: densityKgPerM3(saltFraction, celsius),
    freezingPointC: firstSolidCelsius(percent),
  };
}

/** What a litre or a US gallon of a salt brine holds at 60 °F; `saltFraction` 0 to 0.26395. */
export function brineByVolume(saltFraction: number): BrineByVolume {
  const density = densityKgPerM3(saltFraction, SIXTY_FAHRENHEIT_CELSIUS);
  const poundsPerGallon = POUNDS_PER_US_GALLON_WATER * specificGravity(saltFraction);
  return {
    gramsSaltPerLitreBrine: density * saltFraction,
    kilogramsPerLitreBrine: density / 1000,
    litresBrinePerLitreWater: densityKgPerM3(0, SIXTY_FAHRENHEIT_CELSIUS) / (1 - saltFraction) / density,
    poundsSaltPerUsGallonBrine: poundsPerGallon * saltFraction,
    poundsWaterPerUsGallonBrine: poundsPerGallon * (1 - saltFraction),
  };
}

/**
 * The per cent of salt by weight that a strength means.
 * @returns 0 to 26.395, or a problem naming the form: below that of water, or above saturation
 */
function percentOfForm(form: StrengthForm, value: number): Outcome<number> {
  const water = strengthOfPercent(0)[form];
  const saturated = strengthOfPercent(SATURATED_PERCENT)[form];
  // A float's last digits at either end are the end: 100 °SAL is allowed in every form.
  const slip = saturated * 1e-12;
  if (!Number.isFinite(value)) return bad(`${form} must be a number.`, form, `Give ${range(form, water, saturated)}.`);
  if (value < water - slip) {
    const reason = form === 'specificGravity60F' ? 'lighter than water' : 'less than no salt';
    return bad(`${form} ${plainNumber(value, 6)} is ${reason}.`, form, `Give ${range(form, water, saturated)}.`);
  }
  if (value > saturated + slip) {
    return bad(`${form} ${plainNumber(value, 6)} is more salt than water can hold: the limit is 26.395 % by weight, 100 °SAL.`, form, `Give ${range(form, water, saturated)}.`);
  }
  return good(Math.min(SATURATED_PERCENT, Math.max(0, unboundedPercent(form, value))));
}

function unboundedPercent(form: StrengthForm, value: number): number {
  switch (form) {
    case 'percentByWeight': return value;
    case 'salometerDegrees': return percentOfSalometer(value);
    case 'gramsPerLitreWater': return (100 * value) / (GRAMS_PER_LITRE_WATER + value);
    case 'baumeDegrees': return percentOfGravity(BAUME_MODULUS / (BAUME_MODULUS - value));
    case 'specificGravity60F': return percentOfGravity(value);
  }
}

function percentOfGravity(gravity: number): number {
  return 100 * solveRising(specificGravity, gravity, SATURATED_SALT_FRACTION);
}

function baumeOfGravity(gravity: number): number {
  return BAUME_MODULUS - BAUME_MODULUS / gravity;
}

function range(form: StrengthForm, lowest: number, highest: number): string {
  // Cut, not rounded: the figure in the sentence must itself be accepted.
  return `${form} from ${plainNumber(lowest, 0)} to ${plainNumber(Math.floor(highest * 10_000 + 1e-6) / 10_000, 4)}`;
}
