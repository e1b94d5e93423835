/** Whether a limit set may decide: it was read in full, or the kitchen confirmed every figure that wasn't seen; and it is in force. */
import type { Confirmation } from '../../../app/contract/requests/limits.ts';
import { checkIdsOf, findCheck, findSet, isInForce, sourceOf, type LimitBook, type LimitSet, type SourceMark } from '../../../app/limits/limit-set.ts';
import { Refusal } from '../refusal.ts';
import type { Clock, OpenBook } from '../room.ts';
import { kitchenDay, limitsOf, publishedIdOf, type LimitRoom } from './own-set-book.ts';
import { sayDay } from './when.ts';

const UNSEEN: readonly SourceMark[] = ['second-hand', 'from memory'];

/** The set our own choice fell on where no other may decide. */
export const FALLBACK_SET_ID = 'lodge-default';

/** Whether a text was never seen by us itself. */
export function isUnseen(mark: SourceMark): boolean {
  return UNSEEN.includes(mark);
}

/** The latest confirmation of each check, by check id; none without a book. */
export function confirmationsOf(book: OpenBook | null): ReadonlyMap<string, Confirmation> {
  const confirmations = book?.shelf('confirmations').all() ?? [];
  return new Map(confirmations.map(({ id: _id, ...confirmation }) => [confirmation.checkId, confirmation]));
}

/**
 * The checks of a set that rest on memory or a second-hand text and that nobody has confirmed, in the set's order.
 * A figure of an own set that was tightened from a text nobody saw rests on that text still.
 */
export function unconfirmedChecks(limits: LimitBook, set: LimitSet, confirmed: ReadonlyMap<string, unknown>): string[] {
  return checkIdsOf(set).filter((checkId) => {
    const check = findCheck(limits, checkId);
    return check !== undefined && isUnseen(sourceOf(check, set).mark) && !confirmed.has(publishedIdOf(set, checkId));
  });
}

/** True where the set may decide batches of this kitchen. */
export function mayDecide(limits: LimitBook, set: LimitSet, confirmed: ReadonlyMap<string, unknown>): boolean {
  return set.readInFull || unconfirmedChecks(limits, set, confirmed).length === 0;
}

/**
 * The set of an id, if it may decide here today.
 * @param path the input's path of the set, for the refusal
 * @throws Refusal NOT_FOUND for an unknown set, RULE_BLOCKS for one that may only be compared against or isn't in force today
 */
export function needDecidingSet(room: LimitRoom & { readonly clock: Clock }, setId: string, path: readonly string[]): LimitSet {
  const limits = limitsOf(room);
  const set = findSet(limits, setId);
  if (set === undefined) {
    const message = `There is no limit set “${setId}”.`;
    throw new Refusal('NOT_FOUND', message, { remedy: 'Choose one from the list.', fields: [{ path: [...path], message }] });
  }
  const confirmed = confirmationsOf(room.book);
  if (!mayDecide(limits, set, confirmed)) {
    const unconfirmed = unconfirmedChecks(limits, set, confirmed);
    const message = `${set.name} may not decide yet: its texts were not all seen, and ${unconfirmed.join(', ')} ${unconfirmed.length === 1 ? 'is' : 'are'} not confirmed.`;
    throw new Refusal('RULE_BLOCKS', message, {
      remedy: 'A manager confirms each figure in the office against the kitchen’s own paper, or choose another set.',
      fields: [{ path: [...path], message }],
    });
  }
  if (room.book !== null) refuseOutOfForce(set, kitchenDay({ book: room.book, clock: room.clock }), path);
  return set;
}

function refuseOutOfForce(set: LimitSet, day: string, path: readonly string[]): void {
  if (isInForce(set, day)) return;
  const when = day < set.effectiveFrom ? `is in force only from ${sayDay(set.effectiveFrom)}` : `was in force until ${sayDay(set.effectiveUntil ?? '')}`;
  const message = `${set.name}, version ${set.version}, ${when}.`;
  throw new Refusal('RULE_BLOCKS', message, { remedy: 'Choose a set that is in force today.', fields: [{ path: [...path], message }] });
}
