/** What there is to give to somebody, and what keeps it here. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { BatchToGive } from '../../../app/contract/requests/hand-over.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { isBatchOf } from './guests.ts';
import { judgeBatch, keepingOf } from './judging/judge-batch.ts';
import { keptOf, needBatchLeave, solidPacksOf, whyPackStays } from './leave-gate.ts';
import { isGone, lastMoveOf, packsLeftMs } from './pack-where-last.ts';
import { viewPacksWhere } from './pack-where.ts';
import { packsOf } from './packs-of-batch.ts';
import { nameOf, standingDecision } from './release.ts';
import { speciesOf } from './species.ts';

/** Bought fish is shown of as many batches, the oldest first: first in, first out. */
const MOST_BOUGHT = 8;

/** Their own catch first; then bought fish that is here and released, which may be sold or given to anybody. */
export function prepareHandOver(room: BookRoom, { guestId }: Parsed<'handOver.prepare'>): Output<'handOver.prepare'> {
  const guest = room.book.shelf('guests').need(guestId);
  const sealed = room.book.shelf('batches').all().filter((batch) => batch.sealedAtMs !== null);
  const own = sealed.filter((batch) => isBatchOf(room, batch, guest)).map((batch) => toGive(room, batch));
  const bought = sealed.filter((batch) => batch.sourceKind === 'supplier' && packsLeftMs(room, batch.id) === undefined && standingDecision(room, batch.id)?.decision === 'release').slice(0, MOST_BOUGHT).map((batch) => toGive(room, batch));
  const given = own.flatMap(({ packs }) => packs).filter(({ state }) => state === 'handed-over').length;
  const here = own.flatMap(({ packs }) => packs).filter(({ state }) => state !== 'handed-over' && state !== 'served' && state !== 'destroyed');
  return { guest, batches: [...own, ...bought].filter(({ packs }) => packs.some(({ state }) => state !== 'handed-over' && state !== 'served' && state !== 'destroyed')), of: here.length, given };
}

function toGive(room: BookRoom, batch: StoredBatch): BatchToGive {
  const keeping = keepingOf(room, batch);
  const kept = keptOf(room, batch, keeping, packsOf(room, batch.id));
  const packIds = solidPacksOf(room, batch.id, keeping.store);
  const { leave } = judgeBatch(room, batch, keeping, undefined, { packIds }).gates;
  const packs = viewPacksWhere(room, batch).map((view) => {
    const pack = room.book.shelf('packs').need(view.packId);
    const stays = whyPackStays(room, pack, kept, { purpose: 'handed over', atMs: room.clock.nowMs() });
    return { ...view, why: stays === undefined ? null : stays.message };
  });
  return {
    batchId: batch.id, batchName: nameOf(batch), marketName: speciesOf(room, batch.speciesId).marketName, store: keeping.store, packs: packs.filter(({ packId }) => !isGone(lastMoveOf(room, packId)) || batch.sourceKind === 'guest'),
    line: leave.line, refusal: refusalOf(room, batch, packIds), needsInitials: leave.state === 'initials',
  };
}

function refusalOf(room: BookRoom, batch: StoredBatch, packIds: readonly string[] | undefined): BatchToGive['refusal'] {
  try {
    needBatchLeave(room, batch, { purpose: 'handed over', atMs: room.clock.nowMs() }, packIds);
    return null;
  } catch (thrown) {
    if (thrown instanceof Refusal) return { message: thrown.message, remedy: thrown.remedy ?? '' };
    throw thrown;
  }
}
