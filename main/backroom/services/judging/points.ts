/** The measuring points of a batch with their readings, each in the record it belongs to. */
import type { MeasuredPoint, Reading, RecordSpan, StoreKind } from '../../../../app/limits/judge-case.ts';
import type { Place } from '../../../../app/contract/requests/office.ts';
import type { StoredBatch, StoredLoad } from '../../book/stored.ts';
import type { BookRoom, SeriesReading } from '../../room.ts';
import { pointsOf } from '../load-view.ts';
import { isStayOfPacks } from './freezer-stay.ts';

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
 * The room of the soak. Where it was told at the start in which place the tub stands, that place's own record
 * within the soak; else each brining room's, one that nobody read with no record of its own, and the worst
 * decides. Room temperatures typed with the soak's steps count beside it: one that was too warm is not dropped.
 */
export function roomPoints(room: BookRoom, readingsAt: ReadingsAt, batch: StoredBatch): MeasuredPoint[] {
  const typed = soakReadings(batch, 'roomTicks');
  const rooms = soakPlaces(room, batch).map((place): MeasuredPoint => ({
    id: place.id, name: place.name, role: 'room', record: 'soak', readings: [...withinSoak(batch, readingsAt(place.id)).map(readingOf), ...typed],
  }));
  if (rooms.length > 0 || typed.length === 0) return rooms;
  return [{ name: 'Brining room', role: 'room', record: 'soak', readings: typed }];
}

/** The place that the tub stands in; every brining room where that wasn't told. */
export function soakPlaces(room: BookRoom, batch: Pick<StoredBatch, 'brinePlaceId'>): Place[] {
  const places = room.book.shelf('places');
  return batch.brinePlaceId === null ? places.all().filter((place) => place.kind === 'brining-room') : [places.need(batch.brinePlaceId)];
}

/** The brine itself: what was read at start, turn and end of the soak. */
export function brinePoints(batch: StoredBatch): MeasuredPoint[] {
  const readings = soakReadings(batch, 'brineTicks');
  return readings.length === 0 ? [] : [{ name: 'Brine', role: 'brine', record: 'soak', readings }];
}

/** Where the packs lie: the batch's freezer while it was in it, or for chilled packs the kitchen's coolers from sealing on. */
export function keptPoints(room: BookRoom, readingsAt: ReadingsAt, batch: StoredBatch, stay: RecordSpan, store: StoreKind): MeasuredPoint[] {
  return [...freezerPoints(room, readingsAt, batch, stay, store), ...(store === 'refrigerated' ? coolerPoints(room, readingsAt, batch) : [])];
}

/** One record serves the freezing hold and, where the packs lay there, the store. */
function freezerPoints(room: BookRoom, readingsAt: ReadingsAt, batch: StoredBatch, stay: RecordSpan, store: StoreKind): MeasuredPoint[] {
  const { freezerPlaceId } = batch;
  const { inMs, outMs } = stay;
  if (freezerPlaceId === null || inMs === undefined) return [];
  const place = room.book.shelf('places').need(freezerPlaceId);
  const readings = readingsAt(freezerPlaceId).filter(({ atMs }) => atMs >= inMs && (outMs === undefined || atMs <= outMs)).map(readingOf);
  const point = { id: place.id, name: place.name, role: 'store' as const, readings };
  return [{ ...point, record: 'freezer' }, ...(store === 'frozen' && isStayOfPacks(stay, batch) ? [{ ...point, record: 'store' as const }] : [])];
}

/** Which of several coolers holds a pack isn't recorded, so each is judged, one that nobody read with no record, and the worst decides. */
function coolerPoints(room: BookRoom, readingsAt: ReadingsAt, batch: StoredBatch): MeasuredPoint[] {
  const { sealedAtMs } = batch;
  if (sealedAtMs === null) return [];
  return room.book.shelf('places').all().filter((place) => place.kind === 'cooler').map((place): MeasuredPoint => ({
    id: place.id, name: place.name, role: 'store', record: 'store', readings: readingsAt(place.id).filter(({ atMs }) => atMs >= sealedAtMs).map(readingOf),
  }));
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
