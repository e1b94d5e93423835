/** An ingredient's composition from the nutrition facts on its package. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import type { HouseholdForm, Ingredient, SourceNote } from './ingredients.ts';
import { plainNumber } from './rounding.ts';

/** What a package says of one serving; undefined where it says nothing. */
export interface PackageFacts {
  /** The serving by weight; or by volume, and then the density is needed. */
  readonly servingGrams?: number | undefined;
  readonly servingMillilitres?: number | undefined;
  readonly sodiumMilligrams?: number | undefined;
  readonly fatGrams?: number | undefined;
  /** Total carbohydrate, sugars among it. */
  readonly carbohydrateGrams?: number | undefined;
  /** Total sugars, added ones among them. */
  readonly sugarsGrams?: number | undefined;
  readonly proteinGrams?: number | undefined;
  readonly alcoholByVolumePercent?: number | undefined;
  readonly densityGramsPerMl?: number | undefined;
}

export interface PackageComposition {
  readonly saltPercent: number;
  readonly sugarPercent: number;
  readonly alcoholPercent: number;
  /** Fat, protein, starch and fibre. */
  readonly otherPercent: number;
  /** An estimate: all that the label doesn't name. */
  readonly waterPercent: number;
  readonly densityGramsPerMl: number | null;
  /** What these figures do not know, in sentences for the person who typed them. */
  readonly notes: readonly string[];
}

/** What a person calls the ingredient. */
export interface PackageIdentity extends Pick<Ingredient, 'id' | 'name' | 'labelName' | 'subIngredients' | 'allergens' | 'mayContain'> {}

/** Salt for one of sodium by weight: 58.4428 ÷ 22.9898. Salt Institute, “Chemical and physical properties of salt” (read): sodium is 39.337 % of salt. */
export const SALT_PER_SODIUM = 2.5421;
/** Grams of a millilitre of ethanol at 20 °C. CRC Handbook of Chemistry and Physics (from memory). */
const ALCOHOL_GRAMS_PER_ML = 0.7893;
/** A label's figures are rounded (21 CFR 101.9(c), from memory), so a serving of pure salt may add up to a little over itself. */
const ROUNDED_SHARE = 1.02;
const ML_PER_CUP = 236.588;
const TABLESPOONS_PER_CUP = 16;
const TEASPOONS_PER_CUP = 48;

const FIELDS = [
  ['servingGrams', 'The serving'], ['servingMillilitres', 'The serving'], ['sodiumMilligrams', 'Sodium'], ['fatGrams', 'Fat'], ['carbohydrateGrams', 'Carbohydrate'],
  ['sugarsGrams', 'Sugars'], ['proteinGrams', 'Protein'], ['alcoholByVolumePercent', 'Alcohol'], ['densityGramsPerMl', 'The density'],
] as const;

const WATER_NOTE = 'The water is an estimate: all that the label does not name, acids and minerals among it.';
const SODIUM_NOTE = 'All sodium is counted as salt, so the salt is an upper bound: where glutamate, benzoate or bicarbonate is in it, the true salt is less.';
const ROUNDING_NOTE = 'The figures of the label add up to a little more than the serving, as rounded figures do; they were brought back to 100 %.';

/**
 * Composition in per cent by weight from a package's label.
 * @param facts one serving; a figure per 100 g is a serving of 100 g
 * @returns the composition, or a problem naming the key of `facts` at fault: no serving, no sodium, below zero, more than 100 %
 */
export function packageComposition(facts: PackageFacts): Outcome<PackageComposition> {
  const fault = figureFault(facts);
  if (fault !== undefined) return fault;
  const serving = servingGramsOf(facts);
  if (!serving.ok) return serving;
  const alcoholPercent = alcoholPercentOf(facts);
  if (!alcoholPercent.ok) return alcoholPercent;
  const sugarsGrams = facts.sugarsGrams ?? 0;
  const carbohydrateGrams = facts.carbohydrateGrams ?? sugarsGrams;
  if (sugarsGrams > carbohydrateGrams) {
    return bad(`${plainNumber(sugarsGrams, 2)} g of sugars is more than the ${plainNumber(carbohydrateGrams, 2)} g of carbohydrate they belong to.`, 'sugarsGrams', 'Check both on the package.');
  }
  const perGram = 100 / serving.value;
  const parts = {
    sodiumMilligrams: ((facts.sodiumMilligrams ?? 0) / 1000) * SALT_PER_SODIUM * perGram,
    carbohydrateGrams: carbohydrateGrams * perGram,
    fatGrams: (facts.fatGrams ?? 0) * perGram,
    proteinGrams: (facts.proteinGrams ?? 0) * perGram,
    alcoholByVolumePercent: alcoholPercent.value,
  };
  const named = Object.values(parts).reduce((sum, percent) => sum + percent, 0);
  if (named > 100 * ROUNDED_SHARE) return overfullFault(parts, named, serving.value);
  const back = named > 100 ? 100 / named : 1;
  const sugarPercent = sugarsGrams * perGram * back;
  return good({
    saltPercent: parts.sodiumMilligrams * back,
    sugarPercent,
    alcoholPercent: parts.alcoholByVolumePercent * back,
    otherPercent: (parts.carbohydrateGrams + parts.fatGrams + parts.proteinGrams) * back - sugarPercent,
    waterPercent: Math.max(0, 100 - named * back),
    densityGramsPerMl: facts.densityGramsPerMl ?? null,
    notes: [WATER_NOTE, ...(parts.sodiumMilligrams > 0 ? [SODIUM_NOTE] : []), ...(named > 100 ? [ROUNDING_NOTE] : [])],
  });
}

