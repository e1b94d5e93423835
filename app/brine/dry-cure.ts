/**
 * A dry cure scaled to today's fillets. It is reckoned to equilibrium with everything retained: all
 * salt and water of the cure end up in the fish, as in a bag whose drip is taken up again. Where the
 * drip is poured off, or the cure is rinsed away before it is through, the fish holds less salt.
 */
import { HEAVIEST_GRAMS } from '../measures/mass.ts';
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { finishedFraction, type RawFish } from './balance.ts';
import { SATURATED_SALT_FRACTION, type BrineMixture } from './density.ts';
import { ingredientById, LEAST_SALT_PERCENT, mixtureOf, type Ingredient, type WeighedIngredient } from './ingredients.ts';
import { rawFishOf, USUAL_FISH, type FishComposition, type Recipe } from './recipe.ts';
import { plainNumber } from './rounding.ts';
import { roundLines, type ScaledLine } from './scaled-lines.ts';
import { saltPerWater, waterPhaseFraction } from './water-phase.ts';

/** What the cure is to reach. `curePerFishPercent` is the whole cure over the raw fish by weight. */
export type DryCureTarget =
  | { readonly form: 'curePerFishPercent'; readonly percent: number }
  | { readonly form: 'fishEquilibriumWaterPhasePercent'; readonly percent: number }
  | { readonly form: 'finishedWaterPhasePercent'; readonly percent: number; readonly yieldPercent: number };

export interface DryCureOrder {
  /** All parts count, those of the salt too; its `salt` names the line that must be there. */
  readonly recipe: Recipe;
  readonly filletGrams: number;
  readonly target: DryCureTarget;
  readonly fish?: FishComposition | undefined;
  readonly scaleStepGrams?: number | undefined;
}

/** A cure scaled to fillets; every figure is of the rounded grams. */
export interface ScaledDryCure {
  readonly lines: readonly ScaledLine[];
  readonly mixture: BrineMixture;
  readonly totalGrams: number;
  /** Salt of the cure by weight. */
  readonly percentByWeight: number;
  /** Salt over salt and water of the cure alone: 100 where it has no water. */
  readonly waterPhasePercent: number;
  readonly curePerFishPercent: number;
  readonly cureGramsPerKilogramFish: number;
  readonly saltGramsPerKilogramFish: number;
  /** Of the fish at equilibrium, everything retained; at most what water holds. */
  readonly equilibriumWaterPhasePercent: number;
  /** There is more salt than the water of fish and cure can take: some stays lying, and time decides. */
  readonly saltLeftOver: boolean;
  /** As solved, before rounding to the scale. */
  readonly unroundedCurePerFishPercent: number;
}

/** What the figures rest on, for the card. */
export const DRY_CURE_ASSUMPTION = 'Reckoned to equilibrium with everything retained: in a bag, the drip taken up again. Where the drip is poured off the fish holds less salt.';
const USUAL_STEP_GRAMS = 0.1;
const HEAVIEST_CURE_PERCENT = 100;
const MOST_PARTS = 1e9;

/**
 * Scales a dry cure: the parts stay as they are, the amount of cure to the fish is solved, then every
 * line is rounded to the scale's step, half up.
 * @returns the cure, or a problem naming the key (`recipe.ingredients.1.parts`, `target.percent` under its form's name …)
 */
