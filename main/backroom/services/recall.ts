/** Recalls and drills: begun from a trace, packs ticked off, people called, the result kept. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Recall } from '../../../app/contract/requests/trace-shapes.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { inTurns } from './in-turns.ts';
import { balanceOf, viewRecall } from './recall-view.ts';
import { fateOf, guestOfMove, movesOf } from './trace-fate.ts';
import { recalledPacks, recallStart } from './trace-starts.ts';
import { traceOf } from './trace.ts';
import { sayInstant } from './when.ts';

type Scope = Pick<Recall, 'about' | 'packs' | 'calls' | 'batchIds'>;

export const recallServices = {
  'recall.list': listRecalls,
  'recall.get': (room: BookRoom, { recallId }: Parsed<'recall.get'>): Output<'recall.get'> => viewRecall(room, room.book.shelf('recalls').need(recallId)),
  'recall.start': { prepare: findScope, commit: startRecall },
  'recall.found': (room: BookRoom, input: Parsed<'recall.found'>): Output<'recall.found'> => viewRecall(room, markFound(room, input)),
  'recall.reached': (room: BookRoom, input: Parsed<'recall.reached'>): Output<'recall.reached'> => viewRecall(room, markReached(room, input)),
  'recall.finish': (room: BookRoom, input: Parsed<'recall.finish'>): Output<'recall.finish'> => viewRecall(room, finishRecall(room, input)),
} satisfies Services<'recall.list' | 'recall.get' | 'recall.start' | 'recall.found' | 'recall.reached' | 'recall.finish'>;

function listRecalls(room: BookRoom): Output<'recall.list'> {
  return {
    recalls: room.book.shelf('recalls').all().toSorted((one, other) => other.startedAtMs - one.startedAtMs).map((recall) => ({
      id: recall.id, isDrill: recall.isDrill, label: recall.about.label, startedAtMs: recall.startedAtMs,
      finishedAtMs: recall.finished?.atMs ?? null, packs: recall.packs.length, percent: balanceOf(recall).percent,
    })),
  };
}

/** Every pack forward of what is recalled, where the book has it, and everybody who was ever given one. */
async function findScope(room: BookRoom, input: Parsed<'recall.start'>): Promise<Scope> {
  const start = recallStart(room, input.kind, input.id);
  const { starts, trace } = await inTurns(traceOf(room, start.kind, start.id));
  const forward = trace.found.filter(({ side }) => side === 'start' || side === 'forward').map(({ ref }) => ref);
  const packIds = recalledPacks(room, start.kind, start.id, forward.filter(({ kind }) => kind === 'pack').map(({ id }) => id));
  const batchIds = forward.filter(({ kind }) => kind === 'batch').map(({ id }) => id);
  if (packIds.length === 0 && batchIds.length === 0) throw new Refusal('NOT_FOUND', `No batch and no pack came of ${starts.title}.`, { remedy: 'Start from something that fish was made of.' });
  const packs = packIds.map((packId) => room.book.shelf('packs').need(packId)).toSorted((one, other) => (one.code < other.code ? -1 : 1));
  return {
    about: { kind: start.kind, id: start.id, label: (start.label === '' ? starts.title : start.label).slice(0, 200) },
    packs: packs.map((pack) => ({ packId: pack.id, code: pack.code, grams: pack.net.grams, expected: fateOf(room, movesOf(room, pack.id)).where, found: null })),
    calls: callsOf(room, packIds), batchIds,
  };
}

/** Those who have packs now and those who had some once: each to be called. */
function callsOf(room: BookRoom, packIds: readonly string[]): Recall['calls'] {
  const counts = new Map<string, number>();
  for (const packId of packIds) {
    const had = new Set(movesOf(room, packId).flatMap((move) => (move.what === 'handed-over' ? (guestOfMove(room, move)?.id ?? []) : [])));
    for (const guestId of had) counts.set(guestId, (counts.get(guestId) ?? 0) + 1);
  }
  return [...counts].map(([guestId, packs]) => {
    const { name, contact } = room.book.shelf('guests').need(guestId);
    return { guestId, name, contact, packs, reached: null };
  });
}

function startRecall(room: BookRoom, { isDrill }: Parsed<'recall.start'>, scope: Scope): Output<'recall.start'> {
  const recall: Recall = { id: room.newId(), isDrill, startedAtMs: room.clock.nowMs(), startedBy: actingPerson(room).initials, finished: null, ...scope };
  keep(room, recall, `${isDrill ? 'Began a recall drill' : 'Began a RECALL'} of ${recall.about.label}: ${recall.packs.length} packs, ${recall.calls.length} to call.`);
  return viewRecall(room, recall);
}

/** Where packs were found, or null to take a tick back. */
function markFound(room: BookRoom, { recallId, packIds, where }: Parsed<'recall.found'>): Recall {
  const before = needOpen(room, recallId);
  const asked = new Set(packIds);
  const known = before.packs.filter(({ packId }) => asked.has(packId));
  if (known.length !== asked.size) throw new Refusal('NOT_FOUND', 'A pack that was ticked is not part of this recall.', { remedy: 'It is of another batch: keep it, and look whether that one is recalled too.' });
  const found = where === null ? null : { atMs: room.clock.nowMs(), where, initials: actingPerson(room).initials };
  const after: Recall = { ...before, packs: before.packs.map((pack) => (asked.has(pack.packId) ? { ...pack, found } : pack)) };
  keep(room, after, `${where === null ? 'Took back' : FOUND_WORDS[where]}: ${known.map(({ code }) => code).join(', ')}.`, before);
  return after;
}

const FOUND_WORDS = { 'in-store': 'Found in store', 'with-them': 'With those who have it', eaten: 'Eaten', served: 'Served', destroyed: 'Destroyed', 'not-found': 'NOT found' } as const;

function markReached(room: BookRoom, { recallId, guestId, note }: Parsed<'recall.reached'>): Recall {
  const before = needOpen(room, recallId);
  const call = before.calls.find((one) => one.guestId === guestId);
  if (call === undefined) throw new Refusal('NOT_FOUND', 'Nobody of that name is to be called in this recall.', { remedy: 'Choose from the list of this recall.' });
  const reached = { atMs: room.clock.nowMs(), initials: actingPerson(room).initials, note };
  const after: Recall = { ...before, calls: before.calls.map((one) => (one === call ? { ...one, reached } : one)) };
  keep(room, after, `Reached ${call.name}.`, before, note);
  return after;
}

function finishRecall(room: BookRoom, { recallId, note }: Parsed<'recall.finish'>): Recall {
  const before = needOpen(room, recallId);
  const after: Recall = { ...before, finished: { atMs: room.clock.nowMs(), initials: actingPerson(room).initials, note } };
  const { percent, accounted, packs } = balanceOf(after);
  const reached = after.calls.filter((call) => call.reached !== null).length;
  keep(room, after, `Ended the ${after.isDrill ? 'drill' : 'recall'} of ${after.about.label}: ${accounted} of ${packs} packs accounted for (${percent}), ${reached} of ${after.calls.length} reached.`, before, note);
  return after;
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
}

/** What of one differs from the other. */
function changedOf(one: Recall, other: Recall): unknown {
  return {
    packs: one.packs.filter((pack, index) => pack.found !== other.packs[index]?.found).map(({ code, found }) => ({ code, found })),
    calls: one.calls.filter((call, index) => call.reached !== other.calls[index]?.reached).map(({ name, reached }) => ({ name, reached })),
    finished: one.finished,
  };
}
