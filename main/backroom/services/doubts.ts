/** Readings in doubt: what the program proposes, and what a named person decides. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Doubt } from '../../../app/contract/requests/evidence.ts';
import type { StoredBatch, StoredDoubtDecision } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { plansOf } from './judging/compose.ts';
import { doubtsAbout, lastEntryOf, warmDoubts, type PointDoubt } from './judging/doubt-evidence.ts';
import { keepingOf } from './judging/judge-batch.ts';
import { readOnce } from './judging/points.ts';
import type { PointPlan } from './judging/taken-readings.ts';
import { rejudge, releasedOf } from './rejudging.ts';
import { nameOf } from './release.ts';
import { sayInstant } from './when.ts';

export const doubtServices = {
  'doubt.list': async (room: BookRoom, { batchId }: Parsed<'doubt.list'>): Promise<Output<'doubt.list'>> => {
    const batch = room.book.shelf('batches').need(batchId);
    const readingsAt = readOnce(room);
    await warmDoubts(room, doubtPlans(room, batch), readingsAt);
    return { doubts: doubtsAbout(room, doubtPlans(room, batch), readingsAt).map(wireDoubt) };
  },
  'doubt.decide': (room: BookRoom, input: Parsed<'doubt.decide'>): Output<'doubt.decide'> => {
    decideDoubt(room, input);
    return { batchId: input.batchId };
  },
} satisfies Services<'doubt.list' | 'doubt.decide'>;

const DONE = { exclude: 'left out', keep: 'kept' } as const;

function doubtPlans(room: BookRoom, batch: StoredBatch): PointPlan[] {
  return plansOf(room, batch, keepingOf(room, batch));
}

/**
 * Keeps a decision on readings in doubt; deciding the same doubt anew is possible, and the first decision stays in the record.
 * @throws Refusal CONFLICT: there is no such doubt about this batch any more
 */
function decideDoubt(room: BookRoom, input: Parsed<'doubt.decide'>): void {
  const batch = room.book.shelf('batches').need(input.batchId);
  const readingsAt = readOnce(room);
  const meant = doubtsAbout(room, doubtPlans(room, batch), readingsAt).filter((one) => one.pointId === input.pointId && one.kind === input.kind && one.fromMs === input.fromMs && one.toMs === input.toMs);
  if (meant.length === 0) {
    throw new Refusal('CONFLICT', 'There is no such doubt about these readings any more.', { remedy: 'Look at the list again: more readings may have come in.' });
  }
  for (const doubt of meant) keepDecision(room, batch, input, doubt, lastEntryOf(readingsAt(doubt.pointId)));
  const sharing = sharingBatches(room, batch, input);
  for (const subject of ['verdict', 'batch'] as const) room.changed(subject, sharing.map(({ id }) => id));
  if (batch.loadId !== null) room.changed('load', [batch.loadId]);
  rejudge(room, releasedOf(room, sharing.map(({ id }) => id)), 'readings in doubt were decided on');
}

/** Every batch that is judged on these readings: a chamber and a cooler serve several. */
function sharingBatches(room: BookRoom, batch: StoredBatch, { pointId, fromMs, toMs }: Parsed<'doubt.decide'>): StoredBatch[] {
  const others = room.book.shelf('batches').all().filter((one) => one.id !== batch.id && doubtPlans(room, one)
    .some(({ taken }) => taken?.pointId === pointId && (taken.fromMs ?? -Infinity) <= toMs && (taken.toMs ?? Infinity) >= fromMs));
  return [batch, ...others];
}

function keepDecision(room: BookRoom, batch: StoredBatch, input: Parsed<'doubt.decide'>, doubt: PointDoubt, lastEntry: number): void {
  const person = actingPerson(room);
  const decision: StoredDoubtDecision = {
    id: room.newId(), ...input, by: doubt.by, lastEntry, reason: doubt.reason, initials: person.initials, personId: person.id, atMs: room.clock.nowMs(),
  };
  room.book.shelf('doubtDecisions').put(decision);
  const from = sayInstant(room, doubt.fromMs);
  const stretch = doubt.fromMs === doubt.toMs ? `at ${from}` : `from ${from} to ${sayInstant(room, doubt.toMs)}`;
  const count = doubt.readings.length;
  room.book.record({
    kind: `doubt.${input.decision}`, subjectId: batch.id, happenedAtMs: null, why: input.why,
    summary: `${person.initials} ${DONE[input.decision]} ${count} ${count === 1 ? 'reading' : 'readings'} of ${doubt.pointName} ${stretch} (${nameOf(batch)}): ${doubt.reason}`,
    before: doubt.decided ?? null, after: decision,
  });
}

function wireDoubt({ pointId, pointName, by, kind, fromMs, toMs, readings, reason, decided }: PointDoubt): Doubt {
  return {
    id: JSON.stringify([pointId, by.how, by.instrumentId, kind, fromMs, toMs]), pointId, pointName, kind, fromMs, toMs, readings: readings.length, reason,
    decided: decided === undefined ? null : { decision: decided.decision, why: decided.why, initials: decided.initials, atMs: decided.atMs },
  };
}
