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

/** In the four bytes `12.3` of a little-endian word: what digits and mark have in common, and what lifts a byte above 9 out of it. */
const DIGIT_BITS = 0xf0ff_f0f0 | 0;
const DIGITS = 0x3000_3030;
const SIX_EACH = 0x0600_0606;

/** Reads the numbers of one file. */
export class PlainNumbers {
  private readonly bytes: Uint8Array;
  private readonly view: DataView;
  private readonly delimiter: number;
  private readonly mark: number;
  private readonly pattern: number;
  private readonly lastWord: number;

  /** @param mark the byte of the decimal mark */
  constructor(bytes: Uint8Array, delimiter: number, mark: number) {
    this.bytes = bytes;
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.delimiter = delimiter;
    this.mark = mark;
    this.pattern = DIGITS | (mark << 16);
    this.lastWord = bytes.length - 8;
  }

  /**
   * Keeps the numbers of cells that stand beside each other as `plainCodeAt` codes them, each at a place of its own list.
   * @returns where the last one ends, which the caller looks at; -1 where one isn't plain
   */
  read(from: number, lists: readonly Int32Array[], place: number): number {
    const { bytes, delimiter, mark, lastWord } = this;
    const last = lists.length - 1;
    let at = from;
    for (let each = 0; ; each += 1) {
      const codes = lists[each];
      if (codes === undefined) return -1;
      const end = at > lastWord ? -1 : this.readCommon(at, codes, place);
      at = end === -1 ? readNumber(bytes, at, mark, codes, place) : end;
      if (at === -1 || each === last) return at;
      if (bytes[at] !== delimiter) return -1;
      at += 1;
    }
  }

  /** Nearly all numbers of a kitchen are of the forms 42.5 and 142.5: looked at as one word. @returns -1 for any other */
  private readCommon(at: number, codes: Int32Array, place: number): number {
    const { bytes, view, pattern } = this;
    let word = view.getInt32(at, true);
    let hundreds = 0;
    if ((word & DIGIT_BITS) !== pattern) {
      hundreds = (word & 255) - 48;
      word = view.getInt32(at + 1, true);
    }
    const end = hundreds === 0 ? at + 4 : at + 5;
    const byte = bytes[end] ?? 0;
    const digits = hundreds * 1000 + (word & 15) * 100 + ((word >> 8) & 15) * 10 + ((word >> 24) & 15);
    // 999 may stand for no sensor; 05 isn't plain; and with another character than a digit before `12.3` the number is beyond both.
    if ((word & DIGIT_BITS) !== pattern || ((word + SIX_EACH) & DIGIT_BITS) !== pattern || digits < 100 || digits >= 9990 || (byte >= 48 && byte <= 57)) return -1;
    codes[place] = digits * 4 + 1;
    return end;
  }
}

/** Keeps a number as `plainCodeAt` codes it. @returns where it ends, which the caller looks at; -1 where it isn't plain */
function readNumber(bytes: Uint8Array, from: number, mark: number, codes: Int32Array, place: number): number {
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
