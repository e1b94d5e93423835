/** A figure in per cent as typed, or the sentence that says what is wrong with it. */
import { refuseInput } from './field-refusal.ts';

/**
 * Reads a figure of 0 to 100 with a point and at most four decimals.
 * @param what it is, as in “the salt”
 * @throws Refusal INVALID_INPUT at the path
 */
export function readTypedPercent(typed: string, path: readonly (string | number)[], what: string): { readonly percent: number; readonly text: string } {
  const text = typed.trim().replace('\u2212', '-');
  if (text === '') refuseInput(`The ${what} is empty.`, path, 'Type the figure.');
  if (/^[+-]?\d+,\d+$/.test(text)) refuseInput(`“${text}” has a comma.`, path, `Write ${text.replace(',', '.')} with a point.`);
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(text)) refuseInput(`“${text}” is not a figure.`, path, 'Type a number such as 3.5.');
  const percent = Number(text);
  if (percent < 0 || percent > 100) refuseInput(`A ${what} of ${text} can’t be.`, path, 'Give 0 to 100.');
  if (!/^\d*(\.\d{0,4})?$/.test(text)) refuseInput(`“${text}” has more than four decimals.`, path, 'Type it as it was reported, with four decimals at most.');
  return { percent, text };
}
