/** The table of a log, found and understood before its rows are read: what each column holds, and how times are told. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { checkAnswers, type Answers } from './log-answers.ts';
import { weighDateOrder, type DateOrderEvidence } from './log-date-order.ts';
import { gatherFacts, nameColumn, type ColumnFacts } from './log-facts.ts';
import { findLayout, type LogLayout } from './log-layout.ts';
import { isBlankLine, type LogLines } from './log-lines.ts';
import { numericDateOf, type DateOrder } from './log-moments.ts';
import { profileColumns } from './log-profile.ts';
import { askSwappedHeadings } from './log-questions.ts';
import { assignRoles } from './log-roles.ts';
import type { TimePlan } from './log-time-columns.ts';
import type { LogOptions, LogQuestion, LogRole } from './log-types.ts';

export interface LogTable {
  readonly lines: LogLines;
  readonly layout: LogLayout;
  readonly facts: readonly ColumnFacts[];
  readonly roles: readonly LogRole[];
  readonly plan: TimePlan;
  /** The heading over the times. */
  readonly heading: string;
  /** Lines above the table that aren't blank: what the logger says of itself. */
  readonly opening: readonly string[];
  readonly swapped: LogQuestion | undefined;
  readonly answers: Answers;
  readonly timeZone: string | undefined;
}

/**
 * Finds the table, or says why there is none that can be read.
 * @param layout where it is known already
 */
export function openTable(lines: LogLines, options: LogOptions, layout = findLayout(lines)): Outcome<LogTable> {
  const fileName = options.fileName ?? 'The file';
  const answers = options.answers ?? {};
  if (layout === undefined) {
    return bad(`No row of “${fileName}” has a time and a temperature.`, undefined, 'Export the log as CSV with one row for each time.');
  }
  if (layout.mixesCommas) {
    return bad(`In “${fileName}” the commas in the numbers can’t be told from those between the columns (line ${layout.dataStart + 1}).`, undefined, 'Export the log with semicolons between the columns, or with decimal points.');
  }
  const chosen = checkAnswers(answers, layout.columnCount);
  if (!chosen.ok) return chosen;
  const facts = gatherFacts(layout, profileColumns(lines, layout));
  const { roles, time } = assignRoles(facts, chosen.value);
  const swapped = askSwappedHeadings(facts, roles, chosen.value);
  const fault = faultOfRoles(fileName, facts, roles, time?.plan, swapped !== undefined);
  if (fault !== undefined || time === undefined) return fault ?? bad(`“${fileName}” has no column of times.`);
  const { plan } = time;
  return good({ lines, layout, facts, roles, plan, heading: facts[plan.column]?.heading ?? '', opening: openingOf(lines, layout), swapped, answers, timeZone: options.timeZone });
}

/** What the whole column says of its date order; `undefined` when its dates aren't three bare figures. */
export function weighDates({ plan, facts }: LogTable, dates: () => Iterable<string>): DateOrderEvidence | undefined {
  if (plan.kind !== 'moment' && plan.kind !== 'date-and-clock') return undefined;
  const shown = facts[plan.column]?.profile.first ?? [];
  return shown.some((cell) => numericDateOf(cell) !== undefined) ? weighDateOrder(dates()) : undefined;
}

/** The order a person chose, where the column leaves it possible. */
export function answeredOrder(evidence: DateOrderEvidence | undefined, answers: Answers): DateOrder | undefined {
  return evidence?.possible.find((order) => order === answers['dateOrder']);
}

function openingOf(lines: LogLines, layout: LogLayout): readonly string[] {
  return Array.from({ length: layout.dataStart }, (_, index) => lines.lineAt(index)).filter((line) => !isBlankLine(line, layout.delimiter));
}

function faultOfRoles(fileName: string, facts: readonly ColumnFacts[], roles: readonly LogRole[], plan: TimePlan | undefined, isSwapped: boolean): ReturnType<typeof bad> | undefined {
  const remedy = 'Say what each column holds, or export the log with times and temperatures.';
  if (plan === undefined) return bad(`“${fileName}” has no column of times.`, undefined, remedy);
  if (plan.kind === 'date-only') {
    const where = nameColumn(plan.column, facts[plan.column]?.heading ?? '');
    return bad(`“${fileName}” has dates in ${where} but no clock times.`, undefined, 'Export the log with the time of each reading.');
  }
  if (!roles.includes('reading') && !isSwapped) return bad(`“${fileName}” has times but no column of temperatures.`, undefined, remedy);
  return undefined;
}
