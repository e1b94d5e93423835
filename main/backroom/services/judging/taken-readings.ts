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

/** The readings that a plan takes, as they stand in the book. */
export function readingsWithin({ pointId, fromMs, toMs }: TakenReadings, readingsAt: ReadingsAt): readonly SeriesReading[] {
  const readings = readingsAt(pointId);
  return fromMs === undefined && toMs === undefined ? readings : readings.filter(({ atMs }) => (fromMs === undefined || atMs >= fromMs) && (toMs === undefined || atMs <= toMs));
}
