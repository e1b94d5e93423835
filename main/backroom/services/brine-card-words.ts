/** The lines of a brine card in kitchen measures, as words. */
import type { CardLine } from '../../../app/brine/card.ts';
import type { HouseholdMeasure } from '../../../app/brine/household.ts';
import type { SourceNote } from '../../../app/brine/ingredients.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import { formatDegrees } from '../../../app/measures/temperature.ts';

const QUARTERS = ['', '¼', '½', '¾'] as const;
const PLURALS: Readonly<Record<string, string>> = { leaf: 'leaves' };

/** A measure in words, such as `2 ¼ cups + 3 tbsp` or `11.5 litres`; empty where none is known. */
export function householdWords(measure: HouseholdMeasure | undefined): string {
  switch (measure?.kind) {
    case undefined: return '';
    case 'litres': return `${plainNumber(measure.litres, measure.litres < 2 ? 2 : 1)} litres`;
    case 'us-quarts': return measure.quarts < 8 ? `${plainNumber(measure.quarts, 2)} quarts` : `${plainNumber(measure.quarts / 4, 2)} gallons`;
    case 'pieces': return measure.count === 1 ? `1 ${measure.formName}` : `about ${measure.count} ${PLURALS[measure.formName] ?? `${measure.formName}s`}`;
    case 'spoons': return spoonWords(measure);
  }
}

function spoonWords(measure: Extract<HouseholdMeasure, { kind: 'spoons' }>): string {
  const parts = [
    quarterWords(measure.quarterCups, 'cup', 'cups'),
    measure.tablespoons === 0 ? '' : `${measure.tablespoons} tbsp`,
    quarterWords(measure.quarterTeaspoons, 'tsp', 'tsp'),
  ].filter((part) => part !== '');
  return `${parts.join(' + ')}${measure.formName === '' ? '' : `, ${measure.formName}`}`;
}

function quarterWords(quarters: number, one: string, many: string): string {
  if (quarters === 0) return '';
  const whole = Math.floor(quarters / 4);
  const amount = [whole === 0 ? '' : String(whole), QUARTERS[quarters % 4] ?? ''].filter((part) => part !== '').join(' ');
  return `${amount} ${quarters <= 4 ? one : many}`;
}

/** What to know about weighing a line; empty where there is nothing. */
export function remarkOf(line: Pick<CardLine, 'ingredient' | 'household'>): string {
  if (line.ingredient.chooseForm && line.household === undefined) return 'Weigh it: a cup of it weighs too differently from kind to kind.';
  if (line.household?.kind !== 'spoons' || line.household.lowGrams === undefined || line.household.highGrams === undefined) return '';
  return `This measure may weigh ${plainNumber(line.household.lowGrams, 0)} to ${plainNumber(line.household.highGrams, 0)} g.`;
}

/** A source with the way it is known, in a line. */
export function sourceWords({ publisher, title, section, year, mark }: SourceNote): string {
  return `${publisher}, “${title}”, ${section}${year === null ? '' : `, ${year}`} (${mark})`;
}

/** A temperature in both scales, such as `12.3 °F (−10.9 °C)`. */
export function degreesWords(ticks: number): string {
  return `${formatDegrees(ticks, 'F')} °F (${formatDegrees(ticks, 'C')} °C)`.replaceAll('-', '−');
}
