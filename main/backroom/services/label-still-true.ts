/** Whether the label that was printed last still says what is in its pack and whose that is: the record may have been corrected since. */
import type { Pack } from '../../../app/contract/requests/packing.ts';
import { composeLabel } from '../../../app/packs/compose-label.ts';
import type { LabelBlock } from '../../../app/packs/label-types.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import type { Keeping } from './judging/compose.ts';
import { choiceOf } from './label-choice.ts';
import { labelInput } from './label-input.ts';

/** Name, ingredients, allergens. */
const OF_FISH = ['L01', 'L04', 'L05'];
const OWNER = 'Owner: ';

/** What a label printed now would say of the fish; the same for all packs of a batch. Where none can be printed, why. */
export function wordsOfFish(room: BookRoom, batch: StoredBatch, keeping: Keeping, pack: Pack): readonly string[] {
  const composed = composeLabel(labelInput(room, batch, pack, keeping, choiceOf(room.book)), room.catalogue.fish);
  return composed.ok ? wordsIn(composed.value.blocks) : [composed.problem.message];
}

/** Where the label printed last says otherwise; undefined where it doesn’t, or where none was printed. */
export function whyLabelLies(room: BookRoom, pack: Pack, now: readonly string[]): string | undefined {
  const label = room.book.shelf('prints').where('packId', pack.id).at(-1)?.label;
  if (label === undefined) return undefined;
  const printed = wordsIn(label.blocks);
  const place = Array.from({ length: Math.max(printed.length, now.length) }, (_value, index) => index).find((index) => printed[index] !== now[index]);
  return place === undefined ? undefined : `its label says “${printed[place] ?? ''}”, and by the record it is “${now[place] ?? ''}”.`;
}

function wordsIn(blocks: readonly Pick<LabelBlock, 'element' | 'text'>[]): string[] {
  return blocks.filter(({ element, text }) => OF_FISH.includes(element) || (element === 'L15' && text.startsWith(OWNER))).map(({ text }) => text);
}
