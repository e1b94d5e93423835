/** Packs given to whom they belong, or to whoever buys them: only what may leave, once, with what was looked at and who signed. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { HandOverView } from '../../../app/contract/requests/hand-over.ts';
import type { Pack } from '../../../app/contract/requests/packing.ts';
import type { Guest, HandOver } from '../../../app/contract/requests/packs-where.ts';
import { readSignature } from '../../../app/packs/stock-signature.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { lotsOf } from './batch-view.ts';
import { refuseInput } from './field-refusal.ts';
import { isBatchOf } from './guests.ts';
import { lookedAt } from './hand-over-looked.ts';
import { keepingOf } from './judging/judge-batch.ts';
import { needLeave } from './leave-gate.ts';
import { isGone, lastMoveOf } from './pack-where-last.ts';
import { INITIALLED, keepMoves, moveOf, needPacks, refuseEarlier } from './pack-where-moves.ts';
import { viewPackWhere, whereWords } from './pack-where.ts';
import { packsOf } from './packs-of-batch.ts';
import { nameOf } from './release.ts';
import { refuseFuture } from './when.ts';

/**
 * Hands packs over.
 * @throws Refusal: given already, scanned twice, somebody else's catch, a batch that may not leave, something not looked at and
 *   no word why, a signature without strokes
 */
export function makeHandOver(room: BookRoom, input: Parsed<'handOver.make'>): HandOver {
  const guest = room.book.shelf('guests').need(input.guestId);
  refuseFuture(room, input.atMs, ['atMs']);
  const packs = needPacks(room, input.packIds);
  const batches = batchesOf(room, packs);
  for (const pack of packs) refuseGiven(room, pack);
  for (const batch of batches) refuseOthersCatch(room, batch, guest);
  for (const pack of packs) refuseEarlier(room, pack, lastMoveOf(room, pack.id), input.atMs);
  needLeave(room, packs, { purpose: 'handed over', atMs: input.atMs, initialsForError: input.initialsForError });
  const looked = lookedAt(room, input, batches.some((batch) => keepingOf(room, batch).store === 'frozen'));
  const signature = input.signature === null ? null : { path: unwrap(readSignature(input.signature.path)), name: input.signature.name };
  if (looked.missed.length > 0 && input.why === '') {
    refuseInput(`Not everything was looked at: ${looked.missed.join(' ')}`, ['why'], 'Do it now, or say why not: the record keeps what was missed.');
  }
  const handOver: HandOver = {
    id: room.newId(), guestId: guest.id, atMs: input.atMs, packIds: packs.map(({ id }) => id), of: toGive(room, guest, packs), ...looked,
    box: input.box, signature, sheetGiven: input.sheetGiven, why: input.why, initials: actingPerson(room).initials,
  };
  room.book.shelf('handOvers').put(handOver);
  keepMoves(room, packs, packs.map((pack) => moveOf(room, pack, { what: 'handed-over', atMs: input.atMs, placeId: null, spot: '', handOverId: handOver.id, why: '' })), `handed to ${guest.name}`);
  room.book.record({
    kind: 'handOver.make', subjectId: handOver.id, happenedAtMs: input.atMs, ...(input.why === '' ? {} : { why: input.why }),
    summary: `Handed ${packs.length} of ${handOver.of} packs to ${guest.name}${signature === null ? ', not signed for' : `, signed by ${signature.name}`}${input.initialsForError === true ? `; ${handOver.initials} ${INITIALLED}` : ''}${looked.missed.length === 0 ? '' : `. Missed: ${looked.missed.join(' ')}`}`,
    after: handOver,
  });
  room.changed('fish', [guest.id]);
  return handOver;
}

function batchesOf(room: BookRoom, packs: readonly Pack[]): StoredBatch[] {
  return [...new Set(packs.map((pack) => pack.batchId))].map((id) => room.book.shelf('batches').need(id));
}

function refuseGiven(room: BookRoom, pack: Pack): void {
  const last = lastMoveOf(room, pack.id);
  if (!isGone(last)) return;
  throw new Refusal('CONFLICT', `Pack ${pack.code} was ${whereWords(room, pack, last)} already.`, { remedy: 'A pack is given once. Look at its number again.' });
}

/** A guest's own catch goes back to that guest alone, and is never sold. */
function refuseOthersCatch(room: BookRoom, batch: StoredBatch, guest: Guest): void {
  // A buyer may bear the owner’s name.
  if (batch.sourceKind !== 'guest' || (guest.kind !== 'buyer' && isBatchOf(room, batch, guest))) return;
  const source = lotsOf(room, batch)[0]?.source;
  const owner = source?.kind === 'guest' ? source.ownerName : 'another guest';
  throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} is ${owner}’s own catch, not ${guest.name}’s.`, { remedy: guest.kind === 'buyer' ? 'A guest’s own catch is not for sale.' : 'Give it to its owner; take these packs off the list.' });
}

/** Of how many: the packs of theirs that were still here. */
function toGive(room: BookRoom, guest: Guest, packs: readonly Pack[]): number {
  const own = room.book.shelf('batches').all().filter((batch) => batch.sealedAtMs !== null && isBatchOf(room, batch, guest));
  const here = own.flatMap((batch) => packsOf(room, batch.id)).filter(({ id }) => !isGone(lastMoveOf(room, id))).map(({ id }) => id);
  return new Set([...here, ...packs.map(({ id }) => id)]).size;
}

/** A hand-over with its guest and packs, as the sheet and the record show it. */
export function viewHandOver(room: BookRoom, handOver: HandOver): HandOverView {
  return {
    ...handOver,
    guest: room.book.shelf('guests').need(handOver.guestId),
    codes: handOver.packIds.map((id) => {
      const pack = room.book.shelf('packs').need(id);
      const batch = room.book.shelf('batches').need(pack.batchId);
      const { marketName, store, bestBy } = viewPackWhere(room, pack);
      return { packId: id, code: pack.code, marketName, grams: pack.net.grams, store, isCustom: batch.sourceKind === 'guest', process: batch.process, pack: keepingOf(room, batch).pack, bestBy };
    }),
  };
}

/** Every hand-over, or those with packs of a batch; the latest first. */
export function listHandOvers(room: BookRoom, { batchId }: Parsed<'handOver.list'>): Output<'handOver.list'> {
  const ids = batchId === null ? undefined : new Set(packsOf(room, batchId).map(({ id }) => lastHandOver(room, id)));
  const handOvers = room.book.shelf('handOvers').all().filter(({ id }) => ids === undefined || ids.has(id));
  return { handOvers: handOvers.toSorted((one, other) => other.atMs - one.atMs).slice(0, SHOWN).map((one) => viewHandOver(room, one)) };
}

const SHOWN = 50;

function lastHandOver(room: BookRoom, packId: string): string | null {
  return room.book.shelf('packMoves').where('packId', packId).findLast(({ what }) => what === 'handed-over')?.handOverId ?? null;
}
