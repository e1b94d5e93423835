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

/** When the last pack of a batch left the kitchen; undefined while one is here, or where there are none. */
export function packsGoneMs(room: BookRoom, batchId: string): number | undefined {
  let latestMs: number | undefined;
  for (const pack of room.book.shelf('packs').where('batchId', batchId)) {
    const move = lastMoveOf(room, pack.id);
    if (move === undefined || !isGone(move)) return undefined;
    latestMs = Math.max(latestMs ?? 0, move.atMs);
  }
  return latestMs;
}
