/** Readings as they come in live: a row each, there as soon as it is kept, until they are closed into a block. */
import { columnsOf } from '../../../app/probes/reading-columns.ts';
import type { KeptReading, LiveReadings, ReadingsAbout, SeriesReading } from '../room.ts';
import type { Connection } from './connection.ts';
import type { ReadingRow } from './readings-digest.ts';
import type { ReadingColumns } from '../../../app/probes/reading-columns.ts';

type LiveRow = Omit<ReadingRow, 'how' | 'entry_sequence'>;

/** Live readings of one kind, ready to become a block. */
export interface LiveStretch {
  readonly about: ReadingsAbout;
  readonly columns: ReadingColumns;
}

export interface LiveRows {
  /** Keeps readings, only inside a transaction; those that lie there already are left. @returns how many were kept */
  keep(about: LiveReadings, rows: readonly KeptReading[]): number;
  /** Sorted by instant; of a stretch of time, both ends included, where one is given. */
  of(pointId: string, span?: { readonly fromMs: number; readonly toMs: number }): SeriesReading[];
  last(pointId: string): SeriesReading | undefined;
  /** The points with live rows, and how many each has. */
  waiting(): { pointId: string; count: number; firstMs: number }[];
  /** Takes a point's live rows out, as stretches by thermometer, unit and source; only inside a transaction that keeps them as blocks. */
  take(pointId: string): LiveStretch[];
}

const INSERT = `INSERT INTO live_readings (point_id, at_ms, low_ticks, cut, text, unit, instrument_id, source)
VALUES (@point_id, @at_ms, @low_ticks, @cut, @text, @unit, @instrument_id, @source)
ON CONFLICT (point_id, at_ms, low_ticks, cut) DO NOTHING`;

export function openLiveRows(database: Connection): LiveRows {
  const insert = database.prepare<[LiveRow]>(INSERT);
  const inOrder = database.prepare<[string], LiveRow>('SELECT * FROM live_readings WHERE point_id = ? ORDER BY at_ms, position');
  const within = database.prepare<[string, number, number], LiveRow>('SELECT * FROM live_readings WHERE point_id = ? AND at_ms BETWEEN ? AND ? ORDER BY at_ms, position');
  const latest = database.prepare<[string], LiveRow>('SELECT * FROM live_readings WHERE point_id = ? ORDER BY at_ms DESC, position DESC LIMIT 1');
  const counts = database.prepare<[], { pointId: string; count: number; firstMs: number }>('SELECT point_id AS pointId, count(*) AS count, min(at_ms) AS firstMs FROM live_readings GROUP BY point_id ORDER BY point_id');
  const remove = database.prepare<[string]>('DELETE FROM live_readings WHERE point_id = ?');
  return {
    keep: (about, rows) => rows.reduce((kept, row) => kept + insert.run(rowOf(about, row)).changes, 0),
    of: (pointId, span) => (span === undefined ? inOrder.all(pointId) : within.all(pointId, span.fromMs, span.toMs)).map(readingOf),
    last(pointId) {
      const row = latest.get(pointId);
      return row === undefined ? undefined : readingOf(row);
    },
    waiting: () => counts.all(),
    take(pointId) {
      const kinds = Map.groupBy(inOrder.all(pointId), (row) => JSON.stringify([row.instrument_id, row.unit, row.source]));
      remove.run(pointId);
      return [...kinds.values()].flatMap((rows) => {
        const [first] = rows;
        if (first === undefined) return [];
        return [{ about: { pointId, instrumentId: first.instrument_id, how: 'instrument' as const, source: first.source }, columns: columnsOf(rows.map(readingOf), first.unit) }];
      });
    },
  };
}

function rowOf({ pointId, instrumentId, unit, source }: LiveReadings, { atMs, lowTicks, highTicks, text }: KeptReading): LiveRow {
  return { point_id: pointId, at_ms: atMs, low_ticks: lowTicks, cut: highTicks - lowTicks, text: text.toWellFormed(), unit, instrument_id: instrumentId, source: source.toWellFormed() };
}

function readingOf(row: LiveRow): SeriesReading {
  return { atMs: row.at_ms, lowTicks: row.low_ticks, highTicks: row.low_ticks + row.cut, text: row.text, instrumentId: row.instrument_id, how: 'instrument', unit: row.unit, entry: 0 };
}
