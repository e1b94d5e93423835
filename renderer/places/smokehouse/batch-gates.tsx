import type { ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useAsk } from '../../bridge/use-ask.ts';
import { GateLines } from '../../parts/gate-lines.tsx';
import { dueGates } from './due-gates.ts';

/** One line for a batch of the load: the gate that is due now, and what comes later. */
export function BatchGates({ batch, isIn }: { readonly batch: Batch; readonly isIn: boolean }): ReactNode {
  const verdict = useAsk('batch.verdict', { batchId: batch.id });
  return verdict.data === undefined ? null : <GateLines gates={dueGates(verdict.data.gates, isIn)} />;
}
