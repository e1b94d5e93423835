/** The marks of a batch that follow from its trays: the worst of them, so that whatever reads a batch’s marks needn’t know of trays. */
import { timesTogether } from '../../../app/packs/stock-trays.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { freezerStay, isStayOfPacks } from './judging/freezer-stay.ts';
import { loadOfBatch } from './taken-out.ts';
import { packTraysOf } from './trays-of-batch.ts';

/**
 * Whether the marks are the fish’s own: of a freezing that ended before it was smoked or sealed, or of fish that was
 * frozen solid before it was sealed. Trays of packs leave those as they are.
 */
export function areMarksOfFish(room: BookRoom, batch: StoredBatch): boolean {
  if (batch.intoFreezerAtMs === null) return false;
  const { frozenAtMs, sealedAtMs } = batch;
  return !isStayOfPacks(freezerStay(batch, loadOfBatch(room, batch)), batch) || isFrozenFirst({ frozenAtMs, sealedAtMs });
}

/** Frozen solid before it was sealed. */
export function isFrozenFirst({ frozenAtMs, sealedAtMs }: Pick<StoredBatch, 'frozenAtMs' | 'sealedAtMs'>): boolean {
  return frozenAtMs !== null && sealedAtMs !== null && frozenAtMs < sealedAtMs;
}

/** The batch with the marks of its trays; the same batch where it has none, or where its marks are the fish’s own. */
export function marksByTrays(room: BookRoom, batch: StoredBatch): StoredBatch {
  const trays = packTraysOf(room, batch.id);
  const together = timesTogether(trays);
  const latest = trays.findLast((tray) => tray.intoFreezerAtMs === together?.intoFreezerAtMs);
  if (together === undefined || latest === undefined || areMarksOfFish(room, batch)) return batch;
  return {
    ...batch, freezerPlaceId: latest.placeId, intoFreezerAtMs: together.intoFreezerAtMs, frozenAtMs: together.frozenAtMs, outOfFreezerAtMs: together.lastOutAtMs,
  };
}
