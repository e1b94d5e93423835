/** Refusals: the expected failures of a use case, thrown by services and turned into envelopes by dispatch alone. */
import type { FailureCode, FieldFault } from '../../app/contract/envelope.ts';
import type { Outcome } from '../../app/measures/outcome.ts';

const RETRYABLE: readonly FailureCode[] = ['BOOK_BUSY', 'DISK_FULL', 'DEVICE'];

export class Refusal extends Error {
  readonly code: FailureCode;
  readonly remedy: string | undefined;
  readonly fields: readonly FieldFault[] | undefined;

  constructor(code: FailureCode, message: string, more: { remedy?: string | undefined; fields?: readonly FieldFault[] | undefined } = {}) {
    super(message);
    this.code = code;
    this.remedy = more.remedy;
    this.fields = more.fields;
  }

  get retryable(): boolean {
    return RETRYABLE.includes(this.code);
  }
}

/** The value of an outcome, or the refusal that says its problem in the problem's own words. */
export function unwrap<T>(outcome: Outcome<T>, code: FailureCode = 'INVALID_INPUT'): T {
  if (outcome.ok) return outcome.value;
  const { message, remedy, field } = outcome.problem;
  throw new Refusal(code, message, {
    remedy,
    fields: field === undefined ? undefined : [{ path: field.split('.'), message }],
  });
}
