/** What is said of a batch under a set: never that it is good, only which published limits its record meets. */
import type { LimitSet } from './limit-set.ts';
import type { Verdict } from './verdict.ts';

/** “Meets all 6 limits of … version …; not judged here: raw, thaw.” */
export function verdictWords(set: LimitSet, verdicts: readonly Verdict[], verdict: Verdict, notJudgedHere: readonly string[]): string {
  const applying = verdicts.filter((one) => one !== 'does-not-apply');
  const count = (...kinds: Verdict[]) => applying.filter((one) => kinds.includes(one)).length;
  const limits = (number: number) => `${number} limit${number === 1 ? '' : 's'} of ${set.name} version ${set.version}`;
  const left = notJudgedHere.length === 0 ? '' : `; not judged here: ${notJudgedHere.join(', ')}`;
  return `${said()}${left}.`;

  function said(): string {
    if (applying.length === 0) return `No limit of ${set.name} version ${set.version} applies, so nothing is proven`;
    switch (verdict) {
      case 'meets': return `Meets all ${limits(applying.length)}`;
      case 'meets-within-error': return `Meets all ${limits(applying.length)}, ${count('meets-within-error')} within the thermometer’s error`;
      case 'open': return `So far: ${count('meets', 'meets-within-error')} of ${limits(applying.length)} met`;
      case 'misses': return `Does not meet ${count('misses')} of ${limits(applying.length)}`;
      case 'no-figure': return `Not proven: ${set.name} version ${set.version} gives no figure for ${count('no-figure')} of ${applying.length} limits`;
      default: return `Not proven: ${count('not-proven', 'no-figure')} of ${limits(applying.length)}`;
    }
  }
}
