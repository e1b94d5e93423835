/**
 * Accumulated lethality: minutes at a reference temperature that a record of readings is worth.
 * General method (Bigelow, 1920), lethal rate 10^((T − T ref) / z) (second-hand). Between two readings
 * the temperature is taken as a straight line, over which the logarithmic mean of the two rates is exact
 * (computed); the trapezoid would credit too much. It is information beside a verdict and never decides
 * one. Whoever shows it must not show it at all for a batch whose heat check is missed or not proven.
 */
import { isGap, mergeReadings } from '../limits/readings.ts';
import type { Reading } from '../limits/judge-case.ts';
import { TICKS_PER_CELSIUS } from '../measures/temperature.ts';
import type { HeatTarget } from './heat-targets.ts';

const MINUTE_MS = 60_000;

export interface Lethality {
  /** Equivalent minutes at the reference temperature. */
  readonly minutes: number;
  /** Powers of ten by which the target's organism is cut (the minutes over its D value), where the target prints them. */
  readonly logReductions: number | undefined;
  /** Time the sum was taken over. */
  readonly creditedMs: number;
  /** Time left out, because no reading tells of it. */
  readonly gapMs: number;
}

/** Lethal rate at a temperature, 1 at the reference. Above the reference the target's second z counts where it has one. */
export function lethalRate(ticks: number, target: HeatTarget): number {
  return 10 ** rateExponent(ticks, target);
}

/** Minutes at a steady temperature that do what the target asks. */
export function minutesNeeded(ticks: number, target: HeatTarget): number {
  return target.requiredMinutes / lethalRate(ticks, target);
}

/**
 * Lethality of one piece's readings; never of an envelope over pieces.
 * @param readings in any order; of two values at one instant, and of a raw and a corrected one, the lower counts
 * @param maxGapMs the longest step that is credited; nothing is credited over a longer one
 */
export function accumulateLethality(readings: readonly Reading[], target: HeatTarget, maxGapMs: number): Lethality {
  const ordered = mergeReadings(readings, 'lower');
  let minutes = 0;
  let creditedMs = 0;
  let gapMs = 0;
  ordered.forEach((after, index) => {
    const before = ordered[index - 1];
    if (before === undefined) return;
    const stepMs = after.atMs - before.atMs;
    if (isGap(before, after, maxGapMs)) {
      gapMs += stepMs;
      return;
    }
    creditedMs += stepMs;
    minutes += segmentMinutes(stepMs / MINUTE_MS, before.lowTicks, after.lowTicks, target);
  });
  const logReductions = target.requiredLogs === undefined ? undefined : (minutes / target.requiredMinutes) * target.requiredLogs;
  return { minutes, logReductions, creditedMs, gapMs };
}

/**
 * What a straight line between two temperatures is worth, in minutes at the reference.
 * @param minutes how long it took
 */
export function segmentMinutes(minutes: number, fromTicks: number, toTicks: number, target: HeatTarget): number {
  const reference = target.referenceTicks;
  if ((fromTicks - reference) * (toTicks - reference) < 0) {
    // Crossing the reference changes z: the line is split where it crosses.
    const part = (reference - fromTicks) / (toTicks - fromTicks);
    return logMean(minutes * part, fromTicks, reference, target) + logMean(minutes * (1 - part), reference, toTicks, target);
  }
  return logMean(minutes, fromTicks, toTicks, target);
}

/** `P(70 °C, z 7.5 °C)`: a figure of this kind is never written without both subscripts. */
export function subscriptText(target: HeatTarget): string {
  const celsius = (ticks: number) => `${Math.round((ticks / TICKS_PER_CELSIUS) * 100) / 100} °C`;
  const above = target.zAboveTicks === target.zTicks ? '' : ` below and ${celsius(target.zAboveTicks)} above`;
  return `${target.symbol}(${celsius(target.referenceTicks)}, z ${celsius(target.zTicks)}${above})`;
}

/** Both ends on one side of the reference. `expm1` keeps all digits where the two rates are nearly the same. */
function logMean(minutes: number, fromTicks: number, toTicks: number, target: HeatTarget): number {
  const from = rateExponent(fromTicks, target) * Math.LN10;
  const ratio = rateExponent(toTicks, target) * Math.LN10 - from;
  return minutes * Math.exp(from) * (ratio === 0 ? 1 : Math.expm1(ratio) / ratio);
}

function rateExponent(ticks: number, target: HeatTarget): number {
  const above = ticks - target.referenceTicks;
  return above / (above > 0 ? target.zAboveTicks : target.zTicks);
}
