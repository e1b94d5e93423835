/** Corrective actions, the review of a record, weights on the way, and what must be ready before a load is lit. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { weighBatch } from './batch-weights.ts';
import { openCorrective, verifyCorrective } from './corrective-keeping.ts';
import { readyForLoad } from './ready.ts';
import { reviewRecord } from './review.ts';

export const correctiveServices = {
  'corrective.open': (room: BookRoom, input: Parsed<'corrective.open'>): Output<'corrective.open'> => ({ corrective: openCorrective(room, input) }),
  'corrective.verify': (room: BookRoom, input: Parsed<'corrective.verify'>): Output<'corrective.verify'> => ({ corrective: verifyCorrective(room, input) }),
  'corrective.list': listOfBatch,
  'record.review': (room: BookRoom, input: Parsed<'record.review'>): Output<'record.review'> => ({ review: reviewRecord(room, input) }),
  'batch.weigh': (room: BookRoom, input: Parsed<'batch.weigh'>): Output<'batch.weigh'> => ({ weights: weighBatch(room, input) }),
  'load.ready': readyForLoad,
} satisfies Services<'corrective.open' | 'corrective.verify' | 'corrective.list' | 'record.review' | 'batch.weigh' | 'load.ready'>;

/** All three in the order they were entered: the n-th corrective action of a batch keeps its number n. */
function listOfBatch({ book }: BookRoom, { batchId }: Parsed<'corrective.list'>): Output<'corrective.list'> {
  const batch = book.shelf('batches').need(batchId);
  return { correctives: book.shelf('correctives').where('batchId', batchId), reviews: book.shelf('reviews').where('batchId', batchId), weights: batch.weights };
}
