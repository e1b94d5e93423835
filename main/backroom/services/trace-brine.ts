/** Brine that was used again carries what was in it from one batch into the next. */
import type { StoredBatch } from '../book/stored.ts';
import { soakMarkMs } from './soak-bath.ts';
import { isSameTub } from './soak-tub.ts';

export interface BrineUses {
  /** The batch that lay in the same brine before; undefined for new brine, and where the book can't tell. */
  before(batchId: string): StoredBatch | undefined;
  /** Those that its brine was used for next. */
  after(batchId: string): readonly StoredBatch[];
  /** Batches whose brine was used before, nothing says for which: no tub was named, or nothing lay in it. */
  readonly unknown: readonly StoredBatch[];
}

/** The brine of a batch that is said to be used before is that of whatever went into its tub last before it. */
export function brineUses(batches: readonly StoredBatch[]): BrineUses {
  const before = new Map<string, StoredBatch>();
  const after = new Map<string, StoredBatch[]>();
  const unknown: StoredBatch[] = [];
  for (const batch of batches) {
    if (batch.brineReused !== true) continue;
    const found = lastInTub(batches, batch);
    if (found === undefined) {
      unknown.push(batch);
      continue;
    }
    before.set(batch.id, found);
    after.set(found.id, [...(after.get(found.id) ?? []), batch]);
  }
  return { before: (id) => before.get(id), after: (id) => after.get(id) ?? [], unknown };
}

function lastInTub(batches: readonly StoredBatch[], batch: StoredBatch): StoredBatch | undefined {
  const startMs = soakMarkMs(batch, 'start');
  if (batch.tub === '' || startMs === undefined) return undefined;
  return batches.reduce<StoredBatch | undefined>((last, other) => {
    const otherMs = soakMarkMs(other, 'start');
    if (other.id === batch.id || otherMs === undefined || otherMs >= startMs || other.tub === '' || !isSameTub(other, batch)) return last;
    return last === undefined || otherMs > (soakMarkMs(last, 'start') ?? 0) ? other : last;
  }, undefined);
}
