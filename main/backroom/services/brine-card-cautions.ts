/** What a brine card warns of, in sentences. */
import type { BrineCard, CardCaution } from '../../../app/brine/card.ts';
import { crystalWarning } from '../../../app/brine/crystals.ts';
import { ingredientById } from '../../../app/brine/ingredients.ts';
import type { Recipe } from '../../../app/contract/requests/recipes.ts';
import type { Kitchen } from '../../../app/contract/requests/office.ts';
import type { CardWish } from './brine-card-order.ts';
import { unevenCaution } from './soak-thickness.ts';
import type { TubLots } from './tub-lots.ts';

const SENTENCES: Readonly<Record<Exclude<CardCaution, 'salt-differs-by-crystal'>, string>> = {
  'salt-falls-out': 'At 38 °F this brine holds less salt than is in it: some will lie on the bottom. Use more water.',
  'float-misled': 'The sugar and the cold mislead a float: it will not show this brine’s °SAL, but the figure named here.',
  'float-off-scale': 'A salometer float runs off its scale in this brine: go by weight alone.',
  'line-below-scale-step': 'One line weighs less than the scale can show: use a finer scale for it.',
  'strength-moved-by-rounding': 'Rounding to the scale’s step has moved the strength by more than a hundredth of itself: use a finer scale.',
  'strong-brine': 'Above 80 °SAL salt crystals may stay on the fish: rinse it well (Seafish, “Salting or brining of the fish”; read).',
  'may-not-cover': 'This is too little brine to cover the fish in most tubs: press it under, or make more.',
  'yield-too-low-to-estimate': 'With so low a yield the finished salt can’t be estimated; the figure is of the brined fish.',
};

/** The card's own cautions, in the order given; salt by the cup is warned of by what was chosen. */
export function cautionSentences({ cautions }: Pick<BrineCard, 'cautions'>): string[] {
  return cautions.filter((caution) => caution !== 'salt-differs-by-crystal').map((caution) => SENTENCES[caution]);
}

/** What is to be remembered of what was chosen: salt that may be measured by the cup, and pieces of different sizes. */
export function choiceCautions({ recipe, choices, ingredients }: CardWish): string[] {
  const salt = ingredientById(ingredients, recipe.saltIngredientId);
  const crystals = salt === undefined || choices.saltFormId !== undefined ? undefined : crystalWarning(salt);
  return [
    ...(crystals === undefined ? [] : [`${crystals} Choose the crystal to see its cups here.`]),
    ...unevenCaution(choices.thickestMm, choices.thinnestMm),
  ];
}

/** What is to be remembered of these fish, whatever the recipe. */
export function fishCautions(kitchen: Kitchen, recipe: Recipe, tub: TubLots): string[] {
  const cautions: string[] = [];
  if (tub.sourceKind === 'guest') {
    cautions.push('A guest’s own catch: not for sale, never mixed with bought fish, and the same fish goes back to its owner.');
    if (isAlaska(kitchen.address.region)) {
      cautions.push('Smoking it for the angler needs a DEC seafood permit in Alaska, and the pack must say “sport caught, not for resale” (18 AAC 34.105(b); read).');
    }
    cautions.push('Look up the state’s fish-consumption advisory for the water it came from: smoking does not take out mercury or PCBs.');
  }
  if (recipe.process === 'cold') {
    cautions.push('Cold smoking heats nothing through: wild fish that was not frozen as the limit set asks may carry living worms (FDA Food Code 3-402.11; read).');
  }
  return cautions;
}

function isAlaska(region: string): boolean {
  return ['ak', 'alaska'].includes(region.trim().toLowerCase());
}
