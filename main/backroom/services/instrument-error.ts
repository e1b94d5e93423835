/** The error of an instrument as the office takes it. */
import type { TypedTemperature } from '../../../app/contract/requests/quantities.ts';
import { differenceTicks } from '../../../app/measures/temperature.ts';
import { refuseInput } from './field-refusal.ts';

/** What a thermometer without a check on file is taken to be off by (our choice; common practice for kitchen probes). */
const UNCHECKED_ERROR_TICKS = differenceTicks(2, 'F');
/** More than this is no thermometer. */
const LARGEST_ERROR_TICKS = differenceTicks(20, 'F');

/**
 * Reads an instrument's error, a difference and not a temperature.
 * @param typed as typed; null where the instrument has no check on file
 * @returns ticks with the ground in words
 * @throws Refusal INVALID_INPUT on `error`: no number, below zero, over 20 °F
 */
export function instrumentError(typed: TypedTemperature | null): { errorTicks: number; errorGround: string } {
  if (typed === null) return { errorTicks: UNCHECKED_ERROR_TICKS, errorGround: 'no check on file, so 2 °F' };
  const text = typed.text.trim();
  if (!/^(\d+\.?\d*|\.\d+)$/.test(text)) {
    refuseInput(`“${text}” is not an error of a thermometer.`, ['error'], 'Type how far it may be off, such as 1.5, with a point and without a sign.');
  }
  const errorTicks = differenceTicks(Number(text), typed.unit);
  if (errorTicks > LARGEST_ERROR_TICKS) refuseInput(`A thermometer that is ${text} °${typed.unit} off can’t be used.`, ['error'], 'Check the figure, or use another thermometer.');
  return { errorTicks, errorGround: `${text} °${typed.unit}, as the kitchen entered it` };
}
