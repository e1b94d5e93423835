/** How each figure of a brine card was worked out, and what it rests on. */
import type { BrineCard, CardOrder } from '../../../app/brine/card.ts';
import { saltFallsFirst, saturatedPercent } from '../../../app/brine/freezing.ts';
import { mixtureOf } from '../../../app/brine/ingredients.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import type { BrineCard as WireCard } from '../../../app/contract/requests/brine-bench.ts';
import type { BrineFigures } from './brine-card.ts';
import type { CardEstimate } from './brine-card-estimate.ts';
import { lineWorkings, recipeSource } from './brine-card-line-workings.ts';
import { goalWords, type CardWish } from './brine-card-order.ts';
import { degreesWords } from './brine-card-words.ts';

export type Working = WireCard['workings'][number];

export interface Worked {
  readonly wish: CardWish;
  readonly card: BrineCard;
  readonly order: CardOrder;
  readonly figures: BrineFigures;
  readonly estimate: CardEstimate;
  readonly ratioWords: string;
}

const SALT_TABLE = 'Salt Institute, “Chemical and physical properties of salt”, table of solubility by temperature (read)';
const COMMON_PRACTICE = 'common practice; no published source is known';

/** One working a figure, named by its key on the card; a line's by `line.` and its ingredient. */
export function workingsOf(worked: Worked): Working[] {
  const { wish, order, figures, estimate, ratioWords } = worked;
  const { recipe, choices } = wish;
  const goal = goalWords(order.target, choices.aimLowEnd === true);
  const fromRecipe = choices.target === undefined ? `the goal of the recipe` : 'chosen for this batch in place of the recipe’s';
  return [
    ...lineWorkings(worked),
    { figure: 'ratio', text: ratioWords, source: choices.size?.by === 'tub' ? 'Volumes by the densities of brine (CRC Handbook of Chemistry and Physics; read) and fillet, 1.055 g/ml (from memory)' : `${recipeSource(recipe)}; ratios of 0.5 to 3 are usual (common practice)` },
    { figure: 'target', text: `${goal}: ${fromRecipe}. The salt was solved for it.`, source: recipeSource(recipe) },
    ...brineWorkings(figures, mixtureOf(worked.card.lines)),
    { figure: 'finishedEstimate', text: estimate.text, source: estimate.source },
    ...timeWorkings(recipe.soakHours, recipe.turnHours, recipeSource(recipe)),
  ];
}

/** Of the figures that any brine has, however it came about. */
export function brineWorkings(figures: BrineFigures, mixture: ReturnType<typeof mixtureOf>): Working[] {
  const saltGrams = plainNumber(mixture.saltGrams, 1);
  const solidsGrams = figures.totalGrams - mixture.saltGrams - mixture.waterGrams;
  const cold = plainNumber(saturatedPercent(10 / 3), 2);
  const solid = figures.firstSolidTicks;
  return [
    { figure: 'totalGrams', text: `The lines added up, each as rounded to the scale: ${figures.lines.map((line) => plainNumber(line.grams, 1)).join(' + ')} = ${plainNumber(figures.totalGrams, 1)} g.`, source: 'Sum of the weights (computed)' },
    {
      figure: 'percentByWeight',
      text: `${saltGrams} g of salt in ${plainNumber(figures.totalGrams, 1)} g of brine, the sauces’ own salt counted: ${plainNumber(figures.percentByWeight, 2)} %.`,
      source: 'Mass balance (computed), with the salt of each ingredient as its line names the source',
    },
    {
      figure: 'salometerDegrees',
      text: `${plainNumber(figures.percentByWeight, 2)} % of salt over 26.395 %, which is 100 °SAL: ${plainNumber(figures.salometerDegrees, 1)} °SAL.`,
      source: 'Salt Institute, “Chemical and physical properties of salt”: water saturated at 60 °F (read)',
    },
    {
      figure: 'waterPhasePercent',
      text: `${saltGrams} g of salt over ${saltGrams} g of salt and ${plainNumber(mixture.waterGrams, 1)} g of water: ${plainNumber(figures.waterPhasePercent, 2)} %. Sugar, spirit and spice are in neither.`,
      source: 'Ontario Ministry of Agriculture, Fish Plant Guidelines, F.B.14.14 Salting (read)',
    },
    {
      figure: 'litres',
      text: `${plainNumber(figures.totalGrams, 1)} g at 38 °F by the density of its salt water, and ${plainNumber(solidsGrams, 1)} g of sugar and other solids by the room they take: ${plainNumber(figures.litres, 2)} litres.`,
      source: 'P. S. Z. Rogers and K. S. Pitzer, 1982, as tabulated in the CRC Handbook of Chemistry and Physics, “Volumetric properties of aqueous sodium chloride solutions” (read); volume of sugar (computed)',
    },
    { figure: 'sugarPercent', text: `${plainNumber(mixture.sugarGrams, 1)} g of sugar in ${plainNumber(figures.totalGrams, 1)} g of brine: ${plainNumber(figures.sugarPercent, 2)} %.`, source: 'Mass balance (computed), with the sugar of each ingredient as its line names the source' },
    {
      figure: 'floatShowsDegrees',
      text: `A float marked at 60 °F shows ${plainNumber(figures.floatShowsDegrees, 1)} °SAL in this brine at 38 °F with ${plainNumber(figures.sugarPercent, 1)} % sugar, where its salt alone is ${plainNumber(figures.salometerDegrees, 1)} °SAL: sugar and cold lift it.`,
      source: 'The densities of the volume (CRC Handbook; read); expansion of the glass (from memory)',
    },
    {
      figure: 'brineTicks',
      text: 'The card is worked out for a brine at 38 °F, the room a soak over 4 h is asked to be kept in.',
      source: '1 NYCRR Part 262, 262.5(a), and Michigan Administrative Code, Smoked Fish, R 285.569.5 (read)',
    },
    ...(solid === null ? [] : [{
      figure: 'firstSolidTicks',
      text: `With ${plainNumber(figures.waterPhasePercent, 2)} % salt in its water, ${saltFallsFirst(figures.waterPhasePercent) ? 'salt begins to fall out' : 'ice begins to form'} at ${degreesWords(solid)}. At 38 °F water holds up to ${cold} %. Sugar lowers the freezing a little further.`,
      source: saltFallsFirst(figures.waterPhasePercent) ? SALT_TABLE : `Lange’s Handbook of Chemistry, 15th ed., 1999, Table 5.13 (read), fitted (computed); ${SALT_TABLE}`,
    }]),
  ];
}

/** Of the length of the soak and its turns. */
export function timeWorkings(soakHours: number, turnHours: readonly number[], source: string): Working[] {
  const turns = turnHours.map((hours) => plainNumber(hours, 1)).join(', ');
  return [
    { figure: 'soakHours', text: `${plainNumber(soakHours, 1)} h, as the recipe has it. How much salt goes in in that time depends on thickness, skin and fat: see the forecast.`, source: `${source}; ${COMMON_PRACTICE}` },
    { figure: 'turnHours', text: turnHours.length === 0 ? 'The recipe asks for no turn.' : `Turned after ${turns} h, as the recipe has it, so that no piece lies on another all the time.`, source: `${source}; ${COMMON_PRACTICE}` },
  ];
}
