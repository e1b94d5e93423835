/** Keeps the computer from falling asleep while a load runs; the screen may go dark. */
import { powerSaveBlocker } from 'electron';
import type { KeptAwake } from '../../app/contract/bridge-types.ts';
import type { Reply } from '../../app/contract/envelope.ts';
import { fail } from './failures.ts';

let blockerId: number | null = null;

/** Asked again, it changes nothing; what is held ends with the program. */
export function keepAwake(input: unknown): Reply<KeptAwake> {
  if (typeof input !== 'object' || input === null || !('awake' in input) || typeof input.awake !== 'boolean' || Object.keys(input).length !== 1) {
    return fail('INVALID_INPUT', 'To keep the computer awake, give awake as true or false.');
  }
  if (input.awake && blockerId === null) blockerId = powerSaveBlocker.start('prevent-app-suspension');
  else if (!input.awake && blockerId !== null) {
    powerSaveBlocker.stop(blockerId);
    blockerId = null;
  }
  return { ok: true, value: { awake: blockerId !== null } };
}
