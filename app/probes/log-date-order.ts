/** Which way round a column writes its numeric dates: decided from the whole column, else asked. */
import type { LogQuestion } from './log-types.ts';
import { numericDateOf, orderedDayMs, type DateOrder, type NumericDate } from './log-moments.ts';
import { describeDay } from './log-words.ts';

/** What the whole column says: a settled order, or the orders that are still possible with a date as an example. */
export interface DateOrderEvidence {
  readonly settled: DateOrder | undefined;
  readonly possible: readonly DateOrder[];
  readonly example: string;
  /** First and last day under each possible order, wall time. */
  readonly spans: ReadonlyMap<DateOrder, readonly [number, number]>;
}

const ORDERS: readonly DateOrder[] = ['day-first', 'month-first', 'year-first'];

/**
 * Looks at every date of a column. A figure over 12 settles the order; dates that read the same
 * both ways need none; figures over 12 in both places contradict each other and settle nothing.
 */
export function weighDateOrder(dates: Iterable<string>): DateOrderEvidence {
  let dayIsFirst = false;
  let dayIsSecond = false;
  let differs = false;
  let canBeYearFirst = true;
  let example = '';
  const spans = new Map<DateOrder, [number, number]>();
  const seen = new Set<string>();
  for (const text of dates) {
    const date = numericDateOf(text);
    if (date === undefined) continue;
    const key = `${date.first} ${date.second} ${date.last} ${date.mark}`;
    if (seen.has(key)) continue;
    seen.add(key);
    if (date.first > 12 && date.first <= 31 && date.second <= 12) dayIsFirst = true;
    if (date.second > 12 && date.second <= 31 && date.first <= 12) dayIsSecond = true;
    if (!fitsYearFirst(date)) canBeYearFirst = false;
    if (example === '' || (!differs && date.first !== date.second)) example = text;
    if (date.first !== date.second) differs = true;
    for (const order of ORDERS) widen(spans, order, orderedDayMs(date.first, date.second, date.last, date.lastDigits, order));
  }
  const possible = possibleOrders(dayIsFirst, dayIsSecond, differs);
  const withYear: readonly DateOrder[] = canBeYearFirst && seen.size > 0 && spans.has('year-first') ? [...possible, 'year-first'] : possible;
  return { settled: withYear.length === 1 ? withYear[0] : undefined, possible: withYear, example, spans };
}

/** The question for dates that can be read more than one way. */
export function askDateOrder(evidence: DateOrderEvidence, column: number): LogQuestion {
  return {
    id: 'dateOrder',
    text: `Dates such as “${evidence.example}” can be read more than one way. Which comes first?`,
    choices: evidence.possible.map((order) => ({ id: order, text: describeOrder(order, evidence) })),
    column,
  };
}

function describeOrder(order: DateOrder, evidence: DateOrderEvidence): string {
  const name = { 'day-first': 'The day', 'month-first': 'The month', 'year-first': 'The year' }[order];
  const span = evidence.spans.get(order);
  if (span === undefined) return name;
  const [from, to] = span;
  return from === to ? `${name}: all on ${describeDay(from)}` : `${name}: from ${describeDay(from)} to ${describeDay(to)}`;
}

/** A two-digit year can stand first only with hyphens, as the short form of ISO 8601:2000 wrote it. */
function fitsYearFirst(date: NumericDate): boolean {
  return date.lastDigits === 2 && date.mark === '-' && date.second <= 12 && date.last >= 1 && date.last <= 31;
}

function possibleOrders(dayIsFirst: boolean, dayIsSecond: boolean, differs: boolean): readonly DateOrder[] {
  if (dayIsFirst && !dayIsSecond) return ['day-first'];
  if (dayIsSecond && !dayIsFirst) return ['month-first'];
  return differs ? ['day-first', 'month-first'] : ['day-first'];
}

function widen(spans: Map<DateOrder, [number, number]>, order: DateOrder, dayMs: number | undefined): void {
  if (dayMs === undefined) return;
  const span = spans.get(order);
  if (span === undefined) spans.set(order, [dayMs, dayMs]);
  else if (dayMs < span[0]) span[0] = dayMs;
  else if (dayMs > span[1]) span[1] = dayMs;
}
