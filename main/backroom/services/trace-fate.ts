/** What became of a pack: its moves, oldest first, and where the last one leaves it. */
import type { PackMove } from '../../../app/contract/requests/packs-where.ts';
import type { BookRoom } from '../room.ts';
import { sayInstant } from './when.ts';

/** Where a pack is by the book. */
export interface Fate {
  /** `sealed`: nothing was entered since it was sealed. */
  readonly state: 'sealed' | PackMove['what'];
  /** Such as “in the freezer Chest freezer, basket 2”. */
  readonly where: string;
  readonly placeId: string | null;
  readonly guestId: string | null;
  readonly guestName: string | null;
  readonly atMs: number | null;
}

export function movesOf(room: BookRoom, packId: string): PackMove[] {
  return room.book.shelf('packMoves').where('packId', packId);
}

/** The last move counts; of two at one instant the one entered later. */
export function fateOf(room: BookRoom, moves: readonly PackMove[]): Fate {
  const last = moves.reduce<PackMove | undefined>((latest, move) => (latest === undefined || move.atMs >= latest.atMs ? move : latest), undefined);
  if (last === undefined) return { state: 'sealed', where: 'sealed, at the packing table', placeId: null, guestId: null, guestName: null, atMs: null };
  const place = last.placeId === null ? undefined : room.book.shelf('places').get(last.placeId);
  const guest = last.what === 'handed-over' ? guestOfMove(room, last) : undefined;
  return {
    state: last.what, where: whereWords(last, place === undefined ? '' : `${place.kind === 'freezer' ? 'the freezer' : 'the cooler'} ${place.name}`, guest?.name),
    placeId: last.what === 'into-store' ? last.placeId : null, guestId: guest?.id ?? null, guestName: guest?.name ?? null, atMs: last.atMs,
  };
}

/** To whom a move gave the pack; undefined where it gave it to nobody. */
export function guestOfMove(room: BookRoom, move: PackMove): { readonly id: string; readonly name: string } | undefined {
  const handOver = move.handOverId === null ? undefined : room.book.shelf('handOvers').get(move.handOverId);
  return handOver === undefined ? undefined : room.book.shelf('guests').get(handOver.guestId);
}

/** One line a move, for a list. */
export function moveLine(room: BookRoom, move: PackMove): string {
  return `${fateOf(room, [move]).where}, ${sayInstant(room, move.atMs)}${move.initials === '' ? '' : `, ${move.initials}`}${move.why === '' ? '' : `: ${move.why}`}`;
}

function whereWords(move: PackMove, place: string, guest: string | undefined): string {
  const spot = move.spot === '' ? '' : `, ${move.spot}`;
  switch (move.what) {
    case 'into-store': return `in ${place === '' ? 'store' : place}${spot}`;
    case 'out-of-store': return 'out of store, in the kitchen';
    case 'handed-over': return `handed to ${guest ?? 'somebody the book no longer names'}`;
    case 'returned': return 'back in the kitchen';
    case 'served': return 'served';
    case 'destroyed': return 'destroyed';
  }
}
