/**
 * Salt moving into a slab of fish in time: Fick's second law with a constant coefficient.
 * J. Crank, The Mathematics of Diffusion, 2nd ed. (1975), chapter 4 (from memory; its figures computed
 * here are checked against a second solution by a library). What moves is salt per water of the fish's
 * water phase. A slab has no edges: strips and tails take up more than this says.
 */
import { solveRising } from './density.ts';
import { scaledComplement, shortfallOfScaledComplement } from './scaled-complement.ts';
import { bathRoots } from './uptake-roots.ts';

/** `on`: the skin lets nothing through, so that salt comes in from one face and must cross the full thickness. */
export type Skin = 'on' | 'off';

/** What a soak is in the figures of diffusion. */
export interface SlabSoak {
  readonly hours: number;
  readonly thicknessMm: number;
  readonly skin: Skin;
  readonly squareMetresPerSecond: number;
}

const SECONDS_PER_HOUR = 3600;
/** Below this the salt from the two faces has not met in the middle to within 1e-10, and the short-time forms hold. */
const SHORT_FOURIER = 0.04;
/** exp(−41) is below the last digit of 1. */
const LAST_EXPONENT = 41;
/** The slowest soak is at equilibrium to the last digit here. */
const ENDLESS_FOURIER = 16;

/** Dimensionless time D·t ÷ l², where l is half the thickness, or all of it where the skin is on. */
export function fourierNumber(soak: SlabSoak): number {
  return (soak.squareMetresPerSecond * soak.hours * SECONDS_PER_HOUR) / saltPathMetres(soak.thicknessMm, soak.skin) ** 2;
}

function saltPathMetres(thicknessMm: number, skin: Skin): number {
  return (skin === 'on' ? thicknessMm : thicknessMm / 2) / 1000;
}

/** How far the mean of a slab has come, 0 to 1, in a bath so large that it keeps its strength. */
export function largeBathApproach(fourier: number): number {
  return finiteBathApproach(fourier, Infinity);
}

/**
 * How far the mean of a slab has come to equilibrium in a well-stirred bath that weakens as it gives.
 * @param fourier see `fourierNumber`, 0 or more
 * @param alpha water of the bath over water of the fish, above 0
 * @returns 0 to 1
 */
export function finiteBathApproach(fourier: number, alpha: number): number {
  return approachInBath(alpha)(fourier);
}

/** `finiteBathApproach` for many times in one bath: the roots are found once, when first wanted. */
export function approachInBath(alpha: number): (fourier: number) => number {
  let roots: readonly number[] | undefined;
  return (fourier) => {
    if (fourier <= 0) return 0;
    if (fourier < SHORT_FOURIER) return within01(shortMeanApproach(fourier, alpha));
    roots ??= rootsThatCount(SHORT_FOURIER, alpha);
    return within01(longMeanApproach(fourier, alpha, roots));
  };
}

/** The mean by the form for a slab without a middle; right as long as the salt has not met there. */
export function shortMeanApproach(fourier: number, alpha: number): number {
  if (alpha === Infinity) return 2 * Math.sqrt(fourier / Math.PI);
  return (1 + alpha) * shortfallOfScaledComplement(Math.sqrt(fourier) / alpha);
}

/** The mean by the sum over the roots; right always, but slow to sum for short times. */
export function longMeanApproach(fourier: number, alpha: number, roots: readonly number[] = rootsThatCount(fourier, alpha)): number {
  let left = 0;
  for (const root of roots) {
    // 2α(1 + α) ÷ (1 + α + α²q²), written so that α without end gives 2 ÷ q².
    const weight = (2 * (1 + 1 / alpha)) / (1 / alpha ** 2 + 1 / alpha + root ** 2);
    left += weight * Math.exp(-(root ** 2) * fourier);
  }
  return 1 - left;
}

/**
 * How far the part furthest from the brine has come: the middle of a piece without skin, the flesh
 * under the skin of one with it.
 * @param fourier see `fourierNumber`, 0 or more
 * @param alpha water of the bath over water of the fish, above 0; Infinity for a bath without end
 * @returns 0 to 1
 */
export function centreApproach(fourier: number, alpha: number): number {
  if (fourier <= 0) return 0;
  return within01(fourier < SHORT_FOURIER ? shortCentreApproach(fourier, alpha) : longCentreApproach(fourier, alpha));
}

/** The middle by the short-time form: what comes in from one face, twice. */
export function shortCentreApproach(fourier: number, alpha: number): number {
  const depth = 1 / (2 * Math.sqrt(fourier));
  return 2 * (1 + 1 / alpha) * Math.exp(-(depth ** 2)) * scaledComplement(depth + Math.sqrt(fourier) / alpha);
}

/** The middle by the sum over the roots. */
export function longCentreApproach(fourier: number, alpha: number): number {
  let sum = 1;
  for (const [index, root] of rootsThatCount(fourier, alpha).entries()) {
    // Crank's 2(1 + α) ÷ ((1 + α + α²q²)·cos q), where by the roots' own equation 1 ÷ |cos q| is √(1 + α²q²).
    const weight = (2 * (1 + 1 / alpha) * Math.hypot(1 / alpha, root)) / (1 / alpha ** 2 + 1 / alpha + root ** 2);
    sum += (index % 2 === 0 ? -weight : weight) * Math.exp(-(root ** 2) * fourier);
  }
  return sum;
}

function rootsThatCount(fourier: number, alpha: number): number[] {
  return bathRoots(alpha, Math.max(Math.PI, Math.sqrt(LAST_EXPONENT / fourier)));
}

function within01(value: number): number {
  return Math.min(1, Math.max(0, value));
}

/**
 * The dimensionless time at which the mean of a slab has come so far: the inverse of `finiteBathApproach`.
 * @param approach of the mean; 0 or less is there at once
 * @param alpha water of the bath over water of the fish, above 0; Infinity for a bath without end
 * @returns undefined when it never comes so far: at 1 and above
 */
export function fourierOfApproach(approach: number, alpha: number): number | undefined {
  if (approach <= 0) return 0;
  if (!(approach < 1)) return undefined;
  return solveRising(approachInBath(alpha), approach, ENDLESS_FOURIER);
}

/**
 * Hours until the mean of a piece has come so far towards equilibrium.
 * @param approach 0 (not begun) to below 1
 * @param alpha water of the bath over water of the fish, above 0; Infinity for a bath without end
 * @returns undefined when never
 */
export function hoursToApproach(approach: number, alpha: number, piece: Omit<SlabSoak, 'hours'>): number | undefined {
  const fourier = fourierOfApproach(approach, alpha);
  return fourier === undefined ? undefined : fourier / fourierNumber({ ...piece, hours: 1 });
}
