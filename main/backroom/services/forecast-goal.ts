/** What a soak is to reach, for the hours of its forecast. */
import { plainNumber } from '../../../app/brine/rounding.ts';
import type { SoakTarget } from '../../../app/brine/soak-order.ts';
import { fitOf } from '../../../app/limits/conditions.ts';
import { compareDecimals, decimalFrom } from '../../../app/limits/decimals.ts';
import { checkIdsOf, findCheck, type WaterPhaseSaltCheck } from '../../../app/limits/limit-set.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { composeCase } from './judging/compose.ts';
import { keepingOf, setOf } from './judging/judge-batch.ts';
import { limitsOf } from './own-set-book.ts';

/** Equilibrium itself is never quite reached, so this share of it is what is waited for (our choice). */
const NEAR_EQUILIBRIUM_PERCENT = 95;

export interface ForecastGoal {
  readonly target: SoakTarget;
  readonly words: string;
}

/**
 * The goal of the card where it is one of the fish; for a brine made to a strength the salt that the
 * deciding set asks of this pack; else nearly what fish and brine come to in the end.
 * @param equilibriumPercent water-phase salt that fish and brine come to if left for good
 */
export function forecastGoal(room: BookRoom, batch: StoredBatch, equilibriumPercent: number): ForecastGoal {
  const goal = batch.card.goal ?? batch.recipe.target;
  if ('finishedWaterPhasePercent' in goal) return finishedGoal(goal.finishedWaterPhasePercent, goal.yieldPercent, 'the card’s goal');
  const isFishGoal = 'fishEquilibriumWaterPhasePercent' in goal;
  const asked = isFishGoal ? undefined : saltAsked(room, batch);
  if (asked !== undefined) return finishedGoal(Number(asked.percent), batch.card.finishedEstimate.yieldPercent, `${asked.id} asks it`);
  const percent = (NEAR_EQUILIBRIUM_PERCENT / 100) * equilibriumPercent;
  return {
    target: { brinedWaterPhasePercent: percent },
    words: `${plainNumber(percent, 2)} % water-phase salt in the brined fish, ${NEAR_EQUILIBRIUM_PERCENT} % of what fish and brine come to in the end`,
  };
}

function finishedGoal(percent: number, yieldPercent: number, ground: string): ForecastGoal {
  return {
    target: { finishedWaterPhasePercent: percent, yieldPercent },
    words: `${plainNumber(percent, 3)} % water-phase salt in the finished fish at ${plainNumber(yieldPercent, 1)} % of brined weight (${ground})`,
  };
}

/** The highest minimum of water-phase salt that the deciding set has for this batch as it will be kept. */
function saltAsked(room: BookRoom, batch: StoredBatch): WaterPhaseSaltCheck | undefined {
  const { judgeCase } = composeCase(room, batch, keepingOf(room, batch));
  const judged = { ...judgeCase, errorTicks: 0 };
  return checkIdsOf(setOf(room, batch.setId))
    .map((id) => findCheck(limitsOf(room), id))
    .filter((check): check is WaterPhaseSaltCheck => check?.kind === 'water-phase-salt' && check.relaxes !== true && fitOf(check.conditions, judged).fit !== 'contradicted')
    .toSorted((one, other) => compareDecimals(decimalFrom(other.percent), decimalFrom(one.percent)))
    .at(0);
}
