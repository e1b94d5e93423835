/** A brine's figures in words, on screen and on paper. */
import type { Mend } from '../../app/contract/requests/brine-bench.ts';
import { words } from '../words/words.ts';

/** A ratio as a kitchen writes it: two decimals at most. */
export function plainRatio(ratio: number): string {
  return String(Math.round(ratio * 100) / 100);
}

/** “27.9 °SAL, 7.36 %”. */
export function strengthWords(brine: Pick<Mend['before'], 'salometerDegrees' | 'percentByWeight'>): string {
  return words.brineBench.mend.strength(brine.salometerDegrees.toFixed(1), brine.percentByWeight.toFixed(2));
}
