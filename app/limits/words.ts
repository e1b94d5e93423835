/** How times, lengths of time and temperatures are said in a reason; the caller chooses clock times or minutes. */
import { formatDegrees, TICKS_PER_CELSIUS, TICKS_PER_FAHRENHEIT, type TemperatureUnit } from '../measures/temperature.ts';
import type { Figure } from './limit-set.ts';

const MINUTE_MS = 60_000;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

export interface Words {
  /** An instant, such as “minute 25” or “14:05”. */
  at(ms: number): string;
  /** A day, with its month in letters, such as “14 Mar 2026”. */
  day(ms: number): string;
  /** A length of time, such as “25 min”. */
  lasting(ms: number): string;
  /** “20 of 30 min”. */
  part(ms: number, ofMs: number): string;
  /** A reading, such as “144.9 °F”. */
  degrees(ticks: number): string;
  /** A difference still to go, such as “4.1 °F”, rounded up so that it never looks like nothing; a hair is “less than 0.1 °F”. */
  difference(ticks: number): string;
}

/** Words for a record that counts minutes from its own zero. */
export function minuteWords(unit: TemperatureUnit): Words {
  return {
    at: (ms) => `minute ${plainNumber(ms / MINUTE_MS)}`,
    day: utcDay,
    lasting: (ms) => `${plainNumber(ms / MINUTE_MS)} min`,
    part: (ms, ofMs) => `${plainNumber(ms / MINUTE_MS)} of ${plainNumber(ofMs / MINUTE_MS)} min`,
    degrees: (ticks) => degreesText(ticks, unit),
    difference: (ticks) => differenceText(ticks, unit),
  };
}

/**
 * Words for the book: clock times, and lengths in hours where they are long.
 * @param clock says an instant in the book's time zone
 * @param day says an instant's day there; in universal time when left out
 */
export function clockWords(unit: TemperatureUnit, clock: (ms: number) => string, day: (ms: number) => string = utcDay): Words {
  return {
    at: clock,
    day,
    lasting: lengthText,
    part: (ms, ofMs) => (ofMs < 180 * MINUTE_MS ? `${plainNumber(Math.floor(ms / MINUTE_MS))} of ${plainNumber(ofMs / MINUTE_MS)} min` : `${lengthText(ms)} of ${lengthText(ofMs)}`),
    degrees: (ticks) => degreesText(ticks, unit),
    difference: (ticks) => differenceText(ticks, unit),
  };
}

/** A limit as its text prints it: `145 °F`, `−4 °F`. */
export function figureText(figure: Figure): string {
  return `${figure.value.replace('-', '−')} °${figure.unit}`;
}

/** “A, B and C”. */
export function listText(items: readonly string[]): string {
  const last = items.at(-1);
  if (last === undefined) return '';
  return items.length === 1 ? last : `${items.slice(0, -1).join(', ')} and ${last}`;
}

/** What a piece or place is called in a sentence: “Piece B”, “Smoker 1”, and “The brine” without a name. */
export function nameText(role: string, name: string): string {
  if (name.trim() === '') return `The ${role}`;
  return role !== 'piece' || name.toLowerCase().startsWith(role) ? name : `Piece ${name}`;
}

/** A day of a calendar, YYYY-MM-DD, as “14 Mar 2026”. */
export function dayWords(day: string): string {
  const [year = '', month = '', date = ''] = day.split('-');
  return `${Number(date)} ${MONTHS[Number(month) - 1] ?? month} ${year}`;
}

function utcDay(ms: number): string {
  return dayWords(new Date(ms).toISOString().slice(0, 10));
}

/** Up to three decimals, without trailing zeros: near a limit 144.86 must not look like 145. */
function degreesText(ticks: number, unit: TemperatureUnit): string {
  return `${formatDegrees(ticks, unit, 3).replace(/\.?0+$/, '').replace('-', '−')} °${unit}`;
}

function differenceText(ticks: number, unit: TemperatureUnit): string {
  const tenth = (unit === 'F' ? TICKS_PER_FAHRENHEIT : TICKS_PER_CELSIUS) / 10;
  const isHair = ticks > 0 && ticks < tenth;
  return `${isHair ? 'less than ' : ''}${(Math.ceil(ticks / tenth) / 10).toFixed(1)} °${unit}`;
}

function lengthText(ms: number): string {
  const minutes = Math.floor(ms / MINUTE_MS);
  if (minutes < 180) return `${minutes} min`;
  const hours = Math.floor(minutes / 60);
  return minutes % 60 === 0 ? `${hours} h` : `${hours} h ${minutes % 60} min`;
}

function plainNumber(value: number): string {
  return String(Math.round(value * 100) / 100).replace('-', '−');
}
