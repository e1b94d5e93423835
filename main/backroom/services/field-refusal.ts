/** The refusal of one field of the input. */
import type { FailureCode } from '../../../app/contract/envelope.ts';
import { Refusal } from '../refusal.ts';

/**
 * Refuses the input for one field.
 * @param message what is wrong and where; shown beside the field too
 * @param path the input's path of the field
 * @param remedy how to mend it
 */
export function refuseInput(message: string, path: readonly (string | number)[], remedy: string, code: FailureCode = 'INVALID_INPUT'): never {
  throw new Refusal(code, message, { remedy, fields: [{ path: [...path], message }] });
}
