/**
 * The lot code printed on packs: `SS YYDDD B C`, two letters of the species, year and day of the
 * year of smoking, the load's letter that day, a check character (ISO/IEC 7064 MOD 37,36).
 * It tells product, year, day and period as 1 NYCRR 262.8(d) and Mich. R 285.569.7(4) ask (read);
 * the pattern itself is common practice. A pack adds its number: `CO26195AE-007`.
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { DIGITS_AND_LETTERS, endsWithCheckCharacter, hybridCheckCharacter } from './check-character.ts';
import { dayFromOrdinal, dayOfYear, dayText, readDay, type CalendarDay } from './dates.ts';

/** A lot code taken apart. */
export interface LotCode {
  /** Nine characters, without the pack's number. */
  readonly code: string;
  readonly speciesCode: string;
  readonly smokedOn: CalendarDay;
  /** A to Z without I and O, which read as 1 and 0. */
  readonly loadLetter: string;
  /** The pack's number in the lot, where the text had one. */
  readonly serial: number | undefined;
}

const LOAD_LETTER = /^[A-HJ-NP-Z]$/;
const TYPED = /^([A-Z]{2}) ?(\d{2})(\d{3}) ?([A-Z])-?([0-9A-Z])(?:-(\d{3}))?$/;
const PATTERN_HINT = 'It has two letters, five digits, a letter and a check character, such as CO26195AE.';

/**
 * Makes the lot code of one load of one species on one day.
 * @param parts `speciesCode` two capital letters, `smokedOn` YYYY-MM-DD (the day smoking ended), `loadLetter` A-Z without I and O
 * @returns nine characters, or a sentence naming the part at fault
 */
export function makeLotCode(parts: { speciesCode: string; smokedOn: string; loadLetter: string }): Outcome<string> {
  if (!/^[A-Z]{2}$/.test(parts.speciesCode)) {
    return bad(`“${parts.speciesCode}” is not a species code.`, 'speciesCode', 'Use two capital letters, such as CO.');
  }
  const smokedOn = readDay(parts.smokedOn, 'smokedOn');
  if (!smokedOn.ok) return smokedOn;
  if (!LOAD_LETTER.test(parts.loadLetter)) {
    return bad(`“${parts.loadLetter}” is not a load’s letter.`, 'loadLetter', 'Use one capital letter, but not I or O.');
  }
  const body = `${parts.speciesCode}${yearAndDay(smokedOn.value)}${parts.loadLetter}`;
  return good(body + hybridCheckCharacter(body, DIGITS_AND_LETTERS));
}

/**
 * Reads a lot code as typed or scanned: small letters, the printed grouping `CO 26195 A-E` and a pack's number are understood.
 * @param field the input key to name in a problem
 * @returns its parts, or a sentence: wrong pattern, no such day, letter I or O, wrong check character
 */
export function readLotCode(text: string, field = 'lot'): Outcome<LotCode> {
  const match = TYPED.exec(text.trim().toUpperCase());
  if (match === null) return bad(`“${text}” is not a lot code.`, field, PATTERN_HINT);
  const [, speciesCode = '', year = '', ordinal = '', loadLetter = '', check = '', serial] = match;
  if (!LOAD_LETTER.test(loadLetter)) {
    return bad(`“${text}” is not a lot code: the load’s letter is never I or O.`, field, 'Check for a 1 or a 0 read as a letter.');
  }
  const code = `${speciesCode}${year}${ordinal}${loadLetter}${check}`;
  if (!endsWithCheckCharacter(code, DIGITS_AND_LETTERS)) {
    return bad(`The check character of lot “${text}” does not fit.`, field, 'A character is wrong or two are changed round: read it from the pack again.');
  }
  const smokedOn = dayFromOrdinal(2000 + Number(year), Number(ordinal));
  if (smokedOn === undefined) return bad(`Lot “${text}” names day ${ordinal}, which 20${year} does not have.`, field, PATTERN_HINT);
  if (serial === '000') return bad(`“${text}” has no pack number.`, field, 'Packs are numbered from 001.');
  return good({ code, speciesCode, smokedOn, loadLetter, serial: serial === undefined ? undefined : Number(serial) });
}

/** A lot code in groups for reading aloud: `CO 26195 A-E`. */
export function groupLotCode(code: string): string {
  return `${code.slice(0, 2)} ${code.slice(2, 7)} ${code.slice(7, 8)}-${code.slice(8)}`;
}

/**
 * The code of one pack: the lot and the pack's number, `CO26195AE-007`.
 * @param serial 1 to 999
 */
export function makePackCode(lotCode: string, serial: number): Outcome<string> {
  if (!Number.isInteger(serial) || serial < 1 || serial > 999) {
    return bad(`A lot has packs 1 to 999, not ${serial}.`, 'serial', 'Start a new load for more packs.');
  }
  return good(`${lotCode}-${String(serial).padStart(3, '0')}`);
}

/** Year and day of the year in five digits, `26195`. */
export function yearAndDay(day: CalendarDay): string {
  return dayText(day).slice(2, 4) + String(dayOfYear(day)).padStart(3, '0');
}
