/** Lots of one batch that a correction told apart. */
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { nameOf } from './release.ts';
import { lotsForOneTub } from './tub-lots.ts';

/**
 * In what the lots of a batch differ that would have kept them from one tub, in a sentence; undefined where in nothing.
 * Lots are corrected one by one, so the lots of a batch may differ for a while; some really are two kinds of fish.
 */
export function differenceOfLots(room: BookRoom, batch: StoredBatch): string | undefined {
  try {
    lotsForOneTub(room, batch.lotIds);
    return undefined;
  } catch (thrown) {
    if (thrown instanceof Refusal) return thrown.message;
    throw thrown;
  }
}

/** @throws Refusal RULE_BLOCKS: mixed fish is judged by the rules of neither, and goes back to no one guest */
export function refuseMixedLots(room: BookRoom, batch: StoredBatch): void {
  const difference = differenceOfLots(room, batch);
  if (difference === undefined) return;
  throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} can’t be released: ${difference}`, {
    remedy: 'If the other lot was entered wrong too, correct it. Else hold the batch, and ask the process authority what becomes of mixed fish.',
  });
}
