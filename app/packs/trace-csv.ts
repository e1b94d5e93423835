/**
 * Tables as comma-separated text: RFC 4180 (IETF, 2005, section 2; from memory), lines end in CRLF, and a cell with a comma, a
 * quote or a line break stands in quotes.
 */

/** A cell: text, or a number, which is written as it is. */
export type Cell = string | number;

/** The first characters by which a spreadsheet takes a cell for a formula, wide forms among them. OWASP, “CSV Injection” (from memory). */
const STARTS_FORMULA = /^[=+\-@\t\r\n＝＋－＠]/u;
const NEEDS_QUOTES = /[",\r\n]|^\s|\s$/u;

/**
 * The text of one cell. Text that a spreadsheet would take for a formula gets an apostrophe before it, as OWASP advises, and is
 * quoted; a number never does, so that −5 stays a number.
 */
export function cellText(cell: Cell): string {
  if (typeof cell === 'number') return String(cell);
  const isFormula = STARTS_FORMULA.test(cell);
  const text = isFormula ? `'${cell}` : cell;
  return isFormula || NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** One line with its end. */
export function lineText(cells: readonly Cell[]): string {
  let line = '';
  for (let index = 0; index < cells.length; index += 1) line += `${index === 0 ? '' : ','}${cellText(cells[index] ?? '')}`;
  return `${line}\r\n`;
}

/** A whole table. */
export function tableText(rows: readonly (readonly Cell[])[]): string {
  return rows.map(lineText).join('');
}

/** A number exactly as it was written, zeros at its end too; anything else as text. */
export function figureText(written: string): string {
  return /^-?\d+(\.\d+)?$/.test(written) ? written : cellText(written);
}
