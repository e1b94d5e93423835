/** Where a thermometer stands: the measuring point that its readings belong to. */
import type { StoredLoad, StoredPoint } from '../book/stored.ts';
import type { OpenBook } from '../room.ts';
import { instrumentAt } from '../services/point-instrument.ts';

export interface Standing {
  readonly pointId: string;
  /** “Piece 1 of load 7”, “Walk-in cooler”. */
  readonly name: string;
}

export interface FeedPlaces {
  /** The point of a reading at an instant; null where the thermometer stood nowhere that is on record, or its load's record is closed. */
  standingOf(instrumentId: string, placeId: string | null, atMs: number): Standing | null;
  /** The book has changed: look again. */
  forget(): void;
}

interface RunningLoad {
  readonly load: StoredLoad;
  readonly points: readonly StoredPoint[];
}

export function openFeedPlaces(book: () => OpenBook | null): FeedPlaces {
  let known: readonly RunningLoad[] | null = null;

  /** The newest first: a probe that was taken out of a load that still cools may stand in the next one already. */
  function runningLoads(): readonly RunningLoad[] {
    if (known !== null) return known;
    const open = book();
    if (open === null) return [];
    const points = open.shelf('points');
    known = open.shelf('loads').all().filter((load) => load.cooledAtMs === null)
      .toSorted((one, other) => other.openedAtMs - one.openedAtMs || other.number - one.number)
      .map((load) => ({ load, points: load.pointIds.flatMap((id) => points.get(id) ?? []) }));
    return known;
  }
  return {
    standingOf(instrumentId, placeId, atMs) {
      if (placeId !== null) {
        const place = book()?.shelf('places').get(placeId);
        return place === undefined ? null : { pointId: place.id, name: place.name };
      }
      for (const { load, points } of runningLoads()) {
        if (atMs < load.openedAtMs) continue;
        const point = points.find((one) => instrumentAt(one, atMs) === instrumentId && !isLeft(load, one, atMs));
        if (point !== undefined) return { pointId: point.id, name: `${point.name} of load ${load.number}` };
      }
      return null;
    },
    forget() {
      known = null;
    },
  };
}

/** The chamber that a load has left is the next load's. */
function isLeft(load: StoredLoad, point: StoredPoint, atMs: number): boolean {
  return point.role === 'chamber' && load.outAtMs !== null && atMs > load.outAtMs;
}
