/** Puts what came over feeds into the book: gathered, and written together once a second or sooner. */
import type { Log } from '../log.ts';
import { expectedFailure } from '../failures.ts';
import type { KeptReading, LiveBatch, LiveReadings, OpenBook } from '../room.ts';

export interface WrittenOf {
  readonly feedId: string;
  readonly kept: number;
  readonly repeated: number;
  readonly pointIds: readonly string[];
}

export interface FeedWriter {
  add(feedId: string, about: LiveReadings, row: KeptReading): void;
  /** How many readings of a feed wait to be written. */
  waitingOf(feedId: string): number;
  /** Writes all that waits; what can't be written waits on. */
  flush(): readonly WrittenOf[];
  /** Why the last writing failed, in words; null where it didn't. */
  fault(): string | null;
}

/** So many wait at most while the disk is full, about an hour of 24 probes each second: then the oldest go, and that is said (our choice). */
const MOST_WAITING = 100_000;

interface Waiting {
  readonly about: LiveReadings;
  readonly rows: KeptReading[];
}

export function openFeedWriter(book: () => OpenBook | null, log: Log): FeedWriter {
  const waiting = new Map<string, Map<string, Waiting>>();
  let fault: string | null = null;
  let dropped = 0;

  function countOf(feedId: string): number {
    return [...(waiting.get(feedId)?.values() ?? [])].reduce((count, { rows }) => count + rows.length, 0);
  }
  function writeFeed(open: OpenBook, feedId: string, groups: ReadonlyMap<string, Waiting>): WrittenOf | undefined {
    const batches: LiveBatch[] = [...groups.values()];
    try {
      const { kept, alreadyThere } = open.keepLiveTogether(batches);
      return { feedId, kept, repeated: alreadyThere, pointIds: [...new Set(batches.map(({ about }) => about.pointId))] };
    } catch (thrown) {
      const failure = expectedFailure(thrown);
      if (failure === undefined) log({ level: 'error', what: 'keep what a feed sent', outcome: 'threw', detail: thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown) });
      fault = failure?.message ?? 'Alderbook could not write it; the fault is ours.';
      return undefined;
    }
  }
  return {
    add(feedId, about, row) {
      const groups = waiting.get(feedId) ?? new Map<string, Waiting>();
      waiting.set(feedId, groups);
      const key = JSON.stringify([about.pointId, about.instrumentId, about.unit, about.source]);
      const group = groups.get(key) ?? { about, rows: [] };
      groups.set(key, group);
      group.rows.push(row);
      if (group.rows.length > MOST_WAITING / 24) {
        group.rows.shift();
        dropped += 1;
      }
    },
    waitingOf: countOf,
    flush() {
      const open = book();
      if (open === null) return [];
      fault = null;
      const written = [...waiting].flatMap(([feedId, groups]) => {
        const done = groups.size === 0 ? undefined : writeFeed(open, feedId, groups);
        if (done !== undefined) waiting.delete(feedId);
        return done ?? [];
      });
      if (fault === null) dropped = 0;
      return written;
    },
    fault: () => (fault === null || dropped === 0 ? fault : `${fault} ${dropped} readings were lost so far.`),
  };
}
