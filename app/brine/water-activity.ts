/** Water activity of a water phase of salt and water. Sugar and the fish's own solutes lower it further. */
import { solveRising } from './density.ts';
import { saturatedPercent } from './freezing.ts';
import { saltPerWater } from './water-phase.ts';

/** Grams of a mole of salt. Salt Institute, “Chemical and physical properties of salt” (read). */
const GRAMS_PER_MOLE = 58.4428;
/** Both ions of a mole of salt in a kilogram of water: 2 × 0.018015 kg/mol. */
const IONS_KILOGRAMS_PER_MOLE = 0.03603;
/** K. S. Pitzer and G. Mayorga, J. Phys. Chem. 77 (1973) 2300: sodium chloride at 25 °C (from memory). */
const DEBYE_HUECKEL = 0.3915;
const BETA_0 = 0.0765;
const BETA_1 = 0.2664;
const C_PHI = 0.00127;
const EQUATION_CELSIUS = 25;

/**
 * Water activity at 25 °C by Pitzer's equation; from 0 to 50 °C it is hardly different (below 2 % in
 * the activity coefficient: manual of a water-activity meter, appendix C; read). Above what water holds
 * (26.5 %) the rest lies there as crystals, and the activity is that of saturated brine.
 * @param waterPhasePercent salt over salt and water, 0 to 100
 * @returns 1 for pure water down to 0.751
 * @throws RangeError outside 0 to 100
 */
export function waterActivity(waterPhasePercent: number): number {
  if (!(waterPhasePercent >= 0 && waterPhasePercent <= 100)) throw new RangeError(`no water activity for ${waterPhasePercent} % salt`);
  const fraction = Math.min(waterPhasePercent, saturatedPercent(EQUATION_CELSIUS)) / 100;
  const molal = (1000 * saltPerWater(fraction)) / GRAMS_PER_MOLE;
  const root = Math.sqrt(molal);
  const osmotic = 1 - (DEBYE_HUECKEL * root) / (1 + 1.2 * root) + molal * (BETA_0 + BETA_1 * Math.exp(-2 * root)) + molal ** 2 * C_PHI;
  return Math.exp(-IONS_KILOGRAMS_PER_MOLE * molal * osmotic);
}

/**
 * The water-phase salt in per cent that has a water activity: the inverse of `waterActivity`.
 * @returns undefined above 1, and below what salt alone can do (0.751)
 */
export function waterPhaseOfActivity(activity: number): number | undefined {
  const saturated = saturatedPercent(EQUATION_CELSIUS);
  if (!(activity <= 1 && activity >= waterActivity(saturated))) return undefined;
  return solveRising((percent) => 1 - waterActivity(percent), 1 - activity, saturated);
}
