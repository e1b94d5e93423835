/** What goes into an ingredient of the kitchen's own, from a package's label or a mix, and the figures that come of it. */
import type { Ingredient } from '../../../app/brine/ingredients.ts';
import { mixIngredient, type MixesById } from '../../../app/brine/mix.ts';
import { packageComposition, packageIngredient, type PackageFacts, type PackageIdentity } from '../../../app/brine/package-label.ts';
import type { Composition, IngredientDraft, PackageFacts as TypedFacts } from '../../../app/contract/requests/recipes.ts';
import { bad, good, type Outcome } from '../../../app/measures/outcome.ts';

const FIGURE_KEYS = ['servingGrams', 'sodiumMilligrams', 'fatGrams', 'carbohydrateGrams', 'sugarsGrams', 'proteinGrams', 'alcoholByVolumePercent', 'densityGramsPerMl'] as const;
const MINUS_SIGN = '\u2212';

/** What a composition is worked out with. */
export interface Surroundings {
  /** What the parts of a mix are looked up in. */
  readonly ingredients: readonly Ingredient[];
  /** How the mixes among them are made. */
  readonly mixes: MixesById;
}

/**
 * The figures of an ingredient. What is in a mix, and what that declares, follows from its parts;
 * allergens that are named beside it are added to theirs.
 * @returns the ingredient, or a problem naming `composition.facts.sodiumMilligrams`, `composition.parts.1.parts` …
 */
export function figuresOf(id: string, draft: IngredientDraft, { ingredients, mixes }: Surroundings): Outcome<Ingredient> {
  const { name, labelName, subIngredients, allergens, mayContain, composition } = draft;
  if (composition.ground === 'package') {
    return packageFigures({ id, name, labelName, subIngredients, allergens: unique(allergens), mayContain: unique(mayContain) }, composition.facts);
  }
  const mixed = mixIngredient({ id, name, labelName, mayContain }, composition.parts, ingredients, mixes);
  if (!mixed.ok) return under('composition', mixed);
  return good({ ...mixed.value, allergens: unique([...mixed.value.allergens, ...allergens]) });
}

/** What the figures of a package do not know, in sentences; none for a mix, whose parts say it themselves. */
export function notesOf(composition: Composition): readonly string[] {
  if (composition.ground === 'mix') return [];
  const facts = factsOf(composition.facts);
  const worked = facts.ok ? packageComposition(facts.value) : facts;
  return worked.ok ? worked.value.notes : [];
}

/** Whether two ingredients are the same but for what they are called here. */
export function sameFigures(one: Ingredient, other: Ingredient): boolean {
  return JSON.stringify(contentsOf(one)) === JSON.stringify(contentsOf(other));
}

function contentsOf(ingredient: Ingredient): unknown {
  const { labelName, subIngredients, allergens, mayContain, waterPercent, saltPercent, sugarPercent, alcoholPercent, densityGramsPerMl } = ingredient;
  const percents = [waterPercent, saltPercent, sugarPercent, alcoholPercent, densityGramsPerMl ?? 0].map((figure) => figure.toFixed(9));
  return [labelName, subIngredients, allergens.toSorted(), mayContain.toSorted(), percents, densityGramsPerMl === null];
}

function packageFigures(identity: PackageIdentity, typed: TypedFacts): Outcome<Ingredient> {
  const facts = factsOf(typed);
  if (!facts.ok) return under('composition.facts', facts);
  const made = packageIngredient(identity, facts.value);
  return made.ok ? good(made.value.ingredient) : under('composition.facts', made);
}

/** The figures as numbers; an empty one is not there. */
function factsOf(typed: TypedFacts): Outcome<PackageFacts> {
  const facts: Partial<Record<(typeof FIGURE_KEYS)[number], number>> = {};
  for (const key of FIGURE_KEYS) {
    const text = typed[key].trim().replace(MINUS_SIGN, '-');
    if (text === '') continue;
    if (/^[+-]?\d+,\d+$/.test(text)) return bad(`“${text}” has a comma, which can mean a decimal or a thousand.`, key, `Write ${text.replace(',', '.')} with a point.`);
    if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(text)) return bad(`“${text}” is not a figure.`, key, 'Type the number that stands on the package, without its unit.');
    facts[key] = Number(text);
  }
  return good(facts);
}

function under<T>(prefix: string, outcome: Outcome<T>): Outcome<T> {
  if (outcome.ok) return outcome;
  const { field } = outcome.problem;
  return { ok: false, problem: { ...outcome.problem, field: field === undefined ? prefix : `${prefix}.${field}` } };
}

function unique(words: readonly string[]): string[] {
  return [...new Set(words)];
}
