/** What came over a live feed: a temperature with its exact ticks and its text, or that there is none, and why. */
import type { Decimal } from '../limits/decimals.ts';
import { TICKS_PER_CELSIUS, ticksFromDecimal, type TemperatureUnit } from '../measures/temperature.ts';

export type FeedValue =
  | { readonly kind: 'temperature'; readonly text: string; readonly unit: TemperatureUnit; readonly lowTicks: number; readonly highTicks: number }
  /** `why` stands in brackets behind “no temperature”: a number, a word, a short sentence part. */
  | { readonly kind: 'missing'; readonly why: string };

/** Numbers that stand for “no sensor” in instruments' firmware, in degrees (common practice, from memory; −127 is the one-wire sensor's). */
const MISSING_NUMBERS: ReadonlySet<number> = new Set([-999, 9999, -9999, 999.9, -999.9, 32_767, -32_768, 65_535, -127]);
/** Beyond these no thermometer of a kitchen goes, and an open thermocouple reads its full scale (our choice). */
const LOWEST_TICKS = -200 * TICKS_PER_CELSIUS;
const HIGHEST_TICKS = 1000 * TICKS_PER_CELSIUS;
const LONGEST_TEXT = 60;

/** A decimal as a temperature: its text is kept, and says the same as its ticks. */
export function feedTemperature(text: string, unit: TemperatureUnit): FeedValue {
  const ticks = text.length > LONGEST_TEXT ? undefined : ticksFromDecimal(text, unit);
  if (ticks === undefined || !ticks.ok) return { kind: 'missing', why: `“${shorten(text)}”` };
  if (MISSING_NUMBERS.has(Number(text))) return { kind: 'missing', why: text };
  const { lowTicks, highTicks } = ticks.value;
  if (lowTicks < LOWEST_TICKS || highTicks > HIGHEST_TICKS) return { kind: 'missing', why: text };
  return { kind: 'temperature', text, unit, lowTicks, highTicks };
}

/** An exact decimal as plain text with all its places. */
export function decimalText({ digits, scale }: Decimal): string {
  const negative = digits < 0n;
  const figures = (negative ? -digits : digits).toString().padStart(scale + 1, '0');
  const whole = figures.slice(0, figures.length - scale);
  return `${negative ? '-' : ''}${whole}${scale === 0 ? '' : `.${figures.slice(figures.length - scale)}`}`;
}

/** As it is quoted in a sentence: short, on one line, without what a screen can't show. */
export function shorten(text: string): string {
  const plain = text.slice(0, 80).replace(/[\s\p{Cc}]+/gu, ' ').trim();
  return plain.length > 40 || text.length > 80 ? `${plain.slice(0, 40)}…` : plain;
}
