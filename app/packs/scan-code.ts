/**
 * What a scanner types: a pack's own code with its check character, or a GS1 element string. Scanners with a
 * keyboard's plug may put the symbology identifier before it (`]d1`, `]d2`, `]Q1`; ISO/IEC 15424, from memory) and
 * type the separator of element strings as a group separator, as `^]`, or not at all.
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { readLotCode } from './lot-code.ts';
import { readGtin } from './pack-code.ts';

/** A pack's code as it was read. */
export interface ScannedPack {
  /** Lot and pack number, `CO26195AE-007`. */
  readonly code: string;
  readonly lot: string;
  readonly serial: number;
  /** Fourteen digits where the symbol was a GS1 one. */
  readonly gtin: string | undefined;
}

const IDENTIFIER = /^\][A-Za-z]\d/;
/** What ends an element of open length, and how scanners that can’t type it write it. */
const SEPARATOR = '\u001d';
const TYPED_SEPARATORS = ['^]', '{GS}', '<GS>'];
/** Element strings of fixed length that may stand before the lot (GS1 General Specifications 3.2, read), by their first digits. */
const FIXED: readonly (readonly [start: RegExp, digits: number])[] = [[/^01/, 14], [/^02/, 14], [/^1[1-7]/, 6], [/^31\d\d/, 6], [/^32\d\d/, 6]];
const LOT_LENGTH = 9;
const HINT = 'Scan the square code on the pack, or type what is printed under it, such as CO26195AE-007.';

/**
 * Reads what was scanned or typed.
 * @returns the pack's code, or a sentence: empty, no code of a pack, a lot without a pack number, a wrong check character or digit
 */
export function readScan(text: string, field = 'text'): Outcome<ScannedPack> {
  const plain = text.trim().replace(IDENTIFIER, '');
  if (plain === '') return bad('Nothing was scanned.', field, HINT);
  if (plain.startsWith('(01)') || /^01\d{14}/.test(plain)) return readElements(plain, field);
  if (/^\d{8,14}$/.test(plain)) return bad(`“${shown(plain)}” is a trade item number, not a pack.`, field, 'Scan the square code, not the bars.');
  return packOf(plain, undefined, field);
}

function readElements(plain: string, field: string): Outcome<ScannedPack> {
  const text = TYPED_SEPARATORS.reduce((whole, typed) => whole.replaceAll(typed, SEPARATOR), plain);
  const elements = text.startsWith('(') ? bracketed(text) : unbracketed(text);
  const gtin = readGtin(elements.get('01') ?? '', field);
  if (!gtin.ok) return gtin;
  const lot = elements.get('10');
  if (lot === undefined) return bad(`The symbol of trade item ${gtin.value} names no lot.`, field, 'It is not a pack of this kitchen. Set it aside.');
  const serial = elements.get('21');
  return packOf(serial === undefined ? lot : `${lot}-${serial.padStart(3, '0')}`, gtin.value, field);
}

function bracketed(text: string): ReadonlyMap<string, string> {
  return new Map([...text.matchAll(/\((\d{2,4})\)([^(]*)/g)].map(([, key = '', value = '']) => [key, value.replaceAll(SEPARATOR, '')]));
}

/** Without a separator a lot of ours ends after its nine characters. */
function unbracketed(text: string): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  let rest = text;
  while (rest !== '') {
    const fixed = FIXED.find(([start]) => start.test(rest));
    const keyLength = fixed !== undefined && rest.startsWith('3') ? 4 : 2;
    const key = rest.slice(0, keyLength);
    rest = rest.slice(keyLength);
    const [before = ''] = rest.split(SEPARATOR, 1);
    const length = fixed?.[1] ?? (key === '10' && before.length === rest.length && /^.{9}21\d{3}$/.test(rest) ? LOT_LENGTH : before.length);
    found.set(key, rest.slice(0, length));
    const after = rest.slice(length);
    rest = after.startsWith(SEPARATOR) ? after.slice(SEPARATOR.length) : after;
  }
  return found;
}

function packOf(text: string, gtin: string | undefined, field: string): Outcome<ScannedPack> {
  const lot = readLotCode(text, field);
  if (!lot.ok) {
    return lot.problem.message.endsWith('is not a lot code.') ? bad(`“${shown(text)}” is no code of a pack.`, field, HINT) : lot;
  }
  const { code, serial } = lot.value;
  if (serial === undefined) return bad(`${code} is a lot, not one pack of it.`, field, 'Scan the code of the pack: its number stands behind the lot.');
  return good({ code: `${code}-${String(serial).padStart(3, '0')}`, lot: code, serial, gtin });
}

/** Long enough to tell it by, short enough to read; what can’t be seen is left out. */
function shown(text: string): string {
  const seen = text.replace(/\p{C}/gu, '');
  return seen.length > 40 ? `${seen.slice(0, 40)}…` : seen;
}
