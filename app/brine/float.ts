/**
 * What a salometer float shows, and what its reading means. A float is a glass hydrometer marked in
 * brine of salt and water at 60 °F: cold and sugar make it ride high, warmth and spirits low.
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import {
  densityKgPerM3, isBrineCelsius, mixtureDensityKgPerM3, saltFractionOfDensity, SATURATED_SALT_FRACTION, SIXTY_FAHRENHEIT_CELSIUS, solveRising,
  type BrineMixture,
} from './density.ts';
import { plainNumber } from './rounding.ts';
import { percentOfSalometer, salometerOfPercent } from './strength.ts';

/** Cubic expansion of soda glass per °C (from memory). */
const GLASS_EXPANSION_PER_CELSIUS = 25e-6;

/** Salometer degrees on the stem, or off one end of it. */
export type FloatReading =
  | { readonly kind: 'shows'; readonly degrees: number }
  | { readonly kind: 'above-scale' }
  | { readonly kind: 'below-scale' };

/**
 * What a salometer marked at 60 °F shows in a brine.
 * @param mixture what the brine is made of; its salt water at most 28 % salt
 * @param celsius of brine and float, 0 to 50
 */
export function floatReading(mixture: BrineMixture, celsius: number): FloatReading {
  const feltDensity = mixtureDensityKgPerM3({ ...mixture, spiceGrams: 0 }, celsius) * glassGrowth(celsius);
  const fraction = saltFractionOfDensity(feltDensity, SIXTY_FAHRENHEIT_CELSIUS);
  if (fraction !== undefined) return { kind: 'shows', degrees: salometerOfPercent(fraction * 100) };
  return { kind: feltDensity > densityKgPerM3(SATURATED_SALT_FRACTION, SIXTY_FAHRENHEIT_CELSIUS) ? 'above-scale' : 'below-scale' };
}

/**
 * The salt in a brine by a float's reading, freed of temperature and of sugar.
 * @param shownDegrees salometer degrees read on the stem, 0 to 100
 * @param celsius of the brine, 0 to 50
 * @param sugarPercent sugar by weight of the whole brine, 0 to 60; 0 for salt and water alone
 * @returns per cent salt by weight of the whole brine, or a problem naming the argument: a reading
 *   that no such brine can give included
 */
export function percentFromFloat(shownDegrees: number, celsius: number, sugarPercent = 0): Outcome<number> {
  if (!(shownDegrees >= 0 && shownDegrees <= 100)) {
    return bad(`A float can’t show ${plainNumber(shownDegrees, 1)} °SAL.`, 'shownDegrees', 'Give the reading on the stem, 0 to 100.');
  }
  if (!isBrineCelsius(celsius)) return bad(`A reading at ${plainNumber(celsius, 1)} °C can’t be corrected here.`, 'celsius', 'Read the float between 0 and 50 °C.');
  if (!(sugarPercent >= 0 && sugarPercent <= 60)) return bad(`A brine with ${plainNumber(sugarPercent, 1)} % sugar can’t be.`, 'sugarPercent', 'Give 0 to 60 % of the whole brine.');
  const shownDensity = densityKgPerM3(percentOfSalometer(shownDegrees) / 100, SIXTY_FAHRENHEIT_CELSIUS);
  const density = shownDensity / glassGrowth(celsius);
  const sugarFraction = sugarPercent / 100;
  const highest = SATURATED_SALT_FRACTION * (1 - sugarFraction);
  function densityAt(saltFraction: number): number {
    return mixtureDensityKgPerM3({ saltGrams: saltFraction, waterGrams: 1 - sugarFraction - saltFraction, sugarGrams: sugarFraction, alcoholGrams: 0, otherGrams: 0, spiceGrams: 0 }, celsius);
  }
  const slip = 1e-9;
  if (density < densityAt(0) - slip) {
    return bad(`With ${plainNumber(sugarPercent, 1)} % sugar at ${plainNumber(celsius, 1)} °C even a brine without salt shows more than ${plainNumber(shownDegrees, 1)} °SAL.`, 'shownDegrees', 'Check the reading, the sugar and the temperature.');
  }
  if (density > densityAt(highest) + slip) {
    return bad(`At ${plainNumber(celsius, 1)} °C ${plainNumber(shownDegrees, 1)} °SAL on the float is more salt than the water can hold.`, 'shownDegrees', 'Check the reading, the sugar and the temperature.');
  }
  return good(100 * solveRising(densityAt, density, highest));
}

/** How much larger the float is than at 60 °F, as a factor: a larger float rides as if in a denser brine. */
function glassGrowth(celsius: number): number {
  return 1 + GLASS_EXPANSION_PER_CELSIUS * (celsius - SIXTY_FAHRENHEIT_CELSIUS);
}
