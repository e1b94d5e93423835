/**
 * How large the letters of the net quantity must be, and where they must stand. Heights by the area
 * of the package side that shows the panel, never of the sticker: 21 CFR 101.7(i) (from memory; the
 * first two steps also in 21 CFR 102.28(b)(2), read). Place: 21 CFR 101.7(f) (read).
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';

/** A panel in whole micrometres, so that areas compare exactly. */
export interface Panel {
  readonly widthMicrometres: number;
  readonly heightMicrometres: number;
}

const MICROMETRES_PER_INCH = 25_400;
/** Upper bound of the area in square inches, and the least letter height in sixteenths of an inch. */
const STEPS = [
  { areaSquareInches: 5, sixteenths: 1 },
  { areaSquareInches: 25, sixteenths: 2 },
  { areaSquareInches: 100, sixteenths: 3 },
  { areaSquareInches: 400, sixteenths: 4 },
] as const;
const LARGEST_SIXTEENTHS = 8;
const MICROMETRES_PER_SIXTEENTH = 1587.5;

/** Least letter height of required text that is not the net quantity: 1/16 in, lower-case o, 21 CFR 101.2(c) (from memory). */
export const INFORMATION_TYPE_MM = 1.5875;
/**
 * Capital height of the words that say a guest's fish is not for sale: 3/8 in. No rule for fish was
 * found; this follows the one for custom-prepared meat, 9 CFR 317.16 (read).
 */
export const NOT_FOR_SALE_TYPE_MM = 9.525;
/** Letters are at most so many times as high as wide: 21 CFR 101.2(c), 101.7(h)(1) (from memory). */
export const MOST_TIMES_AS_HIGH_AS_WIDE = 3;
/** Share of the panel, from its foot, in which the net quantity stands: 21 CFR 101.7(f) (read). */
export const NET_QUANTITY_FOOT_SHARE = 0.3;

/** A panel measured in inches. */
export function panelFromInches(widthInches: number, heightInches: number): Panel {
  return { widthMicrometres: Math.round(widthInches * MICROMETRES_PER_INCH), heightMicrometres: Math.round(heightInches * MICROMETRES_PER_INCH) };
}

/** A panel measured in millimetres. */
export function panelFromMillimetres(widthMm: number, heightMm: number): Panel {
  return { widthMicrometres: Math.round(widthMm * 1000), heightMicrometres: Math.round(heightMm * 1000) };
}

/** Least height, in inches, of the figures and letters of the net quantity on this panel. */
export function leastNetTypeInches(panel: Panel): number {
  return (STEPS.find((step) => isWithin(panel, step.areaSquareInches))?.sixteenths ?? LARGEST_SIXTEENTHS) / 16;
}

/** The same in millimetres. */
export function leastNetTypeMm(panel: Panel): number {
  return (leastNetTypeInches(panel) * 16 * MICROMETRES_PER_SIXTEENTH) / 1000;
}

/**
 * The size of a typeface whose letters reach a height.
 * @param letterMm height of the letter measured
 * @param letterRatio that letter's height over the type size: of capitals, or of the lower-case o
 * @returns points (1/72 in)
 */
export function typeSizePoints(letterMm: number, letterRatio: number): number {
  return ((letterMm / 25.4) * 72) / letterRatio;
}

/** Whether the net quantity must stand at the foot of the panel; small panels (5 sq in or less) are let off. */
export function hasFootRule(panel: Panel): boolean {
  return !isWithin(panel, 5);
}

/**
 * Tests where the net quantity stands.
 * @param box its top and bottom edge in inches from the top of the panel, to a thousandth
 * @returns true, or a sentence: it starts above the bottom 30 %, or runs off the panel
 */
export function checkNetQuantityPlace(panel: Panel, box: { topInches: number; bottomInches: number }): Outcome<true> {
  const top = Math.round(box.topInches * MICROMETRES_PER_INCH);
  const bottom = Math.round(box.bottomInches * MICROMETRES_PER_INCH);
  if (bottom > panel.heightMicrometres || top >= bottom) return bad('The net quantity runs off the panel.', 'box', 'Move it up.');
  if (!hasFootRule(panel) || top * 10 >= panel.heightMicrometres * 7) return good(true);
  const startInches = (panel.heightMicrometres * 0.7) / MICROMETRES_PER_INCH;
  return bad(
    `The net quantity starts ${box.topInches} in from the top, above the bottom 30 % of the panel.`,
    'box',
    `Move it down: the bottom 30 % starts at ${startInches.toFixed(2)} in.`,
  );
}

/**
 * How far the label's lower edge may stand above the panel's, so that the net quantity lies within the bottom 30 %.
 * @param netTopMm from the label's lower edge up to the top of the net quantity
 * @returns millimetres; below zero where no place on this panel will do, null where the rule lets the panel off
 */
export function highestLiftMm(panel: Panel, netTopMm: number): number | null {
  if (!hasFootRule(panel)) return null;
  return Math.floor(panel.heightMicrometres * NET_QUANTITY_FOOT_SHARE - netTopMm * 1000) / 1000;
}

/** Area of a panel in square inches. */
export function panelSquareInches({ widthMicrometres, heightMicrometres }: Panel): number {
  return (widthMicrometres * heightMicrometres) / MICROMETRES_PER_INCH ** 2;
}

function isWithin(panel: Panel, areaSquareInches: number): boolean {
  return panel.widthMicrometres * panel.heightMicrometres <= areaSquareInches * MICROMETRES_PER_INCH ** 2;
}
