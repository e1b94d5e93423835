/** A new brine between what is typed on the page and what the back room is asked. Pure. */
import type { Input } from '../../../app/contract/contract.ts';
import type { BrineSize } from '../../../app/contract/requests/brine-bench.ts';
import type { BrineTarget, Recipe } from '../../../app/contract/requests/recipes.ts';
import { readThicknessMm } from '../../parts/thickness.ts';
import { words } from '../../words/words.ts';
import { DRY_TARGETS, numberOf, targetOf, WET_TARGETS, type TargetForm } from './recipe-target.ts';

/** The thickest piece that a batch takes. */
export const MOST_MM = 200;

/** Everything as it stands in the fields. */
export interface BrineDraft {
  readonly lotIds: readonly string[];
  readonly weight: string;
  readonly thickest: string;
  readonly thinnest: string;
  readonly skin: 'on' | 'off';
  readonly process: 'hot' | 'cold';
  readonly pack: 'vacuum' | 'air' | 'unpacked';
  readonly store: 'frozen' | 'refrigerated';
  readonly recipeId: string | null;
  readonly sizeBy: BrineSize['by'];
  readonly ratio: string;
  readonly litres: string;
  readonly headroom: string;
  readonly goal: TargetForm | 'recipe';
  readonly goalFigure: string;
  readonly yieldText: string;
  readonly aim: 'likely' | 'low';
  readonly saltFormId: string;
}

/** A field whose text can't be read yet. */
export type BrineGap = 'thickest' | 'thinnest' | 'ratio' | 'litres' | 'headroom' | 'goalFigure' | 'yieldText';

type CardInput = Input<'brine.card'>;

/** A batch by the usual case: vacuum, frozen, hot, the recipe's own ratio and goal. */
export function emptyBrine(): BrineDraft {
  return {
    lotIds: [], weight: '', thickest: '', thinnest: '', skin: 'on', process: 'hot', pack: 'vacuum', store: 'frozen', recipeId: null,
    sizeBy: 'recipe', ratio: '', litres: '', headroom: '15', goal: 'recipe', goalFigure: '', yieldText: '', aim: 'likely', saltFormId: '',
  };
}

/** The goals that a recipe's cure can have. */
export function goalsOf(recipe: Pick<Recipe, 'cure'>): readonly TargetForm[] {
  return recipe.cure === 'wet' ? WET_TARGETS : DRY_TARGETS;
}

/** Whether what the brine is solved for is salt in the finished fish, so that its low end can be aimed at. */
export function aimsAtFinished(draft: BrineDraft, recipe: Pick<Recipe, 'target'>): boolean {
  return draft.goal === 'recipe' ? 'finishedWaterPhasePercent' in recipe.target : draft.goal === 'finishedWaterPhasePercent';
}

/**
 * What the card is asked for.
 * @param recipe the one chosen, or null
 * @returns `input` null while fish, weight or recipe is missing or a choice that counts can't be read; `gaps`
 *   names the fields with text that can't be read. A thickness that can't be read is only left out: the card does
 *   without, the batch does not.
 */
export function readBrine(draft: BrineDraft, recipe: Recipe | null, massUnit: 'lb' | 'kg'): { input: CardInput | null; gaps: readonly BrineGap[] } {
  const [thickestMm, thinnestMm] = [readThicknessMm(draft.thickest, MOST_MM), readThicknessMm(draft.thinnest, MOST_MM)];
  const thicknessGaps: BrineGap[] = [
    ...(draft.thickest.trim() !== '' && thickestMm === null ? ['thickest' as const] : []),
    ...(draft.thinnest.trim() !== '' && thinnestMm === null ? ['thinnest' as const] : []),
  ];
  if (recipe === null) return { input: null, gaps: thicknessGaps };
  const size = recipe.cure === 'dry' ? undefined : sizeOf(draft);
  const target = draft.goal === 'recipe' ? undefined : targetOf(draft.goal, draft.goalFigure, draft.yieldText);
  const gaps = [...thicknessGaps, ...(size === null ? sizeGaps(draft) : []), ...goalGaps(draft)];
  const isUnread = size === null || target === null || gaps.includes('yieldText');
  if (isUnread || draft.lotIds.length === 0 || draft.weight.trim() === '') return { input: null, gaps };
  const yieldPercent = draft.goal === 'finishedWaterPhasePercent' ? null : numberOf(draft.yieldText);
  return {
    gaps,
    input: {
      recipeId: recipe.id, lotIds: [...draft.lotIds], fillets: { text: draft.weight, unit: massUnit },
      ...(thickestMm === null ? {} : { thickestMm, skin: draft.skin }),
      ...(thinnestMm === null ? {} : { thinnestMm }),
      ...(size === undefined ? {} : { size }),
      ...(target === undefined ? {} : { target: target satisfies BrineTarget }),
      ...(yieldPercent === null ? {} : { yieldPercent }),
      ...(draft.aim === 'low' && thickestMm !== null && aimsAtFinished(draft, recipe) ? { aimLowEnd: true } : {}),
      ...(draft.saltFormId === '' ? {} : { saltFormId: draft.saltFormId }),
    },
  };
}

/** The sentence for a field that can't be read. */
export function gapWords(gap: BrineGap): string {
  return gap === 'thickest' || gap === 'thinnest' ? words.parts.thicknessFault(MOST_MM) : words.brineBench.typeNumber;
}

/** Undefined for the recipe's own ratio, null where the figures can't be read. */
function sizeOf(draft: BrineDraft): BrineSize | undefined | null {
  if (draft.sizeBy === 'recipe') return undefined;
  if (draft.sizeBy === 'ratio') {
    const ratio = numberOf(draft.ratio);
    return ratio === null ? null : { by: 'ratio', ratio };
  }
  const [litres, headroomPercent] = [numberOf(draft.litres), numberOf(draft.headroom)];
  return litres === null || headroomPercent === null ? null : { by: 'tub', litres, headroomPercent };
}

/** Empty fields are no fault yet, only unread ones are. */
function sizeGaps(draft: BrineDraft): BrineGap[] {
  const fields = draft.sizeBy === 'ratio' ? (['ratio'] as const) : (['litres', 'headroom'] as const);
  return fields.filter((field) => isUnreadable(draft[field]));
}

function goalGaps(draft: BrineDraft): BrineGap[] {
  const fields = draft.goal === 'recipe' ? (['yieldText'] as const) : (['goalFigure', 'yieldText'] as const);
  return fields.filter((field) => isUnreadable(draft[field]));
}

function isUnreadable(typed: string): boolean {
  return typed.trim() !== '' && numberOf(typed) === null;
}
