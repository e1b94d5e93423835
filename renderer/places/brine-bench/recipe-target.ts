/** A recipe's target between the page's one figure and the contract's keys. */
import type { BrineTarget } from '../../../app/contract/requests/recipes.ts';
import { words } from '../../words/words.ts';

const text = words.recipes.targets;

export const WET_TARGETS = ['brineSalometer', 'brinePercent', 'fishEquilibriumWaterPhasePercent', 'finishedWaterPhasePercent'] as const;
export const DRY_TARGETS = ['curePerFishPercent', 'fishEquilibriumWaterPhasePercent', 'finishedWaterPhasePercent'] as const;
export type TargetForm = (typeof WET_TARGETS)[number] | (typeof DRY_TARGETS)[number];

/** A target in words. */
export function sayTarget(target: BrineTarget): string {
  if ('brinePercent' in target) return text.brinePercent(String(target.brinePercent));
  if ('brineSalometer' in target) return text.brineSalometer(String(target.brineSalometer));
  if ('curePerFishPercent' in target) return text.curePerFishPercent(String(target.curePerFishPercent));
  if ('fishEquilibriumWaterPhasePercent' in target) return text.fishEquilibriumWaterPhasePercent(String(target.fishEquilibriumWaterPhasePercent));
  return text.finishedWaterPhasePercent(String(target.finishedWaterPhasePercent), String(target.yieldPercent));
}

/** The form of a target and its figures, for a form on the page. */
export function targetFields(target: BrineTarget): { form: TargetForm; figure: string; yieldPercent: string } {
  const yieldPercent = 'yieldPercent' in target ? String(target.yieldPercent) : '';
  for (const form of [...WET_TARGETS, ...DRY_TARGETS]) {
    const figure = (target as Partial<Record<TargetForm, number>>)[form];
    if (figure !== undefined) return { form, figure: String(figure), yieldPercent };
  }
  throw new Error('a target without a figure');
}

/** A target of a form and what was typed; null where it is no number. */
export function targetOf(form: TargetForm, figure: string, yieldText: string): BrineTarget | null {
  const [value, yieldPercent] = [numberOf(figure), numberOf(yieldText)];
  if (value === null) return null;
  if (form === 'finishedWaterPhasePercent') return yieldPercent === null ? null : { finishedWaterPhasePercent: value, yieldPercent };
  switch (form) {
    case 'brinePercent': return { brinePercent: value };
    case 'brineSalometer': return { brineSalometer: value };
    case 'curePerFishPercent': return { curePerFishPercent: value };
    case 'fishEquilibriumWaterPhasePercent': return { fishEquilibriumWaterPhasePercent: value };
  }
}

/** A typed number, or null: an empty box is no number. */
export function numberOf(typed: string): number | null {
  const value = Number(typed.trim());
  return typed.trim() === '' || !Number.isFinite(value) ? null : value;
}
