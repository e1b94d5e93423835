/** A log's text as lines and fields. One line is one row: loggers write no line breaks inside a field. */

export const DELIMITERS = [';', '\t', ',', '|'] as const;
export type Delimiter = (typeof DELIMITERS)[number];

/** The lines of a log, each made a text only when it is looked at: a long log is looked at here and there before it is read. */
export interface LogLines {
  readonly count: number;
  /** @param index from 0 */
  lineAt(index: number): string;
}

/** The lines of a text. */
export function linesOfText(text: string): LogLines {
  const lines = splitLines(text);
  return { count: lines.length, lineAt: (index) => lines[index] ?? '' };
}

/** Splits at any line ending; the end of the last line starts no new one. */
export function splitLines(text: string): string[] {
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const lines = (plain.includes('\r') ? plain.replace(/\r\n?/g, '\n') : plain).split('\n');
  if (lines.at(-1) === '' || lines.at(-1) === '\u001A') lines.pop();
  return lines;
}

/**
 * The fields of one line, trimmed, with quote marks taken off and doubled ones made single.
 * @returns `undefined` when a quote mark that opens a field isn't closed on the line
 */
export function splitFields(line: string, delimiter: Delimiter): string[] | undefined {
  if (!line.includes('"')) {
    const fields = line.split(delimiter);
    for (let index = 0; index < fields.length; index += 1) {
      const field = fields[index] ?? '';
      if (mayNeedTrim(field)) fields[index] = field.trim();
    }
    return fields;
  }
  const fields: string[] = [];
  let position = 0;
  for (;;) {
    const start = skipBlanks(line, position, delimiter);
    if (line[start] !== '"') {
      const end = line.indexOf(delimiter, position);
      fields.push(line.slice(position, end === -1 ? undefined : end).trim());
      if (end === -1) return fields;
      position = end + 1;
      continue;
    }
    const close = closingQuote(line, start + 1);
    if (close === -1) return undefined;
    const end = line.indexOf(delimiter, close);
    const tail = line.slice(close + 1, end === -1 ? undefined : end);
    fields.push((line.slice(start + 1, close).replaceAll('""', '"') + tail).trim());
    if (end === -1) return fields;
    position = end + 1;
  }
}

/** Whether a line has nothing in it but spaces, quote marks and delimiters. */
export function isBlankLine(line: string, delimiter: Delimiter): boolean {
  if (line.trim() === '') return true;
  for (const character of line) {
    if (character !== delimiter && character !== '"' && character.trim() !== '') return false;
  }
  return true;
}

/** Trimming every field costs more than looking at its ends. */
function mayNeedTrim(field: string): boolean {
  const first = field.charCodeAt(0);
  const last = field.charCodeAt(field.length - 1);
  return first <= 32 || last <= 32 || first > 127 || last > 127;
}

function skipBlanks(line: string, from: number, delimiter: Delimiter): number {
  let position = from;
  while (line[position] === ' ' || (line[position] === '\t' && delimiter !== '\t')) position += 1;
  return position;
}

function closingQuote(line: string, from: number): number {
  let position = line.indexOf('"', from);
  while (position !== -1 && line[position + 1] === '"') position = line.indexOf('"', position + 2);
  return position;
}
