/** Readings as they were recorded, kept for ever and never altered. */
import { createHash } from 'node:crypto';
import type { KeptReading, ReadingsToKeep, SeriesReading } from '../room.ts';
import { canonicalJson } from './canonical.ts';
import type { Connection } from './connection.ts';

/** One row as it lies in the file; `cut` is 1 when the number as written lies between two ticks. */
export interface ReadingRow {
  readonly point_id: string;
  readonly at_ms: number;
  readonly low_ticks: number;
  readonly cut: number;
  readonly text: string;
  readonly unit: 'F' | 'C';
  readonly instrument_id: string | null;
  readonly how: ReadingsToKeep['how'];
  readonly source: string;
  readonly entry_sequence: number;
}

/** A digest that is fed reading by reading, in the order of keeping. */
export interface ReadingsDigest {
  add(row: ReadingRow): void;
  hex(): string;
}

export interface Readings {
  /** Keeps what is not there yet for the entry with this number; calls `kept` for each new row. */
  keep(readings: ReadingsToKeep, entrySequence: number, kept: (row: ReadingRow) => void): { kept: number; alreadyThere: number };
  of(pointId: string): SeriesReading[];
  last(pointId: string): SeriesReading | undefined;
}

const INSERT = `INSERT INTO readings (point_id, at_ms, low_ticks, cut, text, unit, instrument_id, how, source, entry_sequence)
VALUES (@point_id, @at_ms, @low_ticks, @cut, @text, @unit, @instrument_id, @how, @source, @entry_sequence)
ON CONFLICT (point_id, at_ms, low_ticks, cut) DO NOTHING`;

export function openReadings(database: Connection): Readings {
  const insert = database.prepare<[ReadingRow]>(INSERT);
  const all = database.prepare<[string], ReadingRow>('SELECT * FROM readings WHERE point_id = ? ORDER BY at_ms, position');
  const last = database.prepare<[string], ReadingRow>('SELECT * FROM readings WHERE point_id = ? ORDER BY at_ms DESC, position DESC LIMIT 1');
  return {
    keep(readings, entrySequence, kept) {
      let count = 0;
      for (const reading of readings.rows) {
        const row = rowOf(reading, readings, entrySequence);
        if (insert.run(row).changes === 0) continue;
        count += 1;
        kept(row);
      }
      return { kept: count, alreadyThere: readings.rows.length - count };
    },
    of: (pointId) => all.all(pointId).map(readingOf),
    last: (pointId) => {
      const row = last.get(pointId);
      return row === undefined ? undefined : readingOf(row);
    },
  };
}

/** Starts a digest over readings; of none it is the SHA-256 of nothing. */
export function startReadingsDigest(): ReadingsDigest {
  const hash = createHash('sha256');
  return {
    add(row) {
      hash.update(canonicalJson([row.point_id, row.at_ms, row.low_ticks, row.cut, row.text, row.unit, row.instrument_id, row.how, row.source]));
      hash.update('\n');
    },
    hex: () => hash.copy().digest('hex'),
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
  };
}
