/** A brine recipe and its scaling to today's fillets. */
import { HEAVIEST_GRAMS } from '../measures/mass.ts';
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { equilibriumFraction, type RawFish } from './balance.ts';
import { mixtureLitres, SATURATED_SALT_FRACTION, type BrineMixture } from './density.ts';
import { ingredientById, isWatery, LEAST_SALT_PERCENT, mixtureOf, type Ingredient, type WeighedIngredient } from './ingredients.ts';
import { plainNumber } from './rounding.ts';
import { roundLines, type ScaledLine } from './scaled-lines.ts';
import { salometerOfPercent } from './strength.ts';
import { goalGap, goalOfTarget, targetField, targetWords, type BrineGoal, type BrineTarget } from './target.ts';
import { compositionFault, waterPhaseFraction } from './water-phase.ts';

/** Parts by weight fix the proportions of every ingredient but the salt, whose own parts are not used. */
export interface Recipe {
  readonly name: string;
  readonly ingredients: readonly { readonly id: string; readonly parts: number }[];
  readonly salt: { readonly ingredientId: string };
}

/** Moisture and natural salt of the raw fish, per cent by weight. */
export interface FishComposition {
  readonly moisturePercent: number;
  readonly saltPercent: number;
}

/** Raw fish where the species is not known: the middle of raw finfish in USDA Standard Reference 27, 2014 (computed). */
export const USUAL_FISH: FishComposition = { moisturePercent: 72, saltPercent: 0.15 };
/** A kitchen scale that shows tenths of a gram. */
const USUAL_STEP_GRAMS = 0.1;
/** More brine than this to one of fish is a slip of the finger. */
const HIGHEST_RATIO = 1000;
/** Keeps a sum of parts a number. */
const MOST_PARTS = 1e9;
/** Salt water above this by rounding alone is beyond what the density is known for. */
const HIGHEST_ROUNDED_FRACTION = 0.27;

export interface ScaleOrder {
  readonly recipe: Recipe;
  readonly filletGrams: number;
  /** Brine to fish by weight. */
  readonly ratio: number;
  readonly target: BrineTarget;
  readonly fish?: FishComposition | undefined;
  readonly scaleStepGrams?: number | undefined;
}

/** A recipe scaled to fillets; every figure is of the rounded grams. */
export interface ScaledBrine {
  readonly lines: readonly ScaledLine[];
  readonly mixture: BrineMixture;
  readonly totalGrams: number;
  readonly litresAt4C: number;
  readonly percentByWeight: number;
  readonly waterPhasePercent: number;
  readonly salometerDegrees: number;
  readonly equilibriumWaterPhasePercent: number;
  /** As solved, before rounding to the scale. */
  readonly unroundedPercentByWeight: number;
}

/**
 * Scales a recipe: solves the salt for the target, and every line so that all of them weigh
 * ratio × fillets, then rounds each line to the scale's step, half up.
 * @param order fillets in grams, fish and target in per cent; see the types
 * @param ingredients the catalogue the recipe's ids are looked up in
 * @returns the brine, or a problem naming the input key (`recipe.ingredients.1.parts`, `target.brinePercent` …)
 */
export function scaleRecipe(order: ScaleOrder, ingredients: readonly Ingredient[]): Outcome<ScaledBrine> {
  const stepGrams = order.scaleStepGrams ?? USUAL_STEP_GRAMS;
  const amounts = amountsFault(order, stepGrams);
  if (amounts !== undefined) return amounts;
  const parts = recipeParts(order.recipe, ingredients);
  if (!parts.ok) return parts;
  const fish = rawFishOf(order.filletGrams, order.fish ?? USUAL_FISH);
  if (!fish.ok) return fish;
  const goal = goalOfTarget(order.target, fish.value);
  if (!goal.ok) return goal;
  const solved = solveSalt(parts.value, goal.value, order.target, order.filletGrams * order.ratio);
  if (!solved.ok) return solved;
  return roundBrine(solved.value, fish.value, stepGrams);
}

