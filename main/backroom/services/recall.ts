/** Recalls and drills: begun from a trace, packs ticked off, people called, the result kept. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Recall } from '../../../app/contract/requests/trace-shapes.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { decideBatch } from './deciding.ts';
import { grow, type RecallScope, scopeNow, scopeOf } from './recall-scope.ts';
import { balanceOf, viewRecall } from './recall-view.ts';
import { standingDecision } from './release.ts';
import { sayInstant } from './when.ts';

export const recallServices = {
  'recall.list': listRecalls,
  'recall.get': showRecall,
  'recall.start': { prepare: findScope, commit: startRecall },
  'recall.found': { prepare: findGrowth, commit: markFound },
  'recall.reached': { prepare: findGrowth, commit: markReached },
  'recall.finish': { prepare: findGrowth, commit: finishRecall },
} satisfies Services<'recall.list' | 'recall.get' | 'recall.start' | 'recall.found' | 'recall.reached' | 'recall.finish'>;

/** The latest first; those that run as they are now. */
async function listRecalls(room: BookRoom): Promise<Output<'recall.list'>> {
  const recalls: Output<'recall.list'>['recalls'] = [];
  for (const kept of room.book.shelf('recalls').all().toSorted((one, other) => other.startedAtMs - one.startedAtMs)) {
    const recall = grow(kept, await scopeNow(room, kept));
    recalls.push({
      id: recall.id, isDrill: recall.isDrill, label: recall.about.label, startedAtMs: recall.startedAtMs,
      finishedAtMs: recall.finished?.atMs ?? null, packs: recall.packs.length, percent: balanceOf(recall).percent,
    });
  }
  return { recalls };
}

/** @throws Refusal NOT_FOUND: no batch came of it */
function findScope(room: BookRoom, input: Parsed<'recall.start'>): Promise<RecallScope> {
  return scopeOf(room, input);
}

function findGrowth(room: BookRoom, { recallId }: { readonly recallId: string }): Promise<RecallScope | null> {
  return scopeNow(room, room.book.shelf('recalls').need(recallId));
}

async function showRecall(room: BookRoom, { recallId }: Parsed<'recall.get'>): Promise<Output<'recall.get'>> {
  const growth = await findGrowth(room, { recallId });
  return viewRecall(room, grow(room.book.shelf('recalls').need(recallId), growth));
}

function startRecall(room: BookRoom, { isDrill }: Parsed<'recall.start'>, scope: RecallScope): Output<'recall.start'> {
  const recall: Recall = { id: room.newId(), isDrill, startedAtMs: room.clock.nowMs(), startedBy: actingPerson(room).initials, finished: null, ...scope };
  keep(room, recall, `${isDrill ? 'Began a recall drill' : 'Began a RECALL'} of ${recall.about.label}: ${recall.packs.length} packs, ${recall.calls.length} to call.`);
  holdBatches(room, recall, recall.batchIds);
  return viewRecall(room, recall);
}

/** In earnest its batches go on HOLD, so that no more of them is packed, labelled, served or handed over. */
function holdBatches(room: BookRoom, { isDrill, about }: Recall, batchIds: readonly string[]): void {
  if (isDrill) return;
  for (const batchId of batchIds) {
    const { pack, store } = room.book.shelf('batches').need(batchId);
    const standing = standingDecision(room, batchId);
    if (standing?.decision === 'hold' || standing?.decision === 'reject') continue;
    decideBatch(room, { batchId, decision: 'hold', reason: `Recalled: ${about.label}`.slice(0, 200), pack: standing?.pack ?? pack, store: standing?.store ?? store, keptWhere: '', initialsForError: false });
  }
}

