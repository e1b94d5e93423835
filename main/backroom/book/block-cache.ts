/** Blocks as numbers, kept in memory for the next question: a block never changes. The longest unused goes first. */
import type { ReadingColumns } from '../../../app/probes/reading-columns.ts';

/** About 160 full blocks, which is two days of 24 probes at a reading a second (our choice). */
const MOST_BYTES = 64 * 1024 * 1024;
/** A text that stands for itself: about what a short string takes. */
const BYTES_A_TEXT = 40;

export interface BlockCache {
  /** The block at a position, worked out only where it isn't known. `isCommitted`: whether its row can no longer be taken back. */
  at(position: number, isCommitted: boolean, decode: () => ReadingColumns): ReadingColumns;
}

/** @param mostBytes of numbers kept at once; a single block may be larger and is kept alone */
export function openBlockCache(mostBytes = MOST_BYTES): BlockCache {
  const kept = new Map<number, ReadingColumns>();
  let bytes = 0;
  return {
    at(position, isCommitted, decode) {
      const known = kept.get(position);
      const columns = known ?? decode();
      // A position that is taken back is given to another block.
      if (known === undefined && !isCommitted) return columns;
      if (known === undefined) bytes += bytesOf(columns);
      kept.delete(position);
      kept.set(position, columns);
      for (const [oldest, unused] of kept) {
        if (bytes <= mostBytes || oldest === position) break;
        kept.delete(oldest);
        bytes -= bytesOf(unused);
      }
      return columns;
    },
  };
}

function bytesOf({ atMs, lowTicks, cut, texts }: ReadingColumns): number {
  return atMs.byteLength + lowTicks.byteLength + (cut?.byteLength ?? 0) + ('decimals' in texts ? 0 : texts.length * BYTES_A_TEXT);
}
