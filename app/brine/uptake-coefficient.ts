/** How fast salt moves in the flesh of fish: the usual figure, and how cold and fat change it. */

/** A diffusion coefficient at 4 °C with the factors that bound it. */
export interface UptakeCoefficient {
  /** At 4 °C; see `coefficientAt` for another temperature. */
  readonly squareMetresPerSecond: number;
  /** The slowest that is likely, as a factor below 1. */
  readonly lowFactor: number;
  /** The fastest that is likely, as a factor above 1. */
  readonly highFactor: number;
  readonly ground: 'usual' | 'fitted';
  /** How many of the kitchen's own samples it rests on; 0 for the usual one. */
  readonly samples: number;
}

/** The temperature that coefficients are written for: the middle of 3 to 5 °C. */
const COEFFICIENT_CELSIUS = 4;
/**
 * Lean and fat flesh, flesh side, m²/s. Computed from brining times by thickness (Whelan, Smoking
 * Salmon & Trout, “plain brine”; read as an extract), taken to aim at 5 % water-phase salt. In brine
 * of 25 %, with salt per water moving, 1 and 2 inches give 4.4 and 6.6e-10 lean, 2.9 and 4.4e-10 fat;
 * with per cent of water phase moving, the cruder reading, 6.4 and 9.5e-10 lean, 4.2 and 6.4e-10 fat.
 */
const LEAN_SQUARE_METRES_PER_SECOND = 5.0e-10;
const FAT_SQUARE_METRES_PER_SECOND = 3.5e-10;
/** Up to 5 % fat a fish is called lean, from 15 % on it is as fat as the trade's fat fish; between, linear (common practice). */
const LEAN_TO_FAT_PERCENT = 5;
const FAT_FROM_FAT_PERCENT = 15;
/** One fillet against another of the same fat (common practice). */
const LOW_FACTOR = 0.6;
const HIGH_FACTOR = 1.6;
/** Middle of 20 to 25 kJ/mol, J/mol (from memory). */
const ACTIVATION_JOULES_PER_MOLE = 22_500;
/** J/(mol·K): the molar gas constant. */
const GAS_CONSTANT = 8.314462618;
const ZERO_CELSIUS_KELVIN = 273.15;

/**
 * The coefficient to use until the kitchen has samples of its own.
 * @param fatPercent of the raw flesh, 0 to 100
 */
export function usualCoefficient(fatPercent: number): UptakeCoefficient {
  const fatness = Math.min(1, Math.max(0, (fatPercent - LEAN_TO_FAT_PERCENT) / (FAT_FROM_FAT_PERCENT - LEAN_TO_FAT_PERCENT)));
  return {
    squareMetresPerSecond: LEAN_SQUARE_METRES_PER_SECOND + fatness * (FAT_SQUARE_METRES_PER_SECOND - LEAN_SQUARE_METRES_PER_SECOND),
    lowFactor: LOW_FACTOR,
    highFactor: HIGH_FACTOR,
    ground: 'usual',
    samples: 0,
  };
}

/** m²/s of a coefficient in brine of this temperature in °C: warmer is faster, by Arrhenius. */
export function coefficientAt(coefficient: Pick<UptakeCoefficient, 'squareMetresPerSecond'>, celsius: number): number {
  const slower = 1 / (celsius + ZERO_CELSIUS_KELVIN) - 1 / (COEFFICIENT_CELSIUS + ZERO_CELSIUS_KELVIN);
  return coefficient.squareMetresPerSecond * Math.exp((-ACTIVATION_JOULES_PER_MOLE / GAS_CONSTANT) * slower);
}
