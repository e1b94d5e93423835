/** Text on a label is printed exactly as entered, in any script; only what can't be seen is refused. */
import { bad, good, type Outcome } from '../measures/outcome.ts';

/** Control characters, line and paragraph separators, and marks that turn the direction of the text around them. */
const UNSEEN = /[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\u202A-\u202E\u2066-\u2069]/u;

/**
 * Text for a label: spaces at both ends go, nothing else changes.
 * @param field the input key to name in a problem
 * @returns the text (it may be empty), or a sentence when it holds a character that can't be printed
 */
export function printableText(text: string, field: string): Outcome<string> {
  const trimmed = text.trim();
  if (!UNSEEN.test(trimmed)) return good(trimmed);
  return bad('The text holds a character that can’t be printed, such as a tab or a line break.', field, 'Type it again on one line.');
}

/** As `printableText`, and refuses an empty text. `what` names it in the sentence, such as “The market name”. */
export function wordsOnLabel(text: string, field: string, what: string): Outcome<string> {
  const read = printableText(text, field);
  if (read.ok && read.value === '') return bad(`${what} is empty.`, field, 'Type it as it should stand on the label.');
  return read;
}
