/** Judging a composed case both ways: without the readings that people left out, which decides, and as recorded. */
import type { Confirmation } from '../../../../app/contract/requests/limits.ts';
import type { SetResultWire } from '../../../../app/contract/requests/verdict.ts';
import { applyExclusions, bothWords } from '../../../../app/limits/exclusions.ts';
import type { SetResult } from '../../../../app/limits/judge-set.ts';
import type { LimitBook, LimitSet } from '../../../../app/limits/limit-set.ts';
import type { Words } from '../../../../app/limits/words.ts';
import type { ComposedCase } from './compose.ts';
import { judgeBySet } from './judge-by-set.ts';
import { wireSet } from './wire-set.ts';

/** What a case is judged with. */
export interface JudgedWith {
  readonly limits: LimitBook;
  readonly set: LimitSet;
  readonly words: Words;
  readonly confirmed: ReadonlyMap<string, Confirmation>;
}

export interface BothResults {
  readonly result: SetResult;
  readonly deciding: SetResultWire;
  /** Null where nobody left a reading out. */
  readonly asRecorded: SetResultWire | null;
}

/** The case without what people left out of it. */
export function withoutExcluded(composed: ComposedCase): ComposedCase {
  if ((composed.judgeCase.excluded ?? []).length === 0) return composed;
  const { errorTicks: _none, ...judgeCase } = applyExclusions({ ...composed.judgeCase, errorTicks: 0 }).judged;
  return { ...composed, judgeCase };
}

/** Judges a case, and once more as recorded where people left readings out; both stand in the words then. */
export function judgeComposed({ limits, set, words, confirmed }: JudgedWith, composed: ComposedCase): BothResults {
  const result = judgeBySet(limits, set, withoutExcluded(composed), words);
  const { applied } = applyExclusions({ ...composed.judgeCase, errorTicks: 0 });
  if (applied.length === 0) return { result, deciding: wireSet(limits, set, result, confirmed), asRecorded: null };
  const asRecorded = judgeBySet(limits, set, composed, words);
  const both = bothWords(result.words, asRecorded.words, applied, { ...composed.judgeCase, errorTicks: 0 }, words);
  return { result, deciding: { ...wireSet(limits, set, result, confirmed), words: both }, asRecorded: wireSet(limits, set, asRecorded, confirmed) };
}
