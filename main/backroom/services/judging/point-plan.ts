/** From a point's plan to its readings as the judge wants them: taken from the book, corrected to their worse side, with what is in doubt. */
import type { MeasuredPoint, Reading } from '../../../../app/limits/judge-case.ts';
import type { SeriesReading } from '../../room.ts';
import { coverReading } from './corrections.ts';
import { doubtAt } from './doubt-evidence.ts';
import type { ReadingsAt } from './points.ts';
import type { ReadingEvidence } from './reading-evidence.ts';
import { instrumentsIn, readingsWithin, type PointPlan } from './taken-readings.ts';

/** Readings as they were made last, with what was known of them then. */
interface Made {
  readonly knowing: string;
  readonly readings: readonly Reading[];
}
/** A page asks for the same record again and again; the same row of the book with the same knowledge gives the same row. */
const made = new WeakMap<readonly SeriesReading[], Made>();

/** The point with its readings. */
export function fillPoint(plan: PointPlan, readingsAt: ReadingsAt, evidence: ReadingEvidence): MeasuredPoint {
  const { taken, typed, ...point } = plan;
  if (taken === null) return { ...point, readings: typed };
  const rows = readingsWithin(taken, readingsAt);
  const doubts = evidence.doubts.filter(({ pointId }) => pointId === taken.pointId);
  const knowing = JSON.stringify([taken.pointId, typed, doubts, [...instrumentsIn(rows)].map((id) => (id === null ? null : (evidence.corrections[id] ?? null)))]);
  const before = made.get(rows);
  if (before?.knowing === knowing) return { ...point, readings: before.readings };
  const readings = [...rows.map((reading) => readingOf(reading, taken.pointId, { ...evidence, doubts })), ...typed];
  made.set(rows, { knowing, readings });
  return { ...point, readings };
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
