/** The seven verdicts, worst first, and how several become one. */

export const VERDICTS = ['misses', 'not-proven', 'no-figure', 'open', 'meets-within-error', 'meets', 'does-not-apply'] as const;
export type Verdict = (typeof VERDICTS)[number];

/** How bad a verdict is: 0 is worst. A set's silence weighs the same as a record that proves nothing. */
export function rank(verdict: Verdict): number {
  return verdict === 'no-figure' ? VERDICTS.indexOf('not-proven') : VERDICTS.indexOf(verdict);
}

/** Below zero when `left` is worse than `right`; between equals the one listed first is worse. */
export function compareVerdicts(left: Verdict, right: Verdict): number {
  return rank(left) - rank(right) || VERDICTS.indexOf(left) - VERDICTS.indexOf(right);
}

/** The worst of those that apply; `not-proven` when none does, because nothing is no proof. */
export function worst(verdicts: Iterable<Verdict>): Verdict {
  let found: Verdict | undefined;
  for (const verdict of verdicts) {
    if (verdict !== 'does-not-apply' && (found === undefined || compareVerdicts(verdict, found) < 0)) found = verdict;
  }
  return found ?? 'not-proven';
}

/** The best of those that apply; undefined when none does. */
export function best(verdicts: Iterable<Verdict>): Verdict | undefined {
  let found: Verdict | undefined;
  for (const verdict of verdicts) {
    if (verdict !== 'does-not-apply' && (found === undefined || compareVerdicts(verdict, found) > 0)) found = verdict;
  }
  return found;
}

/** Whether a verdict lets the batch go on, with a person's initials where it is within the instrument's error. */
export function isMet(verdict: Verdict): boolean {
  return verdict === 'meets' || verdict === 'meets-within-error';
}
