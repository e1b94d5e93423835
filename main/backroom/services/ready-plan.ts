/** A load as it is about to be lit. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { ReadyItem } from '../../../app/contract/requests/corrective.ts';
import { fitOf } from '../../../app/limits/conditions.ts';
import type { JudgeCase } from '../../../app/limits/judge-case.ts';
import { checkIdsOf, findCheck, type Check } from '../../../app/limits/limit-set.ts';
import type { Stored, StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { limitsOf } from './own-set-book.ts';
import { composeCase } from './judging/compose.ts';
import { keepingOf, setOf } from './judging/judge-batch.ts';

export interface LoadPlan {
  readonly smoker: Stored<'smokers'>;
  readonly batches: readonly StoredBatch[];
  readonly pieces: Parsed<'load.ready'>['pieces'];
}

/** A line that is ready. */
export function isReady(id: ReadyItem['id'], text: string): ReadyItem {
  return { id, state: 'ready', text, needed: '' };
}

/** The checks of a batch's deciding set that apply to it; one that only relaxes another counts only where its conditions are known to hold. */
export function checksOf(room: BookRoom, batch: StoredBatch): Check[] {
  const judged: JudgeCase = { ...composeCase(room, batch, keepingOf(room, batch)).judgeCase, errorTicks: 0 };
  return checkIdsOf(setOf(room, batch.setId)).flatMap((id) => findCheck(limitsOf(room), id) ?? []).filter((check) => {
    const { fit } = fitOf(check.conditions, judged);
    return fit === 'holds' || (fit === 'not-given' && check.relaxes !== true);
  });
}
