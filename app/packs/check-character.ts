/**
 * Check characters of ISO/IEC 7064, hybrid systems (one check character from the same alphabet).
 * MOD 37,36 is what lot codes carry; MOD 11,10 is the same method over digits. Algorithm after
 * ISO/IEC 7064:2003, hybrid systems, as restated in python-stdnum `stdnum.iso7064` (read).
 *
 * Any single wrong character is detected. Two neighbouring characters changed round are detected
 * unless they follow each other in the alphabet (0-1, 8-9, 9-A, Z-0 …), and of those in only one
 * of the 36 states the sum can have: 36 of 22,680 state-and-pair cases (computed).
 */

/** The alphabet of MOD 37,36. */
export const DIGITS_AND_LETTERS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';
/** The alphabet of MOD 11,10. */
export const DIGITS = '0123456789';

/**
 * The check character of a text.
 * @param text characters of the alphabet only, without the check character
 * @param alphabet its length M fixes the system, MOD M+1,M
 * @throws when the text has a character outside the alphabet: callers test the pattern first
 */
export function hybridCheckCharacter(text: string, alphabet: string): string {
  const size = alphabet.length;
  const value = (size + 1 - productAfter(text, alphabet)) % size;
  return alphabet.charAt(value);
}

/** Whether a text ends with its right check character. A text of one character, or with foreign characters, does not. */
export function endsWithCheckCharacter(text: string, alphabet: string): boolean {
  if (text.length < 2 || [...text].some((character) => !alphabet.includes(character))) return false;
  return hybridCheckCharacter(text.slice(0, -1), alphabet) === text.slice(-1);
}

function productAfter(text: string, alphabet: string): number {
  const size = alphabet.length;
  let product = size;
  for (const character of text) {
    const value = alphabet.indexOf(character);
    if (value < 0) throw new Error(`“${character}” is not in the alphabet ${alphabet}`);
    const sum = (product + value) % size;
    product = (2 * (sum === 0 ? size : sum)) % (size + 1);
  }
  return product;
}
