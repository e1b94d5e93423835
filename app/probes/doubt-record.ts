/** What a doubt is looked for in, and what a found one says. */
import type { PointRole } from '../limits/judge-case.ts';
import type { Words } from '../limits/words.ts';
import { TICKS_PER_CELSIUS } from '../measures/temperature.ts';

export const MINUTE_MS = 60_000;

export type DoubtKind = 'open-circuit' | 'spike' | 'pulled-probe' | 'flat-line' | 'stuck' | 'clock';

/** A proposal: some readings may not be what they say. A named person excludes them or keeps them. */
export interface Doubt {
  readonly kind: DoubtKind;
  /** Indexes into the record as given, both included. */
  readonly fromIndex: number;
  readonly toIndex: number;
  /** Instants of those readings. */
  readonly fromMs: number;
  readonly toMs: number;
  /** One sentence: what is odd, and what may be the cause. */
  readonly reason: string;
}

export interface RecordedTicks {
  readonly atMs: number;
  readonly lowTicks: number;
  readonly highTicks: number;
}

/** When a device's clock and the kitchen's were looked at together. */
export interface ClockSighting {
  readonly deviceMs: number;
  readonly kitchenMs: number;
}

/** The readings of one point by one instrument, as recorded. */
export interface DoubtRecord {
  readonly role: PointRole;
  /** By itself at an interval, or typed by a person, who may type in any order and read whenever it suits. */
  readonly how: 'logged' | 'typed';
  /** In the order in which they were recorded, which is not always that of time. */
  readonly readings: readonly RecordedTicks[];
  /** Of the chamber the piece was in, in any order. */
  readonly chamber?: readonly RecordedTicks[] | undefined;
  readonly clockSightings?: readonly ClockSighting[] | undefined;
  readonly nowMs?: number | undefined;
  readonly words: Words;
}

/** A reading with its place in the record. */
export interface Sample {
  readonly index: number;
  readonly atMs: number;
  readonly ticks: number;
}

/** A whole number of degrees Celsius, or a part, as a difference in ticks. */
export function celsius(degrees: number): number {
  return Math.round(degrees * TICKS_PER_CELSIUS);
}

/** The doubt about the readings from one sample to another; their indexes may run the other way in a record out of order. */
export function doubtOver(kind: DoubtKind, first: Sample, last: Sample, reason: string): Doubt {
  return { kind, fromIndex: Math.min(first.index, last.index), toIndex: Math.max(first.index, last.index), fromMs: first.atMs, toMs: last.atMs, reason };
}

/** The middle one of the steps forwards, in ms, the lower of two; undefined where there is none. */
export function middleStepMs(readings: readonly { readonly atMs: number }[]): number | undefined {
  // Numbers alone are sorted several times as fast as by comparing.
  const steps = new Float64Array(readings.length);
  let count = 0;
  let beforeMs = Infinity;
  for (const { atMs } of readings) {
    if (atMs > beforeMs) {
      steps[count] = atMs - beforeMs;
      count += 1;
    }
    beforeMs = atMs;
  }
  return steps.subarray(0, count).sort()[Math.floor((count - 1) / 2)];
}

/** In order of time; the order of the record decides between equals. */
export function samplesOf(readings: readonly RecordedTicks[]): Sample[] {
  return readings.map((reading, index) => ({ index, atMs: reading.atMs, ticks: reading.lowTicks })).sort((left, right) => left.atMs - right.atMs || left.index - right.index);
}
