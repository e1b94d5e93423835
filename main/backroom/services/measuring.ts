/** Where a temperature is measured: points of loads, and the places of the office, whose point has the place's own id. */
import type { Place } from '../../../app/contract/requests/office.ts';
import type { PointRole } from '../../../app/contract/requests/quantities.ts';
import type { StoredPoint } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';

const ROLES: Record<Place['kind'], PointRole> = { 'brining-room': 'room', cooler: 'store', freezer: 'store' };

/** The point of a place as it is kept from the first reading on. */
function pointOfPlace(place: Place): StoredPoint {
  return { id: place.id, name: place.name, role: ROLES[place.kind], batchId: null, loadId: null, thicknessMm: null, rackPlace: '', instrumentId: null };
}

/** The point with this id, or of the place with this id; refuses with NOT_FOUND when there is neither. */
function findPoint(room: BookRoom, pointId: string): StoredPoint {
  const point = room.book.shelf('points').get(pointId);
  if (point !== undefined) return point;
  const place = room.book.shelf('places').get(pointId);
  if (place !== undefined) return pointOfPlace(place);
  throw new Refusal('NOT_FOUND', 'That measuring point is not in this book.', { remedy: 'Choose a piece, the chamber, or a place of the office.' });
}

/** As `findPoint`, and keeps the point of a place that has had no reading yet; only inside a command. */
export function keepPoint(room: BookRoom, pointId: string): StoredPoint {
  const point = findPoint(room, pointId);
  const points = room.book.shelf('points');
  if (points.get(pointId) === undefined) points.put(point);
  return point;
}

/** What the record entry of a reading is about: the load of a piece or chamber, else the place itself. */
export function subjectOf(point: StoredPoint): string {
  return point.loadId ?? point.id;
}
