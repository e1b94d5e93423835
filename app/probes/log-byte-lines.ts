/** The lines of a log as stretches of its bytes: a long log is read without making a text of every line. */
import { isUtf8 } from './log-bytes.ts';
import type { LogLines } from './log-lines.ts';

export interface ByteLines extends LogLines {
  readonly bytes: Uint8Array;
  /** Where each line begins, and where it ends without its line ending. */
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  /** Lines with quote marks or characters beyond ASCII: they are read as texts. */
  readonly special: ReadonlySet<number>;
}

/** More lines than this with quote marks or characters beyond ASCII, and bytes have no advantage. */
const MOST_SPECIAL = 2000;
const PDF = [0x25, 0x50, 0x44, 0x46, 0x2d];

/** In each byte of a word: where a byte is below a space, or a quote mark, or beyond ASCII, its highest bit comes out set. */
const SPACES = 0x2020_2020;
const QUOTES = 0x2222_2222;
const ONES = 0x0101_0101;
const HIGH_BITS = -0x7f7f_7f80;

/**
 * Finds the lines of UTF-8 bytes. One pass over the bytes, four at a time.
 * @returns `undefined` for bytes that must be looked at as a whole: control characters, line endings of old kinds, other encodings
 */
export function indexLines(bytes: Uint8Array): ByteLines | undefined {
  const first = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  if (PDF.every((byte, position) => bytes[position] === byte)) return undefined;
  const finder = new LineFinder(bytes, first);
  const { length } = bytes;
  const wordsFrom = Math.min(length, first + ((4 - ((bytes.byteOffset + first) & 3)) & 3));
  const wordCount = (length - wordsFrom) >> 2;
  const words = wordCount === 0 ? new Int32Array(0) : new Int32Array(bytes.buffer, bytes.byteOffset + wordsFrom, wordCount);
  finder.look(first, wordsFrom);
  for (let index = 0; index < words.length; index += 1) {
    const word = words[index] ?? 0;
    const quotes = word ^ QUOTES;
    if (((((word - SPACES) | 0) & ~word) | (((quotes - ONES) | 0) & ~quotes) | word) & HIGH_BITS) finder.look(wordsFrom + index * 4, wordsFrom + index * 4 + 4);
  }
  finder.look(wordsFrom + words.length * 4, length);
  return finder.finish();
}

/** Looks at single bytes, in order, for all that isn't plain text within a line. */
class LineFinder {
  private readonly bytes: Uint8Array;
  private starts: Int32Array<ArrayBuffer>;
  private ends: Int32Array<ArrayBuffer>;
  private count = 0;
  private isSpecial = false;
  private isStrange = false;
  private readonly special = new Set<number>();

  constructor(bytes: Uint8Array, first: number) {
    this.bytes = bytes;
    this.starts = new Int32Array(2 + (bytes.length >> 4));
    this.ends = new Int32Array(2 + (bytes.length >> 4));
    this.starts[0] = first;
  }

  look(from: number, to: number): void {
    for (let at = from; at < to; at += 1) {
      const byte = this.bytes[at] ?? 0;
      if (byte > 34 && byte < 128) continue;
      if (byte === 10) this.endLine(at + 1);
      else if (byte === 34 || byte >= 128) this.isSpecial = true;
      else if (byte < 32 && byte !== 9 && (byte !== 13 || this.bytes[at + 1] !== 10)) this.isStrange = true;
    }
  }

  finish(): ByteLines | undefined {
    const { bytes, special } = this;
    // As if a line ending stood behind the last line.
    if ((this.starts[this.count] ?? 0) < bytes.length) this.endLine(bytes.length + 1);
    const { count, starts, ends } = this;
    if (this.isStrange || special.size > MOST_SPECIAL) return undefined;
    for (const index of special) if (!isUtf8(bytes.subarray(starts[index], ends[index]))) return undefined;
    return { count, bytes, starts, ends, special, lineAt: (index) => (index < count ? textOf(bytes, starts[index] ?? 0, ends[index] ?? 0) : '') };
  }

  private endLine(nextStart: number): void {
    if (this.isSpecial) this.special.add(this.count);
    this.isSpecial = false;
    const end = nextStart - 1;
    this.ends[this.count] = end > (this.starts[this.count] ?? 0) && this.bytes[end - 1] === 13 ? end - 1 : end;
    this.count += 1;
    if (this.count === this.starts.length) {
      this.starts = grown(this.starts);
      this.ends = grown(this.ends);
    }
    this.starts[this.count] = nextStart;
  }
}

/** The text of some bytes, which are valid UTF-8. */
export function textOf(bytes: Uint8Array, from: number, to: number): string {
  let text = '';
  for (let at = from; at < to; ) {
    const lead = bytes[at] ?? 0;
    const more = lead < 0x80 ? 0 : lead < 0xe0 ? 1 : lead < 0xf0 ? 2 : 3;
    let code = more === 0 ? lead : lead & (0x3f >> more);
    for (let step = 1; step <= more; step += 1) code = (code << 6) | ((bytes[at + step] ?? 0) & 0x3f);
    text += String.fromCodePoint(code);
    at += more + 1;
  }
  return text;
}

function grown(values: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(values.length * 2);
  larger.set(values);
  return larger;
}
