/** What is to be done again, because the evidence of a released batch changed. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { WorkItem } from '../../../app/contract/requests/evidence.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { sayInstant } from './when.ts';

export const worklistServices = {
  'worklist.get': (room: BookRoom): Output<'worklist.get'> => ({ items: itemsInOrder(room) }),
  'worklist.done': (room: BookRoom, input: Parsed<'worklist.done'>): Output<'worklist.done'> => {
    markDone(room, input);
    return { items: itemsInOrder(room) };
  },
} satisfies Services<'worklist.get' | 'worklist.done'>;

/** What is open first, the oldest on top; then what was done, the latest on top. */
function itemsInOrder(room: BookRoom): WorkItem[] {
  const items = room.book.shelf('workItems').all();
  const open = items.filter(({ done }) => done === null);
  return [...open, ...items.filter(({ done }) => done !== null).toSorted((left, right) => (right.done?.atMs ?? 0) - (left.done?.atMs ?? 0))];
}

/** @throws Refusal CONFLICT: done before; RULE_BLOCKS: a decision is made at the packing table, not ticked off */
function markDone(room: BookRoom, { itemId, how }: Parsed<'worklist.done'>): void {
  const item = room.book.shelf('workItems').need(itemId);
  if (item.done !== null) throw new Refusal('CONFLICT', `${item.done.initials} did that at ${sayInstant(room, item.done.atMs)}.`, { remedy: 'Look at the list again.' });
  if (item.what === 'decide-again') {
    throw new Refusal('RULE_BLOCKS', `What becomes of ${item.batchName} is decided at the packing table.`, { remedy: 'A manager releases, holds or rejects it there; then this is done.' });
  }
  closeItem(room, item, how);
}

/** Marks one piece of work as done by the person who acts. */
export function closeItem(room: BookRoom, item: WorkItem, how: string): void {
  const { initials } = actingPerson(room);
  const done: WorkItem = { ...item, done: { initials, atMs: room.clock.nowMs(), how } };
  room.book.shelf('workItems').put(done);
  room.book.record({ kind: 'worklist.done', subjectId: item.batchId, happenedAtMs: null, summary: `${initials} did for ${item.batchName}: ${item.text} ${how}`, before: item, after: done });
  room.changed('verdict', [item.batchId]);
}
