/** Complaints about a batch or one pack of it, and what came of them. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Complaint } from '../../../app/contract/requests/trace-shapes.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { nameOf } from './release.ts';
import { refuseBefore, refuseFuture, sayInstant } from './when.ts';

export const complaintServices = {
  'complaint.list': listComplaints,
  'complaint.add': (room: BookRoom, input: Parsed<'complaint.add'>): Output<'complaint.add'> => ({ complaint: addComplaint(room, input) }),
  'complaint.close': (room: BookRoom, input: Parsed<'complaint.close'>): Output<'complaint.close'> => ({ complaint: closeComplaint(room, input) }),
} satisfies Services<'complaint.list' | 'complaint.add' | 'complaint.close'>;

/** Of one batch, or of the whole book; the latest first. */
function listComplaints(room: BookRoom, { batchId }: Parsed<'complaint.list'>): Output<'complaint.list'> {
  const shelf = room.book.shelf('complaints');
  const complaints = batchId === null ? shelf.all() : shelf.where('batchId', batchId);
  return { complaints: complaints.toSorted((one, other) => other.atMs - one.atMs) };
}

/** @throws Refusal: a pack of another batch, a time to come or before the pack was sealed or the batch made */
function addComplaint(room: BookRoom, input: Parsed<'complaint.add'>): Complaint {
  const batch = room.book.shelf('batches').need(input.batchId);
  const pack = input.packId === null ? undefined : room.book.shelf('packs').need(input.packId);
  if (pack !== undefined && pack.batchId !== batch.id) refuseInput(`Pack ${pack.code} is not of ${nameOf(batch)}.`, ['packId'], 'Choose a pack of this batch, or none.');
  refuseFuture(room, input.atMs, ['atMs']);
  refuseBefore(room, input.atMs, 'A complaint', pack === undefined ? { what: 'the making of the batch', atMs: batch.madeAtMs } : { what: 'the sealing of the pack', atMs: pack.sealedAtMs }, ['atMs']);
  const complaint: Complaint = { id: room.newId(), ...input, initials: actingPerson(room).initials, outcome: null };
  room.book.shelf('complaints').put(complaint);
  room.book.record({
    kind: 'complaint.add', subjectId: batch.id, happenedAtMs: input.atMs,
    summary: `Complaint of ${input.fromName} about ${pack === undefined ? nameOf(batch) : `pack ${pack.code}`} at ${sayInstant(room, input.atMs)}: ${input.what}`,
    after: complaint,
  });
  room.changed('packs', [batch.id]);
  return complaint;
}

/** @throws Refusal CONFLICT where it was closed before */
function closeComplaint(room: BookRoom, { complaintId, text }: Parsed<'complaint.close'>): Complaint {
  const before = room.book.shelf('complaints').need(complaintId);
  if (before.outcome !== null) {
    throw new Refusal('CONFLICT', `What came of this complaint was entered at ${sayInstant(room, before.outcome.atMs)} by ${before.outcome.initials}.`, { remedy: 'Enter what is new as a complaint of its own.' });
  }
  const closed: Complaint = { ...before, outcome: { atMs: room.clock.nowMs(), text, initials: actingPerson(room).initials } };
  room.book.shelf('complaints').put(closed);
  room.book.record({
    kind: 'complaint.close', subjectId: closed.batchId, happenedAtMs: null,
    summary: `What came of the complaint of ${closed.fromName}: ${text}`, before, after: closed,
  });
  room.changed('packs', [closed.batchId]);
  return closed;
}
