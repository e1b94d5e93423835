/** The packs of a batch. */
import type { Pack } from '../../../app/contract/requests/packing.ts';
import type { BookRoom } from '../room.ts';

/** The packs of a batch, by their number. */
export function packsOf(room: BookRoom, batchId: string): Pack[] {
  return room.book.shelf('packs').where('batchId', batchId).toSorted((one, other) => one.serial - other.serial);
}
