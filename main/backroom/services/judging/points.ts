/** The measuring points of a batch with their readings, each in the record it belongs to. */
import type { MeasuredPoint, Reading, StoreKind } from '../../../../app/limits/judge-case.ts';
import type { StoredBatch, StoredLoad } from '../../book/stored.ts';
import type { BookRoom, SeriesReading } from '../../room.ts';
import { pointsOf } from '../load-view.ts';

/** The readings of a point, taken from the book once. */
export type ReadingsAt = (pointId: string) => readonly SeriesReading[];

/** Reads each point at most once, however often it is asked. */
export function readOnce(room: BookRoom): ReadingsAt {
  const taken = new Map<string, readonly SeriesReading[]>();
  return (pointId) => {
    const readings = taken.get(pointId) ?? room.book.readings(pointId);
    taken.set(pointId, readings);
    return readings;
  };
}

/** The batch's own pieces and the chamber of its load; pieces of other batches in the load prove nothing of this one. */
export function loadPoints(room: BookRoom, readingsAt: ReadingsAt, batch: StoredBatch, load: StoredLoad | undefined): MeasuredPoint[] {
  if (load === undefined) return [];
  return pointsOf(room, load)
    .filter((point) => point.role === 'chamber' || point.batchId === batch.id)
    .map((point) => ({
      id: point.id, name: point.name, role: point.role, record: 'process',
      readings: readingsAt(point.id).map(readingOf), thicknessMm: point.thicknessMm ?? undefined,
    }));
}

/**
 * The brining room of the soak: each brining room's own record within it, with the room temperatures typed
 * at start, turn and end. Which of several rooms the tub stood in isn't recorded, so each that has
 * readings in the soak is judged and the worst decides.
 */
export function roomPoints(room: BookRoom, readingsAt: ReadingsAt, batch: StoredBatch): MeasuredPoint[] {
  const typed = soakReadings(batch, 'roomTicks');
  const rooms = room.book.shelf('places').all().filter((place) => place.kind === 'brining-room').flatMap((place): MeasuredPoint[] => {
    const readings = withinSoak(batch, readingsAt(place.id)).map(readingOf);
    return readings.length === 0 ? [] : [{ id: place.id, name: place.name, role: 'room', record: 'soak', readings: [...readings, ...typed] }];
  });
  if (rooms.length > 0 || typed.length === 0) return rooms;
  return [{ name: 'Brining room', role: 'room', record: 'soak', readings: typed }];
}

/** The brine itself: what was read at start, turn and end of the soak. */
export function brinePoints(batch: StoredBatch): MeasuredPoint[] {
  const readings = soakReadings(batch, 'brineTicks');
  return readings.length === 0 ? [] : [{ name: 'Brine', role: 'brine', record: 'soak', readings }];
}

/** Where the packs lie: the batch's freezer while it was in it, or for chilled packs the kitchen's coolers from sealing on. */
export function keptPoints(room: BookRoom, readingsAt: ReadingsAt, batch: StoredBatch, store: StoreKind): MeasuredPoint[] {
  return [...freezerPoints(room, readingsAt, batch, store), ...(store === 'refrigerated' ? coolerPoints(room, readingsAt, batch) : [])];
}

/** One record serves the freezing hold and, for packs kept frozen, the store. */
function freezerPoints(room: BookRoom, readingsAt: ReadingsAt, batch: StoredBatch, store: StoreKind): MeasuredPoint[] {
  const { freezerPlaceId, intoFreezerAtMs, outOfFreezerAtMs } = batch;
  if (freezerPlaceId === null || intoFreezerAtMs === null) return [];
  const place = room.book.shelf('places').need(freezerPlaceId);
  const readings = readingsAt(freezerPlaceId)
    .filter(({ atMs }) => atMs >= intoFreezerAtMs && (outOfFreezerAtMs === null || atMs <= outOfFreezerAtMs))
    .map(readingOf);
  const point = { id: place.id, name: place.name, role: 'store' as const, readings };
  return [{ ...point, record: 'freezer' }, ...(store === 'frozen' ? [{ ...point, record: 'store' as const }] : [])];
}

/** Which of several coolers holds a pack isn't recorded, so each that has readings is judged and the worst decides. */
function coolerPoints(room: BookRoom, readingsAt: ReadingsAt, batch: StoredBatch): MeasuredPoint[] {
  const { sealedAtMs } = batch;
  if (sealedAtMs === null) return [];
  return room.book.shelf('places').all().filter((place) => place.kind === 'cooler').flatMap((place): MeasuredPoint[] => {
    const readings = readingsAt(place.id).filter(({ atMs }) => atMs >= sealedAtMs).map(readingOf);
    return readings.length === 0 ? [] : [{ id: place.id, name: place.name, role: 'store', record: 'store', readings }];
  });
}

function soakReadings(batch: StoredBatch, key: 'brineTicks' | 'roomTicks'): Reading[] {
  return batch.soak.flatMap((event) => {
    const ticks = event[key];
    return ticks === null ? [] : [{ atMs: event.atMs, lowTicks: ticks, highTicks: ticks }];
  });
}

/** Readings from the start of the soak on, up to its end where it has ended. */
export function withinSoak<T extends { readonly atMs: number }>(batch: StoredBatch, readings: readonly T[]): T[] {
  const start = batch.soak.find((event) => event.what === 'start')?.atMs;
  const end = batch.soak.find((event) => event.what === 'end')?.atMs;
  if (start === undefined) return [];
  return readings.filter(({ atMs }) => atMs >= start && (end === undefined || atMs <= end));
}

function readingOf({ atMs, lowTicks, highTicks, how }: SeriesReading): Reading {
  return { atMs, lowTicks, highTicks, ...(how === 'copied-from-paper' ? { entered: 'paper' as const } : {}) };
}
