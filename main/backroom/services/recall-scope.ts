/** What a recall is about: found when it begins, and again at each step while it runs, since the kitchen goes on meanwhile. */
import { TraceStartKind } from '../../../app/contract/requests/trace.ts';
import type { PackMove } from '../../../app/contract/requests/packs-where.ts';
import type { FoundWhere, Recall } from '../../../app/contract/requests/trace-shapes.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { inTurns } from './in-turns.ts';
import { whereNow } from './pack-where.ts';
import { lastMoveOf, movesOf } from './pack-where-last.ts';
import { packsOf } from './packs-of-batch.ts';
import { nameOf } from './release.ts';
import { packsHandedTo, recipientsOf } from './trace-source.ts';
import { traceOf } from './trace.ts';

export type RecallScope = Pick<Recall, 'about' | 'packs' | 'calls' | 'batchIds'>;

/**
 * All of each batch that is reached forward, or of which a pack is: a pack is recalled with its whole batch. And everybody
 * who was ever given one of them.
 * @throws Refusal NOT_FOUND: no batch came of it
 */
export async function scopeOf(room: BookRoom, { kind, id }: { readonly kind: TraceStartKind; readonly id: string }): Promise<RecallScope> {
  const start = startOf(room, kind, id);
  const { starts, trace } = await inTurns(traceOf(room, start.kind, start.id));
  const batchIds = new Set<string>();
  const ofPack = (packId: string): void => { batchIds.add(room.book.shelf('packs').need(packId).batchId); };
  for (const { ref, side } of trace.found) {
    if (side !== 'start' && side !== 'forward') continue;
    if (ref.kind === 'batch') batchIds.add(ref.id);
    else if (ref.kind === 'pack') ofPack(ref.id);
    else if (ref.kind === 'recipient' && side === 'start') packsHandedTo(room, ref.id).forEach(ofPack);
  }
  if (batchIds.size === 0) throw new Refusal('NOT_FOUND', `No batch and no pack came of ${starts.title}.`, { remedy: 'Start from something that fish was made of.' });
  const packs = [...batchIds].flatMap((batchId) => packsOf(room, batchId)).toSorted((one, other) => (one.code < other.code ? -1 : 1));
  return {
    about: { kind: start.kind, id: start.id, label: (start.label === '' ? starts.title : start.label).slice(0, 200) },
    packs: packs.map((pack) => {
      const last = lastMoveOf(room, pack.id);
      return { packId: pack.id, code: pack.code, grams: pack.net.grams, expected: whereNow(room, last), bookedAs: bookedAs(last), found: null };
    }),
    calls: callsOf(room, packs.map((pack) => pack.id)), batchIds: [...batchIds],
  };
}

/** What a recall that runs is about by now; null once it is ended. */
export async function scopeNow(room: BookRoom, { finished, about }: Recall): Promise<RecallScope | null> {
  const kind = TraceStartKind.safeParse(about.kind);
  if (finished !== null || !kind.success) return null;
  try {
    return await scopeOf(room, { kind: kind.data, id: about.id });
  } catch (thrown) {
    // A correction can take the last way to a batch; the recall keeps what it found.
    if (thrown instanceof Refusal && thrown.code === 'NOT_FOUND') return null;
    throw thrown;
  }
}

/** A recall with what was made, sealed or given away since. Nothing ever leaves it. */
export function grow(recall: Recall, scope: RecallScope | null): Recall {
  if (scope === null) return recall;
  const known = new Set(recall.packs.map(({ packId }) => packId));
  const nowOf = new Map(scope.calls.map((call) => [call.guestId, call]));
  const called = new Set(recall.calls.map(({ guestId }) => guestId));
  return {
    ...recall,
    batchIds: [...new Set([...recall.batchIds, ...scope.batchIds])],
    packs: [...recall.packs, ...scope.packs.filter(({ packId }) => !known.has(packId))],
    calls: [
      // Who was given more since is to be called again.
      ...recall.calls.map((call) => ((nowOf.get(call.guestId)?.packs ?? 0) > call.packs ? { ...call, packs: nowOf.get(call.guestId)?.packs ?? call.packs, reached: null } : call)),
      ...scope.calls.filter(({ guestId }) => !called.has(guestId)),
    ],
  };
}

/** Where a pack is to be found as its last move has it; what isn’t gone is here. */
function bookedAs(last: PackMove | undefined): FoundWhere {
  switch (last?.what) {
    case 'handed-over': return 'with-them';
    case 'served': case 'destroyed': return last.what;
    default: return 'in-store';
  }
}

/** A pack or a complaint stands for its batch. */
function startOf(room: BookRoom, kind: TraceStartKind, id: string): { readonly kind: TraceStartKind; readonly id: string; readonly label: string } {
  if (kind === 'pack') {
    const pack = room.book.shelf('packs').need(id);
    return { kind: 'batch', id: pack.batchId, label: `${nameOf(room.book.shelf('batches').need(pack.batchId))}, the batch of pack ${pack.code}` };
  }
  if (kind === 'complaint') {
    const { batchId, fromName } = room.book.shelf('complaints').need(id);
    return { kind: 'batch', id: batchId, label: `${nameOf(room.book.shelf('batches').need(batchId))}, after a complaint of ${fromName}` };
  }
  return { kind, id, label: '' };
}

/** Those who have packs now and those who had some once: each to be called. */
function callsOf(room: BookRoom, packIds: readonly string[]): Recall['calls'] {
  const counts = new Map<string, number>();
  for (const packId of packIds) {
    for (const guestId of recipientsOf(room, movesOf(room, packId))) counts.set(guestId, (counts.get(guestId) ?? 0) + 1);
  }
  return [...counts].map(([guestId, packs]) => {
    const { name, contact } = room.book.shelf('guests').need(guestId);
    return { guestId, name, contact, packs, reached: null };
  });
}
