/** Figures and times as this kitchen writes them. Display only; nothing here is compared. */
import { formatDegrees } from '../../app/measures/temperature.ts';
import { GRAMS_PER_POUND } from '../../app/measures/mass.ts';
import { localTime } from '../../app/measures/zone.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import type { Kitchen } from '../../app/contract/requests/office.ts';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

export interface Formats {
  /** “145.0 °F”. */
  temperature(ticks: number, decimals?: number): string;
  /** “145.0”, without the unit. */
  degrees(ticks: number, decimals?: number): string;
  /** “°F” or “°C”. */
  readonly degreeSign: string;
  /** “12.50 kg” or “27.56 lb”. */
  mass(grams: number): string;
  /** “14:05”. */
  clock(atMs: number): string;
  /** “14 Mar 2026”. */
  day(atMs: number): string;
  /** “14 Mar, 14:05”. */
  moment(atMs: number): string;
  /** “14 Mar 2026, 14:05”. */
  longMoment(atMs: number): string;
}

/** Formats by the kitchen's units and zone. */
export function formatsOf(kitchen: Pick<Kitchen, 'temperatureUnit' | 'massUnit' | 'timeZone'>): Formats {
  const unit = kitchen.temperatureUnit;
  const degreeSign = `°${unit}`;
  const degrees = (ticks: number, decimals = 1): string => formatDegrees(ticks, unit, decimals).replace('-', '−');
  const local = (atMs: number) => localTime(atMs, kitchen.timeZone);
  return {
    degreeSign,
    degrees,
    temperature: (ticks, decimals) => `${degrees(ticks, decimals)} ${degreeSign}`,
    mass: (grams) => (kitchen.massUnit === 'kg' ? `${(grams / 1000).toFixed(2)} kg` : `${(grams / GRAMS_PER_POUND).toFixed(2)} lb`),
    clock: (atMs) => local(atMs).clock,
    day: (atMs) => dayInWords(local(atMs).day),
    moment: (atMs) => `${dayInWords(local(atMs).day).slice(0, -5)}, ${local(atMs).clock}`,
    longMoment: (atMs) => `${dayInWords(local(atMs).day)}, ${local(atMs).clock}`,
  };
}

/** `2026-03-14` as “14 Mar 2026”: no mix-up of day and month. */
export function dayInWords(day: string): string {
  const [year = '', month = '', date = ''] = day.split('-');
  return `${Number(date)} ${MONTHS[Number(month) - 1] ?? month} ${year}`;
}

export function useFormats(): Formats {
  return formatsOf(useKitchen().kitchen);
}

/** Grams for the scale: whole above 100 g, tenths below. */
export function scaleGrams(grams: number): { figure: string; unit: string } {
  if (grams >= 10_000) return { figure: (grams / 1000).toFixed(2), unit: 'kg' };
  return { figure: grams >= 100 ? grams.toFixed(0) : grams.toFixed(1), unit: 'g' };
}
