/** What the record of a running load lacks because the program was off: after a power cut, or when it was closed. */
import type { Output } from '../../../app/contract/contract.ts';
import { gapMsOf } from '../../../app/probes/envelope-gaps.ts';
import type { StoredLoad } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { pointsOf } from './load-view.ts';
import { loadAsPoint } from './taken-out.ts';

type Off = NonNullable<Output<'load.get'>['off']>;

/**
 * The stretch from the last reading to the opening of the book, and where nothing has been read since; undefined where
 * that is no longer than a gap of the record, once everything was read again, and for a load that this run opened.
 */
export function lostWhileOff(room: BookRoom, load: StoredLoad): Off | undefined {
  const { openedAtMs } = room.book;
  if (load.inAtMs === null || load.cooledAtMs !== null || load.openedAtMs >= openedAtMs) return undefined;
  const wanted = pointsOf(room, load).filter((point) => (point.role === 'piece' ? load.process === 'hot' || loadAsPoint(load, point).outAtMs === null : point.role === 'chamber' && load.outAtMs === null));
  const last = wanted.map((point) => ({ id: point.id, atMs: room.book.lastReading(point.id)?.atMs }));
  const lost = last.flatMap(({ id, atMs }) => (atMs === undefined || atMs >= openedAtMs || openedAtMs - atMs <= gapMsOf(room.book.seriesOf(id).atMs) ? [] : [atMs]));
  if (lost.length === 0) return undefined;
  const unread = last.filter(({ atMs }) => atMs === undefined || atMs < openedAtMs);
  return { fromMs: Math.max(...lost), toMs: openedAtMs, pointIds: unread.map(({ id }) => id) };
}
