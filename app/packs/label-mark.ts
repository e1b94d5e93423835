/** The kitchen's mark as a PNG: its size is read from the file itself (ISO/IEC 15948, PNG, 5.2 and 11.2.2, read). */
import { bad, good, type Outcome } from '../measures/outcome.ts';

/** What a mark's file may weigh. */
export const MARK_MOST_BYTES = 100_000;

const SIGNATURE = [137, 80, 78, 71, 13, 10, 26, 10];
/** The first chunk is the header: its length and name, then width and height in four bytes each. */
const HEADER_BYTES = 24;
const MOST_PIXELS = 4000;

/**
 * The size of a mark's picture.
 * @param bytes the whole file
 * @returns pixels, or a sentence: too large a file, no PNG, no size that can be
 */
export function readMark(bytes: Uint8Array, field = 'mark'): Outcome<{ widthPixels: number; heightPixels: number }> {
  if (bytes.length > MARK_MOST_BYTES) return bad(`The picture has ${Math.ceil(bytes.length / 1000)} kB; a mark may have 100.`, field, 'Save it smaller, in black and white.');
  const isPng = bytes.length > HEADER_BYTES && SIGNATURE.every((byte, place) => bytes[place] === byte) && String.fromCharCode(...bytes.slice(12, 16)) === 'IHDR';
  if (!isPng) return bad('The file is not a PNG picture.', field, 'Save the mark as a PNG and choose that file.');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const [widthPixels, heightPixels] = [view.getUint32(16), view.getUint32(20)];
  if (widthPixels < 1 || heightPixels < 1 || widthPixels > MOST_PIXELS || heightPixels > MOST_PIXELS) return bad(`A mark of ${widthPixels} × ${heightPixels} dots can’t be printed.`, field, 'Use at most 4,000 dots each way.');
  return good({ widthPixels, heightPixels });
}
