/** Turns whatever was thrown into the failure a person sees. */
import type { Failure, FailureCode, FieldFault } from '../../app/contract/envelope.ts';
import { fileRefusal } from './book/file-errors.ts';
import { sqliteRefusal } from './book/sqlite-errors.ts';
import { Refusal } from './refusal.ts';

/** The failure for a thrown thing; undefined when it is a bug of ours. */
export function expectedFailure(thrown: unknown): Failure | undefined {
  const refusal = thrown instanceof Refusal ? thrown : (sqliteRefusal(thrown) ?? fileRefusal(thrown, 'The file'));
  return refusal === undefined ? undefined : failureOf(refusal);
}

/** A refusal as it crosses the boundary. */
export function failureOf(refusal: Refusal): Failure {
  return {
    code: refusal.code,
    message: refusal.message,
    ...(refusal.remedy === undefined ? {} : { remedy: refusal.remedy }),
    ...(refusal.fields === undefined ? {} : { fields: refusal.fields.map(copyFault) }),
    retryable: refusal.retryable,
  };
}

/** A bug of ours: an apology with the reference under which the log has the rest. */
export function internalFailure(reference: string): Failure {
  return {
    code: 'INTERNAL',
    message: 'Alderbook could not do this; the fault is ours.',
    remedy: `Try once more. If it happens again, report it with the reference ${reference}.`,
    retryable: false,
    reference,
  };
}

/** A failure made on the spot. */
export function failure(code: FailureCode, message: string, remedy?: string): Failure {
  return failureOf(new Refusal(code, message, { remedy }));
}

function copyFault(fault: FieldFault): FieldFault {
  return { path: [...fault.path], message: fault.message };
}
