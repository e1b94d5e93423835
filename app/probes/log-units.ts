/** The unit of each series: stated, written behind the numbers, or asked; never guessed from the numbers. */
import type { TemperatureUnit } from '../measures/temperature.ts';
import { nameColumn, statedUnit, type ColumnFacts } from './log-facts.ts';
import { looseUnits, unitFromHeading } from './log-headings.ts';
import type { LogQuestion } from './log-types.ts';

/** What a series knows of its unit; how many readings say one themselves. */
export interface UnitEvidence {
  /** The channel as written in a long file; `undefined` for a column of a wide one. */
  readonly channel: string | undefined;
  readonly column: number;
  readonly count: number;
  readonly saidFahrenheit: number;
  readonly saidCelsius: number;
  /** The smallest and greatest number, for the question. */
  span(): readonly [number, number];
}

export interface SettledSeries {
  readonly name: string;
  readonly unit: TemperatureUnit | undefined;
}

interface SettledUnits {
  readonly all: readonly SettledSeries[];
  readonly questions: readonly LogQuestion[];
}

interface Draft extends SettledSeries {
  readonly series: UnitEvidence;
  /** Two sources of the unit contradict each other. */
  readonly isContested: boolean;
}

/**
 * Decides the unit of every series.
 * @returns one for each series, in the order given
 * @param openingLines what the logger says of itself above the table (`Temperature unit: °C`)
 */
export function settleUnits(series: readonly UnitEvidence[], facts: readonly ColumnFacts[], openingLines: readonly string[], answers: Readonly<Record<string, string>>): SettledUnits {
  const wide = series.filter((each) => each.channel === undefined).map((each) => facts[each.column]?.heading ?? '');
  const loose = wide.length === series.length ? looseUnits(wide) : undefined;
  const opening = unitOfOpening(openingLines);
  const used = new Map<string, number>();
  const drafts = series.map((each, index): Draft => {
    const fact = facts[each.column];
    const looseUnit = loose?.[index];
    const stated = fact === undefined ? undefined : statedUnit(fact);
    const firm = stated === 'F' || stated === 'C' ? stated : typeof looseUnit?.unit === 'string' && looseUnit.unit !== 'other' ? looseUnit.unit : undefined;
    const plainName = each.channel ?? (looseUnit?.name || unitFromHeading(fact?.heading ?? '').name);
    const name = tellApart(plainName === '' ? `Column ${each.column + 1}` : plainName, each.column, used);
    return { series: each, name, ...decide(each, firm, opening) };
  });
  const known = new Set(drafts.flatMap((draft) => (draft.unit === undefined ? [] : [draft.unit])));
  const open = drafts.filter((draft) => draft.unit === undefined);
  const withPoints = open.filter((draft) => draft.series.count > 0);
  const columns = [...new Set((withPoints.length > 0 || known.size > 0 ? withPoints : open).map((draft) => draft.series.column))];
  const one = known.size < 2 && (columns.length < 2 || withPoints.every((draft) => !draft.isContested));
  const questions = columns.flatMap((column): LogQuestion[] => {
    if (answers[`unit:${column}`] !== undefined || (one && answers['unit'] !== undefined)) return [];
    return [askUnit(one && columns.length > 1 ? undefined : column, one ? 'unit' : `unit:${column}`, withPoints, facts)];
  });
  const all = drafts.map((draft) => ({ ...draft, unit: draft.unit ?? answeredUnit(answers, draft.series.column, one) }));
  const fallback = all.find((each) => each.unit !== undefined)?.unit;
  return {
    // A series without a reading has nothing to be wrong about: it follows the others.
    all: all.map((each) => (each.unit === undefined && fallback !== undefined && each.series.count === 0 ? { ...each, unit: fallback } : each)),
    questions: one ? questions.slice(0, 1) : questions,
  };
}

function decide({ count, saidFahrenheit: fahrenheit, saidCelsius: celsius }: UnitEvidence, firm: TemperatureUnit | undefined, opening: TemperatureUnit | undefined): { unit: TemperatureUnit | undefined; isContested: boolean } {
  if (firm !== undefined) {
    const against = firm === 'F' ? celsius : fahrenheit;
    return against > 0 && against * 2 >= count ? { unit: undefined, isContested: true } : { unit: firm, isContested: false };
  }
  if (fahrenheit !== celsius) return { unit: fahrenheit > celsius ? 'F' : 'C', isContested: false };
  if (fahrenheit > 0) return { unit: undefined, isContested: true };
  return { unit: opening, isContested: false };
}

function answeredUnit(answers: Readonly<Record<string, string>>, column: number, one: boolean): TemperatureUnit | undefined {
  const answer = answers[`unit:${column}`] ?? (one ? answers['unit'] : undefined);
  return answer === 'F' || answer === 'C' ? answer : undefined;
}

function askUnit(column: number | undefined, id: string, open: readonly Draft[], facts: readonly ColumnFacts[]): LogQuestion {
  const about = column === undefined ? open : open.filter((draft) => draft.series.column === column);
  let low = Infinity;
  let high = -Infinity;
  for (const draft of about) {
    const [least, greatest] = draft.series.span();
    low = Math.min(low, least);
    high = Math.max(high, greatest);
  }
  const where = column === undefined ? 'the columns of readings' : nameColumn(column, facts[column]?.heading ?? '');
  const range = low <= high ? ` Its numbers go from ${low} to ${high}.` : '';
  const text = about.some((draft) => draft.isContested)
    ? `The file says both °F and °C for ${where}. Which is right? Rows in the other are refused.`
    : `Are the numbers of ${where} in °F or °C?${column === undefined ? range.replace('Its', 'The') : range}`;
  return { id, text, choices: [{ id: 'F', text: '°F' }, { id: 'C', text: '°C' }], ...(column === undefined ? {} : { column }) };
}

/** `Temperature unit: °C`, `Units,F`: a unit that the lines above the table state for all of it; none when they state both. */
function unitOfOpening(lines: readonly string[]): TemperatureUnit | undefined {
  const found = new Set<TemperatureUnit>();
  for (const line of lines) {
    const match = /(?:^|[;,|\t])\s*"?(?:temp\w*[\s._-]*)?(?:units?|scale|einheit)"?\s*[:;,=|\t]\s*"?(?:[°º˚\uFFFD]|Â°|deg(?:rees?)?\.?)?\s*(c|f|cel|celsius|fahrenheit)\b/i.exec(line.slice(0, 500));
    if (match !== null) found.add(match[1]?.toLowerCase().startsWith('f') === true ? 'F' : 'C');
  }
  return found.size === 1 ? [...found][0] : undefined;
}

function tellApart(name: string, column: number, used: Map<string, number>): string {
  const times = (used.get(name) ?? 0) + 1;
  used.set(name, times);
  return times === 1 ? name : `${name} (column ${column + 1})`;
}