export function scaleDryCure(order: DryCureOrder, ingredients: readonly Ingredient[]): Outcome<ScaledDryCure> {
  const stepGrams = order.scaleStepGrams ?? USUAL_STEP_GRAMS;
  const { filletGrams } = order;
  if (!(filletGrams > 0)) return bad(`Fillets of ${plainNumber(filletGrams, 1)} g can’t be.`, 'filletGrams', 'Weigh the fillets and give the grams, more than zero.');
  if (filletGrams > HEAVIEST_GRAMS) return bad(`Fillets of ${plainNumber(filletGrams, 0)} g are more than a tonne.`, 'filletGrams', 'Check the unit and the point.');
  if (!(stepGrams > 0 && stepGrams <= 1000)) return bad(`A scale with a step of ${plainNumber(stepGrams, 3)} g can’t weigh this.`, 'scaleStepGrams', 'Give the step the scale shows, above 0 and at most 1000 g.');
  const shares = cureShares(order.recipe, ingredients);
  if (!shares.ok) return shares;
  const fish = rawFishOf(filletGrams, order.fish ?? USUAL_FISH);
  if (!fish.ok) return fish;
  const perGram = mixtureOf(shares.value);
  const cureGrams = cureGramsFor(order.target, fish.value, perGram);
  if (!cureGrams.ok) return cureGrams;
  return roundCure(shares.value.map((line) => ({ ingredient: line.ingredient, grams: line.grams * cureGrams.value })), fish.value, stepGrams);
}

/**
 * Water-phase salt of the finished fish in per cent, everything of the cure retained.
 * @param yieldPercent finished over cured weight (fish with the salt and water of its cure), above 0 to 100
 * @returns undefined when the loss is all the water, or more
 */
export function finishedAfterDryCure(fish: RawFish, cure: Pick<BrineMixture, 'saltGrams' | 'waterGrams'>, yieldPercent: number): number | undefined {
  const cured = {
    grams: fish.grams + cure.saltGrams + cure.waterGrams,
    saltGrams: fish.grams * fish.saltFraction + cure.saltGrams,
    waterGrams: fish.grams * fish.moistureFraction + cure.waterGrams,
  };
  const fraction = finishedFraction(cured, yieldPercent / 100);
  return fraction === undefined ? undefined : 100 * fraction;
}

/** A gram of the cure, line by line. */
function cureShares(recipe: Recipe, ingredients: readonly Ingredient[]): Outcome<WeighedIngredient[]> {
  const lines: WeighedIngredient[] = [];
  for (const [index, { id, parts }] of recipe.ingredients.entries()) {
    const field = `recipe.ingredients.${index}`;
    const ingredient = ingredientById(ingredients, id);
    if (ingredient === undefined) return bad(`There is no ingredient “${id}”.`, `${field}.id`, 'Use an ingredient of the kitchen’s list, or add it there first.');
    if (lines.some((line) => line.ingredient.id === id)) return bad(`${ingredient.name} is in the cure twice.`, `${field}.id`, 'Put its parts together in one line.');
    if (!(parts > 0)) return bad(`${ingredient.name} has ${plainNumber(parts, 3)} parts.`, `${field}.parts`, 'Give its weight, more than zero, or take the line out: in a dry cure the salt has its parts too.');
    if (parts > MOST_PARTS) return bad(`${ingredient.name} has more than a thousand million parts.`, `${field}.parts`, 'Check the figure.');
    lines.push({ ingredient, grams: parts });
  }
  const allParts = lines.reduce((sum, line) => sum + line.grams, 0);
  if (lines.length === 0 || mixtureOf(lines).saltGrams * 100 < LEAST_SALT_PERCENT * allParts) {
    return bad('The cure has no salt: sugar and spice alone don’t cure fish.', 'recipe.ingredients', 'Add salt with its parts by weight.');
  }
  const salt = lines.find((line) => line.ingredient.id === recipe.salt.ingredientId);
  if (salt === undefined) return bad(`The salt of the cure, “${recipe.salt.ingredientId}”, is not in it.`, 'recipe.salt.ingredientId', 'Add it to the ingredients, or name the one that is there.');
  return good(lines.map((line) => ({ ...line, grams: line.grams / allParts })));
}

