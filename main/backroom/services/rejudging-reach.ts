/** Which released batches a later record reaches. */
import type { StoredBatch, StoredPoint } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { checksOf } from './instrument-checks.ts';
import { soakPlaces } from './judging/points.ts';
import { standingDecision } from './release.ts';

interface Span {
  readonly fromMs: number;
  readonly toMs: number;
}

/** Of points that got readings, with the span these lie in: the batch of a piece, those of a chamber's load, those that lay in a place at that time. */
export function reachedByPoints(room: BookRoom, points: readonly StoredPoint[], span: Span): StoredBatch[] {
  return releasedBatches(room).filter((batch) => points.some((point) => {
    if (point.batchId !== null) return point.batchId === batch.id;
    if (point.loadId !== null) return point.loadId === batch.loadId;
    return wasIn(room, batch, point.id, span);
  }));
}

/**
 * Of a thermometer that was checked: the batches read by it since the check before, and up to the check after, since
 * a reading counts by the checks on both sides of it.
 */
export function reachedByCheck(room: BookRoom, instrumentId: string, atMs: number): StoredBatch[] {
  const checks = checksOf(room.book, instrumentId);
  const fromMs = checks.filter((check) => check.atMs < atMs).at(-1)?.atMs ?? -Infinity;
  const toMs = checks.find((check) => check.atMs > atMs)?.atMs ?? Infinity;
  return releasedBatches(room).filter((batch) => pointIdsOf(room, batch).some((pointId) => room.book.readings(pointId).some((reading) =>
    reading.instrumentId === instrumentId && reading.atMs >= fromMs && reading.atMs <= toMs)));
}

/** Where readings that a batch is judged on may lie: its load's points, and the places it lay in. */
function pointIdsOf(room: BookRoom, batch: StoredBatch): string[] {
  const load = batch.loadId === null ? undefined : room.book.shelf('loads').need(batch.loadId);
  const places = room.book.shelf('places').all().filter((place) => wasIn(room, batch, place.id, { fromMs: -Infinity, toMs: Infinity }));
  return [...(load?.pointIds ?? []), ...places.map((place) => place.id)];
}

/** Whether a batch may have lain in a place within a span of time: the brining room of its soak, its freezer, any cooler once it was sealed chilled. */
function wasIn(room: BookRoom, batch: StoredBatch, placeId: string, { fromMs, toMs }: Span): boolean {
  const soakStart = batch.soak.find((event) => event.what === 'start')?.atMs;
  const soakEnd = batch.soak.find((event) => event.what === 'end')?.atMs ?? Infinity;
  if (soakStart !== undefined && soakStart <= toMs && soakEnd >= fromMs && soakPlaces(room, batch).some((place) => place.id === placeId)) return true;
  if (batch.freezerPlaceId === placeId) return (batch.intoFreezerAtMs ?? Infinity) <= toMs && (batch.outOfFreezerAtMs ?? Infinity) >= fromMs;
  const isChilled = standingDecision(room, batch.id)?.store === 'refrigerated' && batch.sealedAtMs !== null;
  return isChilled && batch.sealedAtMs !== null && batch.sealedAtMs <= toMs && room.book.shelf('places').get(placeId)?.kind === 'cooler';
}

function releasedBatches(room: BookRoom): StoredBatch[] {
  return room.book.shelf('batches').all().filter((batch) => standingDecision(room, batch.id)?.decision === 'release');
}
