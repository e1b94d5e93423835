/** Guests, parties and buyers: who fish belongs to and whom packs are given to. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Guest } from '../../../app/contract/requests/packs-where.ts';
import type { StoredBatch, StoredFishLot } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { lotsOf } from './batch-view.ts';
import { isGone, lastMoveOf } from './pack-where-last.ts';
import { packsOf } from './packs-of-batch.ts';

const KINDS = { guest: 'guest', party: 'party', buyer: 'buyer' } as const;

/** Those with packs here first, then the latest known. */
export function listGuests(room: BookRoom): Output<'guest.list'> {
  const batches = room.book.shelf('batches').all().filter(({ sourceKind }) => sourceKind === 'guest');
  const lots = room.book.shelf('fishLots').all();
  const guests = room.book.shelf('guests').all().toReversed().map((guest) => ({
    ...guest,
    waiting: batches.filter((batch) => batch.sealedAtMs !== null && isBatchOf(room, batch, guest)).reduce((sum, batch) => sum + packsHere(room, batch), 0),
    lots: lots.filter((lot) => isLotOf(lot, guest)).length,
  }));
  return { guests: guests.toSorted((one, other) => Number(other.waiting > 0) - Number(one.waiting > 0)) };
}

function packsHere(room: BookRoom, batch: StoredBatch): number {
  return packsOf(room, batch.id).filter(({ id }) => !isGone(lastMoveOf(room, id))).length;
}

/** @throws Refusal CONFLICT where somebody of that name is known who can't be told apart */
export function saveGuest(room: BookRoom, { guestId, draft }: Parsed<'guest.save'>): Output<'guest.save'> {
  const before = guestId === null ? null : room.book.shelf('guests').need(guestId);
  const same = room.book.shelf('guests').all().find((other) => other.id !== guestId && sameName(other.name, draft.name) && other.contact === draft.contact && other.room === draft.room);
  if (same !== undefined) {
    const message = `${same.name} is known already${same.room === '' ? '' : `, in room ${same.room}`}.`;
    throw new Refusal('CONFLICT', message, { remedy: 'Choose the name from the list, or give a contact or room that tells them apart.', fields: [{ path: ['draft', 'name'], message }] });
  }
  const guest: Guest = { id: before?.id ?? room.newId(), ...draft };
  room.book.shelf('guests').put(guest);
  room.book.record({
    kind: 'guest.save', subjectId: guest.id, happenedAtMs: null, summary: `${before === null ? 'Added' : 'Changed'} the ${KINDS[guest.kind]} ${guest.name}${guest.contact === '' ? ', without a contact' : ''}.`,
    ...(before === null ? {} : { before }), after: guest,
  });
  room.changed('fish', [guest.id]);
  return { guest };
}

/** Whether a fish lot is this guest's catch: by the guest named with it, in older books by the owner's name. */
export function isLotOf({ source }: Pick<StoredFishLot, 'source'>, guest: Pick<Guest, 'id' | 'name'>): boolean {
  if (source.kind !== 'guest') return false;
  return source.guestId === undefined ? sameName(source.ownerName, guest.name) : source.guestId === guest.id;
}

/** Whether all the fish of a batch is this guest's catch. */
export function isBatchOf(room: BookRoom, batch: StoredBatch, guest: Pick<Guest, 'id' | 'name'>): boolean {
  return batch.sourceKind === 'guest' && lotsOf(room, batch).every((lot) => isLotOf(lot, guest));
}

function sameName(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase();
}
