/** How packs are weighed, and how many more of the target there are. Pure. */
import { GRAMS_PER_POUND } from '../../../app/measures/mass.ts';

export interface Scale {
  readonly weighed: 'net' | 'gross';
  readonly tare: string;
  readonly target: string;
}

const GRAMS_PER = { lb: GRAMS_PER_POUND, kg: 1000 } as const;

/** The target in grams; null where none or no number is typed. */
export function targetGrams(target: string, unit: keyof typeof GRAMS_PER): number | null {
  const value = Number(target.trim());
  return target.trim() !== '' && Number.isFinite(value) && value > 0 ? value * GRAMS_PER[unit] : null;
}

/** Whole packs of the target that are still left; null where nothing can be said. */
export function packsToCome(leftGrams: number | null, target: number | null): number | null {
  return leftGrams === null || target === null ? null : Math.floor(leftGrams / target + 1e-9);
}
