/** Where a tub may stand, and which place is proposed. Pure. */
import type { Output } from '../../../app/contract/contract.ts';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';

export type PlaceNow = Output<'office.get'>['places'][number];

/** Brining rooms first, then coolers; nothing soaks in a freezer. */
export function brinePlaces(places: readonly PlaceNow[]): PlaceNow[] {
  return (['brining-room', 'cooler'] as const).flatMap((kind) => places.filter((place) => place.kind === kind));
}

/**
 * The place that is proposed for a tub: where the last one stood, else the only one there is. Null where
 * that is not known: a wrong place would bring a wrong room's record.
 */
export function proposedPlace(places: readonly PlaceNow[], batches: readonly Pick<Batch, 'brinePlaceId' | 'madeAtMs'>[]): string | null {
  const here = brinePlaces(places);
  const last = batches.filter((batch) => here.some((place) => place.id === batch.brinePlaceId)).toSorted((a, b) => b.madeAtMs - a.madeAtMs)[0];
  return last?.brinePlaceId ?? (here.length === 1 ? (here[0]?.id ?? null) : null);
}
