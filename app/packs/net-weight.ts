/**
 * Net weight as printed. It never overstates: both figures are rounded down, from the exact
 * decimals of the weight, in whole-number arithmetic.
 *
 * Random-weight packs: pounds with two decimals, and grams (FPLA 15 U.S.C. 1453(a)(3)(A)(ii), from
 * memory). Fixed weights: ounces under 1 lb, ounces with pounds in brackets under 4 lb, pounds from
 * there on (21 CFR 101.7(j), (k), (m), from memory); the metric part has at most three digits.
 * Rounding down and never over: NIST metric labeling fact sheet and UPLR (read). 1 lb = 453.59237 g,
 * 1 oz = 28.349523125 g, exact (NIST SP 811).
 */
import { HEAVIEST_GRAMS } from '../measures/mass.ts';
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { floorTimes, fractionFromNumber, isAbove } from './exact-decimal.ts';

/** Random: every pack weighed and printed by itself. Fixed: every pack of a lot declares the same weight. */
export type Weighing = 'random' | 'fixed';

export interface NetWeight {
  /** The declaration, `NET WT 0.75 lb (341 g)`. */
  readonly text: string;
  /** The metric figure as printed, in grams: what a code on the pack carries too. */
  readonly printedGrams: number;
}

const HUNDREDTH_POUNDS_PER_GRAM = { numerator: 10_000_000n, denominator: 45_359_237n };
const TENTH_OUNCES_PER_GRAM = { numerator: 10_000_000_000n, denominator: 28_349_523_125n };
const GRAMS_PER_HUNDREDTH_OUNCE = { numerator: 28_349_523_125n, denominator: 100_000_000_000n };
const ONE = { numerator: 1n, denominator: 1n };

/**
 * Declares the net weight of a pack.
 * @param netGrams the true net: gross less pouch, label and pad
 * @returns the declaration, or a sentence: zero or less, not a number, a tonne or more, too light to print
 */
export function declareNetWeight(netGrams: number, weighing: Weighing, field = 'netGrams'): Outcome<NetWeight> {
  if (!Number.isFinite(netGrams) || netGrams <= 0) {
    return bad(`A net weight of ${netGrams} g can’t be.`, field, 'Weigh the pack, take off pouch, label and pad, and enter grams above zero.');
  }
  if (netGrams >= HEAVIEST_GRAMS) return bad(`${netGrams} g is a tonne or more.`, field, 'Check the unit and the point.');
  return weighing === 'random' ? declareRandom(netGrams, field) : declareRounded(netGrams, field);
}

/** As `declareNetWeight`, the text alone. */
export function netWeightText(netGrams: number, weighing: Weighing): Outcome<string> {
  const declared = declareNetWeight(netGrams, weighing);
  return declared.ok ? good(declared.value.text) : declared;
}

/**
 * Declares a fixed weight chosen in ounces, and the least a pack must weigh to carry it.
 * @param declaredOunces at most two decimals
 * @returns the declaration and `leastNetGrams`, rounded up to 0.1 g
 */
export function declareFixedOunces(declaredOunces: number): Outcome<NetWeight & { readonly leastNetGrams: number }> {
  const hundredths = Math.round(declaredOunces * 100);
  if (!(declaredOunces > 0) || hundredths / 100 !== declaredOunces || hundredths > 3_500_000) {
    return bad(`${declaredOunces} oz can’t be declared.`, 'declaredOunces', 'Use a number above zero with at most two decimals.');
  }
  const declared = fixedDeclaration(BigInt(hundredths));
  const exact = BigInt(hundredths) * GRAMS_PER_HUNDREDTH_OUNCE.numerator * 10n;
  const tenthGrams = (exact + GRAMS_PER_HUNDREDTH_OUNCE.denominator - 1n) / GRAMS_PER_HUNDREDTH_OUNCE.denominator;
  return good({ ...declared, leastNetGrams: Number(tenthGrams) / 10 });
}