/** Where packs were found, or null to take a tick back. */
function markFound(room: BookRoom, { recallId, packIds, where }: Parsed<'recall.found'>, growth: RecallScope | null): Output<'recall.found'> {
  const kept = needOpen(room, recallId);
  const before = grow(kept, growth);
  const asked = new Set(packIds);
  const known = before.packs.filter(({ packId }) => asked.has(packId));
  if (known.length !== asked.size) throw new Refusal('NOT_FOUND', 'A pack that was ticked is not part of this recall.', { remedy: 'It is of another batch: keep it, and look whether that one is recalled too.' });
  const found = where === null ? null : { atMs: room.clock.nowMs(), where, initials: actingPerson(room).initials };
  const after: Recall = { ...before, packs: before.packs.map((pack) => (asked.has(pack.packId) ? { ...pack, found } : pack)) };
  keep(room, after, `${where === null ? 'Took back' : FOUND_WORDS[where]}: ${known.map(({ code }) => code).join(', ')}.`, kept);
  return viewRecall(room, after);
}

const FOUND_WORDS = { 'in-store': 'Found in store', 'with-them': 'With those who have it', eaten: 'Eaten', served: 'Served', destroyed: 'Destroyed', 'not-found': 'NOT found' } as const;

function markReached(room: BookRoom, { recallId, guestId, note }: Parsed<'recall.reached'>, growth: RecallScope | null): Output<'recall.reached'> {
  const kept = needOpen(room, recallId);
  const before = grow(kept, growth);
  const call = before.calls.find((one) => one.guestId === guestId);
  if (call === undefined) throw new Refusal('NOT_FOUND', 'Nobody of that name is to be called in this recall.', { remedy: 'Choose from the list of this recall.' });
  const reached = { atMs: room.clock.nowMs(), initials: actingPerson(room).initials, note };
  const after: Recall = { ...before, calls: before.calls.map((one) => (one === call ? { ...one, reached } : one)) };
  keep(room, after, `Reached ${call.name}.`, kept, note);
  return viewRecall(room, after);
}

function finishRecall(room: BookRoom, { recallId, note }: Parsed<'recall.finish'>, growth: RecallScope | null): Output<'recall.finish'> {
  const kept = needOpen(room, recallId);
  const before = grow(kept, growth);
  const after: Recall = { ...before, finished: { atMs: room.clock.nowMs(), initials: actingPerson(room).initials, note } };
  const { percent, accounted, packs } = balanceOf(after);
  const reached = after.calls.filter((call) => call.reached !== null).length;
  keep(room, after, `Ended the ${after.isDrill ? 'drill' : 'recall'} of ${after.about.label}: ${accounted} of ${packs} packs accounted for (${percent}), ${reached} of ${after.calls.length} reached.`, kept, note);
  return viewRecall(room, after);
}

function needOpen(room: BookRoom, recallId: string): Recall {
  const recall = room.book.shelf('recalls').need(recallId);
  if (recall.finished === null) return recall;
  throw new Refusal('CONFLICT', `This ${recall.isDrill ? 'drill' : 'recall'} was ended at ${sayInstant(room, recall.finished.atMs)} by ${recall.finished.initials}.`, { remedy: 'Begin another one for what was found since.' });
}

/** The whole recall stands in its shelf; of a step the entry says what was and what is. */
function keep(room: BookRoom, recall: Recall, summary: string, before?: Recall, why = ''): void {
  room.book.shelf('recalls').put(recall);
  room.book.record({
    kind: before === undefined ? 'recall.start' : recall.finished === null ? 'recall.step' : 'recall.finish', subjectId: recall.id, happenedAtMs: room.clock.nowMs(),
    summary, why, ...(before === undefined ? { after: recall } : { before: changedOf(before, recall), after: changedOf(recall, before) }),
  });
  room.changed('packs', [recall.id]);
  if (before !== undefined) holdBatches(room, recall, recall.batchIds.filter((batchId) => !before.batchIds.includes(batchId)));
}

/** What of one differs from the other; packs and people that were added since stand in the later one alone. */
function changedOf(one: Recall, other: Recall): unknown {
  return {
    packs: one.packs.filter((pack, index) => pack.found !== other.packs[index]?.found).map(({ code, found }) => ({ code, found })),
    calls: one.calls.filter((call, index) => call.reached !== other.calls[index]?.reached || call.packs !== other.calls[index]?.packs).map(({ name, packs, reached }) => ({ name, packs, reached })),
    finished: one.finished,
  };
}
