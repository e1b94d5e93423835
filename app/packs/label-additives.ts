/**
 * Nitrite and nitrate in the list of a pack: only the fish that 21 CFR 172.170 and 172.175 name may hold
 * them for sale in the United States (read), chub by 172.177 (read in part).
 */
import { readLabelName } from './identity-words.ts';
import type { LabelGap, LabelIngredient, SpeciesNames } from './label-types.ts';

const CURING = /nitr[ai]te/i;

/**
 * What the list may not hold.
 * @param species the names known, with what each may hold; a fish that isn't among them is not judged
 */
export function additiveGaps(ingredients: readonly LabelIngredient[], marketName: string, species: readonly SpeciesNames[]): readonly LabelGap[] {
  const curing = ingredients.flatMap(({ name, subIngredients = [] }) => [name, ...subIngredients]).find((name) => CURING.test(name));
  const fish = readLabelName(marketName, species);
  if (curing === undefined || fish?.nitriteAllowed !== 'none') return [];
  return [{
    element: 'L10',
    why: `The list has “${curing}”, and ${fish.marketName} is not among the fish that may hold it (21 CFR 172.170, 172.175, 172.177). Such a pack is not labelled; check the recipe that the brine was made by.`,
  }];
}
