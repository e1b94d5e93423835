/** Which questions a change of the book may give another answer to. Pure; in doubt a question is touched. */
import type { BookEvent } from '../../app/contract/events.ts';
import type { RequestName } from '../../app/contract/names.ts';

/** What no reading, mark or verdict changes: lists that people keep in the office and at the brine bench. */
const KEPT_LISTS: ReadonlySet<RequestName> = new Set<RequestName>([
  'book.status', 'book.propose', 'office.get', 'limits.list', 'limits.own', 'paper.list', 'fish.species', 'stock.list',
  'recipe.list', 'recipe.versions', 'recipe.export', 'ingredient.list', 'taste.list', 'taste.get', 'brine.card',
]);

type Change = Pick<BookEvent, 'subject'> & { readonly ids: readonly string[] };

/**
 * Whether an event may change the answer to a question; null is the event that says nothing of what changed.
 * @param question the request's name and its input, as the question is kept under
 */
export function isTouched([name, input]: readonly unknown[], event: Change | null): boolean {
  if (event === null) return true;
  const { subject, ids } = event;
  if (subject === 'feeds') return typeof name === 'string' && name.startsWith('feed.');
  if (subject !== 'readings' && subject !== 'load' && subject !== 'verdict') return true;
  if (KEPT_LISTS.has(name as RequestName)) return false;
  if (name === 'series.get') return subject === 'readings' && pointIdsOf(input).some((id) => typeof id === 'string' && ids.includes(id));
  return true;
}

function pointIdsOf(input: unknown): readonly unknown[] {
  return typeof input === 'object' && input !== null && 'pointIds' in input && Array.isArray(input.pointIds) ? input.pointIds : [];
}
