/** When a batch lay in its freezer, by its marks and by what else is known of where it was. */
import type { RecordSpan } from '../../../../app/limits/judge-case.ts';
import type { StoredBatch, StoredLoad } from '../../book/stored.ts';

/**
 * The stay in the freezer. Fish frozen raw left it for its brine or the smoker at the latest, marked or not: the
 * freezer's record from then on is not the fish's. A stay marked from within the smoke begins when the load is out.
 */
export function freezerStay(batch: StoredBatch, load: StoredLoad | undefined): RecordSpan {
  const markedMs = batch.intoFreezerAtMs ?? undefined;
  const inMs = markedMs === undefined ? undefined : afterSmoke(markedMs, load);
  if (inMs === undefined) return { open: true };
  const soakMs = batch.soak.find((event) => event.what === 'start')?.atMs;
  const ends = [batch.outOfFreezerAtMs ?? undefined, ...[soakMs, load?.inAtMs ?? undefined].filter((atMs) => atMs !== undefined && atMs >= inMs)]
    .filter((atMs) => atMs !== undefined);
  const outMs = ends.length === 0 ? undefined : Math.max(inMs, Math.min(...ends));
  return { inMs, outMs, open: outMs === undefined };
}

/** Whether a stay is that of the packs: still going on, or ended after they were sealed. */
export function isStayOfPacks(stay: RecordSpan, batch: StoredBatch): boolean {
  if (stay.inMs === undefined) return false;
  return stay.outMs === undefined || (batch.sealedAtMs !== null && stay.outMs > batch.sealedAtMs);
}

/** When it was frozen solid, if it was while it lay there. */
export function frozenWithin(stay: RecordSpan, batch: StoredBatch): number | undefined {
  const { frozenAtMs } = batch;
  if (frozenAtMs === null || stay.inMs === undefined || (stay.outMs !== undefined && frozenAtMs > stay.outMs)) return undefined;
  return frozenAtMs;
}

function afterSmoke(markedMs: number, load: StoredLoad | undefined): number | undefined {
  const inAtMs = load?.inAtMs ?? undefined;
  if (inAtMs === undefined || markedMs < inAtMs) return markedMs;
  const outAtMs = load?.outAtMs ?? undefined;
  return outAtMs === undefined ? undefined : Math.max(markedMs, outAtMs);
}
