/** Yields of a batch from its weights. Pure; display only. */
import type { BatchWeight } from '../../app/contract/requests/corrective.ts';

interface Yields {
  /** Drained weight after the brine in per cent of the fillets; null where it was not weighed. */
  readonly brinedPercent: number | null;
  /** Finished weight in per cent of the brined weight, or where that is missing of the fillets. */
  readonly finishedPercent: number | null;
  readonly isOfBrined: boolean;
}

/** The last weight of each kind counts. */
export function yieldsOf(filletGrams: number, weights: readonly BatchWeight[]): Yields {
  const brined = weights.findLast((weight) => weight.what === 'brined')?.mass.grams;
  const finished = weights.findLast((weight) => weight.what === 'finished')?.mass.grams;
  return {
    brinedPercent: brined === undefined ? null : (100 * brined) / filletGrams,
    finishedPercent: finished === undefined ? null : (100 * finished) / (brined ?? filletGrams),
    isOfBrined: brined !== undefined,
  };
}
