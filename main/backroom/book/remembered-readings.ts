/**
 * The readings of points as they were asked for last, as long as nothing was added: a page and a judgement ask for the
 * same record many times. The longest unused goes first.
 */
import type { ReadingNumbers, SeriesReading } from '../room.ts';
import type { Connection } from './connection.ts';

/** A day of a dozen probes at a reading a second; some 100 MB with what is worked out of them (our choice). */
const MOST_READINGS = 1_100_000;

export interface RememberedReadings {
  readings(pointId: string, read: () => readonly SeriesReading[]): readonly SeriesReading[];
  numbers(pointId: string, read: () => ReadingNumbers): ReadingNumbers;
}

interface Remembered {
  /** Tells one state of a point's record from every other. */
  readonly state: string;
  readings?: readonly SeriesReading[];
  numbers?: ReadingNumbers;
}

const STATE = `SELECT
  (SELECT count(*) || ' ' || coalesce(max(position), 0) FROM readings WHERE point_id = @pointId) || ' ' ||
  (SELECT count(*) || ' ' || coalesce(max(position), 0) FROM reading_blocks WHERE point_id = @pointId) || ' ' ||
  (SELECT count(*) || ' ' || coalesce(min(position), 0) || ' ' || coalesce(max(position), 0) || ' ' || coalesce(max(at_ms), 0) FROM live_readings WHERE point_id = @pointId)`;

/** @param mostReadings of all points together; a single point with more is not remembered */
export function rememberReadings(database: Connection, mostReadings = MOST_READINGS): RememberedReadings {
  const stateOf = database.prepare<[{ pointId: string }], string>(STATE).pluck();
  const kept = new Map<string, Remembered>();

  /** What is known of a point as it stands now. Within a command nothing new is remembered: it may be taken back. */
  function at(pointId: string): Remembered {
    const state = String(stateOf.get({ pointId }));
    const known = kept.get(pointId);
    if (known?.state === state) {
      kept.delete(pointId);
      kept.set(pointId, known);
      return known;
    }
    const fresh = { state };
    if (database.inTransaction) return fresh;
    kept.delete(pointId);
    kept.set(pointId, fresh);
    return fresh;
  }
  function forgetOldest(): void {
    let total = 0;
    for (const [pointId, one] of [...kept].toReversed()) {
      total += one.readings?.length ?? one.numbers?.atMs.length ?? 0;
      if (total > mostReadings) kept.delete(pointId);
    }
  }
  return {
    readings(pointId, read) {
      const one = at(pointId);
      if (one.readings !== undefined) return one.readings;
      one.readings = read();
      forgetOldest();
      return one.readings;
    },
    numbers(pointId, read) {
      const one = at(pointId);
      if (one.numbers !== undefined) return one.numbers;
      one.numbers = read();
      forgetOldest();
      return one.numbers;
    },
  };
}
