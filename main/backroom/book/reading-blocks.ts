/** Long records in blocks: many readings of one point as compressed bytes in one row. */
import { readingsOfBytes } from '../../../app/probes/reading-bytes.ts';
import type { ReadingColumns } from '../../../app/probes/reading-columns.ts';
import type { ReadingsAbout } from '../room.ts';
import { canonicalJson } from './canonical.ts';
import { blocksOf, digestOfBlock } from './block-bytes.ts';
import { openBlockCache } from './block-cache.ts';
import type { Connection } from './connection.ts';
import { BROTLI, unpack, type Packing } from './packing.ts';

export interface BlockRow {
  readonly point_id: string;
  readonly first_ms: number;
  readonly last_ms: number;
  readonly count: number;
  readonly instrument_id: string | null;
  readonly how: ReadingsAbout['how'];
  readonly source: string;
  readonly entry_sequence: number;
  readonly body: Uint8Array;
  readonly packing: Packing;
}
/** What is asked of a row before its body is wanted. */
interface BlockHead {
  readonly position: number;
  readonly instrument_id: string | null;
  readonly how: ReadingsAbout['how'];
  readonly entry_sequence: number;
}

/** A block as it is read. */
export interface Block {
  readonly instrumentId: string | null;
  readonly how: ReadingsAbout['how'];
  readonly entrySequence: number;
  readonly columns: ReadingColumns;
}

export interface ReadingBlocks {
  /** Keeps readings, in the order given, as one block or several; calls `kept` with the digest line of each. */
  keep(about: ReadingsAbout, columns: ReadingColumns, entrySequence: number, kept: (line: string, count: number) => void): void;
  /** The blocks of a point that touch a stretch of time, in order of keeping; all of them without one. */
  of(pointId: string, span?: { readonly fromMs: number; readonly toMs: number }): Block[];
  /** The block that reaches furthest. */
  last(pointId: string): Block | undefined;
  has(pointId: string): boolean;
  /** The digest lines of an entry's blocks, each with its number of readings. */
  linesOf(entrySequence: number): { line: string; count: number }[];
}

const INSERT = `INSERT INTO reading_blocks (point_id, first_ms, last_ms, count, instrument_id, how, source, entry_sequence, body, packing)
VALUES (@point_id, @first_ms, @last_ms, @count, @instrument_id, @how, @source, @entry_sequence, @body, @packing)`;

const HEAD = 'SELECT position, instrument_id, how, entry_sequence FROM reading_blocks';

export function openReadingBlocks(database: Connection): ReadingBlocks {
  const insert = database.prepare<[BlockRow]>(INSERT);
  const touching = database.prepare<[string, number, number], BlockHead>(`${HEAD} WHERE point_id = ? AND first_ms <= ? AND last_ms >= ? ORDER BY position`);
  const all = database.prepare<[string], BlockHead>(`${HEAD} WHERE point_id = ? ORDER BY position`);
  const furthest = database.prepare<[string], BlockHead>(`${HEAD} WHERE point_id = ? ORDER BY last_ms DESC, position DESC LIMIT 1`);
  const bodyAt = database.prepare<[number], Pick<BlockRow, 'body' | 'packing'>>('SELECT body, packing FROM reading_blocks WHERE position = ?');
  const some = database.prepare<[string], { one: number }>('SELECT 1 AS one FROM reading_blocks WHERE point_id = ? LIMIT 1');
  const ofEntry = database.prepare<[number], BlockRow>('SELECT * FROM reading_blocks WHERE entry_sequence = ? ORDER BY position');
  const cache = openBlockCache();
  // Seen outside a transaction, so never taken back.
  let committed = 0;

  function blockOf({ position, instrument_id, how, entry_sequence }: BlockHead): Block {
    if (!database.inTransaction) committed = Math.max(committed, position);
    const columns = cache.at(position, position <= committed, () => {
      const row = bodyAt.get(position);
      if (row === undefined) throw new Error(`The block ${position} is gone.`);
      return readingsOfBytes(unpack(row.body, row.packing));
    });
    return { instrumentId: instrument_id, how, entrySequence: entry_sequence, columns };
  }
  return {
    keep(about, columns, entrySequence, kept) {
      const { pointId, instrumentId, how, source } = about;
      for (const { firstMs, lastMs, count, digest, body } of blocksOf(columns)) {
        const row = { point_id: pointId, first_ms: firstMs, last_ms: lastMs, count, instrument_id: instrumentId, how, source: source.toWellFormed(), entry_sequence: entrySequence, body, packing: BROTLI };
        insert.run(row);
        kept(digestLine(row, digest), count);
      }
    },
    of: (pointId, span) => (span === undefined ? all.all(pointId) : touching.all(pointId, span.toMs, span.fromMs)).map(blockOf),
    last(pointId) {
      const row = furthest.get(pointId);
      return row === undefined ? undefined : blockOf(row);
    },
    has: (pointId) => some.get(pointId) !== undefined,
    linesOf: (entrySequence) => ofEntry.all(entrySequence).map((row) => ({ line: digestLine(row, digestOfBlock(unpack(row.body, row.packing))), count: row.count })),
  };
}

/** What an entry's digest says of a block: the bytes as they are before they are compressed, and what is kept beside them. */
function digestLine(row: Pick<BlockRow, 'point_id' | 'instrument_id' | 'how' | 'source' | 'count'>, digest: string): string {
  return canonicalJson([row.point_id, row.instrument_id, row.how, row.source, row.count, digest]);
}
