/** Cells of a plain row: where they end, and their numbers. */
import { isDoubtful, LARGEST_DIGITS } from './log-byte-cells.ts';

/** Where the next line begins, from the end of a line's last cell; -1 where it doesn't end there. */
export function lineEnd(bytes: Uint8Array, at: number): number {
  if (at === bytes.length) return at;
  const next = bytes[at] === 13 ? at + 1 : at;
  return bytes[next] === 10 ? next + 1 : -1;
}

/** Where a cell that isn't read ends; -1 where it holds a quote mark, a control character or one beyond ASCII. */
export function skipCell(bytes: Uint8Array, from: number, delimiter: number): number {
  let at = from;
  for (; at < bytes.length; at += 1) {
    const byte = bytes[at] ?? 0;
    if (byte === delimiter || byte === 10 || byte === 13) break;
    if (byte < 32 || byte === 34 || byte > 126) return -1;
  }
  return at;
}

/** Whether a name has no blank at its ends, and is one. */
export function isTrim(bytes: Uint8Array, from: number, to: number): boolean {
  return to > from && bytes[from] !== 32 && bytes[to - 1] !== 32;
}

/** Keeps a number as `plainCodeAt` codes it. @returns where it ends, which the caller looks at; -1 where it isn't plain */
export function readNumber(bytes: Uint8Array, from: number, mark: number, codes: Int32Array, place: number): number {
  let at = from;
  let digit = (bytes[at] ?? 0) - 48;
  const isNegative = digit === -3;
  if (isNegative) {
    at += 1;
    digit = (bytes[at] ?? 0) - 48;
  }
  const start = at;
  let digits = 0;
  while (digit >= 0 && digit <= 9) {
    digits = digits * 10 + digit;
    at += 1;
    digit = (bytes[at] ?? 0) - 48;
  }
  const whole = at - start;
  if (whole === 0 || whole > 6 || (whole > 1 && bytes[start] === 48) || (digits > 126 && isDoubtful(digits, isNegative))) return -1;
  let decimals = 0;
  if (digit + 48 === mark) {
    const first = at + 1;
    at = first;
    digit = (bytes[at] ?? 0) - 48;
    while (digit >= 0 && digit <= 9) {
      digits = digits * 10 + digit;
      at += 1;
      digit = (bytes[at] ?? 0) - 48;
    }
    decimals = at - first;
    if (decimals === 0 || decimals > 3) return -1;
  }
  if (digits > LARGEST_DIGITS || (isNegative && digits === 0)) return -1;
  codes[place] = (isNegative ? -digits : digits) * 4 + decimals;
  return at;
}
