/** A temperature typed on the contract, read exactly, or the sentence that says what is wrong with it. */
import type { TypedTemperature } from '../../../app/contract/requests/quantities.ts';
import { exactTicks, ticksFromDecimal, type TickBounds } from '../../../app/measures/temperature.ts';
import { unwrap } from '../refusal.ts';
import { refuseInput } from './field-refusal.ts';

/** Below a blast freezer and above a smoker's fire nothing here is measured: such a figure is in the wrong unit or mistyped. */
const COLDEST_TICKS = exactTicks(-60, 'F');
const HOTTEST_TICKS = exactTicks(700, 'F');
const MINUS_SIGN = '\u2212';

/**
 * Reads a typed temperature.
 * @param path the input's path, for the refusal
 * @throws Refusal INVALID_INPUT: empty, a comma, not a number, outside −60 to 700 °F
 */
export function readTypedTemperature(typed: TypedTemperature, path: readonly (string | number)[]): TickBounds & { readonly text: string } {
  const text = typed.text.trim().replace(MINUS_SIGN, '-');
  if (text === '') refuseInput('The temperature is empty.', path, 'Read the thermometer and type the figure.');
  if (/^[+-]?\d+,\d+$/.test(text)) {
    refuseInput(`“${text}” has a comma, which can mean a decimal or a thousand.`, path, `Write ${text.replace(',', '.')} with a point.`);
  }
  if (!/^[+-]?\d+(\.\d*)?$/.test(text)) {
    refuseInput(`“${text}” is not a temperature.`, path, `Type a number of °${typed.unit}, such as ${typed.unit === 'F' ? '145' : '62.8'}.`);
  }
  const read = unwrap(ticksFromDecimal(text, typed.unit));
  if (read.lowTicks < COLDEST_TICKS || read.highTicks > HOTTEST_TICKS) {
    refuseInput(`${text} °${typed.unit} is not a temperature that a smokehouse, cooler or freezer has.`, path, 'Check the unit and the point.');
  }
  return { ...read, text };
}
