/** The gate that a load stands before. Pure. */
import type { GateLine } from '../../../app/contract/requests/verdict.ts';

/**
 * Before the fish is in, the smoke gate; from then on the pack gate. A gate passed too early stays in sight
 * until it lets the batch through: what was due at it is still missing.
 */
export function dueGates(gates: readonly GateLine[], isIn: boolean): GateLine[] {
  const now = isIn || !gates.some((gate) => isGate(gate, 'smoke')) ? 'pack' : 'smoke';
  const at = gates.findIndex((gate) => isGate(gate, now));
  return gates.filter((gate, index) => index === at || (index < at && gate.state !== 'may'));
}

function isGate(gate: { readonly gate: string }, name: string): boolean {
  return gate.gate === name;
}
