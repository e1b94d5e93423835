/** Readings as the blocks that they will lie in: made where there is time for it, kept where the book is. */
import { createHash } from 'node:crypto';
import { bytesOfReadings, bytesOfTimes } from '../../../app/probes/reading-bytes.ts';
import { sliceColumns, spanOfInstants, type ReadingColumns } from '../../../app/probes/reading-columns.ts';
import { packBeside, packNow, type Quality } from './packing.ts';

/** A file with fewer readings than this of a point is kept in rows: a block of a few would be mostly overhead. */
export const FEWEST_FOR_BLOCK = 256;
/** So many readings a block: some pages of the file each, so that little of a page is left empty. */
const READINGS_A_BLOCK = 32_768;
/** A higher one costs half as much time again, or more, and saves a tenth, where the numbers are already divided by their step. */
const QUALITY: Quality = 1;
/** What can't be compressed gets a little longer. */
const ROOM_BYTES = 1024;

/** A block without what is kept beside it. */
export interface PackedBlock {
  readonly firstMs: number;
  readonly lastMs: number;
  readonly count: number;
  /** SHA-256 of the bytes before they were compressed, in lower-case hexadecimal. */
  readonly digest: string;
  readonly body: Uint8Array;
}

/** Blocks made elsewhere, by the very columns they are of: columns that were moved or cut are others, and are packed anew. */
const ready = new WeakMap<ReadingColumns, readonly PackedBlock[]>();

/** Notes the blocks of some columns, made in another thread. */
export function noteBlocks(columns: ReadingColumns, blocks: readonly PackedBlock[]): void {
  ready.set(columns, blocks);
}

/** The blocks of some readings, in the order given. */
export function blocksOf(columns: ReadingColumns): readonly PackedBlock[] {
  return ready.get(columns) ?? packBlocks(columns);
}

/** As `blocksOf`, made now. */
function packBlocks(columns: ReadingColumns): PackedBlock[] {
  return bytesOfBlocks(columns).map(({ bytes, ...block }) => ({ ...block, digest: digestOfBlock(bytes), body: packNow(bytes, QUALITY) }));
}

/** As `packBlocks`, compressed beside this thread. */
export async function packBlocksBeside(columns: ReadingColumns): Promise<PackedBlock[]> {
  const packing = bytesOfBlocks(columns).map(({ bytes, ...block }) => ({ block: { ...block, digest: digestOfBlock(bytes) }, body: packBeside(bytes, QUALITY, ROOM_BYTES + bytes.length) }));
  const bodies = await Promise.all(packing.map(({ body }) => body));
  return packing.flatMap(({ block }, index) => {
    const body = bodies[index];
    return body === undefined ? [] : [{ ...block, body }];
  });
}

function bytesOfBlocks(columns: ReadingColumns): (Omit<PackedBlock, 'digest' | 'body'> & { readonly bytes: Uint8Array })[] {
  return timesOf(columns.atMs).map(({ from, to, firstMs, lastMs, bytes }) => ({ firstMs, lastMs, count: to - from, bytes: bytesOfReadings(sliceColumns(columns, from, to), bytes) }));
}

interface BlockTimes {
  readonly from: number;
  readonly to: number;
  readonly firstMs: number;
  readonly lastMs: number;
  readonly bytes: Uint8Array;
}

/** The columns of a file share their instants. */
const known = new WeakMap<Float64Array, readonly BlockTimes[]>();

function timesOf(atMs: Float64Array): readonly BlockTimes[] {
  const before = known.get(atMs);
  if (before !== undefined) return before;
  const times: BlockTimes[] = [];
  for (let from = 0; from < atMs.length; from += READINGS_A_BLOCK) {
    const to = Math.min(atMs.length, from + READINGS_A_BLOCK);
    const part = atMs.subarray(from, to);
    const { firstMs, lastMs } = spanOfInstants(part);
    times.push({ from, to, firstMs, lastMs, bytes: bytesOfTimes(part) });
  }
  known.set(atMs, times);
  return times;
}

export function digestOfBlock(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
