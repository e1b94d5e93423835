/** Mass. Everything is computed in grams; what a person typed stays beside it. */
import { bad, good, type Outcome } from './outcome.ts';

/** International avoirdupois pound, exact by definition (NIST SP 811). */
export const GRAMS_PER_POUND = 453.59237;
/** Avoirdupois ounce, exact by definition (NIST SP 811). */
export const GRAMS_PER_OUNCE = 28.349523125;

export type MassUnit = 'g' | 'kg' | 'lb' | 'oz';

const GRAMS_PER: Readonly<Record<MassUnit, number>> = { g: 1, kg: 1000, lb: GRAMS_PER_POUND, oz: GRAMS_PER_OUNCE };

const MINUS_SIGN = '\u2212';

/** A weight as entered, kept beside its grams so that the record shows what was typed. */
export interface EnteredMass {
  readonly text: string;
  readonly unit: MassUnit;
  readonly grams: number;
}

/** Above this no lodge kitchen weighs fish at once; a larger figure is a slip of the finger. */
export const HEAVIEST_GRAMS = 1_000_000;

/**
 * Reads a weight as typed.
 * @param text digits with a point, such as `12.5`
 * @param unit the unit shown beside the field
 * @param field the input key to name in a problem
 * @returns grams with what was entered, or a sentence: not a number, a comma, zero or less, over one tonne
 */
export function massFromText(text: string, unit: MassUnit, field = 'weight'): Outcome<EnteredMass> {
  const trimmed = text.trim().replace(MINUS_SIGN, '-');
  if (trimmed === '') return bad('The weight is empty.', field, 'Weigh it and type the figure.');
  if (/^\d+,\d+$/.test(trimmed)) {
    return bad(`“${trimmed}” has a comma, which can mean a decimal or a thousand.`, field, commaRemedy(trimmed));
  }
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(trimmed)) return bad(`“${trimmed}” is not a weight.`, field, `Type a number of ${unit}, such as 12.5.`);
  const value = Number(trimmed);
  if (value <= 0) return bad(`A weight of ${trimmed} ${unit} can’t be.`, field, 'It must be more than zero.');
  const grams = value * GRAMS_PER[unit];
  if (grams > HEAVIEST_GRAMS) return bad(`${trimmed} ${unit} is more than a tonne.`, field, 'Check the unit and the point.');
  return good({ text: trimmed, unit, grams });
}

/** Three digits after the comma may be meant either way, so both are named. */
function commaRemedy(text: string): string {
  const withPoint = `Write ${text.replace(',', '.')} with a point`;
  return /^[1-9]\d{0,2},\d{3}$/.test(text) ? `${withPoint}, or ${text.replace(',', '')} if it is thousands.` : `${withPoint}.`;
}

/** Grams in another unit, for display. */
export function massIn(grams: number, unit: MassUnit): number {
  return grams / GRAMS_PER[unit];
}
