/** Which columns tell the time, and how. */
import { statedUnit, type ColumnFacts } from './log-facts.ts';
import { elapsedUnitMs, offsetFromHeading } from './log-headings.ts';
import { holdsTimes, isMostly } from './log-profile.ts';
import type { LogRole } from './log-types.ts';

/** How a row's time is to be read. `offsetMinutes` (east of UTC) is there when the heading states it. */
export type TimePlan =
  | { readonly kind: 'moment'; readonly column: number; readonly offsetMinutes: number | undefined }
  | { readonly kind: 'date-and-clock'; readonly column: number; readonly clockColumn: number; readonly offsetMinutes: number | undefined }
  | { readonly kind: 'date-only'; readonly column: number }
  | { readonly kind: 'clock-only'; readonly column: number; readonly offsetMinutes: number | undefined }
  | { readonly kind: 'epoch'; readonly column: number; readonly unitMs: number }
  | { readonly kind: 'serial'; readonly column: number; readonly offsetMinutes: number | undefined }
  | { readonly kind: 'elapsed-clock'; readonly column: number; readonly parts: 'hours-minutes' | 'minutes-seconds' | 'three' | undefined }
  | { readonly kind: 'elapsed-number'; readonly column: number; readonly unitMs: number | undefined };

export interface TimeColumns {
  readonly plan: TimePlan;
  readonly roles: ReadonlyMap<number, LogRole>;
}

/** 1 Jan 2000 to 31 Dec 2099 in days since 30 Dec 1899, as spreadsheets count. */
const FIRST_SERIAL = 36_526;
const LAST_SERIAL = 73_050;
/** 2001 to 2100 in seconds since 1 Jan 1970. */
const FIRST_EPOCH_SECONDS = 978_307_200;
const LAST_EPOCH_SECONDS = 4_102_444_800;
const ASIDE_TIME = /upload|export|receiv|server|creat|print|download/i;

/**
 * Finds the columns that tell the time.
 * @param free columns that no person gave a role
 * @param chosen roles that a person gave
 */
export function findTimeColumns(facts: readonly ColumnFacts[], free: readonly ColumnFacts[], chosen: ReadonlyMap<number, LogRole>): TimeColumns | undefined {
  function pick(role: LogRole): ColumnFacts | undefined {
    return facts.find((fact) => chosen.get(fact.index) === role);
  }
  const time = pick('time');
  if (time !== undefined) return wholeTime(time);
  const elapsed = pick('elapsed');
  if (elapsed !== undefined) return elapsedTime(elapsed);
  const dates = free.filter((fact) => holdsTimes(fact.profile, 'date'));
  const clocks = free.filter((fact) => holdsTimes(fact.profile, 'clock'));
  const date = pick('date');
  const clock = pick('clock');
  if (date === undefined && clock === undefined) return findFree(free, dates, clocks);
  return pair(date ?? dates[0], clock ?? clocks[0]);
}

function findFree(free: readonly ColumnFacts[], dates: readonly ColumnFacts[], clocks: readonly ColumnFacts[]): TimeColumns | undefined {
  const moments = free.filter((fact) => holdsTimes(fact.profile, 'moment'));
  const moment = moments.find((fact) => !ASIDE_TIME.test(fact.heading)) ?? moments[0];
  if (moment !== undefined) {
    const clock = clocks[0];
    return clock !== undefined && isAllMidnight(moment) ? pair(moment, clock) : wholeTime(moment);
  }
  if (dates.length > 0 || clocks.length > 0) {
    const [date] = dates;
    const behind = clocks.find((fact) => date !== undefined && fact.index > date.index && fact.hint !== 'elapsed');
    return pair(date, behind ?? clocks.find((fact) => date === undefined || fact.hint !== 'elapsed'));
  }
  return findNumeric(free);
}

function findNumeric(free: readonly ColumnFacts[]): TimeColumns | undefined {
  const numeric = free.filter((fact) => isMostly(fact.profile, 'number') && statedUnit(fact) !== 'F' && statedUnit(fact) !== 'C');
  const found =
    numeric.find((fact) => epochUnitMs(fact) !== undefined) ??
    numeric.find((fact) => fact.hint === 'elapsed') ??
    numeric.find((fact) => fact.hint === 'time') ??
    numeric.find(isSerial) ??
    (numeric.length > 1 ? numeric.find(isSteadilyRising) : undefined);
  return found === undefined ? undefined : wholeTime(found);
}

