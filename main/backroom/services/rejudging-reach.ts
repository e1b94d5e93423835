/** Which released batches a later record reaches. */
import type { StoredBatch, StoredPoint } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { checksOf } from './instrument-checks.ts';
import { soakPlaces } from './judging/points.ts';
import { packsLeftMs } from './pack-where-last.ts';
import { standingDecision } from './release.ts';
import { coolersOf, freezersOf } from './trays-judged.ts';
import { traysOf } from './trays-of-batch.ts';

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
 * a reading counts by the checks on both sides of it. Each point is read once, however many batches share it.
 */
export function reachedByCheck(room: BookRoom, instrumentId: string, atMs: number): StoredBatch[] {
  const checks = checksOf(room.book, instrumentId);
  const span: Span = {
    fromMs: checks.filter((check) => check.atMs < atMs).at(-1)?.atMs ?? -Infinity,
    toMs: checks.find((check) => check.atMs > atMs)?.atMs ?? Infinity,
  };
  const places = room.book.shelf('places').all();
  const isReadBy = readByOnce(room, instrumentId, span);
  return releasedBatches(room).filter((batch) => {
    const load = batch.loadId === null ? undefined : room.book.shelf('loads').need(batch.loadId);
    if (load?.pointIds.some(isReadBy) === true) return true;
    if (traysOf(room, batch.id).some(({ pointId }) => pointId !== null && isReadBy(pointId))) return true;
    return places.some((place) => wasIn(room, batch, place.id, span) && isReadBy(place.id));
  });
}

/** Whether a thermometer read a point within a span; a record that ended before it isn't read at all. */
function readByOnce(room: BookRoom, instrumentId: string, { fromMs, toMs }: Span): (pointId: string) => boolean {
  const known = new Map<string, boolean>();
  return (pointId) => {
    const answer = known.get(pointId) ?? ((room.book.lastReading(pointId)?.atMs ?? -Infinity) >= fromMs
      && room.book.readings(pointId).some((reading) => reading.instrumentId === instrumentId && reading.atMs >= fromMs && reading.atMs <= toMs));
    known.set(pointId, answer);
    return answer;
  };
}

/** Whether a batch may have lain in a place within a span of time: the brining room of its soak and its drying, its freezer, any cooler once it was sealed chilled. */
export function wasIn(room: BookRoom, batch: StoredBatch, placeId: string, { fromMs, toMs }: Span): boolean {
  return wasBrinedIn(room, batch, placeId, { fromMs, toMs }) || wasKeptIn(room, batch, placeId, { fromMs, toMs });
}

/** Cold-smoked fish dries where it came out of its brine, until it goes into the smoker. */
function wasBrinedIn(room: BookRoom, batch: StoredBatch, placeId: string, { fromMs, toMs }: Span): boolean {
  const startMs = batch.soak.find((event) => event.what === 'start')?.atMs;
  const endMs = batch.soak.find((event) => event.what === 'end')?.atMs;
  if (startMs === undefined || !soakPlaces(room, batch).some((place) => place.id === placeId)) return false;
  const driedMs = batch.process !== 'cold' || batch.loadId === null ? endMs : (room.book.shelf('loads').need(batch.loadId).inAtMs ?? undefined);
  return startMs <= toMs && Math.max(endMs ?? Infinity, driedMs ?? Infinity) >= fromMs;
}

/** Its freezer while it lay there, and the places of its packs from sealing on; none of them once the last pack was gone. */
function wasKeptIn(room: BookRoom, batch: StoredBatch, placeId: string, span: Span): boolean {
  const { freezerPlaceId, intoFreezerAtMs, outOfFreezerAtMs, sealedAtMs } = batch;
  if (freezerPlaceId === placeId && (intoFreezerAtMs ?? Infinity) <= span.toMs && (outOfFreezerAtMs ?? Infinity) >= span.fromMs) return isStillHere(room, batch, span);
  if (sealedAtMs === null || sealedAtMs > span.toMs) return false;
  const kind = room.book.shelf('places').get(placeId)?.kind;
  if (kind === 'freezer') return isStillHere(room, batch, span) && freezersOf(room, batch.id).includes(placeId);
  if (standingDecision(room, batch.id)?.store !== 'refrigerated' || kind !== 'cooler') return false;
  return (coolersOf(room, batch)?.has(placeId) ?? true) && isStillHere(room, batch, span);
}

/** Whether a pack was still in the kitchen when the span began; a batch without packs is. */
function isStillHere(room: BookRoom, batch: StoredBatch, { fromMs }: Span): boolean {
  return (packsLeftMs(room, batch.id) ?? Infinity) >= fromMs;
}

function releasedBatches(room: BookRoom): StoredBatch[] {
  return room.book.shelf('batches').all().filter((batch) => standingDecision(room, batch.id)?.decision === 'release');
}
