/** The strength tool between what is typed and what comes out: everything is worked out on the page. Pure. */
import { percentFromStem, strengthInTub, tradeStrength, tradeStrengthOfPercent, type StemScale, type TradeForm, type TradeStrength, type TubStrength } from '../../../app/brine/forms.ts';
import { good, type Outcome } from '../../../app/measures/outcome.ts';
import { words } from '../../words/words.ts';
import { numberOf } from './recipe-target.ts';

const text = words.brineBench.strengthTool;

export interface StrengthDraft {
  readonly by: 'figure' | 'reading';
  readonly form: TradeForm;
  readonly stem: StemScale;
  readonly figure: string;
  /** In the kitchen's degrees. */
  readonly temperature: string;
  readonly sugar: string;
}

export interface StrengthFound {
  /** Salt by weight of the whole brine, its sugar counted. */
  readonly percent: number;
  /** The brine's salt and water alone, in every form: its sugar is in none of them. */
  readonly forms: TradeStrength;
  readonly tub: TubStrength;
}

/** Null while a field is empty. A fault names `figure`, `temperature` or `sugar`. */
export type StrengthAnswer = Outcome<StrengthFound> | null;

/** A kitchen's usual: a cold brine without sugar. */
export function emptyStrength(unit: 'F' | 'C'): StrengthDraft {
  return { by: 'figure', form: 'salometerDegrees', stem: 'salometerDegrees', figure: '', temperature: unit === 'F' ? '38' : '3.3', sugar: '0' };
}

/**
 * Every form of what was typed.
 * @param unit of the typed temperature
 */
export function workOut(draft: StrengthDraft, unit: 'F' | 'C'): StrengthAnswer {
  if ([draft.figure, draft.temperature, draft.sugar].some((typed) => typed.trim() === '')) return null;
  const [figure, temperature, sugarPercent] = [numberOf(draft.figure), numberOf(draft.temperature), numberOf(draft.sugar)];
  if (figure === null) return unread('figure');
  if (temperature === null) return unread('temperature');
  if (sugarPercent === null) return unread('sugar');
  const celsius = unit === 'F' ? (temperature - 32) / 1.8 : temperature;
  const percent = draft.by === 'reading'
    ? percentFromStem({ scale: draft.stem, shown: figure, celsius, sugarPercent })
    : percentOfForm(draft.form, figure, sugarPercent);
  if (!percent.ok) return renamed(percent);
  const tub = strengthInTub(percent.value, celsius, sugarPercent);
  if (!tub.ok) return renamed(tub);
  return good({ percent: percent.value, forms: tradeStrengthOfPercent(tub.value.waterPhasePercent), tub: tub.value });
}

/** A strength by weight is of the whole brine; every other form is of its salt and water, as the trade's tables have it. */
function percentOfForm(form: TradeForm, figure: number, sugarPercent: number): Outcome<number> {
  const forms = tradeStrength(form, figure);
  if (!forms.ok) return forms;
  return good(form === 'percentByWeight' ? forms.value.percentByWeight : forms.value.percentByWeight * (100 - sugarPercent) / 100);
}

/** A fault's key as the page's own field. */
function renamed(fault: Extract<Outcome<never>, { ok: false }>): Extract<Outcome<never>, { ok: false }> {
  const field = fault.problem.field === 'celsius' ? 'temperature' : fault.problem.field === 'sugarPercent' ? 'sugar' : 'figure';
  return { ok: false, problem: { ...fault.problem, field } };
}

function unread(field: 'figure' | 'temperature' | 'sugar'): Extract<Outcome<never>, { ok: false }> {
  return { ok: false, problem: { message: text.notANumber, field } };
}