/** The ingredient of a package, with what its figures do not know; problems as in `packageComposition`. */
export function packageIngredient(identity: PackageIdentity, facts: PackageFacts): Outcome<{ readonly ingredient: Ingredient; readonly notes: readonly string[] }> {
  const composition = packageComposition(facts);
  if (!composition.ok) return composition;
  const { notes, otherPercent: _other, ...figures } = composition.value;
  const serving = facts.servingGrams === undefined ? `${plainNumber(facts.servingMillilitres ?? 0, 2)} ml` : `${plainNumber(facts.servingGrams, 2)} g`;
  const source: SourceNote = { publisher: 'The package’s label', title: identity.name, section: `nutrition facts of a serving of ${serving}`, year: null, mark: 'computed' };
  return good({ ingredient: { ...identity, ...figures, household: householdOf(figures.densityGramsPerMl, source), chooseForm: false, source }, notes });
}

/** Cups and spoons by the density; none without one. Volumes are US, by definition. */
function householdOf(densityGramsPerMl: number | null, source: SourceNote): HouseholdForm[] {
  if (densityGramsPerMl === null) return [];
  const cupGrams = densityGramsPerMl * ML_PER_CUP;
  return [{
    id: 'measured', name: 'as measured out', source,
    weights: [{ unit: 'cup', grams: cupGrams }, { unit: 'tablespoon', grams: cupGrams / TABLESPOONS_PER_CUP }, { unit: 'teaspoon', grams: cupGrams / TEASPOONS_PER_CUP }],
  }];
}

function figureFault(facts: PackageFacts): Extract<Outcome<never>, { ok: false }> | undefined {
  for (const [field, words] of FIELDS) {
    const value = facts[field];
    if (value !== undefined && !(value >= 0 && Number.isFinite(value))) {
      return bad(`${words} of ${plainNumber(value, 2)} can’t be.`, field, 'Type the figure of the package, zero or more.');
    }
  }
  if (facts.sodiumMilligrams === undefined) return bad('The sodium is missing: without it the salt is not known.', 'sodiumMilligrams', 'Type the milligrams of sodium in a serving; 0 where the package says so.');
  const { densityGramsPerMl: density, alcoholByVolumePercent: alcohol } = facts;
  if (density !== undefined && !(density >= 0.3 && density <= 3)) return bad(`A density of ${plainNumber(density, 3)} g/ml can’t be that of food.`, 'densityGramsPerMl', 'Weigh 100 ml of it and divide the grams by 100: honey is 1.43, a spirit 0.95.');
  if (alcohol !== undefined && alcohol > 100) return bad(`${plainNumber(alcohol, 1)} % alcohol is more than all of it.`, 'alcoholByVolumePercent', 'Type the per cent by volume of the package: half the US proof.');
  return undefined;
}

function servingGramsOf(facts: PackageFacts): Outcome<number> {
  if (facts.servingGrams !== undefined) {
    return facts.servingGrams > 0 ? good(facts.servingGrams) : bad('A serving of 0 g can’t be.', 'servingGrams', 'Type the grams that stand behind the serving size.');
  }
  if (facts.servingMillilitres === undefined) return bad('The serving’s weight is missing.', 'servingGrams', 'Type the grams that stand behind the serving size.');
  if (facts.servingMillilitres === 0) return bad('A serving of 0 ml can’t be.', 'servingMillilitres', 'Type the millilitres that stand behind the serving size.');
  if (facts.densityGramsPerMl === undefined) return bad('A serving in millilitres needs the density.', 'densityGramsPerMl', 'Weigh 100 ml of it and divide the grams by 100.');
  return good(facts.servingMillilitres * facts.densityGramsPerMl);
}

/** Alcohol by weight: the label has it by volume. */
function alcoholPercentOf(facts: PackageFacts): Outcome<number> {
  const byVolume = facts.alcoholByVolumePercent ?? 0;
  if (byVolume === 0) return good(0);
  if (facts.densityGramsPerMl === undefined) return bad('Alcohol by volume needs the density.', 'densityGramsPerMl', 'Weigh 100 ml of it and divide the grams by 100: a spirit of 40 % is about 0.95, wine 0.99.');
  return good((byVolume * ALCOHOL_GRAMS_PER_ML) / facts.densityGramsPerMl);
}

/** Names the heaviest part: the slip is most likely there, or in the serving. */
function overfullFault(parts: Readonly<Record<string, number>>, named: number, servingGrams: number): Extract<Outcome<never>, { ok: false }> {
  const [field = 'servingGrams'] = Object.entries(parts).toSorted(([, one], [, other]) => other - one)[0] ?? [];
  return bad(
    `The label’s figures come to ${plainNumber(named, 1)} % of a serving of ${plainNumber(servingGrams, 2)} g.`,
    field, 'More than 100 % can’t be: check the serving, grams against milligrams, and the point.',
  );
}
