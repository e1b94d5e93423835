/** Readings as they were recorded, kept for ever and never altered: few in rows, many in blocks, those of this hour as they came. */
import { columnsOf } from '../../../app/probes/reading-columns.ts';
import type { ReadingColumns } from '../../../app/probes/reading-columns.ts';
import type { KeptReading, LiveBatch, ReadingNumbers, ReadingsAbout, ReadingsToKeep, SeriesReading } from '../room.ts';
import { FEWEST_FOR_BLOCK } from './block-bytes.ts';
import type { Connection } from './connection.ts';
import { openLiveRows } from './live-readings.ts';
import { openReadingBlocks } from './reading-blocks.ts';
import { lastOfBlock, mergeNumbers, readingsOfBlock, sortByInstant } from './reading-order.ts';
import type { ReadingRow, ReadingsDigest } from './readings-digest.ts';
import { rememberReadings } from './remembered-readings.ts';
import { withoutKnown } from './reading-repeats.ts';

export interface Span {
  readonly fromMs: number;
  readonly toMs: number;
}
interface Kept {
  readonly kept: number;
  readonly alreadyThere: number;
}

export interface Readings {
  /** Keeps what is not there yet for the entry with this number, and tells the digest of it. */
  keep(readings: ReadingsToKeep, entrySequence: number, digest: ReadingsDigest): Kept;
  keepColumns(about: ReadingsAbout, columns: ReadingColumns, entrySequence: number, digest: ReadingsDigest): Kept;
  /** Keeps what instruments just sent, all in one transaction. */
  keepLive(batches: readonly LiveBatch[]): Kept;
  closeLive(pointId: string, entrySequence: number, digest: ReadingsDigest): number;
  liveWaiting(): { pointId: string; count: number; firstMs: number }[];
  of(pointId: string): readonly SeriesReading[];
  numbersOf(pointId: string, span?: Span): ReadingNumbers;
  last(pointId: string): SeriesReading | undefined;
}

const INSERT = `INSERT INTO readings (point_id, at_ms, low_ticks, cut, text, unit, instrument_id, how, source, entry_sequence)
VALUES (@point_id, @at_ms, @low_ticks, @cut, @text, @unit, @instrument_id, @how, @source, @entry_sequence)
ON CONFLICT (point_id, at_ms, low_ticks, cut) DO NOTHING`;

