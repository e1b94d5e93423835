/** Compressed bytes of the book: Brotli (RFC 7932), and in rows older than it raw DEFLATE (RFC 1951). */
import { promisify } from 'node:util';
import { brotliCompress, brotliCompressSync, brotliDecompressSync, constants, inflateRawSync, type BrotliOptions } from 'node:zlib';

/** As a row names what its bytes were compressed with. */
export type Packing = 0 | 1;
const DEFLATE = 0;
/** What is compressed now: at these qualities it takes half as long as DEFLATE's quickest level, and no more room. */
export const BROTLI: Packing = 1;

/** How much time is given to make the bytes small: 0 the least. */
export type Quality = 0 | 1;

/** Matches are looked for in so many bytes (2 to this power) before: more isn't smaller with numbers and logs. */
const WINDOW_BITS = 18;

export function packNow(bytes: Uint8Array, quality: Quality): Uint8Array {
  return brotliCompressSync(bytes, optionsOf(quality, bytes.byteLength));
}

/**
 * As `packNow`, beside this thread.
 * @param roomBytes what the result is likely to fit in: each further piece would wait for its turn in this thread, and its turns may be long
 */
export function packBeside(bytes: Uint8Array, quality: Quality, roomBytes: number): Promise<Uint8Array> {
  return promisify(brotliCompress)(bytes, optionsOf(quality, roomBytes));
}

/** The bytes as they were; throws where they are damaged. */
export function unpack(bytes: Uint8Array, packing: Packing): Uint8Array {
  return packing === DEFLATE ? inflateRawSync(bytes) : brotliDecompressSync(bytes);
}

function optionsOf(quality: Quality, roomBytes: number): BrotliOptions {
  return { chunkSize: Math.max(64, roomBytes), params: { [constants.BROTLI_PARAM_QUALITY]: quality, [constants.BROTLI_PARAM_LGWIN]: WINDOW_BITS } };
}
