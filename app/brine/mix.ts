/** An ingredient that the kitchen makes of others: a house rub, a glaze. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { mixtureDensityKgPerM3, SATURATED_SALT_FRACTION } from './density.ts';
import { allergensOf, ingredientById, mixtureOf, type Ingredient, type WeighedIngredient } from './ingredients.ts';
import { plainNumber } from './rounding.ts';
import { waterPhaseFraction } from './water-phase.ts';

/** One part of a mix, by weight; any unit, the same for all. */
export interface MixPart {
  readonly ingredientId: string;
  readonly parts: number;
}

/** What a person calls a mix. */
export interface MixIdentity {
  readonly id: string;
  readonly name: string;
  readonly labelName: string;
  /** Beside what its ingredients may contain. */
  readonly mayContain?: readonly string[] | undefined;
}

/** How the kitchen's mixes are made, by ingredient id. */
export type MixesById = Readonly<Record<string, readonly MixPart[]>>;

/** Keeps a sum of parts a number. */
const MOST_PARTS = 1e9;
/** From this on a mix is poured, whatever went into it. */
const POURED_WATER_PERCENT = 50;
/** Where a density is worked out: a kitchen's room. */
const ROOM_CELSIUS = 20;

/**
 * The ingredient that parts by weight make: composition, allergens of all of them, and its own
 * ingredients heaviest first, as a label lists them (21 CFR 101.4(a)(1) and (b)(2); from memory).
 * @param ingredients the catalogue the parts are looked up in, other mixes included
 * @param mixes how other mixes are made, to find one that contains itself
 * @returns the ingredient, or a problem naming `parts`, `parts.1.parts` or `parts.1.ingredientId`
 */
export function mixIngredient(identity: MixIdentity, parts: readonly MixPart[], ingredients: readonly Ingredient[], mixes: MixesById = {}): Outcome<Ingredient> {
  const circle = circleFault(identity, parts, ingredients, mixes);
  if (circle !== undefined) return circle;
  const weighed = weighParts(parts, ingredients);
  if (!weighed.ok) return weighed;
  const allGrams = weighed.value.reduce((sum, part) => sum + part.grams, 0);
  const heaviestFirst = weighed.value.toSorted((one, other) => other.grams - one.grams);
  return good({
    id: identity.id,
    name: identity.name,
    labelName: identity.labelName,
    subIngredients: labelList(heaviestFirst),
    allergens: allergensOf(heaviestFirst.map((part) => part.ingredient)),
    mayContain: [...new Set([...(identity.mayContain ?? []), ...heaviestFirst.flatMap((part) => part.ingredient.mayContain)])],
    waterPercent: meanPercent(weighed.value, allGrams, 'waterPercent'),
    saltPercent: meanPercent(weighed.value, allGrams, 'saltPercent'),
    sugarPercent: meanPercent(weighed.value, allGrams, 'sugarPercent'),
    alcoholPercent: meanPercent(weighed.value, allGrams, 'alcoholPercent'),
    densityGramsPerMl: densityOf(weighed.value, allGrams),
    household: [],
    chooseForm: false,
    source: {
      publisher: 'This kitchen', title: identity.name,
      section: `mixed of ${heaviestFirst.map(({ ingredient, grams }) => `${plainNumber(grams, 3)} ${ingredient.name.toLowerCase()}`).join(', ')}, parts by weight`,
      year: null, mark: 'computed',
    },
  });
}

function weighParts(parts: readonly MixPart[], ingredients: readonly Ingredient[]): Outcome<WeighedIngredient[]> {
  if (parts.length === 0) return bad('The mix is empty.', 'parts', 'Add what goes into it, each with its weight.');
  const weighed: WeighedIngredient[] = [];
  for (const [index, { ingredientId, parts: grams }] of parts.entries()) {
    const ingredient = ingredientById(ingredients, ingredientId);
    if (ingredient === undefined) return bad(`There is no ingredient “${ingredientId}”.`, `parts.${index}.ingredientId`, 'Use an ingredient of the kitchen’s list, or add it there first.');
    if (weighed.some((part) => part.ingredient.id === ingredientId)) return bad(`${ingredient.name} is in the mix twice.`, `parts.${index}.ingredientId`, 'Put its parts together in one line.');
    if (!(grams > 0)) return bad(`${ingredient.name} has ${plainNumber(grams, 3)} parts.`, `parts.${index}.parts`, 'Give its weight, more than zero, or take the line out.');
    if (grams > MOST_PARTS) return bad(`${ingredient.name} has more than a thousand million parts.`, `parts.${index}.parts`, 'Check the figure.');
    weighed.push({ ingredient, grams });
  }
  return good(weighed);
}

