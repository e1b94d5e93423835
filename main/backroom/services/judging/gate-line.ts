/** A gate as it crosses the contract. */
import type { Decision, GateLine } from '../../../../app/contract/requests/verdict.ts';
import type { Blocker, GateDecision } from '../../../../app/limits/gates.ts';
import type { LimitSet } from '../../../../app/limits/limit-set.ts';
import { isMet } from '../../../../app/limits/verdict.ts';
import type { Keeping } from './compose.ts';

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

/** The pack gate of the book: fish is packed or served from outside the smoker, whatever its readings show inside. */
export function packLine(line: GateLine, { pack }: Keeping, isOut: boolean): GateLine {
  if (isOut || !lets(line)) return line;
  const why = 'The load is not marked out of the smoker.';
  return { ...line, state: 'not-yet', line: `May not be ${pack === 'unpacked' ? 'served' : 'packed'} yet: the load is not marked out of the smoker.`, blocking: [{ checkId: 'out', reason: why, needed: 'The time it came out.' }] };
}

/** The leave gate of the book: what nobody released so packed, or what stands on HOLD or rejected, leaves by no record. */
export function leaveLine(line: GateLine, { pack, store }: Keeping, standing: Decision | undefined): GateLine {
  if (!lets(line)) return line;
  if (standing === undefined || standing.decision === 'release') {
    if (standing?.pack === pack && standing.store === store) return line;
    const so = standing === undefined ? '' : ' for this pack and store';
    return { ...line, state: 'not-yet', line: `May not leave yet: not released${so}.`, blocking: [{ checkId: 'release', reason: `It has not been released${so}.`, needed: 'A manager’s release.' }] };
  }
  const stands = standing.decision === 'hold' ? 'on HOLD' : 'rejected';
  const needed = standing.decision === 'hold' ? 'A manager’s release.' : '';
  return { ...line, state: 'blocked', line: `May not leave: ${stands}.`, blocking: [{ checkId: 'release', reason: `It is ${stands} (${standing.initials}: ${standing.reason})`, needed }] };
}

function lets({ state }: GateLine): boolean {
  return state === 'may' || state === 'initials';
}

function stateOf(decision: GateDecision): GateLine['state'] {
  if (isMet(decision.verdict)) return decision.needsInitials ? 'initials' : 'may';
  return decision.blocking.every(isStillToCome) ? 'not-yet' : 'blocked';
}

function isStillToCome({ checkId, verdict }: Blocker): boolean {
  return verdict === 'open' || STILL_TO_MAKE.includes(checkId);
}
