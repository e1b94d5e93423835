/** Times as people say them, and the refusals of times that can't be. */
import { localTime } from '../../../app/measures/zone.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';
import { kitchenOf } from './kitchen.ts';

/** How far a clock on the wall may run ahead of this computer's before a time counts as not yet happened. */
const AHEAD_MS = 5 * 60_000;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** The zone of the kitchen whose book is open. */
export function zoneOf(room: BookRoom): string {
  return kitchenOf(room.book).timeZone;
}

/** A calendar day in words, such as `14 Mar 2026`. */
export function sayDay(day: string): string {
  const [year = '', month = '', date = ''] = day.split('-');
  return `${Number(date)} ${MONTHS[Number(month) - 1] ?? month} ${year}`;
}

/** An instant as the kitchen's clock and calendar showed it, such as `14:05 on 14 Mar 2026`. */
export function sayInstant(room: BookRoom, atMs: number): string {
  const { day, clock } = localTime(atMs, zoneOf(room));
  return `${clock} on ${sayDay(day)}`;
}

/** Refuses a time more than 5 minutes ahead of the clock: nothing is recorded before it happened. */
export function refuseFuture(room: BookRoom, atMs: number, path: readonly (string | number)[]): void {
  if (atMs <= room.clock.nowMs() + AHEAD_MS) return;
  refuseInput(`${sayInstant(room, atMs)} is still to come.`, path, 'Give the time at which it happened; check the day too.');
}

/**
 * Refuses a time before the step it follows.
 * @param what the step being entered, beginning a sentence (`The end of smoking`)
 * @param earlier the step it follows, and when that was; null when it never happened
 */
export function refuseBefore(
  room: BookRoom,
  atMs: number,
  what: string,
  earlier: { readonly what: string; readonly atMs: number | null },
  path: readonly (string | number)[],
): void {
  if (earlier.atMs === null || atMs >= earlier.atMs) return;
  refuseInput(`${what} can’t be at ${sayInstant(room, atMs)}: ${earlier.what} was at ${sayInstant(room, earlier.atMs)}.`, path, 'Check both times.');
}
