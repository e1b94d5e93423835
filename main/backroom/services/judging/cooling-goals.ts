/** The targets of a cooling with the time by which each must be shown. */
import type { DescentStages } from '../../../../app/limits/descent-stages.ts';
import type { MeasuredPoint } from '../../../../app/limits/judge-case.ts';
import type { DescentCheck } from '../../../../app/limits/limit-set.ts';
import { limitTicks } from '../../../../app/limits/readings.ts';
import { figureText } from '../../../../app/limits/words.ts';
import { coolingOf, type RunningBatch } from './running-batch.ts';

export interface CoolingGoal {
  readonly ticks: number;
  /** “70 °F or less”. */
  readonly text: string;
  readonly isReached: boolean;
  /** The last moment by the earliest possible start; null while nothing tells when its clock began. */
  readonly byMs: number | null;
}

/** The goals of one piece, in order; without deadlines before its cooling began, none where no cooling is asked. */
export function coolingGoals(running: RunningBatch, point: MeasuredPoint): CoolingGoal[] {
  const { cooling } = running;
  if (cooling === undefined) return [];
  const piece = coolingOf(running, point);
  const stages = piece === undefined || piece.record.isHot ? undefined : piece.descents.at(-1);
  return cooling.targets.map((target, number) => ({
    ticks: limitTicks(target.limit),
    text: `${figureText(target.limit)} or less`,
    isReached: stages?.stages[number]?.isReached === true,
    byMs: stages === undefined ? null : deadlineMs(cooling, stages, number),
  }));
}

function deadlineMs(cooling: DescentCheck, stages: DescentStages, number: number): number | null {
  const stage = stages.stages[number];
  const base = cooling.clock === 'shared' || number === 0 ? stages.start : stages.stages[number - 1]?.end;
  if (stage === undefined || base === undefined) return null;
  return (base.earliestMs ?? base.latestMs) + stage.withinMs;
}
