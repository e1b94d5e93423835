/** The review of a finished record: one act by name, with whether that person's training is on file. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Person } from '../../../app/contract/requests/office.ts';
import type { Review } from '../../../app/contract/requests/corrective.ts';
import { localDay } from '../../../app/measures/zone.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { sameInitials } from './office.ts';
import { countingPapers } from './paper-records.ts';
import { nameOf } from './release.ts';
import { zoneOf } from './when.ts';
import { loadOfBatch } from './taken-out.ts';

/**
 * Keeps that the person on duty read the whole record. Reading it again is another review.
 * @throws Refusal RULE_BLOCKS while the process goes on: there is no whole record to read yet
 */
export function reviewRecord(room: BookRoom, input: Parsed<'record.review'>): Review {
  const batch = room.book.shelf('batches').need(input.batchId);
  refuseUnfinished(room, batch);
  const person = actingPerson(room);
  const review: Review = {
    id: room.newId(), batchId: batch.id, initials: person.initials, personId: person.id, atMs: room.clock.nowMs(), remark: input.remark, trained: isTrained(room, person),
  };
  room.book.shelf('reviews').put(review);
  room.book.record({
    kind: 'record.review', subjectId: batch.id, happenedAtMs: review.atMs,
    summary: `${person.initials} reviewed the record of ${nameOf(batch)}${review.trained ? ', trained: the paper is on file' : '; no training paper of theirs is on file'}.`,
    ...(input.remark === '' ? {} : { why: input.remark }), after: review,
  });
  room.changed('verdict', [batch.id]);
  return review;
}

function refuseUnfinished(room: BookRoom, batch: StoredBatch): void {
  const load = loadOfBatch(room, batch);
  const endMs = batch.process === 'hot' ? load?.cooledAtMs : load?.outAtMs;
  if (typeof endMs === 'number') return;
  throw new Refusal('RULE_BLOCKS', `The record of ${nameOf(batch)} is not finished.`, {
    remedy: batch.process === 'hot' ? 'Review it once the cooling record is closed.' : 'Review it once it is out of the smoker.',
  });
}

/** Whether a training in reviewing records, in force today, is on file under this person’s initials. */
function isTrained(room: BookRoom, person: Person): boolean {
  const today = localDay(room.clock.nowMs(), zoneOf(room));
  return countingPapers(room.book).some((paper) =>
    paper.kind === 'training' && paper.subject === 'record-review' && sameInitials(paper.holder, person.initials)
    && (paper.validFrom === null || paper.validFrom <= today) && (paper.validUntil === null || today <= paper.validUntil));
}
