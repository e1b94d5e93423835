/** The card of a brine after it was mended: what is in the tub now, with how each figure came about. */
import { brineOfLines, cardOfScaled, type CardOrder } from '../../../app/brine/card.ts';
import { mixtureOf, type WeighedIngredient } from '../../../app/brine/ingredients.ts';
import { rawFishOf } from '../../../app/brine/recipe.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import type { BrineCard } from '../../../app/contract/requests/brine-bench.ts';
import type { StoredBatch } from '../book/stored.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { brineFigures } from './brine-card.ts';
import { cautionSentences, choiceCautions, fishCautions } from './brine-card-cautions.ts';
import { estimateFor } from './brine-card-estimate.ts';
import { ingredientsOfBatch } from './brine-card-ingredients.ts';
import { lineWorking, recipeSource } from './brine-card-line-workings.ts';
import { scaleStepFor, type CardWish } from './brine-card-order.ts';
import { brineWorkings, timeWorkings, type Working } from './brine-card-workings.ts';
import { kitchenOf } from './kitchen.ts';
import { nitriteCautions } from './nitrite-rule.ts';
import { coefficientFor } from './soak-coefficient.ts';
import { fishOf } from './species.ts';
import { lotsForOneTub } from './tub-lots.ts';

/**
 * The batch's card with these lines in place of its own; recipe, version and goal stay.
 * @param when the moment of the mend, as people say it
 */
export function mendedCard(room: BookRoom, batch: StoredBatch, lines: readonly WeighedIngredient[], when: string): BrineCard {
  const fish = fishOf(room, batch.speciesId);
  const kitchen = kitchenOf(room.book);
  const filletGrams = batch.fillets.grams;
  const weighed = lines.filter((line) => line.grams > 0);
  const brine = brineOfLines(weighed, unwrap(rawFishOf(filletGrams, fish)));
  const { recipe, card: before } = batch;
  const { yieldPercent } = before.finishedEstimate;
  const order: CardOrder = {
    recipe: { name: recipe.name, ingredients: recipe.ingredients, salt: { ingredientId: recipe.saltIngredientId } },
    filletGrams, ratio: brine.totalGrams / filletGrams, target: { form: 'brinePercent', percent: brine.percentByWeight }, yieldPercent, fish,
    scaleStepGrams: scaleStepFor(filletGrams), pour: kitchen.massUnit === 'lb' ? 'us-quarts' : 'litres',
  };
  const card = unwrap(cardOfScaled(order, brine), 'RULE_BLOCKS');
  const wish: CardWish = {
    recipe, fish, filletGrams, kitchen, ingredients: ingredientsOfBatch(room, batch),
    choices: { yieldPercent, thickestMm: batch.thickestMm, thinnestMm: batch.thinnestMm ?? undefined, skin: batch.skin },
  };
  const figures = brineFigures(card);
  const estimate = estimateFor(wish, card, coefficientFor(room, fish));
  return {
    ...before, ...figures, ratio: order.ratio, finishedEstimate: estimate.figures,
    cautions: [
      `Mended at ${when}: the weights are those of the brine as it is now.`,
      ...cautionSentences(card), ...choiceCautions(wish),
      ...nitriteCautions(card.lines, { ...fish, grams: filletGrams }, estimate.figures.yieldPercent, 'wet'),
      ...fishCautions(kitchen, recipe, lotsForOneTub(room, batch.lotIds)),
    ],
    workings: asMended([
      ...card.lines.map((line) => lineWorking(line, lineHow(before, line), `Mass balance of the mend (computed), on the card of ${recipeSource(recipe)}`)),
      { figure: 'ratio', text: `${plainNumber(brine.totalGrams, 1)} g of brine to ${plainNumber(filletGrams, 1)} g of fish: ${plainNumber(order.ratio, 2)} to 1.`, source: 'Mass balance of the mend (computed)' },
      { figure: 'target', text: `${before.target === '' ? 'The recipe’s goal' : before.target} is what the card was made for; the mend brought the strength back to it as far as it goes.`, source: recipeSource(recipe) },
      ...brineWorkings(figures, mixtureOf(card.lines)),
      { figure: 'finishedEstimate', text: estimate.text, source: estimate.source },
      ...timeWorkings(recipe.soakHours, recipe.turnHours, recipeSource(recipe)),
    ], when),
  };
}

function lineHow(before: BrineCard, { ingredient, grams }: WeighedIngredient): string {
  const had = before.lines.find((line) => line.ingredientId === ingredient.id);
  const was = had === undefined ? 'it was not in the card before' : `the card before had ${plainNumber(had.grams, 1)} g`;
  return `${plainNumber(grams, 1)} g is in the brine now; ${was}.`;
}

function asMended(workings: readonly Working[], when: string): Working[] {
  return workings.map((working) => ({ ...working, text: `As mended at ${when}. ${working.text}` }));
}
