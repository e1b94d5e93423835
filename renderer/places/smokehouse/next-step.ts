/** What a load needs next, for the one dark button. Pure. */
import type { Output } from '../../../app/contract/contract.ts';

export type Mark = 'in' | 'out' | 'cooled';

/**
 * Before the fish is in: say so. In the chamber: read on until every check of the chamber is met,
 * then take it out. Cooling: read on until it is met or can't change, then close the record.
 */
export function nextStep(shown: Output<'load.get'>): Mark | 'read' | 'done' {
  const { load, results } = shown;
  if (load.cooledAtMs !== null) return 'done';
  if (load.inAtMs === null) return 'in';
  const checks = results.flatMap((each) => each.result.checks);
  const stands = (question: readonly string[]): boolean =>
    checks.filter((check) => question.includes(check.question) && check.verdict !== 'does-not-apply').every((check) => check.verdict === 'meets' || check.verdict === 'meets-within-error');
  if (load.outAtMs === null) return load.process === 'hot' && stands(['heat']) ? 'out' : 'read';
  const cooling = checks.filter((check) => check.question === 'cooling');
  return cooling.some((check) => check.verdict === 'open') ? 'read' : 'cooled';
}
