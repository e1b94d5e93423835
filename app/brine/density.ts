/** Density of salt water, and of brine with sugar, spirits and spice in it. */

/** Mass fraction of salt in water saturated at 60 °F: 100 °SAL. Salt Institute, “Chemical and physical properties of salt” (read). */
export const SATURATED_SALT_FRACTION = 0.26395;
/** 60 °F, at which salometers and the trade's tables are set: (60 − 32) ÷ 1.8 °C. */
export const SIXTY_FAHRENHEIT_CELSIUS = 140 / 9;
/** Coldest and hottest brine whose density is known here. */
const COLDEST_BRINE_CELSIUS = 0;
const HOTTEST_BRINE_CELSIUS = 50;
/** The formula is fitted to 0.264; the little above it serves weights rounded up at saturation. */
const HEAVIEST_SALT_FRACTION = 0.28;

/**
 * Volume that a gram of dissolved sugar takes up in water, cm³/g. Computed: reproduces the specific
 * gravities of sucrose at 20 °C (CRC Handbook, concentrative properties; from memory) within 0.0002.
 * Other solids (protein, acids, spice) are counted the same.
 */
const SOLIDS_CM3_PER_GRAM = 0.618;
/** Volume of a gram of ethanol in much water, cm³/g: partial molar volume 55.1 cm³/mol ÷ 46.07 g/mol (from memory). */
const ALCOHOL_CM3_PER_GRAM = 1.196;

/** Grams of what a brine is made of; all of them together are its weight. */
export interface BrineMixture {
  readonly saltGrams: number;
  readonly waterGrams: number;
  readonly sugarGrams: number;
  readonly alcoholGrams: number;
  /** Dissolved besides these, such as the protein of soy sauce. */
  readonly otherGrams: number;
  /** Solids that do not dissolve: they take up room but bear no float. */
  readonly spiceGrams: number;
}

/**
 * Density of pure water in kg/m³ at `celsius`. G. S. Kell, “Density, thermal expansivity, and
 * compressibility of liquid water from 0 to 150 °C”, J. Chem. Eng. Data 20 (1975) 97 (from memory).
 */
export function waterDensityKgPerM3(celsius: number): number {
  const above = 999.83952 + celsius * (16.945176 + celsius * (-7.9870401e-3 + celsius * (-46.170461e-6 + celsius * (105.56302e-9 - celsius * 280.54253e-12))));
  return above / (1 + 16.87985e-3 * celsius);
}

/**
 * Density of a solution of salt in water in kg/m³.
 * A polynomial (computed) through the data of P. S. Z. Rogers and K. S. Pitzer (1982) as tabulated in
 * the CRC Handbook, “Volumetric properties of aqueous sodium chloride solutions” (read): within
 * 0.13 kg/m³ from 0 to 40 °C, and at 50 °C.
 * @param saltFraction mass fraction of salt, 0 to 0.264 (to 0.28 for weights rounded up)
 * @param celsius 0 to 50
 * @throws RangeError outside that range: callers check what a person typed
 */
export function densityKgPerM3(saltFraction: number, celsius: number): number {
  if (!(saltFraction >= 0 && saltFraction <= HEAVIEST_SALT_FRACTION)) throw new RangeError(`no density for a salt fraction of ${saltFraction}`);
  if (!isBrineCelsius(celsius)) throw new RangeError(`no density at ${celsius} °C`);
  const w = saltFraction;
  const t = celsius;
  const salted =
    w * (764.622 - t * (3.34961 - 0.0331043 * t)) +
    w ** 2 * (18.3125 + t * (5.89494 - 0.063464 * t)) +
    w ** 3 * (397.955 - 1.15427 * t);
  const hotTenths = Math.max(0, t - 40) / 10;
  // The polynomial was fitted up to 40 °C; this bends it onto the 50 °C column of the same table.
  const hot = hotTenths ** 2 * w * (4.33683 + w * (-10.79192 + w * 7.91753));
  return waterDensityKgPerM3(t) + salted - hot;
}

/** Whether the density of a brine at this temperature is known: a number from 0 to 50 °C. */
export function isBrineCelsius(celsius: number): boolean {
  return celsius >= COLDEST_BRINE_CELSIUS && celsius <= HOTTEST_BRINE_CELSIUS;
}

/**
 * The salt fraction of salt water of a density: the inverse of `densityKgPerM3`.
 * @returns 0 to 0.26395, or undefined when it is lighter than water or heavier than saturated brine
 */
export function saltFractionOfDensity(kgPerM3: number, celsius: number): number | undefined {
  const lightest = densityKgPerM3(0, celsius);
  const heaviest = densityKgPerM3(SATURATED_SALT_FRACTION, celsius);
  // A last-digit slip of the caller's own arithmetic at either end is no other brine.
  const slip = 1e-9;
  if (!(kgPerM3 >= lightest - slip && kgPerM3 <= heaviest + slip)) return undefined;
  return solveRising((fraction) => densityKgPerM3(fraction, celsius), kgPerM3, SATURATED_SALT_FRACTION);
}

/** Where a function that rises from 0 to `highest` takes a value, by bisection to the last digit; clamped to the ends. */
export function solveRising(rising: (at: number) => number, value: number, highest: number): number {
  if (rising(0) >= value) return 0;
  if (rising(highest) <= value) return highest;
  let low = 0;
  let high = highest;
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return middle;
    if (rising(middle) < value) low = middle;
    else high = middle;
  }
}

/** Grams of everything in a mixture. */
export function mixtureGrams(mixture: BrineMixture): number {
  return mixture.saltGrams + mixture.waterGrams + mixture.sugarGrams + mixture.alcoholGrams + mixture.otherGrams + mixture.spiceGrams;
}

/**
 * Litres that a brine takes up: its salt water by `densityKgPerM3`, and the volume its sugar, spirit
 * and other solids add to it. Zero for an empty mixture.
 * @param celsius 0 to 50
 * @throws RangeError when its salt water is above 0.28 salt, or has no water
 */
export function mixtureLitres(mixture: BrineMixture, celsius: number): number {
  const saltWaterGrams = mixture.saltGrams + mixture.waterGrams;
  const saltWaterLitres = saltWaterGrams === 0 ? 0 : saltWaterGrams / densityKgPerM3(mixture.saltGrams / saltWaterGrams, celsius);
  const solidsLitres = ((mixture.sugarGrams + mixture.otherGrams + mixture.spiceGrams) * SOLIDS_CM3_PER_GRAM) / 1000;
  return saltWaterLitres + solidsLitres + (mixture.alcoholGrams * ALCOHOL_CM3_PER_GRAM) / 1000;
}

/** Density of a brine with everything in it, kg/m³; as `mixtureLitres`. */
export function mixtureDensityKgPerM3(mixture: BrineMixture, celsius: number): number {
  return mixtureGrams(mixture) / mixtureLitres(mixture, celsius);
}
