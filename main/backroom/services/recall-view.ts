/** A recall as it stands: what adds up, what is missing, and how it stands against the clock. */
import type { RecallView } from '../../../app/contract/requests/recall.ts';
import type { Recall } from '../../../app/contract/requests/trace-shapes.ts';
import { balanceRecall } from '../../../app/packs/recall-balance.ts';
import { RECALL_LIMITS, standOf } from '../../../app/packs/recall-limits.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { batchWeightLine } from './recall-weights.ts';
import { nameOf } from './release.ts';
import { soakMarkMs } from './soak-bath.ts';
import { brineUses } from './trace-brine.ts';

export function viewRecall(room: BookRoom, recall: Recall): RecallView {
  const balance = balanceOf(recall);
  const stand = {
    elapsedMs: Math.max(0, endMs(recall, balance.isWhole, room.clock.nowMs()) - recall.startedAtMs),
    isWhole: balance.isWhole, allReached: recall.calls.every((call) => call.reached !== null), isFinished: recall.finished !== null,
  };
  const batches = batchesOf(room, recall);
  return {
    recall, balance: { ...balance, byWhere: [...balance.byWhere] },
    expected: countExpected(recall),
    brines: brinesUnknown(room, recall),
    unpacked: batches.filter(({ packs }) => packs === 0).map(({ batch }) => nameOf(batch)),
    weights: batches.map(({ batch }) => batchWeightLine(room, batch)),
    limits: RECALL_LIMITS.map((limit) => ({ text: limit.text, source: limit.source, state: standOf(limit, stand) })),
  };
}

/** Until the last pack was accounted for; else until it was ended, or now. */
function endMs(recall: Recall, isWhole: boolean, nowMs: number): number {
  if (isWhole) return Math.max(...recall.packs.map(({ found }) => found?.atMs ?? 0));
  return recall.finished?.atMs ?? nowMs;
}

export function balanceOf(recall: Recall): ReturnType<typeof balanceRecall> {
  return balanceRecall(recall.packs.map(({ grams, found }) => ({ grams, where: found?.where ?? null })));
}

function countExpected(recall: Recall): RecallView['expected'] {
  const counts = new Map<string, number>();
  for (const { expected } of recall.packs) counts.set(expected, (counts.get(expected) ?? 0) + 1);
  return [...counts].map(([where, packs]) => ({ where, packs }));
}

/** Batches whose brine was used before, the book can't say for which, and that went in after a batch of the recall did. */
function brinesUnknown(room: BookRoom, { batchIds }: Recall): string[] {
  const all = room.book.shelf('batches').all();
  const startOf = (batch: StoredBatch): number => soakMarkMs(batch, 'start') ?? Infinity;
  const firstMs = Math.min(...all.filter(({ id }) => batchIds.includes(id)).map(startOf));
  return brineUses(all).unknown.filter((batch) => !batchIds.includes(batch.id) && startOf(batch) > firstMs).map(nameOf);
}

function batchesOf(room: BookRoom, recall: Recall): { readonly batch: StoredBatch; readonly packs: number }[] {
  const batchOfPack = recall.packs.map(({ packId }) => room.book.shelf('packs').need(packId).batchId);
  return [...new Set([...recall.batchIds, ...batchOfPack])].map((batchId) => ({ batch: room.book.shelf('batches').need(batchId), packs: batchOfPack.filter((id) => id === batchId).length }));
}
