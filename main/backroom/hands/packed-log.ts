/** A log that was read in a helper thread, with the blocks that its readings will lie in. */
import type { Outcome } from '../../../app/measures/outcome.ts';
import type { ColumnLog } from '../../../app/probes/log-columns.ts';
import { FEWEST_FOR_BLOCK, noteBlocks, packBlocksBeside, type PackedBlock } from '../book/block-bytes.ts';

/** What was read, and for each place its blocks; empty where it has none, and where something must be asked first. */
export type PackedLog = Outcome<ColumnLog> & { readonly packed?: readonly (readonly PackedBlock[])[] };

/** Packs what was read. */
export async function packLog(read: Outcome<ColumnLog>): Promise<PackedLog> {
  if (!read.ok || read.value.questions.length > 0) return read;
  return { ...read, packed: await Promise.all(read.value.places.map(({ columns }) => (columns.atMs.length < FEWEST_FOR_BLOCK ? [] : packBlocksBeside(columns)))) };
}

/** Takes the blocks over in the thread that keeps the book. */
export function unpackLog({ packed = [], ...read }: PackedLog): Outcome<ColumnLog> {
  if (read.ok) {
    read.value.places.forEach(({ columns }, index) => {
      const blocks = packed[index] ?? [];
      if (blocks.length > 0) noteBlocks(columns, blocks);
    });
  }
  return read;
}

/** The memory of a log's numbers, which passes to the other thread instead of being copied. */
export function buffersOf(value: unknown): ArrayBuffer[] {
  if (!isReadLog(value)) return [];
  const arrays = value.value.places.flatMap(({ columns, lines }) => [columns.atMs, columns.lowTicks, ...(columns.cut === null ? [] : [columns.cut]), lines]);
  return [...new Set(arrays.flatMap(({ buffer }) => (buffer instanceof ArrayBuffer ? [buffer] : [])))];
}

function isReadLog(value: unknown): value is Extract<PackedLog, { ok: true }> {
  return typeof value === 'object' && value !== null && 'packed' in value;
}