/** Raw fish of a weight, or a problem naming `fish.…`. */
export function rawFishOf(grams: number, fish: FishComposition): Outcome<RawFish> {
  const fault = compositionFault(fish.saltPercent, fish.moisturePercent, 'fish.');
  return fault ?? good({ grams, moistureFraction: fish.moisturePercent / 100, saltFraction: fish.saltPercent / 100 });
}

interface RecipePart {
  readonly ingredient: Ingredient;
  /** Of all but the salt; 0 for the salt. */
  readonly share: number;
  readonly isSalt: boolean;
}

function amountsFault(order: ScaleOrder, stepGrams: number): Extract<Outcome<never>, { ok: false }> | undefined {
  const { filletGrams, ratio } = order;
  if (!(filletGrams > 0)) return bad(`Fillets of ${plainNumber(filletGrams, 1)} g can’t be.`, 'filletGrams', 'Weigh the fillets and give the grams, more than zero.');
  if (filletGrams > HEAVIEST_GRAMS) return bad(`Fillets of ${plainNumber(filletGrams, 0)} g are more than a tonne.`, 'filletGrams', 'Check the unit and the point.');
  if (!(ratio > 0)) return bad(`A ratio of ${plainNumber(ratio, 3)} brine to fish can’t be.`, 'ratio', 'Give the weight of brine over the weight of fish, such as 1.5.');
  if (ratio > HIGHEST_RATIO) return bad(`A ratio of ${plainNumber(ratio, 0)} is more than ${HIGHEST_RATIO} of brine to 1 of fish.`, 'ratio', 'Check the point: 1 to 3 is usual.');
  if (!(stepGrams > 0 && stepGrams <= 1000)) return bad(`A scale with a step of ${plainNumber(stepGrams, 3)} g can’t weigh this.`, 'scaleStepGrams', 'Give the step the scale shows, above 0 and at most 1000 g.');
  return undefined;
}

function recipeParts(recipe: Recipe, ingredients: readonly Ingredient[]): Outcome<RecipePart[]> {
  const saltId = recipe.salt.ingredientId;
  const found: { ingredient: Ingredient; parts: number }[] = [];
  for (const [index, { id, parts }] of recipe.ingredients.entries()) {
    const field = `recipe.ingredients.${index}`;
    const ingredient = ingredientById(ingredients, id);
    if (ingredient === undefined) return bad(`There is no ingredient “${id}”.`, `${field}.id`, 'Use an ingredient of the kitchen’s list, or add it there first.');
    if (found.some((line) => line.ingredient.id === id)) return bad(`${ingredient.name} is in the recipe twice.`, `${field}.id`, 'Put its parts together in one line.');
    // The salt's own parts are solved for, so a recipe may leave them at nothing.
    const isEnough = id === saltId ? parts >= 0 : parts > 0;
    if (!isEnough) return bad(`${ingredient.name} has ${plainNumber(parts, 3)} parts.`, `${field}.parts`, 'Give its weight, more than zero, or take the line out.');
    if (parts > MOST_PARTS) return bad(`${ingredient.name} has more than a thousand million parts.`, `${field}.parts`, 'Check the figure.');
    found.push({ ingredient, parts });
  }
  const salt = found.find((line) => line.ingredient.id === saltId)?.ingredient;
  if (salt === undefined) return bad(`The salt to solve for, “${saltId}”, is not in the recipe.`, 'recipe.salt.ingredientId', 'Add it to the ingredients, or name the one that is there.');
  if (salt.saltPercent < LEAST_SALT_PERCENT) return bad(`${salt.name} has hardly any salt: it can’t set the strength.`, 'recipe.salt.ingredientId', 'Name the salt of the recipe.');
  if (!found.some((line) => isWatery(line.ingredient))) return bad('The recipe has no water.', 'recipe.ingredients', 'Add water: a brine needs it to carry the salt into the fish.');
  if (found.length === 1) return bad(`The recipe has nothing but ${salt.name.toLowerCase()}.`, 'recipe.ingredients', 'Add the water.');
  const allParts = found.reduce((sum, line) => sum + (line.ingredient === salt ? 0 : line.parts), 0);
  return good(found.map(({ ingredient, parts }) => ({ ingredient, share: ingredient === salt ? 0 : parts / allParts, isSalt: ingredient === salt })));
}

