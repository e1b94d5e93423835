/** “Mend it now”: what to do about a brine that went wrong, and what it is afterwards. */
import { assertNever, bad, good, type Outcome } from '../measures/outcome.ts';
import { isBrineCelsius } from './density.ts';
import type { Ingredient } from './ingredients.ts';
import { planFreshening, type HoursToApproach, type TooSaltyPiece } from './mend-freshen.ts';
import { tubState, type MendPlan, type TubNow } from './mend-plan.ts';
import { planRanOut, planSpilled, type RanOut, type Spilled } from './mend-shortage.ts';
import { planStrength, type OffStrength } from './mend-strength.ts';
import { planWrongIngredient, planWrongSalt, type WrongIngredient, type WrongSalt } from './mend-wrong-salt.ts';
import { plainNumber } from './rounding.ts';

/** What went wrong. Fields of a problem begin with `trouble.`. */
export type Trouble = OffStrength | Spilled | RanOut | WrongSalt | WrongIngredient | TooSaltyPiece;

/**
 * The plan for one trouble. It only ever adds to a brine, pours some off, or leaves out what is not in
 * it yet: what is dissolved can't be taken out again. Weights are rounded to the scale's step and every
 * figure afterwards is that of the rounded weights.
 * @param tub the brine as its card has it
 * @param ingredients the catalogue that salt, water and what is used instead are looked up in
 * @param hoursToApproach for a salty piece: hours until the thickest piece has come so far to
 *   equilibrium, by water of the bath over water of the fish
 * @returns the plan, or a problem naming `trouble.…`, `lines`, `celsius` or `scaleStepGrams`
 */
export function mendBrine(tub: TubNow, trouble: Trouble, ingredients: readonly Ingredient[], hoursToApproach: HoursToApproach): Outcome<MendPlan> {
  const before = stateNow(tub);
  if (!before.ok) return before;
  switch (trouble.kind) {
    case 'too-strong':
    case 'too-weak': return planStrength(tub, trouble, ingredients);
    case 'spilled': return planSpilled(tub, trouble);
    case 'ran-out': return planRanOut(tub, trouble, ingredients);
    case 'wrong-salt': return planWrongSalt(tub, trouble, ingredients);
    case 'wrong-ingredient': return planWrongIngredient(tub, trouble, ingredients);
    case 'test-piece-too-salty': return planFreshening(tub, trouble, hoursToApproach);
    default: return assertNever(trouble);
  }
}

function stateNow(tub: TubNow): Outcome<true> {
  const { celsius, scaleStepGrams: step = 0.1, filletGrams } = tub;
  if (!isBrineCelsius(celsius)) return bad(`A brine at ${plainNumber(celsius, 1)} °C can’t be worked out here.`, 'celsius', 'Give a temperature from 0 to 50 °C.');
  if (!(step > 0 && step <= 1000)) return bad(`A scale with a step of ${plainNumber(step, 3)} g can’t weigh this.`, 'scaleStepGrams', 'Give the step the scale shows, above 0 and at most 1000 g.');
  if (!(filletGrams >= 0)) return bad(`Fillets of ${plainNumber(filletGrams, 1)} g can’t be.`, 'filletGrams', 'Give the fish that is in the brine, 0 for none.');
  const negative = tub.lines.findIndex((line) => !(line.grams >= 0 && Number.isFinite(line.grams)));
  if (negative !== -1) return bad(`${tub.lines[negative]?.ingredient.name ?? ''} of ${plainNumber(tub.lines[negative]?.grams ?? NaN, 1)} g can’t be.`, `lines.${negative}.grams`, 'Give what is in the tub, zero or more.');
  const state = tubState(tub.lines, celsius);
  return state.ok ? good(true) : state;
}
