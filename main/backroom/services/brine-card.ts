/** The brine card of a batch: the recipe scaled to today's fillets, in the words and measures of this kitchen. */
import { brineCard, COLD_BRINE_CELSIUS, type BrineCard as ScaledCard, type CardOrder } from '../../../app/brine/card.ts';
import { mixtureOf } from '../../../app/brine/ingredients.ts';
import { targetOfKeys } from '../../../app/brine/target.ts';
import type { BrineCard, Recipe } from '../../../app/contract/requests/brine-bench.ts';
import { TICKS_PER_CELSIUS } from '../../../app/measures/temperature.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { cautionSentences, fishCautions } from './brine-card-cautions.ts';
import { householdWords, remarkOf } from './brine-card-words.ts';
import { workingsOf } from './brine-card-workings.ts';
import { kitchenOf } from './kitchen.ts';
import { fishOf } from './species.ts';
import type { TubLots } from './tub-lots.ts';

/** Finished over brined weight where nobody has weighed it yet: hot-smoked fish loses 15 to 25 %, cold-smoked 8 to 15 % (from memory). */
const USUAL_YIELD_PERCENT = { hot: 80, either: 80, cold: 88 } as const;
/** A kitchen scale shows whole grams; fillets under a kilogram are weighed with a small scale that shows tenths. */
const SMALL_SCALE_BELOW_GRAMS = 1000;

export interface CardWish {
  readonly recipe: Recipe;
  readonly tub: TubLots;
  readonly filletGrams: number;
  /** Finished over brined weight in per cent, where it is known. */
  readonly yieldPercent: number | undefined;
}

/**
 * Works out the card; changes nothing.
 * @throws Refusal INVALID_INPUT or, for a recipe that can't be made, RULE_BLOCKS with the recipe's own fault
 */
export function makeCard(room: BookRoom, wish: CardWish): BrineCard {
  const { recipe, filletGrams } = wish;
  const kitchen = kitchenOf(room.book);
  const yieldPercent = wish.yieldPercent ?? ('yieldPercent' in recipe.target ? recipe.target.yieldPercent : USUAL_YIELD_PERCENT[recipe.process]);
  const order: CardOrder = {
    recipe: { name: recipe.name, ingredients: recipe.ingredients.map(({ id, parts }) => ({ id, parts })), salt: { ingredientId: recipe.saltIngredientId } },
    filletGrams, ratio: recipe.ratio, target: targetOf(recipe), yieldPercent, fish: fishOf(room, wish.tub.species.id),
    scaleStepGrams: filletGrams < SMALL_SCALE_BELOW_GRAMS ? 0.1 : 1,
    pour: kitchen.massUnit === 'lb' ? 'us-quarts' : 'litres',
  };
  const card = cardOf(order, room);
  const sugarGrams = mixtureOf(card.lines).sugarGrams;
  return {
    recipeId: recipe.id, recipeName: recipe.name, recipeVersion: recipe.version,
    filletGrams, ratio: recipe.ratio,
    lines: card.lines.map((line) => ({
      ingredientId: line.ingredient.id, name: line.ingredient.name, grams: line.grams, saltGrams: line.saltGrams,
      household: householdWords(line.household), remark: remarkOf(line),
    })),
    totalGrams: card.totalGrams, litres: card.litres,
    brineTicks: Math.round(COLD_BRINE_CELSIUS * TICKS_PER_CELSIUS),
    salometerDegrees: card.salometerDegrees, percentByWeight: card.percentByWeight, waterPhasePercent: card.waterPhasePercent,
    floatShowsDegrees: floatDegrees(card), sugarPercent: (100 * sugarGrams) / card.totalGrams,
    finishedEstimate: finishedEstimate(card, yieldPercent),
    soakHours: recipe.soakHours, turnHours: recipe.turnHours,
    cautions: [...cautionSentences(card.cautions), ...fishCautions(kitchen, recipe, wish.tub)],
    workings: workingsOf({ card, order, yieldPercent }),
  };
}

/** A problem of the recipe itself is not the fault of what was typed now. */
function cardOf(order: CardOrder, room: BookRoom): ScaledCard {
  const card = brineCard(order, room.catalogue.ingredients);
  if (card.ok) return card.value;
  const { field = '', remedy } = card.problem;
  if (field === 'yieldPercent') return unwrap(card);
  const message = `“${order.recipe.name}” can’t be mixed for these fillets. ${card.problem.message}`;
  throw new Refusal('RULE_BLOCKS', message, { remedy, fields: [{ path: ['recipeId'], message }] });
}

function targetOf(recipe: Recipe): CardOrder['target'] {
  const target = targetOfKeys(recipe.target);
  if (target.ok) return target.value;
  throw new Refusal('RULE_BLOCKS', `“${recipe.name}” has no target that can be worked out. ${target.problem.message}`, { remedy: target.problem.remedy });
}

/** Off the stem the nearest end stands; the card's caution says that it is off. */
function floatDegrees({ float }: ScaledCard): number {
  if (float.kind === 'shows') return float.degrees;
  return float.kind === 'above-scale' ? 100 : 0;
}

/** Without an estimate of the finished fish the brined fish's stands, which is a yield of 100 %; the card's caution says so. */
function finishedEstimate(card: ScaledCard, yieldPercent: number): BrineCard['finishedEstimate'] {
  const { percent, lowPercent, highPercent } = card.finished ?? card.equilibrium;
  return { percent, low: lowPercent, high: highPercent, yieldPercent: card.finished === undefined ? 100 : yieldPercent };
}
