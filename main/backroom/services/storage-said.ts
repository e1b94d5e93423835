/** How a pack of a batch must be kept and thawed, in the words its label will carry. */
import { composeLabel } from '../../../app/packs/compose-label.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { choiceOf } from './label-choice.ts';
import { labelInput } from './label-input.ts';
import type { Keeping } from './judging/compose.ts';
import { standingDecision } from './release.ts';
import { loadOfBatch } from './taken-out.ts';

/** Storage words: the rule's number on a label. */
const STORAGE = 'L08';

/** Of the label as it would be composed now, before any pack is weighed; empty while the batch isn't released. */
export function storageWordsOf(room: BookRoom, batch: StoredBatch, keeping: Keeping): { text: string; source: string }[] {
  const release = standingDecision(room, batch.id);
  if (release?.decision !== 'release' || batch.lotCode === null || (loadOfBatch(room, batch)?.outAtMs ?? null) === null) return [];
  const pack = {
    id: batch.id, batchId: batch.id, serial: 1, code: `${batch.lotCode}-001`, net: { text: '1', unit: 'lb' as const, grams: 453 }, sealedAtMs: room.clock.nowMs(), sealedBy: release.initials, printedCount: 0,
  };
  const composed = composeLabel(labelInput(room, batch, pack, { ...release, ...keeping }, choiceOf(room.book)), room.catalogue.fish);
  return composed.ok ? composed.value.blocks.filter(({ element }) => element === STORAGE).map(({ text, source }) => ({ text, source })) : [];
}