export function openReadings(database: Connection): Readings {
  const insert = database.prepare<[ReadingRow]>(INSERT);
  const all = database.prepare<[string], ReadingRow>('SELECT * FROM readings WHERE point_id = ? ORDER BY at_ms, position');
  const within = database.prepare<[string, number, number], ReadingRow>('SELECT * FROM readings WHERE point_id = ? AND at_ms BETWEEN ? AND ? ORDER BY at_ms, position');
  const last = database.prepare<[string], ReadingRow>('SELECT * FROM readings WHERE point_id = ? ORDER BY at_ms DESC, position DESC LIMIT 1');
  const blocks = openReadingBlocks(database);
  const live = openLiveRows(database);
  const remembered = rememberReadings(database);

  /** What lies in the book of a stretch of time, in any order. */
  function known(pointId: string, { fromMs, toMs }: Span): { readonly atMs: number; readonly lowTicks: number; readonly highTicks: number }[] {
    return [
      ...within.all(pointId, fromMs, toMs).map(readingOf),
      ...blocks.of(pointId, { fromMs, toMs }).flatMap(readingsOfBlock),
      ...live.of(pointId, { fromMs, toMs }),
    ];
  }
  function keepColumns(about: ReadingsAbout, columns: ReadingColumns, entrySequence: number, digest: ReadingsDigest): Kept {
    const fresh = withoutKnown(columns, (span) => known(about.pointId, span));
    blocks.keep(about, fresh, entrySequence, digest.addBlock);
    return { kept: fresh.atMs.length, alreadyThere: columns.atMs.length - fresh.atMs.length };
  }
  function keepRows(readings: ReadingsToKeep, entrySequence: number, digest: ReadingsDigest): Kept {
    const fresh = freshRows(readings);
    let count = 0;
    for (const reading of fresh) {
      const row = rowOf(reading, readings, entrySequence);
      if (insert.run(row).changes === 0) continue;
      count += 1;
      digest.addRow(row);
    }
    return { kept: count, alreadyThere: readings.rows.length - count };
  }
  /** Rows refuse what lies in rows by themselves; only what lies elsewhere must be looked for. */
  function freshRows(readings: ReadingsToKeep): readonly KeptReading[] {
    return blocks.has(readings.pointId) || live.last(readings.pointId) !== undefined ? notThere(readings, readings.rows) : readings.rows;
  }
  function notThere({ pointId, unit }: Pick<ReadingsToKeep, 'pointId' | 'unit'>, rows: readonly KeptReading[]): readonly KeptReading[] {
    const fresh = withoutKnown(columnsOf(rows, unit), (span) => known(pointId, span));
    if (fresh.atMs.length === rows.length) return rows;
    const left = new Set(Array.from(fresh.atMs, (atMs, index) => `${atMs} ${fresh.lowTicks[index]} ${fresh.cut?.[index] ?? 0}`));
    // Of a reading that comes twice the first is taken.
    return rows.filter(({ atMs, lowTicks, highTicks }) => left.delete(`${atMs} ${lowTicks} ${highTicks - lowTicks}`));
  }
  const keepAllLive = database.transaction((batches: readonly LiveBatch[]) => batches.reduce((kept, { about, rows }) => kept + live.keep(about, notThere(about, rows)), 0));
  return {
    keep: (readings, entrySequence, digest) => (readings.how === 'file' && readings.rows.length >= FEWEST_FOR_BLOCK ? keepColumns(readings, columnsOf(readings.rows, readings.unit), entrySequence, digest) : keepRows(readings, entrySequence, digest)),
    keepColumns,
    keepLive(batches) {
      const kept = keepAllLive.immediate(batches);
      return { kept, alreadyThere: batches.reduce((sum, { rows }) => sum + rows.length, 0) - kept };
    },
    closeLive: (pointId, entrySequence, digest) => live.take(pointId).reduce((count, { about, columns }) => count + keepColumns(about, columns, entrySequence, digest).kept, 0),
    liveWaiting: live.waiting,
    of: (pointId) => remembered.readings(pointId, () => {
      const rows = all.all(pointId).map(readingOf);
      const more = [...blocks.of(pointId).flatMap(readingsOfBlock), ...live.of(pointId)];
      return sortByInstant([...rows, ...more]);
    }),
    numbersOf(pointId, span) {
      if (span === undefined) return remembered.numbers(pointId, () => mergeNumbers([...all.all(pointId).map(readingOf), ...live.of(pointId)], blocks.of(pointId).map(({ columns }) => columns)));
      const rows = [...within.all(pointId, span.fromMs, span.toMs).map(readingOf), ...live.of(pointId, span)];
      return mergeNumbers(rows, blocks.of(pointId, span).map(({ columns }) => columns), span);
    },
    last(pointId) {
      const row = last.get(pointId);
      const block = blocks.last(pointId);
      return [row === undefined ? undefined : readingOf(row), block === undefined ? undefined : lastOfBlock(block), live.last(pointId)]
        .reduce((latest, each) => (each !== undefined && (latest === undefined || each.atMs >= latest.atMs) ? each : latest), undefined);
    },
  };
}

function rowOf(reading: KeptReading, about: ReadingsToKeep, entrySequence: number): ReadingRow {
  const cut = reading.highTicks - reading.lowTicks;
  if (cut !== 0 && cut !== 1) throw new Error(`A reading lies between ${reading.lowTicks} and ${reading.highTicks} ticks: more than one apart.`);
  return {
    point_id: about.pointId,
    at_ms: reading.atMs,
    low_ticks: reading.lowTicks,
    cut,
    text: reading.text.toWellFormed(),
    unit: about.unit,
    instrument_id: about.instrumentId,
    how: about.how,
    source: about.source.toWellFormed(),
    entry_sequence: entrySequence,
  };
}

function readingOf(row: ReadingRow): SeriesReading {
  return {
    atMs: row.at_ms,
    lowTicks: row.low_ticks,
    highTicks: row.low_ticks + row.cut,
    text: row.text,
    instrumentId: row.instrument_id,
    how: row.how,
    unit: row.unit,
    entry: row.entry_sequence,
  };
}
