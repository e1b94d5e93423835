/**
 * The module of a symbol in whole dots of the print head, so that no printer has to guess an edge:
 * X = dots / dots per millimetre (computed). Least sizes for a symbol that is read from a pack:
 * 3 dots at 8 dots/mm, 5 dots at 11.8 dots/mm (common practice).
 */

/** Dots per millimetre of heads sold as 203 dpi. */
export const DOTS_PER_MM_203 = 8;
/** Dots per millimetre of heads sold as 300 dpi. */
export const DOTS_PER_MM_300 = 300 / 25.4;
/** Module for an in-house code that a telephone reads: common practice. */
export const WANTED_MODULE_MM = 0.45;

const LEAST_DOTS_COARSE = 3;
const LEAST_DOTS_FINE = 5;
/** So that a wanted size that is whole but for float noise is not made a dot larger. */
const ROUNDING_GUARD = 1e-9;

export interface SymbolModule {
  readonly dots: number;
  readonly moduleMm: number;
}

/** The smallest whole number of dots that is no smaller than wanted. */
export function chooseModule(wantedMm: number, dotsPerMm: number): SymbolModule {
  const least = dotsPerMm < 10 ? LEAST_DOTS_COARSE : LEAST_DOTS_FINE;
  const dots = Math.max(least, Math.ceil(wantedMm * dotsPerMm - ROUNDING_GUARD));
  return { dots, moduleMm: dots / dotsPerMm };
}
