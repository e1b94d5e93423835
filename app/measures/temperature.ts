/**
 * Temperature as an integer count of 1/9000 °C, which is also 1/5000 °F, so that readings with up
 * to three decimals in either scale, and every limit of law in its own unit, are exact integers.
 * Zero ticks is 0 °C.
 */
import { bad, good, type Outcome } from './outcome.ts';

export type TemperatureUnit = 'F' | 'C';

export const TICKS_PER_CELSIUS = 9000;
export const TICKS_PER_FAHRENHEIT = 5000;
/** 0 °F in ticks: −32 °F × 5000. */
const FAHRENHEIT_ZERO_TICKS = -160_000;

/**
 * A temperature as recorded. `lowTicks` and `highTicks` differ (by one) only when the recorded
 * number has more decimals than a tick can hold; then a minimum is judged by `lowTicks` and a
 * maximum by `highTicks`, each the unfavourable side.
 */
export interface TickBounds {
  readonly lowTicks: number;
  readonly highTicks: number;
}

const DECIMAL = /^([+-]?)(\d+)(?:\.(\d*))?(?:[eE]([+-]?\d+))?$/;

/**
 * Reads a plain decimal number exactly (never through a float) as a temperature.
 * @param text a decimal such as `145`, `-4.0`, `62.779998779296875` or `1e2` (point, no thousands marks)
 * @param unit the scale the number is written in
 * @returns the two neighbouring ticks (equal when exact), or a problem for text that is no number
 */
export function ticksFromDecimal(text: string, unit: TemperatureUnit): Outcome<TickBounds> {
  const bounds = scaledBounds(text, unit === 'F' ? TICKS_PER_FAHRENHEIT : TICKS_PER_CELSIUS);
  if (bounds === undefined) return bad(`“${text}” is not a temperature.`, undefined, 'Write a number such as 145 or 62.8.');
  const zero = unit === 'F' ? FAHRENHEIT_ZERO_TICKS : 0;
  return good({ lowTicks: bounds.lowTicks + zero, highTicks: bounds.highTicks + zero });
}

/** As `ticksFromDecimal`, for a JSON number: its shortest decimal form is what was recorded. */
export function ticksFromNumber(value: number, unit: TemperatureUnit): TickBounds {
  const read = ticksFromDecimal(String(value), unit);
  if (!read.ok) throw new Error(`not a finite temperature: ${value}`);
  return read.value;
}

/** A limit that is exact in ticks (all limits of law are); throws if it is not. */
export function exactTicks(value: number, unit: TemperatureUnit): number {
  const { lowTicks, highTicks } = ticksFromNumber(value, unit);
  if (lowTicks !== highTicks) throw new Error(`${value} °${unit} is not exact in ticks`);
  return lowTicks;
}

/** A difference (1 °C = 1.8 °F, no zero point), rounded up to whole ticks: the strict side for an instrument's error. */
export function differenceTicks(value: number, unit: TemperatureUnit): number {
  const bounds = scaledBounds(String(value), unit === 'F' ? TICKS_PER_FAHRENHEIT : TICKS_PER_CELSIUS);
  if (bounds === undefined) throw new Error(`not a finite difference: ${value}`);
  return bounds.highTicks;
}

/** Ticks as a number in a scale, for drawing and display only; never compared. */
export function degreesFromTicks(ticks: number, unit: TemperatureUnit): number {
  return unit === 'F' ? (ticks - FAHRENHEIT_ZERO_TICKS) / TICKS_PER_FAHRENHEIT : ticks / TICKS_PER_CELSIUS;
}

/** Ticks as text with a fixed number of decimals, rounded half away from zero, without the unit. Display only. */
export function formatDegrees(ticks: number, unit: TemperatureUnit, decimals = 1): string {
  const scale = 10 ** decimals;
  const degrees = degreesFromTicks(ticks, unit);
  const rounded = (Math.sign(degrees) * Math.round(Math.abs(degrees) * scale)) / scale;
  return (Object.is(rounded, -0) ? 0 : rounded).toFixed(decimals);
}

function scaledBounds(text: string, ticksPerUnit: number): TickBounds | undefined {
  const match = DECIMAL.exec(text.trim());
  if (match === null) return undefined;
  const [, sign, whole = '', fraction = '', exponent = '0'] = match;
  const shift = Number(exponent) - fraction.length;
  if (Math.abs(shift) > 60) return undefined;
  let numerator = BigInt(whole + fraction) * BigInt(ticksPerUnit) * (shift > 0 ? 10n ** BigInt(shift) : 1n);
  if (sign === '-') numerator = -numerator;
  const denominator = shift < 0 ? 10n ** BigInt(-shift) : 1n;
  const quotient = numerator / denominator;
  const exact = quotient * denominator === numerator;
  const low = exact || numerator >= 0n ? quotient : quotient - 1n;
  return { lowTicks: Number(low), highTicks: Number(exact ? low : low + 1n) };
}
