/** A brine made so strong that even the slowest likely uptake of the thickest piece meets the target. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { solveRising } from './density.ts';
import { ingredientById, mixtureOf, type Ingredient } from './ingredients.ts';
import { rawFishOf, scaleRecipe, USUAL_FISH, type Recipe, type ScaledBrine, type ScaleOrder } from './recipe.ts';
import { plainNumber } from './rounding.ts';
import { finishedEstimate, type PieceSoak } from './soak-forecast.ts';
import { conditionsOf, dryYieldFault, type SoakConditions } from './soak-order.ts';
import { goalOfTarget, targetWords, type BrineTarget } from './target.ts';

export type AimOrder = ScaleOrder & SoakConditions;

type FinishedTarget = Extract<BrineTarget, { form: 'finishedWaterPhasePercent' }>;
type Fault = Extract<Outcome<never>, { ok: false }>;

const TARGET_FIELD = 'target.finishedWaterPhasePercent';
/** Fine enough that no rounding shows while the strength is sought. */
const SEARCH_STEP_GRAMS = 1e-6;
/** What the lines are rounded to where no scale is given. */
const USUAL_STEP_GRAMS = 0.1;
/** The strongest brine is sought to this, in per cent by weight. */
const SEARCH_PERCENT = 1e-9;
/** A low end this little under the target is the target, in points of per cent. */
const TARGET_SLIP = 1e-9;
/** Lines rounded to the scale can leave the low end short by a step of salt or a few. */
const MOST_STEPS_UP = 20;

/** Brines of one recipe for one batch by their strength, and what the low end of each comes to. */
interface Bench {
  brineOf(percent: number, scaleStepGrams: number): Outcome<ScaledBrine>;
  /** Infinity where the likely range has fish that loses all its water. */
  lowEndOf(brine: ScaledBrine): number;
}

/**
 * Scales a recipe so that the low end of the finished water-phase salt of the thickest piece, after
 * the planned soak, is the target. With the grams rounded to the scale it is the target or the least
 * above it that the scale can weigh.
 * @param order its target must be `finishedWaterPhasePercent`; see the types for units
 * @param ingredients the catalogue the recipe's ids are looked up in
 * @returns the brine, or a problem naming the key at fault: those of `scaleRecipe` and
 *   `soakForecast`, and a target out of reach
 */
export function aimAtLowEnd(order: AimOrder, ingredients: readonly Ingredient[]): Outcome<ScaledBrine> {
  const { target, thickestMm, skin, celsius, soakHours } = order;
  if (target.form !== 'finishedWaterPhasePercent') {
    return bad('Only a water-phase salt of the finished fish can be aimed at with the low end.', 'target', 'Give the finished water-phase salt and the yield.');
  }
  const { yieldPercent } = target;
  const coefficient = conditionsOf(order);
  if (!coefficient.ok) return coefficient;
  const fish = rawFishOf(order.filletGrams, order.fish ?? USUAL_FISH);
  if (!fish.ok) return fish;
  const goal = goalOfTarget(target, fish.value);
  if (!goal.ok) return goal;
  const piece: Omit<PieceSoak, 'bath'> = { fish: fish.value, thicknessMm: thickestMm, skin, celsius, coefficient: coefficient.value };
  const bench: Bench = {
    brineOf: (percent, scaleStepGrams) => scaleRecipe({ ...order, target: { form: 'brinePercent', percent }, scaleStepGrams }, ingredients),
    lowEndOf: (brine) => finishedEstimate({ ...piece, bath: brine.mixture }, soakHours, yieldPercent)?.lowPercent ?? Infinity,
  };

  const weakestPercent = unsaltedPercent(order.recipe, ingredients);
  const weakest = bench.brineOf(weakestPercent, SEARCH_STEP_GRAMS);
  if (!weakest.ok) return atTarget(weakest);
  const least = bench.lowEndOf(weakest.value);
  if (least === Infinity) return dryYieldFault(yieldPercent, fish.value, 'target.yieldPercent');
  if (least > target.percent) return bad(`Without any salt the low end is already above ${targetWords(target)}: ${plainNumber(least, 2)} %.`, TARGET_FIELD, 'Use less of the salty ingredients, or ask for more.');
  const strongestPercent = highestPercent(weakestPercent, bench);
  const most = lowEndAt(strongestPercent, bench);
  if (most < target.percent) return outOfReach(target, strongestPercent, most, order);
  const percent = weakestPercent + solveRising((more) => lowEndAt(weakestPercent + more, bench), target.percent, strongestPercent - weakestPercent);
  return weighable(percent, target, weakest.value.totalGrams, order.scaleStepGrams ?? USUAL_STEP_GRAMS, bench);
}

/** Per cent by weight of a recipe's brine with none of the salt it is solved for. */
function unsaltedPercent(recipe: Recipe, ingredients: readonly Ingredient[]): number {
  const others = recipe.ingredients.flatMap(({ id, parts }) => {
    const ingredient = id === recipe.salt.ingredientId ? undefined : ingredientById(ingredients, id);
    return ingredient === undefined ? [] : [{ ingredient, grams: parts }];
  });
  const grams = others.reduce((sum, line) => sum + line.grams, 0);
  return grams > 0 ? (100 * mixtureOf(others).saltGrams) / grams : 0;
}

function lowEndAt(percent: number, bench: Bench): number {
  const brine = bench.brineOf(percent, SEARCH_STEP_GRAMS);
  return brine.ok ? bench.lowEndOf(brine.value) : Infinity;
}

/** The strongest brine that can be made: from the weakest up, the one thing that refuses a strength is too much of it. */
function highestPercent(weakestPercent: number, bench: Bench): number {
  let low = weakestPercent;
  let high = 100;
  while (high - low > SEARCH_PERCENT) {
    const middle = (low + high) / 2;
    if (bench.brineOf(middle, SEARCH_STEP_GRAMS).ok) low = middle;
    else high = middle;
  }
  return low;
}

function outOfReach(target: FinishedTarget, strongestPercent: number, most: number, order: AimOrder): Fault {
  const skinToo = order.skin === 'on' ? ', take the skin off' : '';
  return bad(
    `${targetWords(target)} is out of reach for the thickest piece: the strongest brine of this recipe, ${plainNumber(strongestPercent, 1)} % salt, may leave it at ${plainNumber(most, 2)} % after ${plainNumber(order.soakHours, 1)} hours.`,
    TARGET_FIELD, `Soak longer, cut the pieces thinner${skinToo}, or use more brine to the fish.`,
  );
}

/** The first brine on the scale, from a strength upward, whose low end meets the target. */
function weighable(percent: number, target: FinishedTarget, brineGrams: number, scaleStepGrams: number, bench: Bench): Outcome<ScaledBrine> {
  let brine = bench.brineOf(percent, scaleStepGrams);
  for (let steps = 1; steps <= MOST_STEPS_UP && brine.ok; steps += 1) {
    if (bench.lowEndOf(brine.value) >= target.percent - TARGET_SLIP) return good(brine.value);
    brine = bench.brineOf(percent + (100 * steps * scaleStepGrams) / brineGrams, scaleStepGrams);
  }
  return brine.ok ? bad('The scale is too coarse to weigh a brine for this target.', 'scaleStepGrams', 'Use a finer scale, or make more brine.') : atTarget(brine);
}

/** A refusal of a strength, which nobody typed, told of the target that asked for it. */
function atTarget({ problem }: Fault): Fault {
  return { ok: false, problem: problem.field === 'target.brinePercent' ? { ...problem, field: TARGET_FIELD } : problem };
}
