/** D and z values: what published measurements of one organism say about other temperatures. Arithmetic only. */
import { TICKS_PER_CELSIUS } from '../measures/temperature.ts';

/** One measured D: minutes that cut the organism tenfold at a temperature. */
export interface MeasuredD {
  readonly ticks: number;
  readonly minutes: number;
}

/** The rise that cuts D tenfold, from two measurements, in ticks; the two must differ in both. */
export function zBetween(cooler: MeasuredD, hotter: MeasuredD): number {
  return (hotter.ticks - cooler.ticks) / Math.log10(cooler.minutes / hotter.minutes);
}

/** The z, in ticks, of the straight line that fits log D best by least squares; at least two measurements. */
export function fitZ(measured: readonly MeasuredD[]): number {
  const line = fitLine(measured);
  return -1 / line.slope;
}

/** D in minutes that the fitted line gives at a temperature. */
export function fittedMinutes(measured: readonly MeasuredD[], ticks: number): number {
  const line = fitLine(measured);
  return 10 ** (line.meanLog + line.slope * (ticks - line.meanTicks));
}

function fitLine(measured: readonly MeasuredD[]): { slope: number; meanTicks: number; meanLog: number } {
  const mean = (valueOf: (one: MeasuredD) => number) => measured.reduce((sum, one) => sum + valueOf(one), 0) / measured.length;
  const meanTicks = mean((one) => one.ticks);
  const meanLog = mean((one) => Math.log10(one.minutes));
  const across = mean((one) => (one.ticks - meanTicks) * (Math.log10(one.minutes) - meanLog));
  const along = mean((one) => (one.ticks - meanTicks) ** 2);
  if (along === 0) throw new Error(`one temperature (${meanTicks / TICKS_PER_CELSIUS} °C) gives no line`);
  return { slope: across / along, meanTicks, meanLog };
}
