/** Fish that is too salty: drawing salt out in plain water. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { SATURATED_SALT_FRACTION } from './density.ts';
import { toScale, tubState, type MendPlan, type TubNow } from './mend-plan.ts';
import { rawFishOf, USUAL_FISH, type FishComposition } from './recipe.ts';
import { plainNumber } from './rounding.ts';
import { saltPerWater } from './water-phase.ts';

export interface TooSaltyPiece {
  readonly kind: 'test-piece-too-salty';
  /** Water-phase salt of the test piece, per cent. */
  readonly testedPercent: number;
  readonly wantedPercent: number;
  /** Plain water to fish by weight; enough is chosen unless given. */
  readonly waterPerFish?: number | undefined;
  readonly fish?: FishComposition | undefined;
}

/**
 * Hours until the mean of the thickest piece has come so far (0 to below 1) to equilibrium.
 * @param alpha water of the bath over water of the fish
 * @returns undefined when never
 */
export type HoursToApproach = (approach: number, alpha: number) => number | undefined;

/** Water that keeps drawing and still fits a tub (common practice). */
const USUAL_WATER_PER_FISH = 5;
const MOST_WATER_PER_FISH = 50;
/** The last of the way is slow: where enough water is chosen, no more of it is asked for than this. */
const LONGEST_APPROACH = 0.8;
/** Longer than this in one water is no longer a kitchen's freshening (common practice). */
const LONG_HOURS = 24;

/**
 * How much plain water and how long for the thickest piece. The salt leaves as it came: fish and water
 * go to the same water-phase salt, slower as they near it.
 *
 * Voids: the test piece and every sample before it, the forecast, and a scheduled process, which knows
 * no freshening. Readings of the brine stand: nothing is done to it.
 */
export function planFreshening(tub: TubNow, trouble: TooSaltyPiece, hoursToApproach: HoursToApproach): Outcome<MendPlan> {
  const brine = tubState(tub.lines, tub.celsius);
  if (!brine.ok) return brine;
  if (!(tub.filletGrams > 0)) return bad('There is no fish to freshen.', 'filletGrams', 'Give the weight of the fish.');
  const fish = rawFishOf(tub.filletGrams, trouble.fish ?? USUAL_FISH);
  if (!fish.ok) return bad(fish.problem.message, `trouble.${fish.problem.field ?? 'fish'}`, fish.problem.remedy);
  const { testedPercent, wantedPercent } = trouble;
  if (!(testedPercent > 0 && testedPercent <= 100 * SATURATED_SALT_FRACTION)) return bad(`A piece of ${plainNumber(testedPercent, 2)} % water-phase salt can’t be.`, 'trouble.testedPercent', 'Give what was measured, above 0 and at most 26.395 %.');
  if (!(wantedPercent > 0)) return bad(`${plainNumber(wantedPercent, 2)} % can’t be reached: water never draws out all the salt.`, 'trouble.wantedPercent', 'Ask for more than zero.');
  if (wantedPercent >= testedPercent) return bad(`${plainNumber(testedPercent, 2)} % is not saltier than the ${plainNumber(wantedPercent, 2)} % that is wanted.`, 'trouble.wantedPercent', 'Freshening only takes salt out: check both figures.');
  const tested = saltPerWater(testedPercent / 100);
  const wanted = saltPerWater(wantedPercent / 100);
  const ratio = waterPerFishFor(trouble, tested, wanted, fish.value.moistureFraction);
  if (!ratio.ok) return ratio;
  const alpha = ratio.value / fish.value.moistureFraction;
  const approach = approachOf(tested, wanted, alpha);
  const hours = approach < 1 ? hoursToApproach(approach, alpha) : undefined;
  if (hours === undefined) {
    return bad(`In ${plainNumber(ratio.value, 1)} of water to 1 of fish it never comes down to ${plainNumber(wantedPercent, 2)} %.`, 'trouble.waterPerFish', 'Use more water, or change it half way.');
  }
  return good({
    steps: [{ what: 'freshen', waterGrams: toScale(tub, ratio.value * tub.filletGrams), waterPerFish: ratio.value, hours }],
    before: brine.value,
    after: brine.value,
    fishWaterPhasePercent: wantedPercent,
    newAllergens: [],
    voids: ['scheduled-process', 'laboratory-verification', 'earlier-salt-samples', 'soak-forecast'],
    cautions: [
      'The hours are an estimate for the thickest piece. Thin pieces are there much sooner: take them out first, and test a piece again.',
      'Keep fish and water as cold as the brine was.',
      ...(hours > LONG_HOURS ? ['That is long: change the water, and it goes faster.'] : []),
    ],
  });
}

/** How far to equilibrium the wanted salt lies; at 1 and above it is never reached. */
function approachOf(tested: number, wanted: number, alpha: number): number {
  const atEquilibrium = tested / (1 + alpha);
  return (tested - wanted) / (tested - atEquilibrium);
}

/** The usual water, or as much more as keeps the wanted salt well before equilibrium. */
function waterPerFishFor(trouble: TooSaltyPiece, tested: number, wanted: number, moistureFraction: number): Outcome<number> {
  const asked = trouble.waterPerFish;
  if (asked !== undefined) {
    return asked > 0 && asked <= MOST_WATER_PER_FISH ? good(asked) : bad(`${plainNumber(asked, 2)} of water to 1 of fish can’t be.`, 'trouble.waterPerFish', 'Give 1 to 10 of water to 1 of fish as a rule.');
  }
  const drawn = (tested - wanted) / tested;
  // alpha ÷ (1 + alpha) = drawn ÷ approach, solved for the water
  const share = drawn / LONGEST_APPROACH;
  const least = share < 1 ? (share / (1 - share)) * moistureFraction : Infinity;
  if (least > MOST_WATER_PER_FISH) return bad(`From ${plainNumber(trouble.testedPercent, 2)} to ${plainNumber(trouble.wantedPercent, 2)} % is too far for one water.`, 'trouble.wantedPercent', 'Ask for less at a time, and change the water in between.');
  return good(Math.max(USUAL_WATER_PER_FISH, least));
}
