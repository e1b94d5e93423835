/** Live readings are put into the record by the hour: one entry a point, by the program itself, and nobody's deed. */
import type { BookHandle } from '../book/handle.ts';
import { collectChanges, type Announce } from '../changes.ts';
import type { BookRoom, Room } from '../room.ts';
import { announceReadings } from '../services/reading-news.ts';
import { rejudge } from '../services/rejudging.ts';
import { reachedByPoints } from '../services/rejudging-reach.ts';

/** An hour of one reading a second (our choice): a block of so many is small and quickly read. */
const MOST_ROWS = 3600;
const LONGEST_MS = 3_600_000;

/**
 * Closes one point's live readings where an hour of them has come; one at a time, so that no turn of the back room is long.
 * @returns whether there was one
 */
export function closeOnePoint(handle: BookHandle, room: Room, announce: Announce): boolean {
  const nowMs = room.clock.nowMs();
  const due = handle.reader().liveWaiting().find(({ count, firstMs }) => count >= MOST_ROWS || nowMs - firstMs >= LONGEST_MS);
  if (due === undefined) return false;
  const changes = collectChanges();
  handle.command((as) => {
    const book = as({ personId: null, initials: '', device: room.caller.device, commandId: null, nowMs: room.clock.nowMs, newId: room.newId });
    const point = book.shelf('points').get(due.pointId);
    const lastMs = book.lastReading(due.pointId)?.atMs ?? due.firstMs;
    const count = book.closeLive(due.pointId);
    book.record({
      kind: 'readings.live', subjectId: point?.loadId ?? due.pointId, happenedAtMs: lastMs,
      summary: `${count} ${count === 1 ? 'reading' : 'readings'} of ${point?.name ?? 'a measuring point'} came in live.`,
      after: { pointId: due.pointId, count, firstAtMs: due.firstMs, lastAtMs: lastMs },
    });
    if (point === undefined) return;
    const bookRoom: BookRoom = { ...room, book, person: null, changed: changes.add };
    announceReadings(bookRoom, [point]);
    rejudge(bookRoom, reachedByPoints(bookRoom, [point], { fromMs: due.firstMs, toMs: lastMs }), `readings of ${point.name} came in live`);
  });
  changes.announce(announce);
  return true;
}
