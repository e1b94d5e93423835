/** A load as it crosses the contract: the stored load with the names of its smoker, points and instruments. */
import type { Load, Point } from '../../../app/contract/requests/smokehouse.ts';
import type { StoredLoad, StoredPoint } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';

/** The load with its points in the order they were named; an instrument that isn't known has an empty name. */
export function loadOf(room: BookRoom, load: StoredLoad): Load {
  return {
    id: load.id,
    number: load.number,
    smokerId: load.smokerId,
    smokerName: room.book.shelf('smokers').get(load.smokerId)?.name ?? '',
    process: load.process,
    batchIds: load.batchIds,
    openedAtMs: load.openedAtMs,
    openedBy: load.openedBy,
    inAtMs: load.inAtMs,
    endOfSmokingAtMs: load.endOfSmokingAtMs,
    outAtMs: load.outAtMs,
    cooledAtMs: load.cooledAtMs,
    ...(load.takenOut === undefined || load.takenOut.length === 0 ? {} : { takenOut: load.takenOut }),
    points: pointsOf(room, load).map((point) => pointOf(room, point)),
  };
}

/** The stored points of a load, in the order they were named. */
export function pointsOf(room: BookRoom, load: StoredLoad): StoredPoint[] {
  const points = room.book.shelf('points');
  return load.pointIds.map((id) => points.need(id));
}

function pointOf(room: BookRoom, point: StoredPoint): Point {
  const nameOf = (id: string | null): string => (id === null ? '' : (room.book.shelf('instruments').get(id)?.name ?? ''));
  return {
    id: point.id,
    name: point.name,
    role: point.role,
    batchId: point.batchId,
    thicknessMm: point.thicknessMm,
    rackPlace: point.rackPlace,
    instrumentId: point.instrumentId,
    instrumentName: nameOf(point.instrumentId),
    ...(point.earlierInstruments === undefined ? {} : { earlier: point.earlierInstruments.map((one) => ({ ...one, instrumentName: nameOf(one.instrumentId) })) }),
  };
}
