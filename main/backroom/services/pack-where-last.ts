/** The moves of packs: the last one says what became of a pack. */
import type { PackMove } from '../../../app/contract/requests/packs-where.ts';
import type { BookRoom } from '../room.ts';

/** A pack that these happened to is in the kitchen no more. */
const GONE: readonly PackMove['what'][] = ['handed-over', 'served', 'destroyed'];

/** Every move of a pack, oldest first. */
export function movesOf(room: BookRoom, packId: string): PackMove[] {
  return room.book.shelf('packMoves').where('packId', packId);
}

export function lastMoveOf(room: BookRoom, packId: string): PackMove | undefined {
  return movesOf(room, packId).at(-1);
}

/** Whether a pack was given away, served or destroyed. */
export function isGone(move: PackMove | undefined): boolean {
  return move !== undefined && GONE.includes(move.what);
}

/** Whether it was given away and brought back: nothing shows how it was kept in between. */
export function cameBack(room: BookRoom, packId: string): boolean {
  return movesOf(room, packId).some(({ what }) => what === 'returned');
}

/** When the last pack of a batch left the cold store for good, brought back later or not; undefined while one didn’t, or where there are none. */
export function packsLeftMs(room: BookRoom, batchId: string): number | undefined {
  let latestMs: number | undefined;
  for (const pack of room.book.shelf('packs').where('batchId', batchId)) {
    const left = movesOf(room, pack.id).find(isGone);
    if (left === undefined) return undefined;
    latestMs = Math.max(latestMs ?? 0, left.atMs);
  }
  return latestMs;
}
