/** What the set that decides a batch asks of its brine, told at the soak itself. */
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { checkIdsOf, findCheck, findSet } from '../../../app/limits/limit-set.ts';
import type { StoredBatch } from '../book/stored.ts';
import { limitsOf, type LimitRoom } from './own-set-book.ts';

/** The checks of the question `brine` that fit how the fish is cured, each in its own words with its figures. */
export function soakLimitsOf(room: LimitRoom, batch: Pick<StoredBatch, 'setId' | 'card'>): NonNullable<Batch['soakLimits']> {
  const limits = limitsOf(room);
  const set = findSet(limits, batch.setId);
  if (set === undefined) return [];
  return checkIdsOf(set).flatMap((checkId) => {
    const check = findCheck(limits, checkId);
    const fits = check?.question === 'brine' && (check.conditions?.cure ?? batch.card.cure) === batch.card.cure;
    return fits ? [{ checkId, text: check.title }] : [];
  });
}
