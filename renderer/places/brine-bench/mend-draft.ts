/** A trouble between what is typed on the page and what the back room is asked. Pure. */
import type { Mend } from '../../../app/contract/requests/brine-bench.ts';
import type { MendPlan, Trouble } from '../../../app/contract/requests/tub.ts';

export type TroubleKind = Mend['kind'];

/** In the order a kitchen meets them. */
export const TROUBLE_KINDS = ['too-strong', 'too-weak', 'spilled', 'ran-out', 'wrong-salt', 'too-salty'] as const satisfies readonly TroubleKind[];

/** Every figure as it stands in the fields; a kind reads only its own. */
export interface MendDraft {
  readonly measuredBy: 'float' | 'percent';
  readonly degrees: string;
  readonly brine: string;
  readonly percent: string;
  readonly left: string;
  readonly ingredientId: string;
  readonly there: string;
  readonly insteadId: string;
  readonly meantFormId: string;
  readonly usedFormId: string;
  readonly tested: string;
  readonly wanted: string;
}

export interface KitchenUnits {
  readonly temperatureUnit: 'F' | 'C';
  readonly massUnit: 'lb' | 'kg';
}

export function emptyMend(): MendDraft {
  return { measuredBy: 'float', degrees: '', brine: '', percent: '', left: '', ingredientId: '', there: '', insteadId: '', meantFormId: '', usedFormId: '', tested: '', wanted: '' };
}

/** The trouble as it is asked, or null while a figure of its kind is still empty; whether figures make sense the back room says. */
export function troubleOf(kind: TroubleKind, draft: MendDraft, units: KitchenUnits): Trouble | null {
  switch (kind) {
    case 'too-strong':
    case 'too-weak': {
      const measured = measuredOf(draft, units);
      return measured === null ? null : { kind, measured };
    }
    case 'spilled':
      return isEmpty(draft.left) ? null : { kind, left: { text: draft.left, unit: units.massUnit } };
    case 'ran-out':
      return isEmpty(draft.ingredientId, draft.there) ? null : {
        kind, ingredientId: draft.ingredientId, there: { text: draft.there, unit: 'g' }, insteadId: draft.insteadId === '' ? null : draft.insteadId,
      };
    case 'wrong-salt':
      return isEmpty(draft.ingredientId, draft.meantFormId, draft.usedFormId) ? null : {
        kind, ingredientId: draft.ingredientId, meantFormId: draft.meantFormId, usedFormId: draft.usedFormId,
      };
    case 'too-salty':
      return isEmpty(draft.tested, draft.wanted) ? null : { kind, testedPercent: draft.tested, wantedPercent: draft.wanted };
  }
}

/** Whether a plan is to leave all as it is: then there is no mend to keep. */
export function isNothingToDo({ steps, before, after }: Pick<MendPlan, 'steps' | 'before' | 'after'>): boolean {
  const isSame = before.totalGrams === after.totalGrams && before.percentByWeight === after.percentByWeight;
  return isSame && steps.every((step) => step.grams === null && step.hours === null);
}

function measuredOf(draft: MendDraft, units: KitchenUnits): Extract<Trouble, { kind: 'too-strong' }>['measured'] | null {
  if (draft.measuredBy === 'percent') return isEmpty(draft.percent) ? null : { by: 'percent', percent: draft.percent };
  return isEmpty(draft.degrees, draft.brine) ? null : { by: 'float', degrees: draft.degrees, brine: { text: draft.brine, unit: units.temperatureUnit } };
}

function isEmpty(...fields: readonly string[]): boolean {
  return fields.some((field) => field.trim() === '');
}
