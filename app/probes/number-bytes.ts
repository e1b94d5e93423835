/**
 * Whole numbers as few bytes: seven bits a byte, the low ones first, the eighth bit says that more follow; signed
 * numbers fold their sign into the lowest bit. Exact for every safe integer. (The scheme is that of the Protocol
 * Buffers encoding, Google, “Base 128 varints” and “ZigZag”: common practice.)
 */

/** A safe integer with its sign takes no more bytes than this. */
const LONGEST_NUMBER = 10;
/** Two numbers of 32 bits lie no further apart than 33 bits tell, with their sign. */
const LONGEST_DIFFERENCE = 5;

/** So many steps up or down are told by one byte. */
const MOST_STEPS_A_BYTE = 63;

/** Grows as it is written. */
export class ByteWriter {
  private bytes: Uint8Array;
  private length = 0;

  /** @param capacity how many bytes there is room for at first */
  constructor(capacity = 1024) {
    this.bytes = new Uint8Array(capacity);
  }

  /** A whole number from zero up. */
  writeUnsigned(value: number): void {
    if (this.length + LONGEST_NUMBER > this.bytes.length) this.grow();
    // Most numbers are small.
    if (value < 0x80) this.bytes[this.length++] = value;
    else this.writeLong(value);
  }

  private writeLong(value: number): void {
    let rest = value;
    while (rest >= 0x80) {
      this.bytes[this.length++] = (rest % 0x80) | 0x80;
      rest = rest < 0x8000_0000 ? rest >>> 7 : Math.floor(rest / 0x80);
    }
    this.bytes[this.length++] = rest;
  }

  /** A whole number of either sign. */
  writeSigned(value: number): void {
    this.writeUnsigned(value < 0 ? -2 * value - 1 : 2 * value);
  }

  /** Whole numbers of either sign: of some values, from the second on, how many steps each lies from the one before. */
  writeDifferences(values: Int32Array, step: number): void {
    let index = 1;
    while (index < values.length) {
      // Nearly all take one byte: no more room is made beforehand than is likely to be used.
      this.makeRoom(LONGEST_DIFFERENCE);
      index = this.writeWhileRoom(values, step, index);
    }
  }

  /** @returns the index of the first value that there was no room for */
  private writeWhileRoom(values: Int32Array, step: number, from: number): number {
    const { bytes } = this;
    let { length } = this;
    const last = bytes.length - LONGEST_DIFFERENCE;
    const most = MOST_STEPS_A_BYTE * step;
    let before = values[from - 1] ?? 0;
    let index = from;
    for (; index < values.length && length <= last; index += 1) {
      const value = values[index] ?? 0;
      const difference = value - before;
      before = value;
      if (difference <= most && difference >= -most) {
        // As below, in whole numbers of 32 bits.
        const few = (difference / step) | 0;
        bytes[length++] = (few << 1) ^ (few >> 31);
        continue;
      }
      const steps = difference / step;
      let rest = steps < 0 ? -2 * steps - 1 : 2 * steps;
      while (rest >= 0x80) {
        bytes[length++] = (rest % 0x80) | 0x80;
        rest = Math.floor(rest / 0x80);
      }
      bytes[length++] = rest;
    }
    this.length = length;
    return index;
  }

  /** Numbers that were written elsewhere. */
  writeBytes(written: Uint8Array): void {
    this.makeRoom(written.length);
    this.bytes.set(written, this.length);
    this.length += written.length;
  }

  /** What was written. */
  finish(): Uint8Array {
    return this.bytes.subarray(0, this.length);
  }

  private makeRoom(more: number): void {
    if (this.length + more > this.bytes.length) this.grow(more);
  }

  private grow(more = LONGEST_NUMBER): void {
    const larger = new Uint8Array(this.bytes.length * 2 + more);
    larger.set(this.bytes);
    this.bytes = larger;
  }
}

/** Reads what `ByteWriter` wrote; throws where the bytes end too early, which only damaged ones do. */
export class ByteReader {
  private readonly bytes: Uint8Array;
  private at = 0;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
  }

  readUnsigned(): number {
    const first = this.bytes[this.at];
    if (first !== undefined && first < 0x80) {
      this.at += 1;
      return first;
    }
    return this.readLong();
  }

  private readLong(): number {
    let value = 0;
    let scale = 1;
    for (;;) {
      const byte = this.bytes[this.at++];
      if (byte === undefined) throw new Error('The bytes end in the middle of a number.');
      value += (byte & 0x7f) * scale;
      if (byte < 0x80) return value;
      scale *= 0x80;
    }
  }

  readSigned(): number {
    const folded = this.readUnsigned();
    return folded % 2 === 0 ? folded / 2 : -(folded + 1) / 2;
  }

  get isAtEnd(): boolean {
    return this.at === this.bytes.length;
  }
}

/** The greatest whole number that divides both. */
export function greatestDivisor(left: number, right: number): number {
  let [large, small] = [Math.abs(left), Math.abs(right)];
  while (small > 0) [large, small] = [small, large % small];
  return large;
}
