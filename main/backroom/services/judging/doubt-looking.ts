/** Looking through readings for doubts, thermometer by thermometer; what was looked through once is remembered. */
import type { PointRole } from '../../../../app/limits/judge-case.ts';
import { clockWords, type Words } from '../../../../app/limits/words.ts';
import { firstWhere } from '../../../../app/measures/halving.ts';
import { localTime } from '../../../../app/measures/zone.ts';
import { findDoubts, type Doubt } from '../../../../app/probes/doubts.ts';
import { sha256Hex } from '../../book/canonical.ts';
import type { BookRoom, SeriesReading } from '../../room.ts';
import { kitchenOf } from '../kitchen.ts';
import { sayDay } from '../when.ts';

/** The thermometer that readings are by: one may be pulled out of a fish while another is still in it. */
export interface ReadBy {
  readonly how: 'logged' | 'typed';
  readonly instrumentId: string | null;
}

export interface FoundDoubt extends Pick<Doubt, 'kind' | 'fromMs' | 'toMs' | 'reason'> {
  readonly by: ReadBy;
  /** The readings in doubt, in order of time. */
  readonly readings: readonly SeriesReading[];
}

/** What is looked through: a point's readings, and the chamber's for a piece. */
export interface LookedThrough {
  readonly role: PointRole;
  readonly readings: readonly SeriesReading[];
  readonly chamber: readonly SeriesReading[];
}

/** More stretches than a kitchen has under way at once; the longest unused goes first. */
const MOST_KEPT = 256;
const kept = new Map<string, readonly FoundDoubt[]>();
const stamps = new WeakMap<readonly SeriesReading[], string>();

export function readBy({ how, instrumentId }: SeriesReading): ReadBy {
  return { how: how === 'file' || how === 'instrument' ? 'logged' : 'typed', instrumentId };
}

export function isBy(reading: SeriesReading, by: ReadBy): boolean {
  const { how, instrumentId } = readBy(reading);
  return how === by.how && instrumentId === by.instrumentId;
}

/**
 * Every doubt about a point's readings, in order of time. No clock is asked: what is in doubt depends on the record
 * alone, and a reading that is still to come is refused when it is entered.
 * @param key tells the stretch of the point apart from others
 */
export function lookThrough(room: BookRoom, key: string, { role, readings, chamber }: LookedThrough): readonly FoundDoubt[] {
  if (readings.length === 0) return [];
  const { timeZone, temperatureUnit } = kitchenOf(room.book);
  const air = role === 'piece' ? chamber : [];
  const stamp = JSON.stringify([key, role, timeZone, temperatureUnit, stampOf(readings), stampOf(air)]);
  const found = kept.get(stamp) ?? lookAnew(role, readings, air, wordsOfDoubts(timeZone, temperatureUnit));
  kept.delete(stamp);
  kept.set(stamp, found);
  const [oldest] = kept.keys();
  if (kept.size > MOST_KEPT && oldest !== undefined) kept.delete(oldest);
  return found;
}

function lookAnew(role: PointRole, readings: readonly SeriesReading[], chamber: readonly SeriesReading[], words: Words): FoundDoubt[] {
  const found = byThermometer(readings).flatMap(({ by, its }) => findDoubts({ role, how: by.how, readings: its, chamber, words })
    .map(({ kind, fromMs, toMs, reason }): FoundDoubt => ({ kind, fromMs, toMs, reason, by, readings: readingsFrom(its, fromMs, toMs) })));
  return found.sort((left, right) => left.fromMs - right.fromMs || left.toMs - right.toMs);
}

function byThermometer(readings: readonly SeriesReading[]): { by: ReadBy; its: SeriesReading[] }[] {
  const groups = new Map<string, { by: ReadBy; its: SeriesReading[] }>();
  let last: { by: ReadBy; its: SeriesReading[] } | undefined;
  for (const reading of readings) {
    // Readings of one thermometer mostly follow each other.
    if (last === undefined || !isBy(reading, last.by)) {
      const by = readBy(reading);
      const name = `${by.how} ${by.instrumentId ?? ''}`;
      last = groups.get(name) ?? { by, its: [] };
      groups.set(name, last);
    }
    last.its.push(reading);
  }
  return [...groups.values()];
}

/** The readings from one instant to another, both included, of readings in order of time. */
function readingsFrom(readings: readonly SeriesReading[], fromMs: number, toMs: number): readonly SeriesReading[] {
  return readings.slice(firstWhere(readings.length, (place) => (readings[place]?.atMs ?? 0) >= fromMs), firstWhere(readings.length, (place) => (readings[place]?.atMs ?? 0) > toMs));
}

/**
 * Tells one record from another: how many readings, up to when, a sum over all their numbers, and by which thermometer
 * and entry they came. A command that failed may have shown the same numbers as of another one. Worked out once for an
 * array, since several points ask for the chamber's.
 */
function stampOf(readings: readonly SeriesReading[]): string {
  const known = stamps.get(readings) ?? sumUp(readings);
  stamps.set(readings, known);
  return known;
}

function sumUp(readings: readonly SeriesReading[]): string {
  let sum = 0;
  const came: unknown[] = [];
  let last: SeriesReading | undefined;
  for (const [index, reading] of readings.entries()) {
    const { atMs, lowTicks, instrumentId, how, entry } = reading;
    sum = Math.imul(sum ^ (atMs % 4_294_967_291), 0x01000193) ^ Math.imul(lowTicks, 0x9e3779b1);
    if (last?.instrumentId !== instrumentId || last.how !== how || last.entry !== entry) came.push([index, instrumentId, how, entry]);
    last = reading;
  }
  return JSON.stringify([readings.length, readings.at(-1)?.atMs ?? 0, sum, sha256Hex(JSON.stringify(came))]);
}

/** Clock times with their day: a doubt is read long after. */
function wordsOfDoubts(timeZone: string, unit: 'F' | 'C'): Words {
  const say = (ms: number) => localTime(ms, timeZone);
  return clockWords(unit, (ms) => `${say(ms).clock} on ${sayDay(say(ms).day)}`, (ms) => sayDay(say(ms).day));
}
