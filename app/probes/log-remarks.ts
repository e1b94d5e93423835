/** Things to look at in a log that was read: nothing is left out because of them. */
import { exactTicks, type TemperatureUnit } from '../measures/temperature.ts';
import { nameColumn, type ColumnFacts } from './log-facts.ts';
import { DAY_MS } from './log-moments.ts';
import { isMostly } from './log-profile.ts';
import type { LogRemark, LogRole } from './log-types.ts';
import { countOf } from './log-words.ts';

/** Below and above this nothing in a lodge kitchen is measured: −60 °F and 600 °F in ticks (common practice). */
const COLDEST_TICKS = exactTicks(-60, 'F');
const HOTTEST_TICKS = exactTicks(600, 'F');
const LONGEST_LIKELY_RUN_MS = 3 * DAY_MS;
const CHAMBER = /chamber|smoker|smokehouse|ambient|\bair\b|\bpit\b|oven|kiln|cabinet/i;

/** The readings of a place, however they are held. */
export interface RemarkedPlace {
  readonly name: string;
  readonly unit: TemperatureUnit;
  readonly atMs: ArrayLike<number>;
  readonly lowTicks: ArrayLike<number>;
  /** Line in the file, from 1. */
  readonly lines: ArrayLike<number>;
  /** The lowest and highest tick, where they are known. */
  readonly range?: readonly [number, number];
  highTicksAt(index: number): number;
  textAt(index: number): string;
}

/** Lines whose time is before, or the same as, that of their channel's reading before; channel after channel. */
export interface TimeFaults {
  readonly backward: number[];
  readonly repeated: number[];
}

/** Finds them over each channel's own rows in the order of the file. */
export function findTimeFaults(tracks: readonly (readonly number[])[], atMs: readonly number[], lines: readonly number[]): TimeFaults {
  const backward: number[] = [];
  const repeated: number[] = [];
  for (const track of tracks) {
    track.forEach((row, index) => {
      const before = track[index - 1];
      if (before === undefined) return;
      const step = (atMs[row] ?? 0) - (atMs[before] ?? 0);
      if (step < 0) backward.push(lines[row] ?? 0);
      else if (step === 0) repeated.push(lines[row] ?? 0);
    });
  }
  return { backward, repeated };
}

/** Times that go backward and times that come twice. */
export function remarkTimes({ backward, repeated }: TimeFaults): readonly LogRemark[] {
  const remarks: LogRemark[] = [];
  if (backward.length > 0) {
    const line = Math.min(...backward.slice(0, 1000));
    remarks.push({ line, text: `The time goes backward on line ${line}${others(backward.length)}. The readings are kept at the times written; if the logger’s clock was set meanwhile, mend the times in the file.` });
  }
  if (repeated.length > 0) {
    const line = Math.min(...repeated.slice(0, 1000));
    remarks.push({ line, text: `The time on line ${line} is the same as the reading’s before it${others(repeated.length)}. Both readings are kept, and the less favourable counts.` });
  }
  return remarks;
}

/** Readings no kitchen has; they count as recorded until a person leaves them out with a reason. */
export function remarkValues(places: readonly RemarkedPlace[]): readonly LogRemark[] {
  return places.flatMap((place) => {
    const [lowest, highest] = place.range ?? [-Infinity, Infinity];
    if (lowest >= COLDEST_TICKS && highest <= HOTTEST_TICKS) return [];
    const far: number[] = [];
    for (let index = 0; index < place.lowTicks.length; index += 1) {
      if ((place.lowTicks[index] ?? 0) < COLDEST_TICKS || place.highTicksAt(index) > HOTTEST_TICKS) far.push(index);
    }
    const [first] = far;
    if (first === undefined) return [];
    const line = place.lines[first] ?? 0;
    return [{ line, text: `“${place.name}” reads ${place.textAt(first)} °${place.unit} on line ${line}${others(far.length)}: check the unit, the column and the probe.` }];
  });
}

/** A chamber colder than a piece nearly all the time: the two columns may be swapped. */
export function remarkSwappedPlaces(places: readonly RemarkedPlace[]): readonly LogRemark[] {
  return places.flatMap((chamber) => {
    if (!CHAMBER.test(chamber.name)) return [];
    return places.flatMap((piece) => {
      if (piece === chamber || CHAMBER.test(piece.name)) return [];
      const { colder, both } = compare(chamber, piece);
      if (both < 10 || colder * 10 < both * 9) return [];
      return [{ text: `“${chamber.name}” is colder than “${piece.name}” in ${colder} of ${both} rows: the two columns may be swapped. Check which probe was where.` }];
    });
  });
}

/** More than one column with times: which one is used. */
export function remarkHeadings(facts: readonly ColumnFacts[], roles: readonly LogRole[]): readonly LogRemark[] {
  const remarks: LogRemark[] = [];
  const used = facts.find((fact) => roles[fact.index] === 'time');
  const second = facts.find((fact) => roles[fact.index] === 'ignore' && isMostly(fact.profile, 'moment'));
  if (used !== undefined && second !== undefined) {
    remarks.push({ text: `Two columns hold times; ${nameColumn(used.index, used.heading)} is used and ${nameColumn(second.index, second.heading)} is not.` });
  }
  return remarks;
}

/** A run longer than three days under a date order that a person chose. */
export function remarkRun(places: readonly RemarkedPlace[]): readonly LogRemark[] {
  let first = Infinity;
  let last = -Infinity;
  for (const place of places) {
    for (let index = 0; index < place.atMs.length; index += 1) {
      const atMs = place.atMs[index] ?? 0;
      if (atMs < first) first = atMs;
      if (atMs > last) last = atMs;
    }
  }
  const days = Math.floor((last - first) / DAY_MS);
  if (!(last - first > LONGEST_LIKELY_RUN_MS)) return [];
  return [{ text: `Read with this date order the log runs over ${days} days. If that is too long, the other order is right.` }];
}

function compare(chamber: RemarkedPlace, piece: RemarkedPlace): { colder: number; both: number } {
  let colder = 0;
  let both = 0;
  let other = 0;
  for (let index = 0; index < chamber.lines.length; index += 1) {
    const line = chamber.lines[index] ?? 0;
    while (other < piece.lines.length && (piece.lines[other] ?? 0) < line) other += 1;
    if (piece.lines[other] !== line) continue;
    both += 1;
    if (chamber.highTicksAt(index) < (piece.lowTicks[other] ?? 0)) colder += 1;
  }
  return { colder, both };
}

function others(count: number): string {
  return count > 1 ? ` (and on ${countOf(count - 1, 'more line', 'more lines')})` : '';
}
