/** Which readings of the book a measured point takes. */
import type { MeasuredPoint, Reading } from '../../../../app/limits/judge-case.ts';
import type { SeriesReading } from '../../room.ts';
import type { ReadingsAt } from './points.ts';

/** Readings of one point of the book, from one instant to another, both included; open where none is given. */
export interface TakenReadings {
  readonly pointId: string;
  readonly fromMs?: number;
  readonly toMs?: number;
}

/** A measured point before its readings are taken: plain data, so that a judgement can keep it and be judged again. */
export interface PointPlan extends Omit<MeasuredPoint, 'readings'> {
  readonly taken: TakenReadings | null;
  /** Typed with a step of the batch, and kept with it. */
  readonly typed: readonly Reading[];
}

/** Batches that share a record ask for a stretch of it each. */
const MOST_STRETCHES = 24;

/** What was worked out of a row of readings before: rows are never changed, and the book gives the same one again. */
interface Known {
  readonly stretches: Map<string, readonly SeriesReading[]>;
  instrumentIds?: ReadonlySet<string | null>;
}
const known = new WeakMap<readonly SeriesReading[], Known>();

function knownOf(readings: readonly SeriesReading[]): Known {
  const found = known.get(readings) ?? { stretches: new Map<string, readonly SeriesReading[]>() };
  known.set(readings, found);
  return found;
}

/** The readings that a plan takes, as they stand in the book. */
export function readingsWithin({ pointId, fromMs, toMs }: TakenReadings, readingsAt: ReadingsAt): readonly SeriesReading[] {
  const readings = readingsAt(pointId);
  if (fromMs === undefined && toMs === undefined) return readings;
  const { stretches } = knownOf(readings);
  const key = `${fromMs ?? ''} ${toMs ?? ''}`;
  const stretch = stretches.get(key) ?? readings.filter(({ atMs }) => (fromMs === undefined || atMs >= fromMs) && (toMs === undefined || atMs <= toMs));
  stretches.set(key, stretch);
  const [oldest] = stretches.keys();
  if (stretches.size > MOST_STRETCHES && oldest !== undefined) stretches.delete(oldest);
  return stretch;
}

/** The thermometers that readings were taken by; null among them where one wasn't named. */
export function instrumentsIn(readings: readonly SeriesReading[]): ReadonlySet<string | null> {
  const found = knownOf(readings);
  found.instrumentIds ??= new Set(readings.map(({ instrumentId }) => instrumentId));
  return found.instrumentIds;
}
