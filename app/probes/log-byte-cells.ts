/** Cells of a log read from its bytes: plain numbers, fields of a row, and whether two cells are the same. */
import type { TemperatureUnit } from '../measures/temperature.ts';
import { TICKS_PER_CELSIUS, TICKS_PER_FAHRENHEIT } from '../measures/temperature.ts';

/** What `plainCode` answers for a cell that is no plain number. */
export const NOT_PLAIN = -2_147_483_648;

/** Digits of a plain number are a smaller whole number than this, so that four times it fits 32 bits. */
export const LARGEST_DIGITS = 500_000_000;

/** Where the cell that was read last ended. */
export interface CellEnd {
  at: number;
}

/**
 * A plain number as one whole number: its digits times four, plus how many of them are decimals (0 to 3). Plain is
 * a minus sign where below zero, digits without a leading nought, the mark and decimals, and then the cell's end; all
 * else is left to the texts.
 * @param to where the line ends; the cell ends there or at a delimiter
 * @param mark the byte of the decimal mark
 * @param end told where the cell ended, if it was plain
 */
export function plainCodeAt(bytes: Uint8Array, from: number, to: number, delimiter: number, mark: number, end: CellEnd): number {
  let at = from;
  const isNegative = at < to && bytes[at] === 45;
  if (isNegative) at += 1;
  const start = at;
  let digits = 0;
  let byte = 0;
  while (at < to) {
    byte = bytes[at] ?? 0;
    if (byte < 48 || byte > 57) break;
    digits = digits * 10 + byte - 48;
    at += 1;
  }
  const whole = at - start;
  if (whole === 0 || whole > 6 || (whole > 1 && bytes[start] === 48) || (digits > 126 && isDoubtful(digits, isNegative))) return NOT_PLAIN;
  let decimals = 0;
  if (at < to && byte !== delimiter) {
    if (byte !== mark) return NOT_PLAIN;
    at += 1;
    const first = at;
    while (at < to) {
      byte = bytes[at] ?? 0;
      if (byte < 48 || byte > 57) break;
      digits = digits * 10 + byte - 48;
      at += 1;
    }
    decimals = at - first;
    if (decimals === 0 || decimals > 3 || (at < to && byte !== delimiter)) return NOT_PLAIN;
  }
  if (digits > LARGEST_DIGITS || (isNegative && digits === 0)) return NOT_PLAIN;
  end.at = at;
  return (isNegative ? -digits : digits) * 4 + decimals;
}

/** Whole parts of the numbers that stand for “no sensor” in a cell: it is looked at as a text. */
export function isDoubtful(whole: number, isNegative: boolean): boolean {
  if (whole === 999 || whole === 9999) return true;
  return isNegative ? whole === 127 || whole === 32_768 : whole === 32_767 || whole === 65_535;
}

/** `plainCodeAt` of a text that is one cell. */
export function plainCodeOfText(text: string, mark: number): number {
  if (text.length > 12) return NOT_PLAIN;
  // No text has the byte 0 in it that stands for a delimiter here.
  return plainCodeAt(Uint8Array.from(text, (character) => Math.min(character.charCodeAt(0), 255)), 0, text.length, 0, mark, { at: 0 });
}

const SCALES = [1, 10, 100, 1000];

/** The number of a code, as a plain number would be read. */
export function valueOfCode(code: number): number {
  return (code >> 2) / (SCALES[code & 3] ?? 1);
}

/** The text of a code. */
export function textOfCode(code: number, mark: '.' | ','): string {
  const digits = Math.abs(code >> 2);
  const decimals = code & 3;
  const sign = code < 0 ? '-' : '';
  if (decimals === 0) return `${sign}${digits}`;
  const padded = String(digits).padStart(decimals + 1, '0');
  return `${sign}${padded.slice(0, -decimals)}${mark}${padded.slice(-decimals)}`;
}

/** Ticks of one digit's step with 0 to 3 decimals: whole in both scales. */
export function ticksPerStep(unit: TemperatureUnit): readonly number[] {
  const perDegree = unit === 'C' ? TICKS_PER_CELSIUS : TICKS_PER_FAHRENHEIT;
  return [perDegree, perDegree / 10, perDegree / 100, perDegree / 1000];
}

/**
 * Finds the fields of a line, without the blanks at their ends.
 * @param starts @param ends filled; as many as they are long are kept
 * @returns how many fields the line has
 */
export function splitBytes(bytes: Uint8Array, from: number, to: number, delimiter: number, starts: Int32Array, ends: Int32Array): number {
  let count = 0;
  let start = from;
  for (let at = findFieldEnd(bytes, from, to, delimiter); ; at = findFieldEnd(bytes, start, to, delimiter)) {
    starts[count] = trimStart(bytes, start, at);
    ends[count] = trimEnd(bytes, starts[count] ?? start, at);
    count += 1;
    if (at >= to) break;
    start = at + 1;
  }
  return count;
}

/** Where the cell that begins at a byte ends: at a delimiter, or with the line. */
export function findFieldEnd(bytes: Uint8Array, from: number, to: number, delimiter: number): number {
  let at = from;
  while (at < to && bytes[at] !== delimiter) at += 1;
  return at;
}

/** Where a cell begins behind its blanks. */
export function trimStart(bytes: Uint8Array, from: number, to: number): number {
  let at = from;
  while (at < to && (bytes[at] === 32 || bytes[at] === 9)) at += 1;
  return at;
}

/** Where a cell ends before its blanks. */
export function trimEnd(bytes: Uint8Array, from: number, to: number): number {
  let at = to;
  while (at > from && (bytes[at - 1] === 32 || bytes[at - 1] === 9)) at -= 1;
  return at;
}

/** Whether two stretches of bytes are the same. */
export function areSame(bytes: Uint8Array, from: number, to: number, others: Uint8Array, otherFrom: number, otherTo: number): boolean {
  if (to - from !== otherTo - otherFrom) return false;
  for (let at = from, other = otherFrom; at < to; at += 1, other += 1) if (bytes[at] !== others[other]) return false;
  return true;
}
