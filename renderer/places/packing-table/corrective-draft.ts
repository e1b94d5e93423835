/** A corrective action as it is typed, and what it is about. Pure. */
import type { Input } from '../../../app/contract/contract.ts';
import type { CheckResultWire } from '../../../app/contract/requests/verdict.ts';

type Disposition = Input<'corrective.open'>['disposition'];

export interface CorrectiveDraft {
  readonly checkId: string;
  readonly cause: string;
  readonly quantity: string;
  readonly keptWhere: string;
  readonly evaluatedBy: string;
  readonly evaluation: string;
  readonly disposition: Disposition | null;
  readonly fix: string;
}

/** The limits that something can be done about: missed first, then what the record doesn't prove. */
export function unmetChecks(checks: readonly CheckResultWire[]): CheckResultWire[] {
  const missed = checks.filter((check) => check.verdict === 'misses');
  return [...missed, ...checks.filter((check) => check.verdict === 'not-proven' || check.verdict === 'no-figure')];
}

/** Starts on the worst limit, with the place of the HOLD tag and the person on duty. What becomes of the fish is never chosen beforehand. */
export function startDraft(unmet: readonly CheckResultWire[], keptWhere: string, evaluatedBy: string): CorrectiveDraft {
  return { checkId: unmet[0]?.checkId ?? '', cause: '', quantity: '', keptWhere, evaluatedBy, evaluation: '', disposition: null, fix: '' };
}

/** The command, or null while nobody has said what becomes of the fish. */
export function correctiveInput(batchId: string, { disposition, ...draft }: CorrectiveDraft): Input<'corrective.open'> | null {
  return disposition === null ? null : { batchId, ...draft, disposition };
}
