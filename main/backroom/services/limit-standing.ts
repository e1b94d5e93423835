/** Whether a limit set may decide: it was read in full, or the kitchen confirmed every figure that wasn't seen. */
import type { Confirmation } from '../../../app/contract/requests/limits.ts';
import { checkIdsOf, findCheck, findSet, sourceOf, type LimitBook, type LimitSet, type SourceMark } from '../../../app/limits/limit-set.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom, OpenBook } from '../room.ts';

const UNSEEN: readonly SourceMark[] = ['second-hand', 'from memory'];

/** The set our own choice fell on where no other may decide. */
export const FALLBACK_SET_ID = 'lodge-default';

/** The latest confirmation of each check, by check id; none without a book. */
export function confirmationsOf(book: OpenBook | null): ReadonlyMap<string, Confirmation> {
  const confirmations = book?.shelf('confirmations').all() ?? [];
  return new Map(confirmations.map(({ id: _id, ...confirmation }) => [confirmation.checkId, confirmation]));
}

/** The checks of a set that rest on memory or a second-hand text and that nobody has confirmed, in the set's order. */
export function unconfirmedChecks(limits: LimitBook, set: LimitSet, confirmed: ReadonlyMap<string, unknown>): string[] {
  return checkIdsOf(set).filter((checkId) => {
    const check = findCheck(limits, checkId);
    return check !== undefined && UNSEEN.includes(sourceOf(check, set).mark) && !confirmed.has(checkId);
  });
}

/** True where the set may decide batches of this kitchen. */
export function mayDecide(limits: LimitBook, set: LimitSet, confirmed: ReadonlyMap<string, unknown>): boolean {
  return set.readInFull || unconfirmedChecks(limits, set, confirmed).length === 0;
}

/**
 * The set of an id, if it may decide here.
 * @param path the input's path of the set, for the refusal
 * @throws Refusal NOT_FOUND for an unknown set, RULE_BLOCKS for one that may only be compared against
 */
export function needDecidingSet(room: Pick<BookRoom, 'catalogue'> & { readonly book: OpenBook | null }, setId: string, path: readonly string[]): LimitSet {
  const { limits } = room.catalogue;
  const set = findSet(limits, setId);
  if (set === undefined) {
    const message = `There is no limit set “${setId}”.`;
    throw new Refusal('NOT_FOUND', message, { remedy: 'Choose one from the list.', fields: [{ path: [...path], message }] });
  }
  const confirmed = confirmationsOf(room.book);
  if (mayDecide(limits, set, confirmed)) return set;
  const message = `${set.name} may not decide yet: its texts were not all seen, and ${unconfirmedChecks(limits, set, confirmed).join(', ')} ${unconfirmedChecks(limits, set, confirmed).length === 1 ? 'is' : 'are'} not confirmed.`;
  throw new Refusal('RULE_BLOCKS', message, {
    remedy: 'A manager confirms each figure in the office against the kitchen’s own paper, or choose another set.',
    fields: [{ path: [...path], message }],
  });
}
