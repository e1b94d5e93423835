/** How each figure of a dry cure's card was worked out. */
import { DRY_CURE_ASSUMPTION, type DryCureTarget, type ScaledDryCure } from '../../../app/brine/dry-cure.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import type { BrineCard } from '../../../app/contract/requests/brine-bench.ts';
import { lineWorking, recipeSource } from './brine-card-line-workings.ts';
import { goalWords, type CardWish } from './brine-card-order.ts';
import { timeWorkings, type Working } from './brine-card-workings.ts';

export interface WorkedDry {
  readonly wish: CardWish;
  readonly cure: ScaledDryCure;
  readonly lines: BrineCard['lines'];
  readonly target: DryCureTarget;
  readonly finishedEstimate: BrineCard['finishedEstimate'];
  readonly stepGrams: number;
}

/** One working a figure, named by its key on the card. */
export function dryWorkings({ wish, cure, lines, target, finishedEstimate, stepGrams }: WorkedDry): Working[] {
  const { recipe, fish, filletGrams, choices } = wish;
  const source = recipeSource(recipe);
  const allParts = recipe.ingredients.reduce((sum, { parts }) => sum + parts, 0);
  const saltGrams = cure.mixture.saltGrams;
  const { low, high, yieldPercent } = finishedEstimate;
  return [
    ...cure.lines.map((line) => {
      const parts = recipe.ingredients.find(({ id }) => id === line.ingredient.id)?.parts ?? 0;
      return lineWorking(line, `${plainNumber(parts, 3)} of ${plainNumber(allParts, 3)} parts of a cure of ${plainNumber(cure.totalGrams, 1)} g. Rounded to the scale’s ${plainNumber(stepGrams, 1)} g: ${plainNumber(line.grams, 1)} g.`, source);
    }),
    { figure: 'target', text: `${goalWords(target, false)}: ${choices.target === undefined ? 'the goal of the recipe' : 'chosen for this batch in place of the recipe’s'}. The weight of the cure was solved for it.`, source },
    { figure: 'totalGrams', text: `The lines added up: ${lines.map((line) => plainNumber(line.grams, 1)).join(' + ')} = ${plainNumber(cure.totalGrams, 1)} g.`, source: 'Sum of the weights (computed)' },
    {
      figure: 'curePerFishPercent',
      text: `${plainNumber(cure.totalGrams, 1)} g of cure on ${plainNumber(filletGrams, 1)} g of fish: ${plainNumber(cure.curePerFishPercent, 2)} %, ${plainNumber(cure.cureGramsPerKilogramFish, 1)} g to the kilogram, ${plainNumber(cure.saltGramsPerKilogramFish, 1)} g of it salt.`,
      source: 'Mass balance (computed)',
    },
    { figure: 'percentByWeight', text: `${plainNumber(saltGrams, 1)} g of salt in ${plainNumber(cure.totalGrams, 1)} g of cure: ${plainNumber(cure.percentByWeight, 2)} %.`, source: 'Mass balance (computed), with the salt of each ingredient as its line names the source' },
    {
      figure: 'waterPhasePercent',
      text: `Salt over salt and water of the cure alone: ${plainNumber(cure.waterPhasePercent, 1)} %. In the fish at equilibrium it comes to ${plainNumber(cure.equilibriumWaterPhasePercent, 2)} %.`,
      source: 'Ontario Ministry of Agriculture, Fish Plant Guidelines, F.B.14.14 Salting (read)',
    },
    { figure: 'sugarPercent', text: `${plainNumber(cure.mixture.sugarGrams, 1)} g of sugar in ${plainNumber(cure.totalGrams, 1)} g of cure.`, source: 'Mass balance (computed), with the sugar of each ingredient as its line names the source' },
    {
      figure: 'finishedEstimate',
      text: `An estimate: the fish, ${plainNumber(fish.moisturePercent, 1)} % water, takes up all the salt of the cure and keeps ${plainNumber(yieldPercent, 0)} % of its cured weight: ${plainNumber(low, 1)} to ${plainNumber(high, 1)} %. ${DRY_CURE_ASSUMPTION} Only a laboratory proves it.`,
      source: 'Mass balance (computed); usual yields (from memory)',
    },
    ...timeWorkings(recipe.soakHours, recipe.turnHours, source),
  ];
}