/** Unrounded lines: the salt in grams is where the goal's balance, which is linear in it, comes to nothing. */
function solveSalt(parts: readonly RecipePart[], goal: BrineGoal, target: BrineTarget, brineGrams: number): Outcome<WeighedIngredient[]> {
  function linesWith(saltLineGrams: number): WeighedIngredient[] {
    return parts.map(({ ingredient, share, isSalt }) => ({ ingredient, grams: isSalt ? saltLineGrams : share * (brineGrams - saltLineGrams) }));
  }
  function gapWith(saltLineGrams: number): number {
    const mixture = mixtureOf(linesWith(saltLineGrams));
    return goalGap(goal, mixture.saltGrams, mixture.waterGrams, brineGrams);
  }
  const field = targetField(target);
  const without = gapWith(0);
  const alone = gapWith(brineGrams);
  const slip = brineGrams * 1e-12;
  const salt = parts.find((part) => part.isSalt)?.ingredient.name ?? '';
  if (without > slip) {
    const percent = (100 * mixtureOf(linesWith(0)).saltGrams) / brineGrams;
    const reason = percent < 0.005 ? 'the fish’s own salt is more' : `the other ingredients alone make a brine of ${plainNumber(percent, 2)} % salt`;
    return bad(`Without any ${salt.toLowerCase()} this is already stronger than ${targetWords(target)}: ${reason}.`, field, 'Use less of the salty ingredients or more water, or ask for more.');
  }
  if (alone < -slip || alone <= without) return bad(`${targetWords(target)} is out of reach: ${salt} alone is weaker.`, field, 'Ask for less, or name a stronger salt.');
  const lines = linesWith(brineGrams * Math.min(1, Math.max(0, -without / (alone - without))));
  const mixture = mixtureOf(lines);
  const fraction = waterPhaseFraction(mixture.saltGrams, mixture.waterGrams);
  if (fraction > SATURATED_SALT_FRACTION * (1 + 1e-12)) {
    return bad(
      `${targetWords(target)} is out of reach: the water of this brine would be ${plainNumber(100 * fraction, 1)} % salt, and water holds 26.395 % at most.`,
      field, target.form.startsWith('brine') ? 'Ask for less, or use more water and less sugar.' : 'Ask for less, or use more brine to the fish.',
    );
  }
  return good(lines);
}

function roundBrine(solved: readonly WeighedIngredient[], fish: RawFish, stepGrams: number): Outcome<ScaledBrine> {
  const { lines, mixture, totalGrams } = roundLines(solved, stepGrams);
  const waterPhase = waterPhaseFraction(mixture.saltGrams, mixture.waterGrams);
  if (totalGrams === 0 || mixture.waterGrams === 0 || waterPhase > HIGHEST_ROUNDED_FRACTION) {
    return bad(`A scale with a step of ${plainNumber(stepGrams, 3)} g is too coarse for so little brine.`, 'scaleStepGrams', 'Use a finer scale, or make more brine.');
  }
  const percentByWeight = (100 * mixture.saltGrams) / totalGrams;
  return good({
    lines,
    mixture,
    totalGrams,
    litresAt4C: mixtureLitres(mixture, 4),
    percentByWeight,
    waterPhasePercent: 100 * waterPhase,
    salometerDegrees: salometerOfPercent(percentByWeight),
    equilibriumWaterPhasePercent: 100 * equilibriumFraction(fish, mixture),
    unroundedPercentByWeight: (100 * mixtureOf(solved).saltGrams) / solved.reduce((sum, line) => sum + line.grams, 0),
  });
}