/** Grams of cure; the balance at equilibrium is linear in them. */
function cureGramsFor(target: DryCureTarget, fish: RawFish, perGram: BrineMixture): Outcome<number> {
  const field = `target.${target.form}`;
  const { percent } = target;
  if (!(percent > 0)) return bad(`A target of ${plainNumber(percent, 3)} % can’t be.`, field, 'It must be more than zero.');
  if (target.form === 'curePerFishPercent') {
    return percent <= HEAVIEST_CURE_PERCENT ? good((fish.grams * percent) / 100) : bad(`${plainNumber(percent, 1)} % is more cure than fish.`, field, 'Give the weight of the cure over that of the fish in per cent: 2 to 35 is usual.');
  }
  if (percent > 100 * SATURATED_SALT_FRACTION) return bad(`${plainNumber(percent, 3)} % water-phase salt is out of reach: water holds 26.395 % at most.`, field, 'Ask for less: finished fish has 2 to 8 % as a rule.');
  const lossFraction = target.form === 'finishedWaterPhasePercent' ? 1 - target.yieldPercent / 100 : 0;
  if (target.form === 'finishedWaterPhasePercent' && !(target.yieldPercent > 0 && target.yieldPercent <= 100)) {
    return bad(`A yield of ${plainNumber(target.yieldPercent, 2)} % can’t be.`, 'target.yieldPercent', 'Give finished over cured weight in per cent, above 0 and at most 100.');
  }
  if (fish.moistureFraction <= lossFraction) return bad(`A yield of ${plainNumber(100 * (1 - lossFraction), 2)} % takes all the water the fish has.`, 'target.yieldPercent', `Check the weights: this fish is ${plainNumber(100 * fish.moistureFraction, 1)} % water.`);
  const perWater = saltPerWater(percent / 100);
  // fish salt + salt = k × (fish water + water − loss × (fish + salt + water)), solved for the grams of cure
  const missingGrams = fish.grams * (perWater * (fish.moistureFraction - lossFraction) - fish.saltFraction);
  const gainPerGram = perGram.saltGrams - perWater * (perGram.waterGrams - lossFraction * (perGram.saltGrams + perGram.waterGrams));
  if (missingGrams <= 0) return bad(`Without any cure this fish already has ${plainNumber(percent, 3)} % water-phase salt or more.`, field, 'Ask for more, or check the fish’s own salt.');
  const cureGrams = missingGrams / gainPerGram;
  if (gainPerGram <= 0 || cureGrams > fish.grams * (HEAVIEST_CURE_PERCENT / 100)) {
    return bad(`${plainNumber(percent, 3)} % water-phase salt is out of reach: this cure has too little salt for its water and sugar.`, field, 'Use more salt in the cure, or ask for less.');
  }
  return good(cureGrams);
}

function roundCure(solved: readonly WeighedIngredient[], fish: RawFish, stepGrams: number): Outcome<ScaledDryCure> {
  const { lines, mixture, totalGrams } = roundLines(solved, stepGrams);
  if (mixture.saltGrams === 0) return bad(`A scale with a step of ${plainNumber(stepGrams, 3)} g is too coarse for so little cure.`, 'scaleStepGrams', 'Use a finer scale, or cure more fish.');
  const equilibrium = waterPhaseFraction(fish.grams * fish.saltFraction + mixture.saltGrams, fish.grams * fish.moistureFraction + mixture.waterGrams);
  return good({
    lines, mixture, totalGrams,
    percentByWeight: (100 * mixture.saltGrams) / totalGrams,
    waterPhasePercent: 100 * waterPhaseFraction(mixture.saltGrams, mixture.waterGrams),
    curePerFishPercent: (100 * totalGrams) / fish.grams,
    cureGramsPerKilogramFish: (1000 * totalGrams) / fish.grams,
    saltGramsPerKilogramFish: (1000 * mixture.saltGrams) / fish.grams,
    equilibriumWaterPhasePercent: 100 * Math.min(equilibrium, SATURATED_SALT_FRACTION),
    saltLeftOver: equilibrium > SATURATED_SALT_FRACTION,
    unroundedCurePerFishPercent: (100 * solved.reduce((sum, line) => sum + line.grams, 0)) / fish.grams,
  });
}
