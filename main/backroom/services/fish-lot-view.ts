/** A fish lot as it crosses the contract, with its species and the batches that took from it. */
import type { FishLot } from '../../../app/contract/requests/fish.ts';
import type { StoredFishLot } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { speciesOf } from './species.ts';

/** One lot with the batches that took from it, in the order they were made. */
export function viewFishLot(room: BookRoom, lot: StoredFishLot): FishLot {
  const batchIds = room.book.shelf('batches').all().filter((batch) => batch.lotIds.includes(lot.id)).map((batch) => batch.id);
  return { ...lot, species: speciesOf(room, lot.speciesId), batchIds };
}

/** Every lot of the book, the latest received first. */
export function viewFishLots(room: BookRoom): FishLot[] {
  const batches = room.book.shelf('batches').all();
  return room.book.shelf('fishLots').all()
    .toSorted((one, other) => other.receivedAtMs - one.receivedAtMs)
    .map((lot) => ({
      ...lot,
      species: speciesOf(room, lot.speciesId),
      batchIds: batches.filter((batch) => batch.lotIds.includes(lot.id)).map((batch) => batch.id),
    }));
}
