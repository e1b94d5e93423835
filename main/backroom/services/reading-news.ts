/** Who is told when readings arrive. */
import type { StoredPoint } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';

/** Announces new readings of points, the loads they lie in, and the batches whose verdict they may change. */
export function announceReadings(room: BookRoom, points: readonly StoredPoint[]): void {
  const loadIds = new Set(points.flatMap((point) => point.loadId ?? []));
  const placeIds = new Set(points.flatMap((point) => (point.loadId === null ? point.id : [])));
  room.changed('readings', [...new Set(points.map((point) => point.id))]);
  if (loadIds.size > 0) room.changed('load', [...loadIds]);
  const soaksToo = points.some((point) => point.role === 'room');
  const batches = room.book.shelf('batches').all().filter(({ loadId, freezerPlaceId, soak }) =>
    (loadId !== null && loadIds.has(loadId)) || (freezerPlaceId !== null && placeIds.has(freezerPlaceId)) || (soaksToo && soak.length > 0));
  room.changed('verdict', batches.map((batch) => batch.id));
}
