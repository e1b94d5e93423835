/** Walks the record from its first entry and works every digest out again. */
import type { Connection } from './connection.ts';
import { digestOfEntry, type EntryRow, FIRST_DIGEST } from './entries.ts';
import { openReadingBlocks } from './reading-blocks.ts';
import { type ReadingRow, startReadingsDigest } from './readings-digest.ts';

export interface ChainResult {
  readonly entries: number;
  readonly intact: boolean;
  /** The digest of the last entry; of a broken chain, of the last one before the break. */
  readonly digest: string;
}

/**
 * A walker of one open book. It goes on from where it last arrived: while the book is open nobody
 * else can write it, and what was checked can't be changed through it.
 */
export function openChain(database: Connection): () => ChainResult {
  const from = database.prepare<[number], EntryRow>('SELECT * FROM entries WHERE sequence > ? ORDER BY sequence');
  const covered = database.prepare<[number], ReadingRow>('SELECT * FROM readings WHERE entry_sequence = ? ORDER BY position');
  const orphans = database.prepare<[], { count: number }>(`SELECT (SELECT count(*) FROM readings WHERE entry_sequence > newest) + (SELECT count(*) FROM reading_blocks WHERE entry_sequence > newest) AS count
    FROM (SELECT coalesce(max(sequence), 0) AS newest FROM entries)`);
  const blocks = openReadingBlocks(database);
  let arrived: ChainResult = { entries: 0, intact: true, digest: FIRST_DIGEST };

  function holds(row: EntryRow, before: ChainResult): boolean {
    if (row.sequence !== before.entries + 1 || row.digest_before !== before.digest || row.digest !== digestOfEntry(row)) return false;
    const readings = startReadingsDigest();
    for (const reading of covered.iterate(row.sequence)) readings.addRow(reading);
    for (const { line, count } of blocks.linesOf(row.sequence)) readings.addBlock(line, count);
    return readings.count === row.readings_count && readings.hex() === row.readings_digest;
  }

  return () => {
    if (!arrived.intact) return arrived;
    for (const row of from.iterate(arrived.entries)) {
      if (!holds(row, arrived)) {
        arrived = { ...arrived, intact: false };
        return arrived;
      }
      arrived = { entries: row.sequence, intact: true, digest: row.digest };
    }
    return (orphans.get()?.count ?? 0) === 0 ? arrived : { ...arrived, intact: false };
  };
}
