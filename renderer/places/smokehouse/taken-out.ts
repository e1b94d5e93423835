/** What of a load came out before the rest. Pure. */
import type { Load } from '../../../app/contract/requests/smokehouse.ts';

type Out = Pick<Load, 'outAtMs' | 'takenOut'>;

/** When a batch came out: its own mark, else the load's; null while it is in. */
export function batchOutMs({ outAtMs, takenOut = [] }: Out, batchId: string): number | null {
  return takenOut.find((one) => one.batchId === batchId && one.pointId === null)?.atMs ?? outAtMs;
}

/** One thing that can be taken out by itself, or was. */
export interface OutChoice {
  /** The piece, or the batch for all of it. */
  readonly id: string;
  readonly batchId: string;
  readonly pointId: string | null;
  readonly name: string;
  /** Null while it has no mark of its own. */
  readonly atMs: number | null;
}

/**
 * The batches of a load, and where there are several pieces of one, those: what may leave before the rest, and what did.
 * @param all names all of a batch
 */
export function outChoices({ load, batches }: { readonly load: Pick<Load, 'points' | 'takenOut'>; readonly batches: readonly { readonly id: string; readonly shortName: string }[] }, all: (shortName: string) => string): OutChoice[] {
  const markOf = (batchId: string, pointId: string | null): number | null => (load.takenOut ?? []).find((one) => one.batchId === batchId && one.pointId === pointId)?.atMs ?? null;
  return batches.flatMap(({ id, shortName }) => {
    const pieces = load.points.filter((point) => point.batchId === id);
    const whole = batches.length === 1 ? [] : [{ id, batchId: id, pointId: null, name: all(shortName), atMs: markOf(id, null) }];
    const single = pieces.length === 1 ? [] : pieces.map((point) => ({ id: point.id, batchId: id, pointId: point.id, name: batches.length === 1 ? point.name : `${shortName}, ${point.name}`, atMs: markOf(id, point.id) }));
    return [...whole, ...single];
  });
}
