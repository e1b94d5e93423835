/** Failures that the window itself answers with, in the shape of all others. */
import type { FailureCode, Reply } from '../../app/contract/envelope.ts';

/** A failure envelope. */
export function fail(code: FailureCode, message: string, remedy?: string): Reply<never> {
  return { ok: false, error: { code, message, retryable: code === 'DEVICE', ...(remedy === undefined ? {} : { remedy }) } };
}
