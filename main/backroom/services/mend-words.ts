/** The steps of a mend, what it voids, and the brine before and after, in the shapes and words of the contract. */
import { ingredientById, type Ingredient } from '../../../app/brine/ingredients.ts';
import type { MendPlan, MendStep, MendVoid, TubState } from '../../../app/brine/mend-plan.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import type { Mend } from '../../../app/contract/requests/brine-bench.ts';
import { massIn } from '../../../app/measures/mass.ts';

type WireStep = Mend['steps'][number];

/** A brine that grows by more than this may run over. */
const NOTABLE_GROWTH = 1.1;
/** From this on salt and sugar make an ingredient one that dissolves. */
const MOSTLY_SOLUBLE_PERCENT = 50;
/** An estimate of so many hours is not told to the minute. */
const WHOLE_HOURS_FROM = 6;

const VOIDS: Readonly<Record<MendVoid, string>> = {
  'scheduled-process': 'A scheduled process: this batch is no longer made as the process authority’s letter has it.',
  'laboratory-verification': 'The laboratory’s verification of that process: it says nothing of this batch any more.',
  'earlier-salt-samples': 'Pieces of this batch analysed before now: the fish goes on in another bath.',
  'soak-forecast': 'The soak forecast so far: it starts anew from the mended brine.',
  'float-reading': 'Float readings of this brine before now: read it again.',
};

/** Each step in a sentence. */
export function wireSteps(steps: readonly MendStep[], ingredients: readonly Ingredient[], massUnit: 'lb' | 'kg'): WireStep[] {
  const nameOf = (id: string): string => ingredientById(ingredients, id)?.name ?? id;
  const weight = (grams: number): string => weightWords(grams, massUnit);
  return steps.map((step): WireStep => {
    switch (step.what) {
      case 'add': return { text: `Add ${weight(step.grams)} of ${nameOf(step.ingredientId)} and ${stirring(ingredientById(ingredients, step.ingredientId))}.`, ingredientId: step.ingredientId, grams: step.grams, hours: null };
      case 'use-instead': return { text: `Use ${weight(step.grams)} of ${nameOf(step.ingredientId)} for the ${nameOf(step.insteadOfId)} that is missing.`, ingredientId: step.ingredientId, grams: step.grams, hours: null };
      case 'weigh-less': return { text: `Weigh ${weight(step.grams)} less of ${nameOf(step.ingredientId)} than the card says.`, ingredientId: step.ingredientId, grams: step.grams, hours: null };
      case 'pour-off': return { text: `Pour off ${weight(step.grams)} of the brine, about ${plainNumber(step.litres, 1)} litres.`, ingredientId: null, grams: step.grams, hours: null };
      case 'freshen': return {
        text: `Lay the fish into ${weight(step.waterGrams)} of plain cold water, ${plainNumber(step.waterPerFish, 1)} to 1 of fish, for about ${hoursWords(step.hours)}, then test a piece again.`,
        ingredientId: null, grams: step.waterGrams, hours: step.hours,
      };
      case 'nothing': return { text: `Do nothing. ${step.why}`, ingredientId: null, grams: null, hours: null };
    }
  });
}

/** A brine at one moment; a float off its scale has no degrees. */
export function wireState(state: Pick<TubState, 'totalGrams' | 'percentByWeight' | 'salometerDegrees' | 'waterPhasePercent' | 'float'>): Mend['before'] {
  const { totalGrams, percentByWeight, salometerDegrees, waterPhasePercent, float } = state;
  return { totalGrams, percentByWeight, salometerDegrees, waterPhasePercent, floatShowsDegrees: float.kind === 'shows' ? float.degrees : null };
}

/** What a mend voids, in sentences. */
export function voidSentences(voids: readonly MendVoid[]): string[] {
  return voids.map((one) => VOIDS[one]);
}

/**
 * What to mind in doing it; new allergens first.
 * @param cardLitres what the card made the tub hold
 */
export function mendCautions({ cautions, newAllergens, after }: Pick<MendPlan, 'cautions' | 'newAllergens' | 'after'>, cardLitres: number): string[] {
  return [
    ...(newAllergens.length === 0 ? [] : [`New in this brine: ${newAllergens.join(', ')}. It goes on the label, and anybody who asked must be told.`]),
    ...(cardLitres > 0 && after.litres > NOTABLE_GROWTH * cardLitres ? [`The brine grows from ${plainNumber(cardLitres, 1)} to ${plainNumber(after.litres, 1)} litres: see that the tub holds it beside the fish, or begin a new brine.`] : []),
    ...cautions,
  ];
}

/** Salt and sugar must be gone before the fish meets them; spice never is. */
function stirring(ingredient: Ingredient | undefined): string {
  const dissolves = ingredient !== undefined && ingredient.saltPercent + ingredient.sugarPercent >= MOSTLY_SOLUBLE_PERCENT;
  return dissolves ? 'stir until nothing lies at the bottom' : 'stir';
}

function weightWords(grams: number, massUnit: 'lb' | 'kg'): string {
  if (grams < 1000) return `${plainNumber(grams, 1)} g`;
  return massUnit === 'kg' ? `${plainNumber(grams / 1000, 3)} kg` : `${plainNumber(grams, 0)} g (${plainNumber(massIn(grams, 'lb'), 2)} lb)`;
}

function hoursWords(hours: number): string {
  if (hours >= WHOLE_HOURS_FROM) return `${Math.round(hours)} h`;
  const minutes = Math.max(1, Math.round(hours * 60));
  if (minutes < 90) return `${minutes} min`;
  return minutes % 60 === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
