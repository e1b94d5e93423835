/** What recalls in earnest say of a batch or a pack beside the decisions about it: a drill says nothing. */
import type { FoundWhere, Recall } from '../../../app/contract/requests/trace-shapes.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { grow, scopeNow } from './recall-scope.ts';
import { nameOf } from './release.ts';
import { sayInstant } from './when.ts';

export type FoundAway = Exclude<FoundWhere, 'in-store'>;

/** A recall that runs and takes a batch in, with what was made since it began; null where none does. */
export async function recallOf(room: BookRoom, batchId: string): Promise<Recall | null> {
  for (const kept of inEarnest(room).filter(({ finished }) => finished === null)) {
    if (grow(kept, await scopeNow(room, kept)).batchIds.includes(batchId)) return kept;
  }
  return null;
}

/**
 * A recall that runs and names a batch, or a bag that went into its brine: a correction may have said so since, and the
 * recall holds the batch only at its next step.
 */
export function recallNaming(room: BookRoom, { id, ingredientLotIds = [] }: StoredBatch): Recall | null {
  return inEarnest(room).find(({ finished, batchIds, about }) => finished === null
    && (batchIds.includes(id) || (about.kind === 'ingredient-lot' && ingredientLotIds.includes(about.id)))) ?? null;
}

/** Nothing is released, packed, labelled or given away while it is called back. */
export function refuseRecalled(room: BookRoom, batch: StoredBatch, recall: Recall | null): void {
  if (recall === null) return;
  throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} is part of the recall of ${recall.about.label}, which began at ${sayInstant(room, recall.startedAtMs)} and isn’t ended.`, {
    remedy: 'End the recall first, with what was found. Until then it stays on HOLD.',
  });
}

/** Where a pack was last ticked in a recall, if that was anywhere but in store. */
export function tickedAway(room: BookRoom, packId: string): { readonly where: FoundAway; readonly label: string } | undefined {
  const ticks = inEarnest(room).flatMap(({ about, packs }) => packs.flatMap(({ packId: id, found }) => (id === packId && found !== null ? [{ where: found.where, label: about.label }] : [])));
  const last = ticks.at(-1);
  return last === undefined || last.where === 'in-store' ? undefined : { ...last, where: last.where };
}

function inEarnest(room: BookRoom): Recall[] {
  return room.book.shelf('recalls').all().filter(({ isDrill }) => !isDrill);
}
