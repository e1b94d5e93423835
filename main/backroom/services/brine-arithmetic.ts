/** Brine arithmetic for the contract: no book, no clock; the ingredients come from the room. */
import type { BrineStrengthInput, BrineStrengthOutput, RecipeScaleInput, RecipeScaleOutput } from '../../../app/contract/requests/brine-arithmetic.ts';
import type { Ingredient } from '../../../app/brine/ingredients.ts';
import { scaleRecipe } from '../../../app/brine/recipe.ts';
import { brineStrength, STRENGTH_FORMS, type StrengthForm } from '../../../app/brine/strength.ts';
import { targetOfKeys } from '../../../app/brine/target.ts';
import { Refusal, unwrap } from '../refusal.ts';

/** What these services need of the back room. */
export interface BrineRoom {
  readonly ingredients: readonly Ingredient[];
}

export const brineArithmeticServices = { 'brine.strength': giveStrength, 'recipe.scale': giveScaled };

/** One strength in all forms; refuses none or two of them, naming each key. */
function giveStrength(_room: BrineRoom, input: BrineStrengthInput): BrineStrengthOutput {
  const form = onlyForm(input);
  return unwrap(brineStrength(form, input[form] ?? NaN, input.temperatureC));
}

function giveScaled(room: BrineRoom, input: RecipeScaleInput): RecipeScaleOutput {
  const scaled = unwrap(scaleRecipe({ ...input, target: unwrap(targetOfKeys(input.target)) }, room.ingredients));
  return {
    lines: scaled.lines.map(({ ingredient, grams, saltGrams }) => ({ ingredientId: ingredient.id, name: ingredient.name, grams, saltGrams })),
    totalGrams: scaled.totalGrams,
    litresAt4C: scaled.litresAt4C,
    percentByWeight: scaled.percentByWeight,
    waterPhasePercent: scaled.waterPhasePercent,
    salometerDegrees: scaled.salometerDegrees,
    equilibriumWaterPhasePercent: scaled.equilibriumWaterPhasePercent,
  };
}

/** The one form given, or a refusal that names every key given, or all when none is. */
function onlyForm(input: BrineStrengthInput): StrengthForm {
  const given = STRENGTH_FORMS.filter((form) => input[form] !== undefined);
  const [only, second] = given;
  if (only !== undefined && second === undefined) return only;
  const message = only === undefined ? 'No strength is given.' : `The strength is given as ${given.join(' and ')}.`;
  const named = only === undefined ? STRENGTH_FORMS : given;
  throw new Refusal('INVALID_INPUT', message, { remedy: `Give exactly one of ${STRENGTH_FORMS.join(', ')}.`, fields: named.map((form) => ({ path: [form], message })) });
}
