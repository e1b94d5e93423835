/** What is known of readings beside their numbers: what their thermometers' checks found, and what is in doubt about them. */
import type { BookRoom } from '../../room.ts';
import { correctionsOf, type Corrections } from './corrections.ts';
import { type UndecidedDoubt, undecidedDoubts } from './doubt-evidence.ts';
import { instrumentsIn, type PointPlan, readingsWithin } from './taken-readings.ts';
import type { ReadingsAt } from './points.ts';

/** Plain data, so that a judgement can keep it and be judged again. */
export interface ReadingEvidence {
  readonly corrections: Corrections;
  readonly doubts: readonly UndecidedDoubt[];
}

/** The evidence about the readings that some points take. */
export function evidenceOf(room: BookRoom, plans: readonly PointPlan[], readingsAt: ReadingsAt): ReadingEvidence {
  const instrumentIds = new Set(plans.flatMap(({ taken }) => (taken === null ? [] : [...instrumentsIn(readingsWithin(taken, readingsAt))].flatMap((instrumentId) => instrumentId ?? []))));
  return { corrections: correctionsOf(room, [...instrumentIds]), doubts: undecidedDoubts(room, plans, readingsAt) };
}
