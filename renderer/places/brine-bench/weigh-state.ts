/** Which ingredients of a card are weighed, as the page keeps them while the program runs. Pure but for the store it is given. */
import { z } from 'zod';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';

const Kept = z.strictObject({ ingredientIds: z.array(z.string()) });

/** The key of a batch's ticks: a mended brine is another card, and begins without ticks. */
export function weighKey(batch: Pick<Batch, 'id' | 'mends'> & { readonly card: Pick<Batch['card'], 'recipeVersion'> }): string {
  return `alderbook.weighed.${batch.id}.${batch.card.recipeVersion}.${batch.mends.length}`;
}

/**
 * The ticks that were kept.
 * @param text as stored; anything that isn't this page's own is no tick
 * @param ingredientIds of the card: ticks of others are left out
 */
export function readWeighed(text: string | null, ingredientIds: readonly string[]): ReadonlySet<string> {
  const kept = Kept.safeParse(jsonOf(text));
  return new Set(kept.success ? kept.data.ingredientIds.filter((id) => ingredientIds.includes(id)) : []);
}

/** The ticks as they are stored. */
export function writeWeighed(weighed: ReadonlySet<string>): string {
  return JSON.stringify({ ingredientIds: [...weighed] });
}

/** Where weighing goes on: the first place from `from` on that isn't weighed, then from the start; the card's length when all are. */
export function nextPlace(ingredientIds: readonly string[], weighed: ReadonlySet<string>, from: number): number {
  const order = ingredientIds.map((_, index) => (index + from) % ingredientIds.length);
  return order.find((index) => !weighed.has(ingredientIds[index] ?? '')) ?? ingredientIds.length;
}

function jsonOf(text: string | null): unknown {
  if (text === null) return null;
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
