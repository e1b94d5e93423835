/** Long records in blocks: many readings of one point as compressed bytes in one row. */
import { createHash } from 'node:crypto';
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { bytesOfReadings, readingsOfBytes } from '../../../app/probes/reading-bytes.ts';
import { sliceColumns, type ReadingColumns } from '../../../app/probes/reading-columns.ts';
import type { ReadingsAbout } from '../room.ts';
import { canonicalJson } from './canonical.ts';
import type { Connection } from './connection.ts';

/** So many readings a block: some pages of the file each, so that little of a page is left empty. */
const READINGS_A_BLOCK = 32_768;
/** A higher level costs time and saves little where the numbers are already divided by their step. */
const LEVEL = 3;

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

const INSERT = `INSERT INTO reading_blocks (point_id, first_ms, last_ms, count, instrument_id, how, source, entry_sequence, body)
VALUES (@point_id, @first_ms, @last_ms, @count, @instrument_id, @how, @source, @entry_sequence, @body)`;

export function openReadingBlocks(database: Connection): ReadingBlocks {
  const insert = database.prepare<[BlockRow]>(INSERT);
  const touching = database.prepare<[string, number, number], BlockRow>('SELECT * FROM reading_blocks WHERE point_id = ? AND first_ms <= ? AND last_ms >= ? ORDER BY position');
  const all = database.prepare<[string], BlockRow>('SELECT * FROM reading_blocks WHERE point_id = ? ORDER BY position');
  const furthest = database.prepare<[string], BlockRow>('SELECT * FROM reading_blocks WHERE point_id = ? ORDER BY last_ms DESC, position DESC LIMIT 1');
  const some = database.prepare<[string], { one: number }>('SELECT 1 AS one FROM reading_blocks WHERE point_id = ? LIMIT 1');
  const ofEntry = database.prepare<[number], BlockRow>('SELECT * FROM reading_blocks WHERE entry_sequence = ? ORDER BY position');
  return {
    keep(about, columns, entrySequence, kept) {
      for (let from = 0; from < columns.atMs.length; from += READINGS_A_BLOCK) {
        const part = sliceColumns(columns, from, Math.min(columns.atMs.length, from + READINGS_A_BLOCK));
        const bytes = bytesOfReadings(part);
        const row = { ...rowOf(about, part), entry_sequence: entrySequence, body: deflateRawSync(bytes, { level: LEVEL }) };
        insert.run(row);
        kept(digestLine(row, bytes), row.count);
      }
    },
    of: (pointId, span) => (span === undefined ? all.all(pointId) : touching.all(pointId, span.toMs, span.fromMs)).map(blockOf),
    last(pointId) {
      const row = furthest.get(pointId);
      return row === undefined ? undefined : blockOf(row);
    },
    has: (pointId) => some.get(pointId) !== undefined,
    linesOf: (entrySequence) => ofEntry.all(entrySequence).map((row) => ({ line: digestLine(row, inflateRawSync(row.body)), count: row.count })),
  };
}

function rowOf({ pointId, instrumentId, how, source }: ReadingsAbout, { atMs }: ReadingColumns): Omit<BlockRow, 'entry_sequence' | 'body'> {
  let [first, last] = [Infinity, -Infinity];
  for (const at of atMs) {
    if (at < first) first = at;
    if (at > last) last = at;
  }
  return { point_id: pointId, first_ms: first, last_ms: last, count: atMs.length, instrument_id: instrumentId, how, source: source.toWellFormed() };
}

function blockOf(row: BlockRow): Block {
  return { instrumentId: row.instrument_id, how: row.how, entrySequence: row.entry_sequence, columns: readingsOfBytes(inflateRawSync(row.body)) };
}

/** What an entry's digest says of a block: the bytes as they are before they are compressed, and what is kept beside them. */
function digestLine(row: Omit<BlockRow, 'body' | 'entry_sequence'>, bytes: Uint8Array): string {
  return canonicalJson([row.point_id, row.instrument_id, row.how, row.source, row.count, createHash('sha256').update(bytes).digest('hex')]);
}