/**
 * Tests a pair of figures for a fixed weight against the pack: neither may be more than is in it.
 * @param pair ounces and grams as they would be printed, and the true net in grams
 */
export function checkDualDeclaration(pair: { declaredOunces: number; printedGrams: number; netGrams: number }): Outcome<true> {
  const net = fractionFromNumber(pair.netGrams);
  if (isAbove(fractionFromNumber(pair.printedGrams), net)) {
    return bad(`${pair.printedGrams} g overstates unless the net is at least ${pair.printedGrams} g.`, 'printedGrams', 'Round the grams down.');
  }
  const ounces = fractionFromNumber(pair.declaredOunces);
  const declared = { numerator: ounces.numerator * 28_349_523_125n, denominator: ounces.denominator * 1_000_000_000n };
  if (isAbove(declared, net)) {
    return bad(`${pair.declaredOunces} oz is more than the ${pair.netGrams} g in the pack.`, 'declaredOunces', 'Declare less, or pack more.');
  }
  return good(true);
}

function declareRandom(netGrams: number, field: string): Outcome<NetWeight> {
  const hundredths = floorTimes(netGrams, HUNDREDTH_POUNDS_PER_GRAM);
  if (hundredths === 0n) return tooLight(netGrams, '0.01 lb', field);
  const grams = floorTimes(netGrams, ONE);
  return good({ text: `NET WT ${decimal(hundredths, 2)} lb (${grams} g)`, printedGrams: Number(grams) });
}

function declareRounded(netGrams: number, field: string): Outcome<NetWeight> {
  const tenths = floorTimes(netGrams, TENTH_OUNCES_PER_GRAM);
  return tenths === 0n ? tooLight(netGrams, '0.1 oz', field) : good(fixedDeclaration(tenths * 10n));
}

function tooLight(netGrams: number, least: string, field: string): Outcome<never> {
  return bad(`${netGrams} g is less than ${least}, the least a label can declare.`, field, 'Check the weight.');
}

function fixedDeclaration(hundredthOunces: bigint): NetWeight {
  const grams = (hundredthOunces * GRAMS_PER_HUNDREDTH_OUNCE.numerator) / GRAMS_PER_HUNDREDTH_OUNCE.denominator;
  const metric = metricPart(grams);
  const poundsAndOunces = inPounds(hundredthOunces);
  const ounces = `${shortDecimal(hundredthOunces)} OZ`;
  if (hundredthOunces < 1600n) return { text: `NET WT ${ounces} (${metric.text})`, printedGrams: metric.grams };
  if (hundredthOunces < 6400n) return { text: `NET WT ${ounces} (${poundsAndOunces}) ${metric.text}`, printedGrams: metric.grams };
  return { text: `NET WT ${poundsAndOunces} (${metric.text})`, printedGrams: metric.grams };
}

function inPounds(hundredthOunces: bigint): string {
  const rest = hundredthOunces % 1600n;
  const pounds = `${hundredthOunces / 1600n} LB`;
  return rest === 0n ? pounds : `${pounds} ${shortDecimal(rest)} OZ`;
}

/** Grams under a kilogram, else kilograms cut to three digits. */
function metricPart(grams: bigint): { text: string; grams: number } {
  if (grams < 1000n) return { text: `${grams} g`, grams: Number(grams) };
  const step = grams < 10_000n ? 10n : grams < 100_000n ? 100n : 1000n;
  const steps = grams / step;
  const decimals = step === 10n ? 2 : step === 100n ? 1 : 0;
  return { text: `${decimal(steps, decimals)} kg`, grams: Number(steps * step) };
}

function decimal(scaled: bigint, decimals: number): string {
  const digits = String(scaled).padStart(decimals + 1, '0');
  return decimals === 0 ? digits : `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
}

function shortDecimal(hundredths: bigint): string {
  return decimal(hundredths, 2).replace(/\.00$|0$/, '');
}
