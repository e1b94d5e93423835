/** What two files of one logger and one set-up have in common: how they are written, not what they say. */
import { linesOfText } from './log-lines.ts';
import { assignRoles } from './log-roles.ts';
import { openTable, type LogTable } from './log-table.ts';

/**
 * The shape of a file: delimiter, headings, units row and the kinds of its columns as they are read without any
 * answer. Two files of the same shape give the same text.
 */
export function shapeOfTable({ layout, facts }: LogTable): string {
  const { roles } = assignRoles(facts, new Map());
  return JSON.stringify([layout.delimiter, layout.headings, layout.units, roles]);
}

/** The shape of a text; empty where it holds no log. */
export function shapeOfText(text: string): string {
  const table = openTable(linesOfText(text), {});
  return table.ok ? shapeOfTable(table.value) : '';
}