/** A mix that comes back to itself has no composition; the circle is named so that a person can break it. */
function circleFault(identity: MixIdentity, parts: readonly MixPart[], ingredients: readonly Ingredient[], mixes: MixesById): Extract<Outcome<never>, { ok: false }> | undefined {
  const made: MixesById = { ...mixes, [identity.id]: parts };
  function nameOf(id: string): string {
    return id === identity.id ? identity.name : (ingredientById(ingredients, id)?.name ?? id);
  }
  for (const [index, part] of parts.entries()) {
    const way = circleFrom(part.ingredientId, [identity.id], made);
    if (way === undefined) continue;
    const words = way.map(nameOf);
    const message = way.length === 2
      ? `${identity.name} can’t be made of itself.`
      : `${words[0]} goes round in a circle: ${words.slice(0, -1).map((name, at) => `${name} contains ${words[at + 1]}`).join(', ')}.`;
    return bad(message, `parts.${index}.ingredientId`, `Take ${nameOf(part.ingredientId)} out, or make it of something else.`);
  }
  return undefined;
}

/** The way from the first of `way` over `id` until something comes twice; undefined when nothing does. */
function circleFrom(id: string, way: readonly string[], mixes: MixesById): string[] | undefined {
  const first = way.indexOf(id);
  if (first !== -1) return [...way.slice(first), id];
  const parts = Object.hasOwn(mixes, id) ? (mixes[id] ?? []) : [];
  for (const part of parts) {
    const circle = circleFrom(part.ingredientId, [...way, id], mixes);
    if (circle !== undefined) return circle;
  }
  return undefined;
}

function meanPercent(weighed: readonly WeighedIngredient[], allGrams: number, part: 'waterPercent' | 'saltPercent' | 'sugarPercent' | 'alcoholPercent'): number {
  return weighed.reduce((sum, { ingredient, grams }) => sum + (grams / allGrams) * ingredient[part], 0);
}

/** Two salts of one label name are one ingredient on a label, and their weights count together. */
function labelList(weighed: readonly WeighedIngredient[]): string[] {
  const gramsByName = new Map<string, number>();
  for (const { ingredient, grams } of weighed) {
    const inner = ingredient.subIngredients.length === 0 ? '' : ` (${ingredient.subIngredients.join(', ')})`;
    const name = ingredient.labelName + inner;
    gramsByName.set(name, (gramsByName.get(name) ?? 0) + grams);
  }
  return [...gramsByName].toSorted(([, one], [, other]) => other - one).map(([name]) => name);
}

/** Of what is mostly water by the brine's own density; of other liquids by adding their volumes; null where something dry is in it. */
function densityOf(weighed: readonly WeighedIngredient[], allGrams: number): number | null {
  const mixture = mixtureOf(weighed);
  if (100 * mixture.waterGrams >= POURED_WATER_PERCENT * allGrams && waterPhaseFraction(mixture.saltGrams, mixture.waterGrams) <= SATURATED_SALT_FRACTION) {
    return weighed.some((part) => part.ingredient.densityGramsPerMl !== null) ? mixtureDensityKgPerM3(mixture, ROOM_CELSIUS) / 1000 : null;
  }
  let millilitres = 0;
  for (const { ingredient, grams } of weighed) {
    if (ingredient.densityGramsPerMl === null) return null;
    millilitres += grams / ingredient.densityGramsPerMl;
  }
  return allGrams / millilitres;
}
