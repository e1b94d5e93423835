/** What is ready and what is missing before a load is lit. It informs; only the smoke gate keeps fish out. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { BookRoom } from '../room.ts';
import { placeItem, probesItem, thickestItem, weightItem } from './ready-load.ts';
import { checksItem, limitItems } from './ready-record.ts';
import { timeItem } from './ready-time.ts';
import type { LoadPlan } from './ready-plan.ts';

/** One line for each thing, in the order a cook goes through them. */
export function readyForLoad(room: BookRoom, input: Parsed<'load.ready'>): Output<'load.ready'> {
  const plan: LoadPlan = {
    smoker: room.book.shelf('smokers').need(input.smokerId),
    batches: input.batchIds.map((batchId) => room.book.shelf('batches').need(batchId)),
    pieces: input.pieces,
  };
  const { item, latestOutMs } = timeItem(room, plan);
  return {
    items: [probesItem(room, plan), checksItem(room, plan), thickestItem(plan), placeItem(plan), weightItem(room, plan), item, ...limitItems(room, plan)],
    latestOutMs,
  };
}
