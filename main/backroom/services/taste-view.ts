/** A tasting with the figures of its tub, worked out anew from what was weighed and not struck. */
import { ingredientById, type Ingredient, type WeighedIngredient } from '../../../app/brine/ingredients.ts';
import { saltByFloat, tasteFigures, type TasteFigures as TubFigures } from '../../../app/brine/taste-figures.ts';
import type { CardEstimate } from '../../../app/brine/card.ts';
import type { Output } from '../../../app/contract/contract.ts';
import type { TasteFigures, Tasting } from '../../../app/contract/requests/taste.ts';
import { TICKS_PER_CELSIUS } from '../../../app/measures/temperature.ts';
import type { Outcome } from '../../../app/measures/outcome.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { USUAL_YIELD_PERCENT } from './brine-card-order.ts';
import { ingredientsOf } from './kitchen-ingredients.ts';
import { fishOf } from './species.ts';
import { tasteCautions } from './taste-cautions.ts';

type View = Output<'taste.get'>;

/** The tasting and its figures. */
export function viewTasting(room: BookRoom, tasting: Tasting): View {
  return { tasting, figures: figuresOf(room, tasting) };
}

/**
 * What lies in the tub, each addition by the figures its ingredient has now.
 * @throws Refusal BOOK_DAMAGED for an ingredient that the book no longer has
 */
export function weighedOf(additions: Tasting['additions'], ingredients: readonly Ingredient[]): WeighedIngredient[] {
  return additions.flatMap(({ ingredientId, name, grams, struck }) => {
    if (struck) return [];
    const ingredient = ingredientById(ingredients, ingredientId);
    if (ingredient === undefined) throw new Refusal('BOOK_DAMAGED', `The ingredient “${name}” of a tasting is no longer in the book.`, { remedy: 'Open your latest backup, and keep this file.' });
    return [{ ingredient, grams }];
  });
}

function figuresOf(room: BookRoom, tasting: Tasting): TasteFigures {
  const { additions, fillets, speciesId, floats } = tasting;
  const ingredients = ingredientsOf(room);
  const lastFloat = floats.at(-1);
  const figures = tasteFigures({
    weighed: weighedOf(additions, ingredients),
    brineCelsius: lastFloat === undefined ? undefined : lastFloat.brineTicks / TICKS_PER_CELSIUS,
    filletGrams: fillets?.grams, fish: speciesId === null ? undefined : fishOf(room, speciesId), yieldPercent: USUAL_YIELD_PERCENT.either,
  });
  const meant = lastFloat === undefined ? null : meaningOf(lastFloat, additions, ingredients);
  const { totalGrams, litres, percentByWeight, salometerDegrees, waterPhasePercent, sugarPercent, saltFallsOut } = figures;
  return {
    totalGrams, litres, percentByWeight, salometerDegrees, waterPhasePercent, sugarPercent, saltFallsOut,
    floatShowsDegrees: degreesOf(figures),
    floatMeansPercent: meant?.ok === true ? meant.value : null,
    equilibrium: figures.equilibrium === null ? null : rangeOf(figures.equilibrium),
    finished: figures.finished === null ? null : { ...rangeOf(figures.finished), yieldPercent: USUAL_YIELD_PERCENT.either },
    cautions: tasteCautions({ tasting, figures, meant, weighedThenPercent: weighedThen(lastFloat, additions, ingredients) }),
  };
}

/** The reading in the brine that it was taken in: what went in later is not in it. */
function meaningOf(float: Tasting['floats'][number], additions: Tasting['additions'], ingredients: readonly Ingredient[]): Outcome<number> {
  return saltByFloat(float.shownDegrees, float.brineTicks / TICKS_PER_CELSIUS, weighedOf(additions.slice(0, float.afterAdditions), ingredients));
}

/** Salt by weight when the float was read. */
function weighedThen(float: Tasting['floats'][number] | undefined, additions: Tasting['additions'], ingredients: readonly Ingredient[]): number | null {
  if (float === undefined) return null;
  return tasteFigures({ weighed: weighedOf(additions.slice(0, float.afterAdditions), ingredients), yieldPercent: USUAL_YIELD_PERCENT.either }).percentByWeight;
}

function degreesOf({ float }: TubFigures): number | null {
  return float?.kind === 'shows' ? float.degrees : null;
}

function rangeOf({ percent, lowPercent, highPercent }: CardEstimate): { percent: number; low: number; high: number } {
  return { percent, low: lowPercent, high: highPercent };
}
