/** A gate as it crosses the contract. */
import type { Decision, GateLine } from '../../../../app/contract/requests/verdict.ts';
import type { Blocker, GateDecision } from '../../../../app/limits/gates.ts';
import { isMet } from '../../../../app/limits/verdict.ts';
import type { Keeping } from './compose.ts';

/** Records beside the set's limits that are simply still to come until they are made. */
const STILL_TO_MAKE = ['label', 'freeze'];
const BEFORE: Readonly<Record<GateLine['gate'], string>> = { brine: 'the fish goes into the brine', smoke: 'it goes into the smoker', pack: 'it is packed', leave: 'it leaves' };

/**
 * The gate's line. Where nothing of the set is due yet, nothing keeps the batch, and the line claims no more than that.
 */
export function gateLine(gate: GateLine['gate'], decision: GateDecision): GateLine {
  if (decision.blocking.length === 0 && !isMet(decision.verdict)) {
    return { gate, state: 'may', line: `Nothing that is judged here is due before ${BEFORE[gate]}.`, blocking: [], later: [...decision.later], ways: [] };
  }
  return {
    gate,
    state: stateOf(decision),
    line: decision.line,
    blocking: decision.blocking.map(({ checkId, reason, needed }) => ({ checkId, reason, needed })),
    later: [...decision.later],
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
