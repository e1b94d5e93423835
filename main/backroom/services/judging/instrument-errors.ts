/** How far the thermometers of a record may be off: the largest error among those that were read. */
import { differenceTicks } from '../../../../app/measures/temperature.ts';
import type { StoredBatch, StoredLoad } from '../../book/stored.ts';
import type { BookRoom } from '../../room.ts';
import { errorOf } from '../instrument-checks.ts';
import { pointsOf } from '../load-view.ts';
import { type ReadingsAt, soakPlaces, withinSoak } from './points.ts';
import { instrumentsIn } from './taken-readings.ts';

/** What a thermometer that nobody named is taken to be off by (common practice). */
const UNKNOWN_ERROR_TICKS = differenceTicks(2, 'F');

/** The error of each kind of place, in ticks: one for all its points, the largest of theirs, which is the strict side. */
export interface RecordErrors {
  readonly piece: number;
  /** Of fish before it was brined: what was read at fish in. */
  readonly raw: number;
  readonly chamber: number;
  readonly room: number;
  readonly brine: number;
  readonly store: number;
}

/** The errors of a batch's record; a place without any reading counts with nothing, because nothing of it is judged. */
export function errorsOf(room: BookRoom, readingsAt: ReadingsAt, batch: StoredBatch, load: StoredLoad | undefined): RecordErrors {
  const points = load === undefined ? [] : pointsOf(room, load);
  const places = room.book.shelf('places').all();
  const roomIds = soakPlaces(room, batch).map((place) => place.id);
  const storeIds = places.filter((place) => place.kind === 'cooler' || place.id === batch.freezerPlaceId).map((place) => place.id);
  const instrumentsAt = (pointId: string): (string | null)[] => [...instrumentsIn(readingsAt(pointId))];
  const use = batch.process === 'hot' ? 'hot' : 'cold';
  const typedRoom = batch.soak.some((event) => event.roomTicks !== null);
  return {
    piece: worstError(room, use, points.filter((point) => point.batchId === batch.id).flatMap((point) => instrumentsAt(point.id))),
    chamber: worstError(room, use, points.filter((point) => point.role === 'chamber').flatMap((point) => instrumentsAt(point.id))),
    room: worstError(room, 'cold', [...roomIds.flatMap((id) => withinSoak(batch, readingsAt(id)).map((reading) => reading.instrumentId)), ...(typedRoom ? [null] : [])]),
    // The thermometer at fish in, and the one put into a tub, is not named.
    raw: UNKNOWN_ERROR_TICKS,
    brine: UNKNOWN_ERROR_TICKS,
    store: worstError(room, 'cold', storeIds.flatMap((id) => instrumentsAt(id))),
  };
}

function worstError(room: BookRoom, use: 'cold' | 'hot', instrumentIds: readonly (string | null)[]): number {
  return [...new Set(instrumentIds)].reduce<number>((worst, id) => {
    const instrument = id === null ? undefined : room.book.shelf('instruments').get(id);
    return Math.max(worst, instrument === undefined ? UNKNOWN_ERROR_TICKS : errorOf(room.book, instrument, use).ticks);
  }, 0);
}
