/** A corrective action: opened by who is on duty, verified once by a manager. What the verdict was stays as it was. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Corrective } from '../../../app/contract/requests/corrective.ts';
import type { CheckResultWire } from '../../../app/contract/requests/verdict.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { gateLines, judgeBatch } from './judging/judge-batch.ts';
import { nameOf } from './release.ts';
import { sayInstant } from './when.ts';
import { loadOfBatch } from './taken-out.ts';

type Opening = Parsed<'corrective.open'>;

export const DISPOSITION_WORDS: Readonly<Record<Corrective['disposition'], string>> = {
  'go-on-cooking': 'go on with the same cook',
  rework: 'rework by the process authority',
  'release-as-evaluated': 'release as evaluated',
  destroy: 'destroy it',
  'return-raw': 'give it back raw',
};
/** Misses of these are never evaluated away: only another record leads on from them. */
const HARD: readonly CheckResultWire['question'][] = ['chamber', 'cooling', 'exposure', 'parasite', 'store'];

/**
 * Opens a corrective action on one limit of the batch's deciding set; an empty `checkId` is about something no limit covers.
 * It changes no verdict and releases nothing: the batch is judged on its record again.
 * @throws Refusal INVALID_INPUT: no such limit, one that is met or doesn't apply; RULE_BLOCKS: a way that isn't open to this batch
 */
export function openCorrective(room: BookRoom, input: Opening): Corrective {
  const batch = room.book.shelf('batches').need(input.batchId);
  const check = checkOf(room, batch, input.checkId);
  refuseClosedWay(room, batch, input, check);
  const corrective: Corrective = { id: room.newId(), ...input, openedBy: actingPerson(room).initials, openedAtMs: room.clock.nowMs(), verified: null };
  room.book.shelf('correctives').put(corrective);
  const number = room.book.shelf('correctives').where('batchId', batch.id).length;
  room.book.record({
    kind: 'corrective.open', subjectId: batch.id, happenedAtMs: corrective.openedAtMs,
    summary: `Corrective action ${number} of ${nameOf(batch)}${check === undefined ? '' : ` (${check.title})`}: ${input.quantity}; ${DISPOSITION_WORDS[input.disposition]}; evaluated by ${input.evaluatedBy}.`,
    why: input.cause, after: corrective,
  });
  room.changed('verdict', [batch.id]);
  return corrective;
}

/**
 * A manager's verification that the fix holds.
 * @throws Refusal CONFLICT when it is verified already
 */
export function verifyCorrective(room: BookRoom, input: Parsed<'corrective.verify'>): Corrective {
  const correctives = room.book.shelf('correctives');
  const before = correctives.need(input.correctiveId);
  if (before.verified !== null) {
    throw new Refusal('CONFLICT', `${before.verified.initials} verified this at ${sayInstant(room, before.verified.atMs)}.`, { remedy: 'If the same thing happens again, open a new corrective action.' });
  }
  const verified: Corrective = { ...before, verified: { initials: actingPerson(room).initials, atMs: room.clock.nowMs(), how: input.how } };
  correctives.put(verified);
  const batch = room.book.shelf('batches').need(before.batchId);
  const number = correctives.where('batchId', batch.id).findIndex((one) => one.id === before.id) + 1;
  room.book.record({
    kind: 'corrective.verify', subjectId: batch.id, happenedAtMs: null,
    summary: `Verified corrective action ${number} of ${nameOf(batch)}: ${input.how}`, before, after: verified,
  });
  room.changed('verdict', [batch.id]);
  return verified;
}

function checkOf(room: BookRoom, batch: StoredBatch, checkId: string): CheckResultWire | undefined {
  if (checkId === '') return undefined;
  const { deciding, gates } = judgeBatch(room, batch);
  const check = deciding.checks.find((one) => one.checkId === checkId);
  if (check === undefined) {
    // A gate also asks for records beside the set's limits, such as the label.
    if (gateLines(gates).some((gate) => gate.blocking.some((one) => one.checkId === checkId))) return undefined;
    return refuseInput(`${checkId} is no limit that ${nameOf(batch)} is judged by.`, ['checkId'], 'Choose one of the limits of its verdict.');
  }
  if (check.verdict === 'meets' || check.verdict === 'does-not-apply') {
    refuseInput(`${check.title}: ${check.verdict === 'meets' ? 'the record meets it' : 'it does not apply'}, so there is nothing to correct.`, ['checkId'], 'Choose the limit that was missed.');
  }
  return check;
}

/** What is asked of the fish must still be possible for it; the process of a batch is never another one afterwards. */
function refuseClosedWay(room: BookRoom, batch: StoredBatch, { disposition, evaluation }: Opening, check: CheckResultWire | undefined): void {
  const load = loadOfBatch(room, batch);
  const refuse = (message: string, remedy: string): never => refuseInput(message, ['disposition'], remedy, 'RULE_BLOCKS');
  switch (disposition) {
    case 'go-on-cooking':
      if (batch.process === 'cold') refuse(`${nameOf(batch)} was made to be cold-smoked; cooking it would be another process.`, 'A process is not renamed after its start: rework it by the process authority, or destroy it.');
      if (load?.inAtMs === null || load === undefined) refuse(`${nameOf(batch)} is not in the smoker.`, 'Choose what becomes of it now.');
      else if (load.outAtMs !== null) refuse(`${nameOf(batch)} came out of the smoker at ${sayInstant(room, load.outAtMs)}, so that cook has ended.`, 'Heating it again is a rework: ask the process authority.');
      return;
    case 'return-raw':
      if (load !== undefined && load.inAtMs !== null) refuse(`${nameOf(batch)} went into the smoker and is not raw.`, 'Choose what becomes of it now.');
      return;
    case 'release-as-evaluated':
      if (check?.verdict === 'misses' && HARD.includes(check.question)) refuse(`${check.title}: the record does not meet it, and no evaluation makes it meet.`, 'Go on with the same cook, rework it by the process authority, or destroy it.');
      if (evaluation.trim() === '') refuseInput('The evaluation is empty.', ['evaluation'], 'Write what was looked at and what it showed.');
      return;
    case 'rework':
    case 'destroy':
      return;
  }
}
