/** Which readings a batch is judged on: its measuring points, each in the record it belongs to. */
import type { Reading, RecordSpan, StoreKind } from '../../../../app/limits/judge-case.ts';
import type { Place } from '../../../../app/contract/requests/office.ts';
import type { StoredBatch, StoredLoad } from '../../book/stored.ts';
import type { BookRoom, SeriesReading } from '../../room.ts';
import { pointsOf } from '../load-view.ts';
import { isStayOfPacks } from './freezer-stay.ts';
import type { PointPlan } from './taken-readings.ts';

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
export function loadPoints(room: BookRoom, batch: StoredBatch, load: StoredLoad | undefined): PointPlan[] {
  if (load === undefined) return [];
  return pointsOf(room, load)
    .filter((point) => point.role === 'chamber' || point.batchId === batch.id)
    .map((point) => ({
      id: point.id, name: point.name, role: point.role, record: 'process',
      taken: { pointId: point.id }, typed: [], ...(point.thicknessMm === null ? {} : { thicknessMm: point.thicknessMm }),
    }));
}

/** What the fish was read at when it came in: one point a lot, of the raw record. */
export function rawPoints(room: BookRoom, batch: StoredBatch): PointPlan[] {
  return batch.lotIds.map((id) => room.book.shelf('fishLots').need(id)).flatMap((lot): PointPlan[] => (lot.temperatureTicks === null ? [] : [{
    name: `Lot ${lot.code}`, role: 'piece', record: 'raw', taken: null,
    typed: [{ atMs: lot.receivedAtMs, lowTicks: lot.temperatureTicks, highTicks: lot.temperatureTicks }],
  }]));
}

/**
 * The room of the soak. Where it was told at the start in which place the tub stands, that place's own record
 * within the soak; else each brining room's, one that nobody read with no record of its own, and the worst
 * decides. Room temperatures typed with the soak's steps count beside it: one that was too warm is not dropped.
 */
export function roomPoints(room: BookRoom, batch: StoredBatch): PointPlan[] {
  const typed = soakReadings(batch, 'roomTicks');
  const span = soakSpan(batch);
  const rooms = soakPlaces(room, batch).map((place): PointPlan => ({
    id: place.id, name: place.name, role: 'room', record: 'soak', taken: span === undefined ? null : { pointId: place.id, ...span }, typed,
  }));
  if (rooms.length > 0 || typed.length === 0) return rooms;
  return [{ name: 'Brining room', role: 'room', record: 'soak', taken: null, typed }];
}

/**
 * Where fish for a cold smoke dries after its brine: the room that it came out of the brine in, from then until it
 * went in. In which room it dried isn't recorded, so of several each is judged, and the worst decides.
 */
export function dryPoints(room: BookRoom, batch: StoredBatch, load: StoredLoad | undefined): PointPlan[] {
  const fromMs = batch.soak.find((event) => event.what === 'end')?.atMs;
  if (batch.process !== 'cold' || fromMs === undefined) return [];
  const inMs = load?.inAtMs ?? null;
  return soakPlaces(room, batch).map((place): PointPlan => ({
    id: place.id, name: place.name, role: 'room', record: 'dry', taken: { pointId: place.id, fromMs, ...(inMs === null ? {} : { toMs: inMs }) }, typed: [],
  }));
}

/** The place that the tub stands in; every brining room where that wasn't told. */
export function soakPlaces(room: BookRoom, batch: Pick<StoredBatch, 'brinePlaceId'>): Place[] {
  const places = room.book.shelf('places');
  return batch.brinePlaceId === null ? places.all().filter((place) => place.kind === 'brining-room') : [places.need(batch.brinePlaceId)];
}

/** The brine itself: what was read at start, turn and end of the soak. */
export function brinePoints(batch: StoredBatch): PointPlan[] {
  const typed = soakReadings(batch, 'brineTicks');
  return typed.length === 0 ? [] : [{ name: 'Brine', role: 'brine', record: 'soak', taken: null, typed }];
}

/** Where the packs lie: the batch's freezer while it was in it, or for chilled packs the kitchen's coolers from sealing on. */
export function keptPoints(room: BookRoom, batch: StoredBatch, stay: RecordSpan, store: StoreKind): PointPlan[] {
  return [...freezerPoints(room, batch, stay, store), ...(store === 'refrigerated' ? coolerPoints(room, batch) : [])];
}

/** One record serves the freezing hold and, where the packs lay there, the store. */
function freezerPoints(room: BookRoom, batch: StoredBatch, stay: RecordSpan, store: StoreKind): PointPlan[] {
  const { freezerPlaceId } = batch;
  const { inMs, outMs } = stay;
  if (freezerPlaceId === null || inMs === undefined) return [];
  const place = room.book.shelf('places').need(freezerPlaceId);
  const taken = { pointId: place.id, fromMs: inMs, ...(outMs === undefined ? {} : { toMs: outMs }) };
  const point = { id: place.id, name: place.name, role: 'store' as const, taken, typed: [] };
  return [{ ...point, record: 'freezer' }, ...(store === 'frozen' && isStayOfPacks(stay, batch) ? [{ ...point, record: 'store' as const }] : [])];
}

/** Which of several coolers holds a pack isn't recorded, so each is judged, one that nobody read with no record, and the worst decides. */
function coolerPoints(room: BookRoom, batch: StoredBatch): PointPlan[] {
  const { sealedAtMs } = batch;
  if (sealedAtMs === null) return [];
  return room.book.shelf('places').all().filter((place) => place.kind === 'cooler').map((place): PointPlan => ({
    id: place.id, name: place.name, role: 'store', record: 'store', taken: { pointId: place.id, fromMs: sealedAtMs }, typed: [],
  }));
}

function soakReadings(batch: StoredBatch, key: 'brineTicks' | 'roomTicks'): Reading[] {
  return batch.soak.flatMap((event) => {
    const ticks = event[key];
    return ticks === null ? [] : [{ atMs: event.atMs, lowTicks: ticks, highTicks: ticks, ...(event.fromPaper === undefined ? {} : { entered: 'paper' as const }) }];
  });
}

/** Readings from the start of the soak on, up to its end where it has ended. */
export function withinSoak<T extends { readonly atMs: number }>(batch: StoredBatch, readings: readonly T[]): T[] {
  const span = soakSpan(batch);
  if (span === undefined) return [];
  return readings.filter(({ atMs }) => atMs >= span.fromMs && (span.toMs === undefined || atMs <= span.toMs));
}

/** From the start of the soak to its end, where it has ended; undefined before it began. */
function soakSpan({ soak }: StoredBatch): { readonly fromMs: number; readonly toMs?: number } | undefined {
  const start = soak.find((event) => event.what === 'start')?.atMs;
  const end = soak.find((event) => event.what === 'end')?.atMs;
  if (start === undefined) return undefined;
  return { fromMs: start, ...(end === undefined ? {} : { toMs: end }) };
}
