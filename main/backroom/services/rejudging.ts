/**
 * Released batches judged again when a later record changes their evidence. Where the release no longer stands on
 * the record, what was done on its strength becomes a list of work: decide again, the printed labels, the packs.
 */
import type { WorkItem } from '../../../app/contract/requests/evidence.ts';
import type { Decision } from '../../../app/contract/requests/verdict.ts';
import { listText } from '../../../app/limits/words.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { judgeBatch } from './judging/judge-batch.ts';
import { packsOf } from './packs-of-batch.ts';
import { decisionsOf, nameOf, standingDecision } from './release.ts';

/**
 * Judges released batches again, as they were released.
 * @param why what changed, in a few words: “the check of Probe 2 on 26 Nov”
 * @returns the names of the batches whose release no longer stands on the record
 */
export function rejudge(room: BookRoom, batches: Iterable<StoredBatch>, why: string): string[] {
  const affected: string[] = [];
  for (const batch of new Set(batches)) {
    const release = standingDecision(room, batch.id);
    if (release?.decision !== 'release') continue;
    const reason = reasonAgainst(room, batch, release);
    if (reason === undefined) continue;
    affected.push(nameOf(batch));
    if (openItemsOf(room, batch.id).some(({ what }) => what === 'decide-again')) continue;
    keepItems(room, batch, `${capital(why)}: ${reason}`);
  }
  return affected;
}

/** Every release that stands on a batch of these loads. */
export function releasedOf(room: BookRoom, batchIds: readonly string[]): StoredBatch[] {
  return [...new Set(batchIds)].map((id) => room.book.shelf('batches').need(id)).filter((batch) => standingDecision(room, batch.id)?.decision === 'release');
}

/** What is open of a batch's work. */
export function openItemsOf(room: BookRoom, batchId: string): WorkItem[] {
  return room.book.shelf('workItems').where('batchId', batchId).filter(({ done }) => done === null);
}

/** Why a release no longer stands; undefined where it does. */
function reasonAgainst(room: BookRoom, batch: StoredBatch, { pack, store, initialsForError }: Decision): string | undefined {
  const { gates, deciding } = judgeBatch(room, batch, { pack, store });
  if (gates.pack.state === 'may' || (gates.pack.state === 'initials' && (initialsForError || wasWithinError(room, batch)))) {
    // A choice between limits is missed only where each of them is, and then the whole is.
    if (deciding.verdict !== 'misses') return undefined;
    return deciding.checks.filter(({ verdict }) => verdict === 'misses').map(({ checkId, reason }) => `${checkId}: ${reason}`).join(' ');
  }
  return [gates.pack.line, ...gates.pack.blocking.map(({ checkId, reason }) => `${checkId}: ${reason}`)].join(' ');
}

/** Releases of older books did not say what their initials were for. */
function wasWithinError(room: BookRoom, batch: StoredBatch): boolean {
  return decisionsOf(room, batch.id).at(-1)?.verdictWords.includes('within the thermometer’s error') === true;
}

function keepItems(room: BookRoom, batch: StoredBatch, text: string): void {
  const sinceMs = room.clock.nowMs();
  const item = (what: WorkItem['what'], said: string): WorkItem => ({ id: room.newId(), batchId: batch.id, batchName: nameOf(batch), what, text: said, sinceMs, done: null });
  const packs = packsOf(room, batch.id);
  const labelled = packs.filter(({ printedCount }) => printedCount > 0);
  const items = [
    item('decide-again', `${text} Decide again about ${nameOf(batch)}.`),
    ...(labelled.length === 0 ? [] : [item('labels', `Take the labels off, or mark the packs HOLD: ${listText(labelled.map(({ code }) => code))}.`)]),
    ...(packs.length === 0 ? [] : [item('packs', `Find these packs and keep them apart at 38 °F or below, marked HOLD, frozen ones frozen: ${listText(packs.map(({ code }) => code))}.`)]),
  ];
  for (const each of items) room.book.shelf('workItems').put(each);
  room.book.record({
    kind: 'worklist.open', subjectId: batch.id, happenedAtMs: null,
    summary: `The release of ${nameOf(batch)} no longer stands on its record: ${text}`, after: items,
  });
  room.changed('verdict', [batch.id]);
  room.changed('batch', [batch.id]);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
