/** Salt measured by cups and spoons: what it weighs depends on its crystal by a factor of two and more. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import type { HouseholdForm, HouseholdWeight, Ingredient } from './ingredients.ts';
import { plainNumber } from './rounding.ts';

/** The measures that salt is put into. */
export const SALT_MEASURES = ['cup', 'tablespoon', 'teaspoon'] as const;
export type SaltMeasure = (typeof SALT_MEASURES)[number];

/** So many cups or spoons of one crystal. */
export interface MeasuredSalt {
  readonly formId: string;
  readonly unit: SaltMeasure;
  readonly count: number;
}

/** What a measure holds: the usual weight, and how far sources and packing differ. */
export interface GramsRange {
  readonly formName: string;
  readonly grams: number;
  readonly lowGrams: number;
  readonly highGrams: number;
}

/** How many of a measure a weight is, by crystal; `low` where it packs heavy. */
export interface CrystalCount {
  readonly formId: string;
  readonly formName: string;
  readonly count: number;
  readonly lowCount: number;
  readonly highCount: number;
}

/** How far one measure of an ingredient differs by crystal. */
export interface CrystalSpread {
  readonly lightestGrams: number;
  readonly lightestName: string;
  readonly heaviestGrams: number;
  readonly heaviestName: string;
  readonly factor: number;
}

/** More cups than this are a slip of the finger. */
const MOST_MEASURES = 1000;
/** Crystals that differ by less than this are one crystal to a cook. */
const NOTABLE_FACTOR = 1.5;

/**
 * Grams of a measured salt, with their range.
 * @param count above 0, at most 1000
 * @returns the range, or a problem naming `formId`, `unit` or `count`
 */
export function gramsOfMeasure(ingredient: Ingredient, { formId, unit, count }: MeasuredSalt): Outcome<GramsRange> {
  if (!(count > 0 && count <= MOST_MEASURES)) return bad(`${plainNumber(count, 2)} ${unit}s of ${ingredient.name.toLowerCase()} can’t be.`, 'count', 'Give how many went in, more than zero.');
  const form = ingredient.household.find((entry) => entry.id === formId);
  if (form === undefined) return bad(`No kind “${formId}” of ${ingredient.name.toLowerCase()} is known.`, 'formId', 'Choose the crystal as the box names it.');
  const weight = weightOf(form, unit);
  if (weight === undefined) return bad(`What a ${unit} of ${form.name} ${ingredient.name.toLowerCase()} weighs is not known.`, 'unit', 'Use another measure, or weigh it.');
  return good({ formName: form.name, grams: count * weight.grams, lowGrams: count * lowOf(weight), highGrams: count * highOf(weight) });
}

/** How many of a measure a weight of salt is, for every crystal of the ingredient in the catalogue's order. */
export function countsByCrystal(ingredient: Ingredient, grams: number, unit: SaltMeasure): CrystalCount[] {
  return ingredient.household.flatMap((form) => {
    const weight = weightOf(form, unit);
    if (weight === undefined) return [];
    return [{ formId: form.id, formName: form.name, count: grams / weight.grams, lowCount: grams / highOf(weight), highCount: grams / lowOf(weight) }];
  });
}

/** The lightest and the heaviest that a measure of an ingredient can weigh; undefined where it has fewer than two kinds. */
export function crystalSpread(ingredient: Ingredient, unit: SaltMeasure): CrystalSpread | undefined {
  const weights = ingredient.household.flatMap((form) => {
    const weight = weightOf(form, unit);
    return weight === undefined ? [] : [{ name: form.name, low: lowOf(weight), high: highOf(weight) }];
  });
  const [first, second] = weights;
  if (first === undefined || second === undefined) return undefined;
  const lightest = weights.reduce((least, weight) => (weight.low < least.low ? weight : least), first);
  const heaviest = weights.reduce((most, weight) => (weight.high > most.high ? weight : most), first);
  return { lightestGrams: lightest.low, lightestName: lightest.name, heaviestGrams: heaviest.high, heaviestName: heaviest.name, factor: heaviest.high / lightest.low };
}

/** The warning to stand beside a cup of salt, in a sentence; undefined where its kinds hardly differ. */
export function crystalWarning(ingredient: Ingredient, unit: SaltMeasure = 'cup'): string | undefined {
  const spread = crystalSpread(ingredient, unit);
  if (spread === undefined || spread.factor < NOTABLE_FACTOR) return undefined;
  return `A ${unit} of ${ingredient.name.toLowerCase()} weighs from ${plainNumber(spread.lightestGrams, 0)} g (${spread.lightestName}) to ${plainNumber(spread.heaviestGrams, 0)} g (${spread.heaviestName}), ${plainNumber(spread.factor, 1)} times as much: weigh it.`;
}

function weightOf(form: HouseholdForm, unit: SaltMeasure): HouseholdWeight | undefined {
  return form.weights.find((weight) => weight.unit === unit);
}

function lowOf(weight: HouseholdWeight): number {
  return weight.lowGrams ?? weight.grams;
}

function highOf(weight: HouseholdWeight): number {
  return weight.highGrams ?? weight.grams;
}
