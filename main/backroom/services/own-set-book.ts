/** The book of limits of this kitchen: the published sets and its own, and which version of an own set is in force. */
import { isInForce, type LimitBook, type LimitSet } from '../../../app/limits/limit-set.ts';
import { bookWith, type OwnSet } from '../../../app/limits/own-set.ts';
import { localDay } from '../../../app/measures/zone.ts';
import type { BookRoom, OpenBook, Room } from '../room.ts';
import { kitchenOf } from './kitchen.ts';

/** What the limits of a kitchen are read from; without a book there are only the published ones. */
export type LimitRoom = Pick<Room, 'catalogue'> & { readonly book: OpenBook | null };

/**
 * The published sets and checks with the kitchen's own beside them. Every service reads limits from here.
 *
 * Each version of an own set has an id of its own and is never changed afterwards, so a batch, which
 * keeps the id it was made under, is judged by the same figures however often the set is changed later.
 */
export function limitsOf(room: LimitRoom): LimitBook {
  const own = ownSetsOf(room.book);
  return own.length === 0 ? room.catalogue.limits : bookWith(room.catalogue.limits, own);
}

/** Every version of every own set, oldest first. */
export function ownSetsOf(book: OpenBook | null): OwnSet[] {
  return book?.shelf('ownSets').all().map(({ body }) => body) ?? [];
}

/** Whether a set is the kitchen's own. */
export function isOwnSet(set: LimitSet): set is OwnSet {
  return 'ownChecks' in set;
}

/** The published check that an own set's check stands for; any other check's own id. */
export function publishedIdOf(set: LimitSet, checkId: string): string {
  return isOwnSet(set) ? (set.changes.find((change) => change.ownId === checkId)?.checkId ?? checkId) : checkId;
}

/** Versions of one own set go by its name. */
export function isSameName(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase();
}

/**
 * The version of a set that is in force on a day: of an own set the latest of its name whose day has
 * come, else the set itself.
 * @param day YYYY-MM-DD
 */
export function versionInForce(limits: LimitBook, set: LimitSet, day: string): LimitSet {
  if (!isOwnSet(set)) return set;
  return limits.sets.filter(isOwnSet).findLast((one) => isSameName(one.name, set.name) && isInForce(one, day)) ?? set;
}

/** Today in the kitchen's zone, YYYY-MM-DD. */
export function kitchenDay(room: Pick<BookRoom, 'book' | 'clock'>): string {
  return localDay(room.clock.nowMs(), kitchenOf(room.book).timeZone);
}
