/**
 * The code of fish received together: `F YYDDD NN C`, the letter F, year and day of the year it
 * came in, its number that day, a check character (ISO/IEC 7064 MOD 37,36). Common practice.
 * A pack's lot has a letter in second place and a fish lot a digit, so that neither reads as the other.
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { DIGITS_AND_LETTERS, endsWithCheckCharacter, hybridCheckCharacter } from './check-character.ts';
import { dayFromOrdinal, readDay, type CalendarDay } from './dates.ts';
import { yearAndDay } from './lot-code.ts';

export interface FishLotCode {
  readonly code: string;
  readonly receivedOn: CalendarDay;
  /** 1 to 99, counted anew each day. */
  readonly number: number;
}

const TYPED = /^F ?(\d{2})(\d{3}) ?(\d{2})-?([0-9A-Z])$/;
const PATTERN_HINT = 'It has an F, seven digits and a check character, such as F26195019.';

/**
 * Makes the code of a fish lot.
 * @param parts `receivedOn` YYYY-MM-DD, `number` the lot's number that day, 1 to 99
 * @returns nine characters, or a sentence naming the part at fault
 */
export function makeFishLotCode(parts: { receivedOn: string; number: number }): Outcome<string> {
  const receivedOn = readDay(parts.receivedOn, 'receivedOn');
  if (!receivedOn.ok) return receivedOn;
  if (!Number.isInteger(parts.number) || parts.number < 1 || parts.number > 99) {
    return bad(`A day has fish lots 1 to 99, not ${parts.number}.`, 'number', 'Receive fish of one source and species together.');
  }
  const body = `F${yearAndDay(receivedOn.value)}${String(parts.number).padStart(2, '0')}`;
  return good(body + hybridCheckCharacter(body, DIGITS_AND_LETTERS));
}

/**
 * Reads a fish lot’s code as typed: small letters and the grouping `F 26195 01-9` are understood.
 * @param field the input key to name in a problem
 * @returns its parts, or a sentence: wrong pattern, wrong check character, no such day
 */
export function readFishLotCode(text: string, field = 'fishLot'): Outcome<FishLotCode> {
  const match = TYPED.exec(text.trim().toUpperCase());
  if (match === null) return bad(`“${text}” is not the code of a fish lot.`, field, PATTERN_HINT);
  const [, year = '', ordinal = '', number = '', check = ''] = match;
  const code = `F${year}${ordinal}${number}${check}`;
  if (!endsWithCheckCharacter(code, DIGITS_AND_LETTERS)) {
    return bad(`The check character of fish lot “${text}” does not fit.`, field, 'A character is wrong or two are changed round: read it from the tag again.');
  }
  const receivedOn = dayFromOrdinal(2000 + Number(year), Number(ordinal));
  if (receivedOn === undefined) return bad(`Fish lot “${text}” names day ${ordinal}, which 20${year} does not have.`, field, PATTERN_HINT);
  if (number === '00') return bad(`Fish lot “${text}” has no number.`, field, PATTERN_HINT);
  return good({ code, receivedOn, number: Number(number) });
}
