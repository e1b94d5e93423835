/** The brine card of a batch: the recipe scaled to today's fillets, in the words and measures of this kitchen. */
import { COLD_BRINE_CELSIUS, type BrineCard as ScaledCard } from '../../../app/brine/card.ts';
import { firstSolidCelsius } from '../../../app/brine/freezing.ts';
import { mixtureOf, type Ingredient } from '../../../app/brine/ingredients.ts';
import type { BrineCard } from '../../../app/contract/requests/brine-bench.ts';
import type { Recipe } from '../../../app/contract/requests/recipes.ts';
import { TICKS_PER_CELSIUS } from '../../../app/measures/temperature.ts';
import type { BookRoom } from '../room.ts';
import { cautionSentences, choiceCautions, fishCautions } from './brine-card-cautions.ts';
import { makeDryCard } from './brine-card-dry.ts';
import { estimateFor } from './brine-card-estimate.ts';
import type { CardChoices } from './brine-card-faults.ts';
import { goalKeys, goalWords, type CardWish } from './brine-card-order.ts';
import { householdWords, remarkOf } from './brine-card-words.ts';
import { workingsOf } from './brine-card-workings.ts';
import { sizeBrine } from './brine-size.ts';
import { kitchenOf } from './kitchen.ts';
import { nitriteCautions } from './nitrite-rule.ts';
import { coefficientFor } from './soak-coefficient.ts';
import { refuseWrongThickness } from './soak-thickness.ts';
import { fishOf } from './species.ts';
import type { TubLots } from './tub-lots.ts';

/** A brine at 38 °F, in ticks. */
const COLD_BRINE_TICKS = Math.round(COLD_BRINE_CELSIUS * TICKS_PER_CELSIUS);

export interface CardRequest {
  readonly recipe: Recipe;
  readonly tub: TubLots;
  readonly filletGrams: number;
  readonly choices: CardChoices;
  readonly ingredients: readonly Ingredient[];
}

/**
 * Works out the card; changes nothing.
 * @throws Refusal INVALID_INPUT at what was typed or, for a recipe that can't be made, RULE_BLOCKS with the recipe's own fault
 */
export function makeCard(room: BookRoom, request: CardRequest): BrineCard {
  const { recipe, tub, filletGrams, choices, ingredients } = request;
  refuseWrongThickness(choices.thickestMm, choices.thinnestMm);
  const fish = fishOf(room, tub.species.id);
  const kitchen = kitchenOf(room.book);
  const wish: CardWish = { recipe, fish, filletGrams, choices, kitchen, ingredients };
  const remembered = fishCautions(kitchen, recipe, tub);
  if (recipe.cure === 'dry') return makeDryCard(wish, remembered);
  const coefficient = coefficientFor(room, fish);
  const { card, order, ratioWords } = sizeBrine(wish, coefficient);
  const estimate = estimateFor(wish, card, coefficient);
  const figures = brineFigures(card);
  return {
    recipeId: recipe.id, recipeName: recipe.name, recipeVersion: recipe.version,
    filletGrams, ratio: order.ratio, cure: 'wet', curePerFishPercent: null, target: goalWords(order.target, choices.aimLowEnd === true), goal: goalKeys(order.target),
    ...figures,
    finishedEstimate: estimate.figures,
    soakHours: recipe.soakHours, turnHours: recipe.turnHours,
    cautions: [
      ...cautionSentences(card),
      ...choiceCautions(wish),
      ...nitriteCautions(card.lines, { ...fish, grams: filletGrams }, estimate.figures.yieldPercent, 'wet'),
      ...remembered,
    ],
    workings: workingsOf({ wish, card, order, figures, estimate, ratioWords }),
  };
}

/** The figures of a brine that its card shows, whatever it was scaled by. */
export type BrineFigures = Pick<BrineCard, 'lines' | 'totalGrams' | 'litres' | 'brineTicks' | 'salometerDegrees' | 'percentByWeight' | 'waterPhasePercent' | 'floatShowsDegrees' | 'firstSolidTicks' | 'sugarPercent'>;

/** The lines and figures of a scaled brine, as they cross the contract. */
export function brineFigures(card: ScaledCard): BrineFigures {
  return {
    lines: card.lines.map((line) => ({
      ingredientId: line.ingredient.id, name: line.ingredient.name, grams: line.grams, saltGrams: line.saltGrams,
      household: householdWords(line.household), remark: remarkOf(line),
    })),
    totalGrams: card.totalGrams, litres: card.litres, brineTicks: COLD_BRINE_TICKS,
    salometerDegrees: card.salometerDegrees, percentByWeight: card.percentByWeight, waterPhasePercent: card.waterPhasePercent,
    floatShowsDegrees: floatDegrees(card),
    firstSolidTicks: Math.round(firstSolidCelsius(card.waterPhasePercent) * TICKS_PER_CELSIUS),
    sugarPercent: (100 * mixtureOf(card.lines).sugarGrams) / card.totalGrams,
  };
}

/** Off the stem the nearest end stands; the card's caution says that it is off. */
function floatDegrees({ float }: ScaledCard): number {
  if (float.kind === 'shows') return float.degrees;
  return float.kind === 'above-scale' ? 100 : 0;
}