function pair(date: ColumnFacts | undefined, clock: ColumnFacts | undefined): TimeColumns | undefined {
  if (date === undefined) return clock === undefined ? undefined : clockAlone(clock);
  if (clock === undefined) return { plan: { kind: 'date-only', column: date.index }, roles: new Map([[date.index, 'date']]) };
  const offsetMinutes = offsetFromHeading(clock.heading) ?? offsetFromHeading(date.heading);
  return {
    plan: { kind: 'date-and-clock', column: date.index, clockColumn: clock.index, offsetMinutes },
    roles: new Map([[date.index, 'date'], [clock.index, 'clock']]),
  };
}

/** A column of `hh:mm:ss` without dates: a counter when its heading or its first value says so, else a clock. */
function clockAlone(fact: ColumnFacts): TimeColumns {
  const hours = fact.profile.first.map((cell) => Number.parseInt(cell, 10));
  const isTwelveHour = fact.profile.first.some((cell) => /[ap]\.?m/i.test(cell));
  const counts = fact.hint === 'elapsed' || hours.some((hour) => hour > 23) || hours[0] === 0;
  if (counts && !isTwelveHour) return elapsedTime(fact);
  return {
    plan: { kind: 'clock-only', column: fact.index, offsetMinutes: offsetFromHeading(fact.heading) },
    roles: new Map([[fact.index, 'clock']]),
  };
}

function wholeTime(fact: ColumnFacts): TimeColumns {
  const roles = new Map<number, LogRole>([[fact.index, 'time']]);
  const column = fact.index;
  const offsetMinutes = offsetFromHeading(fact.heading);
  if (holdsTimes(fact.profile, 'moment') || !isMostly(fact.profile, 'number')) return { plan: { kind: 'moment', column, offsetMinutes }, roles };
  const unitMs = epochUnitMs(fact);
  if (unitMs !== undefined) return { plan: { kind: 'epoch', column, unitMs }, roles };
  const countsUp = fact.hint === 'elapsed' || elapsedUnitMs(fact.heading, fact.unitsCell) !== undefined;
  if (isSerial(fact) && !countsUp) return { plan: { kind: 'serial', column, offsetMinutes }, roles };
  return elapsedTime(fact);
}

function elapsedTime(fact: ColumnFacts): TimeColumns {
  const roles = new Map<number, LogRole>([[fact.index, 'elapsed']]);
  const column = fact.index;
  if (isMostly(fact.profile, 'number')) {
    return { plan: { kind: 'elapsed-number', column, unitMs: elapsedUnitMs(fact.heading, fact.unitsCell) }, roles };
  }
  const said = `${fact.heading} ${fact.unitsCell}`.toLowerCase();
  const twoParts = fact.profile.first.filter((cell) => /^\d+:\d+(?:[.,]\d+)?$/.test(cell)).length * 2 > fact.profile.first.length;
  const told = /h+:mm/.test(said) ? 'hours-minutes' : /m+:ss/.test(said) ? 'minutes-seconds' : undefined;
  return { plan: { kind: 'elapsed-clock', column, parts: twoParts ? told : 'three' }, roles };
}

/** The unit of a column of times since 1970 in milliseconds, by its size; later than 2001, so no elapsed time reaches it. */
function epochUnitMs(fact: ColumnFacts): number | undefined {
  const { numbers } = fact.profile;
  for (const unitMs of [1000, 1, 1e-3, 1e-6]) {
    const from = (FIRST_EPOCH_SECONDS * 1000) / unitMs;
    const to = (LAST_EPOCH_SECONDS * 1000) / unitMs;
    const inside = numbers.filter((value) => value >= from && value < to).length;
    if (inside > 0 && inside * 2 >= numbers.length) return unitMs;
  }
  return undefined;
}

function isSerial(fact: ColumnFacts): boolean {
  const { numbers } = fact.profile;
  const inside = numbers.filter((value) => value >= FIRST_SERIAL && value < LAST_SERIAL).length;
  return inside > 0 && inside * 10 >= numbers.length * 9;
}

function isSteadilyRising(fact: ColumnFacts): boolean {
  const head = fact.profile.numbers.slice(0, 200);
  const step = (head[1] ?? 0) - (head[0] ?? 0);
  if (head.length < 3 || step <= 0 || fact.hint === 'counter') return false;
  const even = head.filter((value, index) => index > 0 && Math.abs(value - (head[index - 1] ?? 0) - step) <= step / 10).length;
  return even >= (head.length - 1) * 0.8;
}

function isAllMidnight(fact: ColumnFacts): boolean {
  return fact.profile.first.every((cell) => /(?:\s|T)0{1,2}:00(?::00(?:\.0+)?)?$/.test(cell) || /12:00(?::00)?\s?am$/i.test(cell));
}
