/**
 * What the symbol on a pack holds: the lot alone, or a GS1 element string where the kitchen has a
 * licensed trade item number. Element strings: GS1 General Specifications and GS1 Barcode Syntax
 * Dictionary (read); brackets are for eyes and for the encoder, which leaves them out.
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import type { ReadDates } from './date-lines.ts';
import { dayText, type CalendarDay } from './dates.ts';
import type { LabelCode } from './label-types.ts';
import type { LotCode } from './lot-code.ts';
import type { NetWeight } from './net-weight.ts';

/** The check digit of GS1 numbers: weights 3, 1, 3 … from the right (GS1 General Specifications 7.9.1, read). */
export function gs1CheckDigit(digits: string): string {
  const sum = [...digits].toReversed().reduce((total, digit, place) => total + Number(digit) * (place % 2 === 0 ? 3 : 1), 0);
  return String((10 - (sum % 10)) % 10);
}

/**
 * A trade item number in fourteen digits.
 * @param gtin 8, 12, 13 or 14 digits with the check digit; spaces and hyphens are understood
 * @returns fourteen digits, or a sentence: another length, another character, wrong check digit
 */
export function readGtin(gtin: string, field = 'gtin'): Outcome<string> {
  const digits = gtin.replace(/[ -]/g, '');
  if (!/^(\d{8}|\d{12,14})$/.test(digits)) {
    return bad(`“${gtin}” is not a trade item number.`, field, 'Enter its 8, 12, 13 or 14 digits, or leave it out: the symbol then holds the lot alone.');
  }
  if (gs1CheckDigit(digits.slice(0, -1)) !== digits.slice(-1)) {
    return bad(`The check digit of trade item number “${gtin}” does not fit.`, field, 'Read it again from the GS1 certificate.');
  }
  return good(digits.padStart(14, '0'));
}

/**
 * The symbol's content: with a trade item number its weight as printed (3103), the days of packing (13), best by (15) and
 * use by (17) that the label shows, the lot (10) and the pack's number (21), those of fixed length first so that only the
 * last needs a separator.
 * @param gtin fourteen digits, or undefined for a plain symbol with the lot (and pack number) alone
 * @param dates those printed on the label
 */
export function packCode(lot: LotCode, net: NetWeight, gtin: string | undefined, dates: Pick<ReadDates, 'packedOn' | 'bestBy' | 'useBy'>): LabelCode {
  const serial = lot.serial === undefined ? undefined : String(lot.serial).padStart(3, '0');
  if (gtin === undefined) return { symbology: 'datamatrix', content: serial === undefined ? lot.code : `${lot.code}-${serial}` };
  const elements: readonly (readonly [identifier: string, data: string | undefined])[] = [
    ['01', gtin], ['3103', String(net.printedGrams).padStart(6, '0')],
    ['13', gs1Day(dates.packedOn)], ['15', gs1Day(dates.bestBy)], ['17', gs1Day(dates.useBy)],
    ['10', lot.code], ['21', serial],
  ];
  return { symbology: 'gs1datamatrix', content: elements.map(([identifier, data]) => (data === undefined ? '' : `(${identifier})${data}`)).join('') };
}

/** Six digits of a day, YYMMDD. */
function gs1Day(day: CalendarDay | undefined): string | undefined {
  return day === undefined ? undefined : dayText(day).slice(2).replaceAll('-', '');
}
