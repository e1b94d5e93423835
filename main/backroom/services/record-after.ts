/** What became of a batch after it was packed: where each pack is, who got some, what was complained of; and the lots its brine took. */
import type { Output } from '../../../app/contract/contract.ts';
import type { Pack } from '../../../app/contract/requests/packing.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { whereNow } from './pack-where.ts';
import { movesOf } from './pack-where-last.ts';

type After = Pick<Output<'record.batch'>, 'fates' | 'handOvers' | 'complaints' | 'ingredientLots'>;

export function afterPacking(room: BookRoom, batch: StoredBatch, packs: readonly Pack[]): After {
  const { book } = room;
  const fates = packs.map((pack) => {
    const moves = movesOf(room, pack.id);
    return { packId: pack.id, code: pack.code, where: whereNow(room, moves.at(-1)), moves };
  });
  const handOverIds = new Set(fates.flatMap(({ moves }) => moves.flatMap((move) => (move.what === 'handed-over' ? (move.handOverId ?? []) : []))));
  const codeOf = new Map(packs.map((pack) => [pack.id, pack.code]));
  return {
    fates,
    handOvers: [...handOverIds].map((id) => {
      const handOver = book.shelf('handOvers').need(id);
      const guest = book.shelf('guests').need(handOver.guestId);
      return { handOver, guestName: guest.name, contact: guest.contact, codes: handOver.packIds.flatMap((packId) => codeOf.get(packId) ?? []) };
    }),
    complaints: book.shelf('complaints').where('batchId', batch.id),
    ingredientLots: (batch.ingredientLotIds ?? []).map((id) => book.shelf('ingredientLots').need(id)),
  };
}
