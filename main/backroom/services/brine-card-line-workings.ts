/** How the weight of each line of a card came about: its parts, the salt that was solved, and the source of its figures. */
import type { CardLine } from '../../../app/brine/card.ts';
import type { HouseholdMeasure } from '../../../app/brine/household.ts';
import type { Ingredient } from '../../../app/brine/ingredients.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import type { Recipe } from '../../../app/contract/requests/recipes.ts';
import { goalWords } from './brine-card-order.ts';
import { householdWords, sourceWords } from './brine-card-words.ts';
import type { Worked, Working } from './brine-card-workings.ts';

const POURED_SOURCE = 'density of water: G. S. Kell, J. Chem. Eng. Data 20, 1975 (from memory)';

/** Less salt than this doesn't show in the figures. */
const LEAST_SAID_GRAMS = 0.05;

/** The recipe as a source. */
export function recipeSource(recipe: Pick<Recipe, 'name' | 'version'>): string {
  return `This kitchen’s recipe “${recipe.name}”, version ${recipe.version}`;
}

/** One working a line. */
export function lineWorkings({ wish, card, order }: Pick<Worked, 'wish' | 'card' | 'order'>): Working[] {
  const { recipe, choices } = wish;
  const saltId = recipe.saltIngredientId;
  const step = plainNumber(order.scaleStepGrams ?? 0.1, 1);
  const salt = card.lines.find((line) => line.ingredient.id === saltId);
  const saltGrams = card.lines.reduce((sum, line) => sum + line.saltGrams, 0);
  const othersGrams = card.totalGrams - (salt?.grams ?? 0);
  const allParts = recipe.ingredients.reduce((sum, { id, parts }) => sum + (id === saltId ? 0 : parts), 0);
  return card.lines.map((line) => {
    const parts = recipe.ingredients.find(({ id }) => id === line.ingredient.id)?.parts ?? 0;
    const how = line.ingredient.id === saltId
      ? `Solved for ${goalWords(order.target, choices.aimLowEnd === true)}: the brine needs ${plainNumber(saltGrams, 1)} g of salt, and the other lines bring ${plainNumber(saltGrams - line.saltGrams, 1)} g of it.`
      : `${plainNumber(parts, 3)} of ${plainNumber(allParts, 3)} parts of everything but the salt, which come to ${plainNumber(othersGrams, 1)} g.`;
    return lineWorking(line, `${how} Rounded to the scale’s ${step} g: ${plainNumber(line.grams, 1)} g.`, recipeSource(recipe));
  });
}

/**
 * The working of one line.
 * @param how its weight came about, in sentences
 * @param ground what that rests on
 */
export function lineWorking({ ingredient, saltGrams, household }: Pick<CardLine, 'ingredient' | 'saltGrams' | 'household'>, how: string, ground: string): Working {
  const brings = saltGrams >= LEAST_SAID_GRAMS && ingredient.saltPercent < 100 ? ` It is ${plainNumber(ingredient.saltPercent, 2)} % salt: ${plainNumber(saltGrams, 1)} g.` : '';
  const measure = household === undefined ? '' : ` In kitchen measures ${householdWords(household)}.`;
  return { figure: `line.${ingredient.id}`, text: `${how}${brings}${measure}`, source: [ground, sourceWords(ingredient.source), measureSource(ingredient, household)].filter((part) => part !== '').join('; ') };
}

function measureSource(ingredient: Ingredient, household: HouseholdMeasure | undefined): string {
  if (household === undefined) return '';
  if (household.kind === 'litres' || household.kind === 'us-quarts') return POURED_SOURCE;
  const form = ingredient.household.find((candidate) => candidate.name === household.formName);
  return form === undefined ? '' : sourceWords(form.source);
}
