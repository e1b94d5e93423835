/** Readings in doubt: what the program proposes, and what a named person decides. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Doubt } from '../../../app/contract/requests/evidence.ts';
import type { StoredBatch, StoredDoubtDecision } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { composeCase } from './judging/compose.ts';
import { doubtsAbout, type PointDoubt } from './judging/doubt-evidence.ts';
import { keepingOf } from './judging/judge-batch.ts';
import { readOnce } from './judging/points.ts';
import { rejudge, releasedOf } from './rejudging.ts';
import { nameOf } from './release.ts';
import { sayInstant } from './when.ts';

export const doubtServices = {
  'doubt.list': (room: BookRoom, { batchId }: Parsed<'doubt.list'>): Output<'doubt.list'> => ({ doubts: doubtsOf(room, room.book.shelf('batches').need(batchId)).map(wireDoubt) }),
  'doubt.decide': (room: BookRoom, input: Parsed<'doubt.decide'>): Output<'doubt.decide'> => {
    decideDoubt(room, input);
    return { batchId: input.batchId };
  },
} satisfies Services<'doubt.list' | 'doubt.decide'>;

const DONE = { exclude: 'left out', keep: 'kept' } as const;

function doubtsOf(room: BookRoom, batch: StoredBatch): PointDoubt[] {
  const readingsAt = readOnce(room);
  return doubtsAbout(room, composeCase(room, batch, keepingOf(room, batch), readingsAt).plans, readingsAt);
}

/**
 * Keeps a decision on readings in doubt; deciding the same doubt anew is possible, and the first decision stays in the record.
 * @throws Refusal CONFLICT: there is no such doubt about this batch any more
 */
function decideDoubt(room: BookRoom, input: Parsed<'doubt.decide'>): void {
  const batch = room.book.shelf('batches').need(input.batchId);
  const doubt = doubtsOf(room, batch).find((one) => one.pointId === input.pointId && one.kind === input.kind && one.fromMs === input.fromMs && one.toMs === input.toMs);
  if (doubt === undefined) {
    throw new Refusal('CONFLICT', 'There is no such doubt about these readings any more.', { remedy: 'Look at the list again: more readings may have come in.' });
  }
  const person = actingPerson(room);
  const decision: StoredDoubtDecision = {
    id: room.newId(), ...input, reason: doubt.reason, initials: person.initials, personId: person.id, atMs: room.clock.nowMs(),
  };
  room.book.shelf('doubtDecisions').put(decision);
  const from = sayInstant(room, doubt.fromMs);
  const stretch = doubt.fromMs === doubt.toMs ? `at ${from}` : `from ${from} to ${sayInstant(room, doubt.toMs)}`;
  room.book.record({
    kind: `doubt.${input.decision}`, subjectId: batch.id, happenedAtMs: null, why: input.why,
    summary: `${person.initials} ${DONE[input.decision]} ${doubt.readings} ${doubt.readings === 1 ? 'reading' : 'readings'} of ${doubt.pointName} ${stretch} (${nameOf(batch)}): ${doubt.reason}`,
    before: doubt.decided ?? null, after: decision,
  });
  room.changed('verdict', [batch.id]);
  room.changed('batch', [batch.id]);
  rejudge(room, releasedOf(room, [batch.id]), 'readings in doubt were decided on');
}

function wireDoubt({ pointId, pointName, kind, fromMs, toMs, readings, reason, decided }: PointDoubt): Doubt {
  return {
    id: JSON.stringify([pointId, kind, fromMs, toMs]), pointId, pointName, kind, fromMs, toMs, readings, reason,
    decided: decided === undefined ? null : { decision: decided.decision, why: decided.why, initials: decided.initials, atMs: decided.atMs },
  };
}
