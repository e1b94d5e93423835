/** Answers to the questions of a log: only known questions and choices; and when the log was started. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { CLOCK_CHANGE_CHOICES } from './log-clock-changes.ts';
import { numericDateOf, readDate, readMoment, type Moment } from './log-moments.ts';
import { LOG_ROLES, type LogRole } from './log-types.ts';

export type Answers = Readonly<Record<string, string>>;

const FIXED_CHOICES: Readonly<Record<string, readonly string[]>> = {
  dateOrder: ['day-first', 'month-first', 'year-first'],
  unit: ['F', 'C'],
  elapsedUnit: ['seconds', 'minutes', 'hours', 'hours-minutes', 'minutes-seconds'],
  clockChange: CLOCK_CHANGE_CHOICES,
};
const TYPED = ['timeZone', 'start'];

/**
 * Checks that every answer is to a question this file could have, and one of its choices. Answers
 * that the file turns out not to need are let pass: they come from another file of the same shape.
 */
export function checkAnswers(answers: Answers, columnCount: number): Outcome<ReadonlyMap<number, LogRole>> {
  const roles = new Map<number, LogRole>();
  for (const [id, answer] of Object.entries(answers)) {
    const field = `answers.${id.slice(0, 60)}`;
    const [subject = '', index = ''] = id.split(':');
    const isColumn = /^\d{1,4}$/.test(index) && id === `${subject}:${Number(index)}` && Number(index) < columnCount && (subject === 'unit' || subject === 'role');
    if (!isColumn && !TYPED.includes(id) && !Object.hasOwn(FIXED_CHOICES, id)) {
      return bad(`“${id.slice(0, 60)}” is not a question about this file.`, field, 'Answer only the questions that reading the file gave.');
    }
    if (TYPED.includes(id)) continue;
    const choices = subject === 'role' ? LOG_ROLES : (FIXED_CHOICES[subject] ?? []);
    if (!choices.some((choice) => choice === answer)) {
      return bad(`“${answer.slice(0, 40)}” is not a choice for “${id}”.`, field, `Choose one of: ${choices.join(', ')}.`);
    }
    const role = LOG_ROLES.find((each) => each === answer);
    if (subject === 'role' && role !== undefined) roles.set(Number(index), role);
  }
  return good(roles);
}

/**
 * Reads when a log was started: `2026-07-14 05:31`, with seconds and an offset if wanted.
 * @param dateIsEnough the file has clock times and only the day of its first row is wanted
 * @returns the moment (midnight for a date alone), or a sentence
 */
export function readStart(answer: string, dateIsEnough: boolean): Outcome<Moment> {
  const text = answer.trim();
  if (numericDateOf(text) === undefined) {
    const moment = readMoment(text, undefined);
    if (typeof moment !== 'string') return good(moment);
    const dayMs = readDate(text, undefined);
    if (dateIsEnough && typeof dayMs === 'number') return good({ ms: dayMs, isInstant: false });
  }
  const example = dateIsEnough ? '2026-07-14' : '2026-07-14 05:31';
  return bad(`“${text.slice(0, 40)}” is not a start that can be read.`, 'answers.start', `Write it with the year first, such as ${example}.`);
}
