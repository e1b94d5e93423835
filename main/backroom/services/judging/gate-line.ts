/** A gate as it crosses the contract. */
import type { GateLine } from '../../../../app/contract/requests/verdict.ts';
import type { Blocker, GateDecision } from '../../../../app/limits/gates.ts';
import type { LimitSet } from '../../../../app/limits/limit-set.ts';
import { isMet } from '../../../../app/limits/verdict.ts';

/** Records beside the set's limits that are simply still to come until they are made. */
const STILL_TO_MAKE = ['label', 'freeze'];

/**
 * The gate's line. Where the set wants its record reviewed by a trained person, that is named as still to come:
 * it is not judged yet and keeps nothing back.
 */
export function gateLine(gate: GateLine['gate'], decision: GateDecision, set: LimitSet): GateLine {
  const wantsReview = set.answers.some((answer) => answer.question === 'record');
  return {
    gate,
    state: stateOf(decision),
    line: decision.line,
    blocking: decision.blocking.map(({ checkId, reason, needed }) => ({ checkId, reason, needed })),
    later: [...decision.later, ...(wantsReview ? ['review of the record (not judged here yet)'] : [])],
    ways: [...decision.ways],
  };
}

function stateOf(decision: GateDecision): GateLine['state'] {
  if (isMet(decision.verdict)) return decision.needsInitials ? 'initials' : 'may';
  return decision.blocking.every(isStillToCome) ? 'not-yet' : 'blocked';
}

function isStillToCome({ checkId, verdict }: Blocker): boolean {
  return verdict === 'open' || STILL_TO_MAKE.includes(checkId);
}
