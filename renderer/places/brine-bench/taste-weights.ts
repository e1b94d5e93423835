/** Weights of a tasting, for the page. */
import type { Tasting } from '../../../app/contract/requests/taste.ts';

/** Grams of all that counts in the tub. */
export function gramsIn(tasting: Tasting): number {
  return tasting.additions.filter((addition) => !addition.struck).reduce((sum, addition) => sum + addition.grams, 0);
}

/** Brine over fish by weight, to two places, where the fillets are weighed; else the usual one to one. */
export function usualRatio(tasting: Tasting): string {
  if (tasting.fillets === null) return '1';
  return String(Math.round((gramsIn(tasting) / tasting.fillets.grams) * 100) / 100);
}

/** Hours as typed with commas or spaces between; null where one of them is no number. */
export function readHours(typed: string): number[] | null {
  const parts = typed.split(/[,;\s]+/).filter((part) => part !== '');
  const hours = parts.map(Number);
  return hours.every(Number.isFinite) ? hours : null;
}
