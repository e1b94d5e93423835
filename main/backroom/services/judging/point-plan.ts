/** From a point's plan to its readings as the judge wants them: taken from the book, corrected to their worse side, with what is in doubt. */
import type { MeasuredPoint, Reading } from '../../../../app/limits/judge-case.ts';
import type { SeriesReading } from '../../room.ts';
import { coverReading } from './corrections.ts';
import { doubtAt } from './doubt-evidence.ts';
import type { ReadingsAt } from './points.ts';
import type { ReadingEvidence } from './reading-evidence.ts';
import { readingsWithin, type PointPlan } from './taken-readings.ts';

/** The point with its readings. */
export function fillPoint(plan: PointPlan, readingsAt: ReadingsAt, evidence: ReadingEvidence): MeasuredPoint {
  const { taken, typed, ...point } = plan;
  const readings = taken === null ? [] : readingsWithin(taken, readingsAt).map((reading) => readingOf(reading, taken.pointId, evidence));
  return { ...point, readings: [...readings, ...typed] };
}

function readingOf(reading: SeriesReading, pointId: string, evidence: ReadingEvidence): Reading {
  const { lowTicks, highTicks } = coverReading(evidence.corrections, reading);
  const doubt = doubtAt(evidence.doubts, pointId, reading);
  return {
    atMs: reading.atMs, lowTicks, highTicks,
    ...(reading.how === 'copied-from-paper' ? { entered: 'paper' as const } : {}),
    ...(doubt === undefined ? {} : { doubt }),
  };
}
