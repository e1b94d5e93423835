/** Work that a changed record leaves behind, as it stands on the list. */
import type { WorkItem } from '../../../app/contract/requests/evidence.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { nameOf } from './release.ts';

/** What is open of a batch's work. */
export function openItemsOf(room: BookRoom, batchId: string): WorkItem[] {
  return room.book.shelf('workItems').where('batchId', batchId).filter(({ done }) => done === null);
}

/**
 * Puts work on the list, once of each kind, and a call for each who is to be called: what is open already is told what is new.
 * @param said the line of the record
 */
export function openWork(room: BookRoom, batch: StoredBatch, work: readonly Pick<WorkItem, 'what' | 'text'>[], said: string): void {
  const open = openItemsOf(room, batch.id);
  const sinceMs = room.clock.nowMs();
  const items = work.flatMap(({ what, text }): WorkItem[] => {
    const alike = open.filter((item) => item.what === what);
    const same = alike.find((item) => item.text.includes(text)) ?? (what === 'call' ? undefined : alike[0]);
    if (same === undefined) return [{ id: room.newId(), batchId: batch.id, batchName: nameOf(batch), what, text, sinceMs, done: null }];
    return same.text.includes(text) ? [] : [{ ...same, text: `${same.text} ${text}` }];
  });
  if (items.length === 0) return;
  for (const each of items) room.book.shelf('workItems').put(each);
  room.book.record({ kind: 'worklist.open', subjectId: batch.id, happenedAtMs: null, summary: said, before: open.filter(({ id }) => items.some((item) => item.id === id)), after: items });
  room.changed('verdict', [batch.id]);
  room.changed('batch', [batch.id]);
}
