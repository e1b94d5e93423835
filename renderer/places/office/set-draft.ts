/** The draft of a kitchen's own set: figures changed, and whether each asks more or less than the published one. */
import type { ChangeableFigure, FigureChange } from '../../../app/contract/requests/limits-office.ts';
import { strictnessOf } from '../../../app/limits/figures.ts';
import { ticksFromDecimal } from '../../../app/measures/temperature.ts';
import { words } from '../../words/words.ts';

const text = words.office.limitsPages;

/** Figures typed for one check, by field; an empty one stays as published. */
export type TypedFigures = Readonly<Record<string, string>>;

/** What a typed figure would do; null where nothing is typed. */
export function figureVerdict(figure: ChangeableFigure, typed: string): 'tighter' | 'looser' | 'same' | 'bad' | null {
  const value = typed.trim().replace('\u2212', '-');
  if (value === '') return null;
  if (!/^-?\d+(\.\d+)?$/.test(value)) return 'bad';
  if (figure.unit === 'F' || figure.unit === 'C') {
    const read = ticksFromDecimal(value, figure.unit);
    if (!read.ok || read.value.lowTicks !== read.value.highTicks) return 'bad';
  }
  return strictnessOf(figure, { field: figure.field, value });
}

/** The changes of one check for `limits.addSet`: every figure that is typed and differs. */
export function changesOf(checkId: string, figures: readonly ChangeableFigure[], typed: TypedFigures): FigureChange[] {
  return figures.flatMap((figure) => {
    const value = (typed[figure.field] ?? '').trim().replace('\u2212', '-');
    const verdict = figureVerdict(figure, value);
    return verdict === null || verdict === 'same' ? [] : [{ checkId, field: figure.field, value, ...(figure.unit === 'F' || figure.unit === 'C' ? { unit: figure.unit } : {}) }];
  });
}

/** What a figure is called on screen. */
export function figureLabel(field: string): string {
  const target = /^target-(\d+)(-minutes)?$/.exec(field);
  if (target !== null) return target[2] === undefined ? text.target(Number(target[1])) : text.targetTime(Number(target[1]));
  return text.fields[field] ?? field;
}

/** “145 °F”. */
export function figureText({ value, unit }: Pick<ChangeableFigure, 'value' | 'unit'>): string {
  return `${value.replace('-', '\u2212')} ${text.units[unit]}`;
}
