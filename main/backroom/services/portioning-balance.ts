/** How the weights of a batch add up, from the book. */
import type { WeightBalance } from '../../../app/contract/requests/cold-store.ts';
import type { Portioning } from '../../../app/contract/requests/packs-where.ts';
import { balanceOf, USUAL_TOLERANCE_PERCENT } from '../../../app/packs/portion-balance.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { weightOf } from './batch-weights.ts';
import { kitchenOf } from './kitchen.ts';
import { packsOf } from './packs-of-batch.ts';

/** Weights in pounds add up to the whole only but for this. */
export const FLOAT_GRAMS = 1e-6;

export function portioningsOf(room: BookRoom, batchId: string): Portioning[] {
  return room.book.shelf('portionings').where('batchId', batchId);
}

/** @param adding a portioning that is about to be closed */
export function balanceOfBatch(room: BookRoom, batch: StoredBatch, adding?: Pick<Portioning, 'trimGrams' | 'remainderGrams'>): WeightBalance {
  const packs = packsOf(room, batch.id);
  const finished = weightOf(batch, 'finished')?.mass.grams;
  const closed = [...portioningsOf(room, batch.id), ...(adding === undefined ? [] : [adding])].map(({ trimGrams, remainderGrams }) => ({ trimGrams, remainderGrams }));
  const balance = balanceOf({ filletsGrams: batch.fillets.grams, finishedGrams: finished, packGrams: packs.map(({ net }) => net.grams), closed });
  return {
    filletsGrams: batch.fillets.grams, finishedGrams: finished ?? null, packs: packs.length, packedGrams: balance.packedGrams, trimGrams: balance.trimGrams, remainderGrams: balance.remainderGrams,
    leftGrams: balance.leftGrams ?? null, yieldOfFilletsPercent: balance.yieldOfFilletsPercent, yieldOfFinishedPercent: balance.yieldOfFinishedPercent ?? null,
    unaccountedGrams: balance.unaccountedGrams ?? null, unaccountedPercent: balance.unaccountedPercent ?? null, tolerancePercent: kitchenOf(room.book).weightTolerancePercent ?? USUAL_TOLERANCE_PERCENT,
  };
}
