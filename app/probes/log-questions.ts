/** What can't be known from a log's text alone, as questions; never more than is needed to read it. */
import { nameColumn, type ColumnFacts } from './log-facts.ts';
import { isMostly } from './log-profile.ts';
import type { TimePlan } from './log-time-columns.ts';
import type { LogChoice, LogQuestion, LogRole } from './log-types.ts';

const SECONDS: LogChoice = { id: 'seconds', text: 'Seconds' };
const UNIT_MS: Readonly<Record<string, number>> = { seconds: 1000, minutes: 60_000, hours: 3_600_000 };
const TEMPERATURE_HEADING = /temp|probe|piece|chamber|smoker|core|°|meat|fish/i;

/** The plan with the unit of its elapsed times filled in, or the question for it. */
export function settleElapsedUnit(plan: TimePlan, answer: string | undefined, heading: string): { plan: TimePlan; question: LogQuestion | undefined } {
  if (plan.kind === 'elapsed-number' && plan.unitMs === undefined) {
    const unitMs = UNIT_MS[answer ?? ''];
    if (unitMs !== undefined) return { plan: { ...plan, unitMs }, question: undefined };
    return { plan, question: askElapsedUnit(plan.column, heading, [SECONDS, { id: 'minutes', text: 'Minutes' }, { id: 'hours', text: 'Hours' }]) };
  }
  if (plan.kind === 'elapsed-clock' && plan.parts === undefined) {
    if (answer === 'hours-minutes' || answer === 'minutes-seconds') return { plan: { ...plan, parts: answer }, question: undefined };
    return {
      plan,
      question: askElapsedUnit(plan.column, heading, [
        { id: 'hours-minutes', text: 'Hours and minutes' },
        { id: 'minutes-seconds', text: 'Minutes and seconds' },
      ]),
    };
  }
  return { plan, question: undefined };
}

function askElapsedUnit(column: number, heading: string, choices: readonly LogChoice[]): LogQuestion {
  return { id: 'elapsedUnit', text: `In what are the elapsed times of ${nameColumn(column, heading)} counted?`, choices, column };
}

/**
 * The question for the start of elapsed times, or for the day of clock times without a date.
 * @param opening the lines above the table: one that speaks of the start is quoted
 */
export function askStart(plan: TimePlan, heading: string, opening: readonly string[]): LogQuestion {
  const said = opening.find((line) => /\b(?:start|begin|begun|started)/i.test(line))?.trim();
  const quote = said === undefined ? '' : ` The file says: “${said.replace(/\s+/g, ' ').slice(0, 80)}”.`;
  const where = nameColumn(plan.column, heading);
  const text =
    plan.kind === 'clock-only'
      ? `The clock times of ${where} have no date. On which day was the first row taken (such as 2026-07-14)?`
      : `The times of ${where} count from the start. When was the start (such as 2026-07-14 05:31)?`;
  return { id: 'start', text: `${text}${quote}`, choices: [], column: plan.column };
}

/** The question for the zone of times written without one. */
export function askTimeZone(column: number): LogQuestion {
  return { id: 'timeZone', text: 'In which time zone was the logger’s clock set (such as America/Anchorage)?', choices: [], column };
}

/** The question for a column of numbers under a heading of times while the times stand under a heading of a temperature. */
export function askSwappedHeadings(facts: readonly ColumnFacts[], roles: readonly LogRole[], chosen: ReadonlyMap<number, LogRole>): LogQuestion | undefined {
  const times = facts.find((fact) => roles[fact.index] === 'time' && isMostly(fact.profile, 'moment') && fact.hint !== 'time' && TEMPERATURE_HEADING.test(fact.heading));
  const numbers = facts.find((fact) => fact.hint === 'time' && roles[fact.index] === 'ignore' && isMostly(fact.profile, 'number'));
  if (times === undefined || numbers === undefined || chosen.has(numbers.index)) return undefined;
  return {
    id: `role:${numbers.index}`,
    text: `The headings look swapped: “${times.heading}” stands over times and “${numbers.heading}” over numbers. What does “${numbers.heading}” hold?`,
    choices: [
      { id: 'reading', text: 'Temperatures' },
      { id: 'ignore', text: 'Something else: leave the column out' },
    ],
    column: numbers.index,
  };
}
