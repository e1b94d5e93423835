/** The parts of a zip file, unpacked here so that nothing that a zip file says of itself need be believed. */
import { crc32, inflateRawSync } from 'node:zlib';
import { bad, good, type Outcome } from '../../../app/measures/outcome.ts';

/** A season of readings as a workbook's XML stays below it; a file made to fill a memory doesn't (our choice). */
const LARGEST_UNPACKED_BYTES = 256 * 1024 * 1024;
const MOST_PARTS = 5000;
/** Signatures and layout: PKWARE's APPNOTE.TXT, section 4.3 and 4.5.3 (from memory). */
const END = 0x0605_4b50;
const CENTRAL = 0x0201_4b50;
const LOCAL = 0x0403_4b50;
const WIDE_SIZES = 0x0001;
const IN_WIDE = 0xffff_ffff;
const STORED = 0;
const DEFLATED = 8;

/**
 * Unpacks the parts that are wanted, and stops where they get too large.
 * @returns the parts by name, or a sentence: damaged, or too large
 */
export function unzipParts(bytes: Uint8Array, fileName: string, isWanted: (name: string) => boolean): Outcome<Map<string, Uint8Array>> {
  const tooLarge = bad(`“${fileName}” unpacks to more than ${LARGEST_UNPACKED_BYTES / 1_048_576} MB.`, 'fileId', 'Save a shorter stretch as .xlsx, or save it as CSV.');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    const end = findEnd(view);
    const count = view.getUint16(end + 10, true);
    if (count > MOST_PARTS) return tooLarge;
    const parts = new Map<string, Uint8Array>();
    let [at, left] = [view.getUint32(end + 16, true), LARGEST_UNPACKED_BYTES];
    for (let index = 0; index < count; index += 1) {
      if (view.getUint32(at, true) !== CENTRAL) throw new RangeError('no header of a part');
      const [nameBytes, extraBytes, commentBytes] = [view.getUint16(at + 28, true), view.getUint16(at + 30, true), view.getUint16(at + 32, true)];
      const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameBytes)).replaceAll('\\', '/');
      if (isWanted(name)) {
        const part = unpack(bytes, startOf(view, at), sizeOf(view, at, at + 46 + nameBytes, extraBytes), view.getUint16(at + 10, true), left);
        left -= part.byteLength;
        if (left < 0) return tooLarge;
        parts.set(name, part);
      }
      at += 46 + nameBytes + extraBytes + commentBytes;
    }
    return good(parts);
  } catch (thrown) {
    if (thrown instanceof RangeError && 'code' in thrown && thrown.code === 'ERR_BUFFER_TOO_LARGE') return tooLarge;
    return bad(`“${fileName}” is a damaged workbook, or another zip file.`, 'fileId', 'Open it in a spreadsheet program and save it again as .xlsx or CSV.');
  }
}

/** Throws ERR_BUFFER_TOO_LARGE where the part unpacks to more than is left. */
function unpack(bytes: Uint8Array, start: number, size: number, method: number, left: number): Uint8Array {
  if (start + size > bytes.length) throw new RangeError('a part ends behind the file');
  const packed = bytes.subarray(start, start + size);
  if (method === DEFLATED) return inflateRawSync(packed, { maxOutputLength: Math.max(1, left) });
  if (method === STORED) return packed;
  throw new RangeError('another way of packing');
}

/** Where a part's bytes begin: behind its own header. */
function startOf(view: DataView, central: number): number {
  const local = view.getUint32(central + 42, true);
  if (view.getUint32(local, true) !== LOCAL) throw new RangeError('no header at a part');
  return local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
}

/** How many bytes a part has as packed. Some programs write it, small as it is, in the extra field for large files. */
function sizeOf(view: DataView, central: number, extra: number, extraBytes: number): number {
  const size = view.getUint32(central + 20, true);
  if (size !== IN_WIDE) return size;
  for (let at = extra; at + 4 <= extra + extraBytes; at += 4 + view.getUint16(at + 2, true)) {
    if (view.getUint16(at, true) !== WIDE_SIZES) continue;
    // The unpacked size stands before it, where that is wide too.
    return Number(view.getBigUint64(at + 4 + (view.getUint32(central + 24, true) === IN_WIDE ? 8 : 0), true));
  }
  throw new RangeError('no size of a part');
}

function findEnd(view: DataView): number {
  for (let at = view.byteLength - 22; at >= Math.max(0, view.byteLength - 65_557); at -= 1) if (view.getUint32(at, true) === END) return at;
  throw new RangeError('no end of a directory');
}

/** A zip file of these parts as they are, whose headers are true. */
export function zipAsStored(parts: ReadonlyMap<string, Uint8Array>): Buffer {
  const locals: Uint8Array[] = [];
  const centrals: Uint8Array[] = [];
  let at = 0;
  for (const [name, bytes] of parts) {
    const nameBytes = Buffer.from(name);
    const local = Buffer.alloc(30);
    local.writeUInt32LE(LOCAL, 0);
    local.writeUInt16LE(20, 4);
    local.writeUInt32LE(crc32(bytes), 14);
    local.writeUInt32LE(bytes.byteLength, 18);
    local.writeUInt32LE(bytes.byteLength, 22);
    local.writeUInt16LE(nameBytes.byteLength, 26);
    const central = Buffer.alloc(46);
    central.writeUInt32LE(CENTRAL, 0);
    central.writeUInt16LE(20, 4);
    local.copy(central, 6, 4, 30);
    central.writeUInt32LE(at, 42);
    locals.push(local, nameBytes, bytes);
    centrals.push(central, nameBytes);
    at += 30 + nameBytes.byteLength + bytes.byteLength;
  }
  const directory = Buffer.concat(centrals);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(END, 0);
  end.writeUInt16LE(parts.size, 8);
  end.writeUInt16LE(parts.size, 10);
  end.writeUInt32LE(directory.byteLength, 12);
  end.writeUInt32LE(at, 16);
  return Buffer.concat([...locals, directory, end]);
}
