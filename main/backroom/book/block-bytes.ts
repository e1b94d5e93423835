/** Readings as the blocks that they will lie in: made where there is time for it, kept where the book is. */
import { createHash } from 'node:crypto';
import { deflateRawSync } from 'node:zlib';
import { bytesOfReadings } from '../../../app/probes/reading-bytes.ts';
import { sliceColumns, type ReadingColumns } from '../../../app/probes/reading-columns.ts';

/** A file with fewer readings than this of a point is kept in rows: a block of a few would be mostly overhead. */
export const FEWEST_FOR_BLOCK = 256;
/** So many readings a block: some pages of the file each, so that little of a page is left empty. */
const READINGS_A_BLOCK = 32_768;
/** A higher level costs three times as much time and saves a tenth, where the numbers are already divided by their step. */
const LEVEL = 1;

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
export function packBlocks(columns: ReadingColumns): PackedBlock[] {
  const blocks: PackedBlock[] = [];
  for (let from = 0; from < columns.atMs.length; from += READINGS_A_BLOCK) blocks.push(packBlock(sliceColumns(columns, from, Math.min(columns.atMs.length, from + READINGS_A_BLOCK))));
  return blocks;
}

function packBlock(columns: ReadingColumns): PackedBlock {
  const { atMs } = columns;
  let [firstMs, lastMs] = [Infinity, -Infinity];
  for (let index = 0; index < atMs.length; index += 1) {
    const at = atMs[index] ?? 0;
    if (at < firstMs) firstMs = at;
    if (at > lastMs) lastMs = at;
  }
  const bytes = bytesOfReadings(columns);
  return { firstMs, lastMs, count: atMs.length, digest: digestOfBlock(bytes), body: deflateRawSync(bytes, { level: LEVEL }) };
}

export function digestOfBlock(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
