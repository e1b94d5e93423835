/**
 * What is known of a row of readings at a glance, worked out once a row: most are plain, one after the other at a
 * steady step, and then much need not be looked for reading by reading. Rows are never changed once they are made.
 */
import { firstWhere } from '../measures/halving.ts';
import type { Reading } from './judge-case.ts';

export interface RowFacts {
  /** Each later than the one before, and none covers a stretch or was put there for one. */
  readonly isPlain: boolean;
  readonly hasDoubt: boolean;
  readonly hasEntered: boolean;
  /** Of plain rows: the shortest and the longest step, in ms; 0 for fewer than two readings. */
  readonly shortestMs: number;
  readonly longestMs: number;
}

const known = new WeakMap<readonly Reading[], RowFacts>();

/** The facts of a row. */
export function factsOfRow(readings: readonly Reading[]): RowFacts {
  const before = known.get(readings);
  if (before !== undefined) return before;
  const facts = lookAt(readings);
  known.set(readings, facts);
  return facts;
}

function lookAt(readings: readonly Reading[]): RowFacts {
  let isPlain = true;
  let hasDoubt = false;
  let hasEntered = false;
  let shortestMs = Infinity;
  let longestMs = 0;
  let beforeMs = -Infinity;
  for (let index = 0; index < readings.length; index += 1) {
    const reading = readings[index];
    if (reading === undefined) continue;
    const { atMs } = reading;
    if (reading.coversSinceMs !== undefined || reading.isReset === true) isPlain = false;
    if (reading.doubt !== undefined) hasDoubt = true;
    if (reading.entered !== undefined) hasEntered = true;
    if (index > 0) {
      const step = atMs - beforeMs;
      if (step < shortestMs) shortestMs = step;
      if (step > longestMs) longestMs = step;
    }
    beforeMs = atMs;
  }
  return { isPlain: isPlain && !(shortestMs <= 0), hasDoubt, hasEntered, shortestMs: readings.length < 2 ? 0 : shortestMs, longestMs };
}

/** A part of a plain row, from one place to before another; the whole row where that is all of it. */
export function partOfRow(readings: readonly Reading[], from: number, to: number): readonly Reading[] {
  if (from <= 0 && to >= readings.length) return readings;
  const part = readings.slice(from, to);
  const whole = factsOfRow(readings);
  // Of a steady row every part is steady; of any other its own steps must be looked at.
  if (whole.isPlain && !whole.hasDoubt && !whole.hasEntered && whole.shortestMs === whole.longestMs) known.set(part, part.length < 2 ? { ...whole, shortestMs: 0, longestMs: 0 } : whole);
  return part;
}

/** The place of the first reading at or after an instant in a row in order of time; its length where there is none. */
export function placeOf(readings: readonly Reading[], atMs: number): number {
  return firstPlace(readings, (reading) => reading.atMs >= atMs);
}

/** The place of the first reading later than an instant. */
export function placeAfter(readings: readonly Reading[], atMs: number): number {
  return firstPlace(readings, (reading) => reading.atMs > atMs);
}

/** Where something begins to hold that then holds to the end. */
export function firstPlace(readings: readonly Reading[], holds: (reading: Reading) => boolean): number {
  return firstWhere(readings.length, (place) => {
    const reading = readings[place];
    return reading === undefined || holds(reading);
  });
}
