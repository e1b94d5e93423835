/** Readings typed twice: the same round on two screens, or one sheet of paper copied by two people. */
import type { BookRoom, KeptReading } from '../room.ts';

/** What tells a typed reading from another. */
interface Typed {
  readonly point: { readonly id: string };
  readonly instrumentId: string | null;
  readonly row: KeptReading;
}

/** A figure that was typed for the same point less than a minute before or after, and is another one. */
interface Beside {
  readonly pointId: string;
  readonly text: string;
  readonly unit: 'F' | 'C';
}

export interface Sorted<T> {
  readonly fresh: readonly T[];
  /** The same figure of the same thermometer was typed less than a minute before or after: it is not kept again. */
  readonly already: readonly T[];
  readonly beside: readonly Beside[];
}

const MINUTE_MS = 60_000;

/** What two people type of one round has not the same millisecond, but less than a minute lies between; rounds a minute apart are two. */
export function sortTwice<T extends Typed>(room: BookRoom, typed: readonly T[]): Sorted<T> {
  const fresh: T[] = [];
  const already: T[] = [];
  const beside: Beside[] = [];
  for (const one of typed) {
    const before = typedBefore(room, one.point.id, one.row.atMs);
    const mine = before.filter(({ instrumentId }) => instrumentId === one.instrumentId);
    if (mine.some(({ lowTicks, highTicks }) => lowTicks === one.row.lowTicks && highTicks === one.row.highTicks)) {
      already.push(one);
      continue;
    }
    fresh.push(one);
    beside.push(...mine.map(({ text, unit }) => ({ pointId: one.point.id, text, unit })));
  }
  return { fresh, already, beside };
}

/** The numbers are looked at first: a logger's readings of a whole day are not taken out for each figure that is typed. */
function typedBefore(room: BookRoom, pointId: string, atMs: number) {
  const [fromMs, toMs] = [atMs - MINUTE_MS + 1, atMs + MINUTE_MS - 1];
  if (room.book.seriesOf(pointId, { fromMs, toMs }).atMs.length === 0) return [];
  return room.book.readings(pointId).filter((reading) => reading.atMs >= fromMs && reading.atMs <= toMs && (reading.how === 'by-hand' || reading.how === 'copied-from-paper'));
}
