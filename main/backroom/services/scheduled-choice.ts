/** Judging a batch's salt by a scheduled process too, or no longer. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { decisionsOf, nameOf } from './release.ts';
import { needProcessLetter } from './scheduled-keeping.ts';

/**
 * Gives a batch its scheduled process, or takes it off.
 * @throws Refusal NOT_FOUND; RULE_BLOCKS once the batch was released or rejected, or where the letter counts no more
 */
export function chooseScheduled(room: BookRoom, { batchId, scheduledId }: Parsed<'batch.useScheduled'>): Output<'batch.useScheduled'> {
  const before = room.book.shelf('batches').need(batchId);
  const scheduled = scheduledId === null ? null : room.book.shelf('scheduledProcesses').need(scheduledId);
  refuseDecided(room, before);
  if (scheduled !== null) needProcessLetter(room, scheduled.paperId);
  const batch: StoredBatch = { ...before, scheduledId };
  room.book.shelf('batches').put(batch);
  room.book.record({
    kind: 'batch.useScheduled', subjectId: batch.id, happenedAtMs: room.clock.nowMs(),
    summary: scheduled === null ? `The salt of ${nameOf(batch)} is no longer judged by a scheduled process.` : `The salt of ${nameOf(batch)} may also be judged by the scheduled process “${scheduled.name}”.`,
    before: { scheduledId: before.scheduledId }, after: { scheduledId },
  });
  room.changed('batch', [batch.id]);
  room.changed('verdict', [batch.id]);
  return { batchId };
}

function refuseDecided(room: BookRoom, batch: StoredBatch): void {
  const final = decisionsOf(room, batch.id).find(({ decision }) => decision !== 'hold');
  if (final === undefined) return;
  throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} was ${final.decision === 'release' ? 'released' : 'rejected'} by ${final.initials}: what it is judged by can’t be changed now.`, {
    remedy: 'Choose the scheduled process before a batch is released.',
  });
}
