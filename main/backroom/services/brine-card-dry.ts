/** The card of a dry cure: the cure weighed to the fish, with no bath and no float. */
import { COLD_BRINE_CELSIUS, yieldFault } from '../../../app/brine/card.ts';
import { DRY_CURE_ASSUMPTION, finishedAfterDryCure, scaleDryCure, type ScaledDryCure } from '../../../app/brine/dry-cure.ts';
import { householdMeasure } from '../../../app/brine/household.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import type { BrineCard } from '../../../app/contract/requests/brine-bench.ts';
import { TICKS_PER_CELSIUS } from '../../../app/measures/temperature.ts';
import { choiceCautions } from './brine-card-cautions.ts';
import { unwrapForCard } from './brine-card-faults.ts';
import { dryTarget, goalKeys, goalWords, orderFormsOf, scaleStepFor, yieldFor, type CardWish } from './brine-card-order.ts';
import { dryWorkings } from './brine-card-workings-dry.ts';
import { householdWords, remarkOf } from './brine-card-words.ts';
import { refuseInput } from './field-refusal.ts';
import { nitriteCautions } from './nitrite-rule.ts';

/** How far a fish's moisture may lie from its species' figure, in points of per cent (common practice). */
const MOISTURE_POINTS = 2.5;
/** How far a yield may turn out from what was expected, in points of per cent (common practice). */
const YIELD_POINTS = 1;

/**
 * Works out the card of a dry cure.
 * @param remembered cautions of the fish itself
 * @throws Refusal as `unwrapForCard`; a size of brine or a low end, which a dry cure hasn't
 */
export function makeDryCard(wish: CardWish, remembered: readonly string[]): BrineCard {
  const { recipe, choices, filletGrams, fish, ingredients, kitchen } = wish;
  if (choices.size !== undefined && choices.size.by !== 'recipe') refuseInput('A dry cure has no brine to size.', ['size'], 'Leave the size out: the cure is weighed to the fish.');
  if (choices.aimLowEnd === true) refuseInput('A dry cure is reckoned to equilibrium, so there is no low end of the thickest piece to aim at.', ['aimLowEnd'], 'Leave it out.');
  const yieldPercent = yieldFor(wish);
  const fault = yieldFault(yieldPercent);
  if (fault !== undefined) unwrapForCard(fault, recipe, choices);
  const target = unwrapForCard(dryTarget(wish), recipe, choices);
  const stepGrams = scaleStepFor(filletGrams);
  const cure = unwrapForCard(scaleDryCure({
    recipe: { name: recipe.name, ingredients: recipe.ingredients.map(({ id, parts }) => ({ id, parts })), salt: { ingredientId: recipe.saltIngredientId } },
    filletGrams, target, fish, scaleStepGrams: stepGrams,
  }, ingredients), recipe, choices);
  const forms = orderFormsOf(wish);
  const lines = cure.lines.map((line): BrineCard['lines'][number] => {
    const household = householdMeasure(line.ingredient, line.grams, kitchen.massUnit === 'lb' ? 'us-quarts' : 'litres', COLD_BRINE_CELSIUS, forms?.[line.ingredient.id]);
    const measured = household === undefined ? line : { ...line, household };
    return { ingredientId: line.ingredient.id, name: line.ingredient.name, grams: line.grams, saltGrams: line.saltGrams, household: householdWords(household), remark: remarkOf(measured) };
  });
  const finishedEstimate = estimateOf(wish, cure, yieldPercent);
  return {
    recipeId: recipe.id, recipeName: recipe.name, recipeVersion: recipe.version,
    filletGrams, ratio: 0, cure: 'dry', curePerFishPercent: cure.curePerFishPercent, target: goalWords(target, false), goal: goalKeys(target),
    lines, totalGrams: cure.totalGrams, litres: 0, brineTicks: Math.round(COLD_BRINE_CELSIUS * TICKS_PER_CELSIUS),
    // A cure has neither degrees nor a float; its own salt by weight and water phase are told.
    salometerDegrees: 0, percentByWeight: cure.percentByWeight, waterPhasePercent: cure.waterPhasePercent, floatShowsDegrees: 0, firstSolidTicks: null,
    sugarPercent: (100 * cure.mixture.sugarGrams) / cure.totalGrams,
    finishedEstimate,
    soakHours: recipe.soakHours, turnHours: recipe.turnHours,
    cautions: [
      DRY_CURE_ASSUMPTION,
      ...(cure.saltLeftOver ? ['There is more salt than the water of the fish can take: some stays lying, and time decides how much goes in. Rinse it off in time.'] : []),
      ...(finishedEstimate.yieldPercent === yieldPercent ? [] : ['With so low a yield the finished salt can’t be estimated; the figure is of the cured fish.']),
      ...choiceCautions(wish),
      ...nitriteCautions(cure.lines, { ...fish, grams: filletGrams }, finishedEstimate.yieldPercent, 'dry'),
      ...remembered,
    ],
    workings: dryWorkings({ wish, cure, lines, target, finishedEstimate, stepGrams }),
  };
}

/** At equilibrium with everything retained; low and high by the fish's water and the yield. */
function estimateOf({ fish, filletGrams }: CardWish, cure: ScaledDryCure, yieldPercent: number): BrineCard['finishedEstimate'] {
  function finishedAt(moisturePercent: number, atYield: number): number | undefined {
    const raw = { grams: filletGrams, moistureFraction: moisturePercent / 100, saltFraction: fish.saltPercent / 100 };
    return finishedAfterDryCure(raw, cure.mixture, Math.min(100, atYield));
  }
  function rangeAt(atYield: number, points: number): BrineCard['finishedEstimate'] | undefined {
    const percent = finishedAt(fish.moisturePercent, atYield);
    const corners = [-MOISTURE_POINTS, MOISTURE_POINTS].flatMap((slip) => [-points, points].map((off) => finishedAt(fish.moisturePercent + slip, atYield + off)));
    const known = corners.filter((corner) => corner !== undefined);
    if (percent === undefined || known.length < corners.length) return undefined;
    return { percent, low: Math.min(percent, ...known), high: Math.max(percent, ...known), yieldPercent: atYield };
  }
  return rangeAt(yieldPercent, YIELD_POINTS) ?? rangeAt(100, 0) ?? refuseInput(`${plainNumber(fish.moisturePercent, 1)} % water is too little for a cure.`, ['fillets'], 'Choose the species again.');
}
