/** What a load needs next, for the one dark button. Pure. */
import type { Load } from '../../../app/contract/requests/smokehouse.ts';
import type { CheckResultWire } from '../../../app/contract/requests/verdict.ts';
import { batchOutMs } from './taken-out.ts';

export type Mark = 'in' | 'out' | 'cooled';

/** As much of a load's answer as decides its next step. */
interface StepOf {
  readonly load: Pick<Load, 'process' | 'inAtMs' | 'outAtMs' | 'cooledAtMs' | 'takenOut'>;
  readonly results: readonly { readonly batchId?: string; readonly result: { readonly checks: readonly Pick<CheckResultWire, 'question' | 'verdict'>[] } }[];
}

/**
 * Before the fish is in: say so. In a hot smoke: read on until every limit of the chamber is met for
 * every batch that is still in, and only then take it out; a cold smoke has no such moment. Cooling: read on until no
 * limit of it is still open, then close the record. Nothing known is never a reason to go on,
 * and within the thermometer's error is a reason to cook a little longer.
 */
export function nextStep(shown: StepOf): Mark | 'read' | 'done' {
  const { load, results } = shown;
  if (load.cooledAtMs !== null) return 'done';
  if (load.inAtMs === null) return 'in';
  if (load.outAtMs === null) return load.process === 'hot' && isChamberMet(results.filter(({ batchId }) => batchId === undefined || batchOutMs(load, batchId) === null)) ? 'out' : 'read';
  // Cold-smoked fish is packed cold: it has no cooling to record.
  if (load.process === 'cold') return 'done';
  const cooling = results.flatMap((each) => each.result.checks).filter((check) => check.question === 'cooling');
  return cooling.some((check) => check.verdict === 'open') ? 'read' : 'cooled';
}

function isChamberMet(results: StepOf['results']): boolean {
  return results.length > 0 && results.every(({ result }) => {
    const chamber = result.checks.filter((check) => check.question === 'chamber' && check.verdict !== 'does-not-apply');
    return chamber.length > 0 && chamber.every((check) => check.verdict === 'meets');
  });
}
