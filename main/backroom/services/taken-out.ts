/** A load as one batch, or one piece of it, went through it: what was taken out before the rest has an out mark of its own. */
import type { StoredBatch, StoredLoad, StoredPoint } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';

/** The load of a batch with the batch's own out mark where it was taken out early; undefined before it is in one. */
export function loadOfBatch(room: BookRoom, { id, loadId }: Pick<StoredBatch, 'id' | 'loadId'>): StoredLoad | undefined {
  return loadId === null ? undefined : loadAsOf(room.book.shelf('loads').need(loadId), id);
}

/** As `loadOfBatch`, of a load that is at hand. */
export function loadAsOf(load: StoredLoad, batchId: string): StoredLoad {
  return outAt(load, outEarlyMs(load, batchId, null));
}

/** The load as one of its points saw it: of a piece its own out mark, else its batch's; of the chamber the load's. */
export function loadAsPoint(load: StoredLoad, { id, batchId }: Pick<StoredPoint, 'id' | 'batchId'>): StoredLoad {
  return batchId === null ? load : outAt(load, outEarlyMs(load, batchId, id) ?? outEarlyMs(load, batchId, null));
}

/**
 * When a batch, or one piece of it, was taken out before the rest.
 * @param pointId null for all of the batch
 */
export function outEarlyMs({ takenOut = [] }: StoredLoad, batchId: string, pointId: string | null): number | undefined {
  return takenOut.find((one) => one.batchId === batchId && one.pointId === pointId)?.atMs;
}

/** Smoking ended for it as it came out, if it still went on for the rest. */
function outAt(load: StoredLoad, atMs: number | undefined): StoredLoad {
  if (atMs === undefined) return load;
  const { endOfSmokingAtMs } = load;
  return { ...load, outAtMs: atMs, endOfSmokingAtMs: endOfSmokingAtMs === null ? null : Math.min(endOfSmokingAtMs, atMs) };
}
