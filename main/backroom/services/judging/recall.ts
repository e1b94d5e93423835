/** Judgements kept for as long as nothing they rest on has changed, so that a list of batches stays quick. */
import { canonicalJson, sha256Hex } from '../../book/canonical.ts';

/** More than a lodge has under way at once; the longest unused goes first. */
const MOST_KEPT = 200;
const kept = new Map<string, unknown>();

/**
 * The judgement of an input, judged only when this very input was not judged before.
 * @param input everything the judgement depends on: plain data, told apart by its canonical digest
 */
export function recallJudgement<T>(input: unknown, judge: () => T): T {
  const key = sha256Hex(canonicalJson(input));
  const known = kept.get(key);
  const judgement = known === undefined ? judge() : (known as T);
  kept.delete(key);
  kept.set(key, judgement);
  if (kept.size > MOST_KEPT) {
    const [oldest] = kept.keys();
    if (oldest !== undefined) kept.delete(oldest);
  }
  return judgement;
}
