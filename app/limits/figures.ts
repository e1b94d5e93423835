/** The figures of a check: which there are, which way each is stricter, and the same check with others. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { ticksFromDecimal } from '../measures/temperature.ts';
import { compareDecimals, decimalFrom, isDecimal } from './decimals.ts';
import type { Check, DescentCheck, Figure } from './limit-set.ts';
import { limitTicks } from './readings.ts';
import { figureText } from './words.ts';

/** One figure of a check. A descent's targets are `target-1`, `target-1-minutes`, `target-2` and so on. */
export interface CheckFigure {
  readonly field: string;
  readonly value: string;
  readonly unit: 'F' | 'C' | 'min' | 'h' | 'days' | 'months' | 'years' | '%' | 'ppm' | 'pieces' | 'batches' | 'cc/m²';
  /** Which way it asks more of a batch. */
  readonly stricter: 'higher' | 'lower';
}

/** Another value for a figure; a temperature with its own unit, else that of the figure it stands for. */
export interface FigureChange {
  readonly field: string;
  readonly value: string;
  readonly unit?: 'F' | 'C' | undefined;
}

/** Every figure of a check, in the order of its text; none where it asks only that something is there. */
export function figuresOf(check: Check): CheckFigure[] {
  switch (check.kind) {
    case 'hold': return [degrees('limit', check.limit, 'higher'), count('minutes', check.minutes, 'min', 'higher')];
    case 'freeze': return [degrees('limit', check.limit, 'lower'), count('minutes', check.minutes, 'min', 'higher'), ...(check.untilSolid === undefined ? [] : [degrees('untilSolid', check.untilSolid, 'lower')])];
    case 'ceiling': return [degrees('limit', check.limit, 'lower'), ...(check.minutes === undefined ? [] : [count('minutes', check.minutes, 'min', 'lower')])];
    // An earlier start of the clock, at a higher temperature, asks more.
    case 'descent': return [...(check.from === undefined ? [] : [degrees('from', check.from, 'higher')]), ...check.targets.flatMap((target, index) => [degrees(`target-${index + 1}`, target.limit, 'lower'), count(`target-${index + 1}-minutes`, target.minutes, 'min', 'lower')])];
    case 'probe-count': return [count('pieces', check.pieces, 'pieces', 'higher')];
    case 'brine-start': return [degrees('limit', check.limit, 'lower')];
    case 'soak-room': return [degrees('limit', check.limit, 'lower'), count('overMinutes', check.overMinutes, 'min', 'lower')];
    case 'water-phase-salt': return [
      { field: 'percent', value: check.percent, unit: '%', stricter: 'higher' },
      ...(check.nitritePpm === undefined ? [] : [{ field: 'nitriteLeast', value: check.nitritePpm.least, unit: 'ppm', stricter: 'higher' } as const, { field: 'nitriteMost', value: check.nitritePpm.most, unit: 'ppm', stricter: 'lower' } as const]),
    ];
    case 'total-salt': return [{ field: 'percent', value: check.percent, unit: '%', stricter: 'higher' }];
    case 'nitrite-maximum': return [{ field: 'ppm', value: check.ppm, unit: 'ppm', stricter: 'lower' }];
    case 'presence': return [count('batches', check.batches, 'batches', 'lower'), ...(check.freshMinutes === undefined ? [] : [count('freshMinutes', check.freshMinutes, 'min', 'lower')])];
    case 'review': return [count('days', check.days, 'days', 'lower')];
    case 'calibration': return check.within === 'day' ? [] : [count('months', check.within.months, 'months', 'lower')];
    case 'retention': return 'years' in check.length ? [count('years', check.length.years, 'years', 'higher')] : [count('days', check.length.days, 'days', 'higher')];
    case 'label': return [...(check.lifeDays === undefined ? [] : [count('lifeDays', check.lifeDays, 'days', 'lower')]), ...(check.openedHours === undefined ? [] : [count('openedHours', check.openedHours, 'h', 'lower')])];
    case 'film': return [{ field: 'oxygenRate', value: check.oxygenRate, unit: 'cc/m²', stricter: 'higher' }];
    default: return [];
  }
}

/** The same check with other figures; a sentence for a figure it has not, or a value that is none. */
export function withFigures(check: Check, changes: readonly FigureChange[]): Outcome<Check> {
  let changed = check;
  for (const change of changes) {
    const figure = figuresOf(check).find((one) => one.field === change.field);
    if (figure === undefined) return bad(`${check.id} has no figure “${change.field}”.`, change.field, `It has ${figuresOf(check).map((one) => one.field).join(', ') || 'none'}.`);
    const problem = problemOf(figure, change);
    if (problem !== undefined) return bad(problem, change.field, 'Write a plain number, such as 145 or 3.5.');
    changed = replaced(changed, change, { value: change.value.trim(), unit: change.unit ?? (figure.unit === 'C' ? 'C' : 'F') });
  }
  return good(changed);
}

/** How a change compares with the figure it stands for: asks more, less, or the same. Temperatures exactly, across both scales. */
export function strictnessOf(figure: CheckFigure, change: FigureChange): 'tighter' | 'looser' | 'same' {
  const order = isTemperature(figure)
    ? limitTicks({ value: change.value.trim(), unit: change.unit ?? figure.unit }) - limitTicks({ value: figure.value, unit: figure.unit })
    : compareDecimals(decimalFrom(change.value), decimalFrom(figure.value));
  if (order === 0) return 'same';
  return order > 0 === (figure.stricter === 'higher') ? 'tighter' : 'looser';
}

/** “145 °F”, “30 min”, “3.5 %”. */
export function figureWords(figure: CheckFigure, change: FigureChange = figureAsChange(figure)): string {
  return isTemperature(figure) ? figureText({ value: change.value.trim(), unit: change.unit ?? figure.unit }) : `${change.value.trim()} ${figure.unit}`;
}

function figureAsChange(figure: CheckFigure): FigureChange {
  return { field: figure.field, value: figure.value };
}

function isTemperature(figure: CheckFigure): figure is CheckFigure & { readonly unit: 'F' | 'C' } {
  return figure.unit === 'F' || figure.unit === 'C';
}

function degrees(field: string, { value, unit }: Figure, stricter: CheckFigure['stricter']): CheckFigure {
  return { field, value, unit, stricter };
}

function count(field: string, value: number, unit: CheckFigure['unit'], stricter: CheckFigure['stricter']): CheckFigure {
  return { field, value: String(value), unit, stricter };
}

function problemOf(figure: CheckFigure, { value, unit }: FigureChange): string | undefined {
  if (!/^-?\d+(\.\d+)?$/.test(value.trim()) || !isDecimal(value)) return `“${value}” is not a number.`;
  if (isTemperature(figure)) {
    const read = ticksFromDecimal(value.trim(), unit ?? figure.unit);
    if (!read.ok) return read.problem.message;
    return read.value.lowTicks === read.value.highTicks ? undefined : `${value} °${unit ?? figure.unit} has too many decimals to be compared exactly.`;
  }
  const isDecimalFigure = ['%', 'ppm', 'cc/m²'].includes(figure.unit);
  if (Number(value) < 0 || (!isDecimalFigure && Number(value) === 0)) return `${value} ${figure.unit} can’t be right.`;
  return isDecimalFigure || /^\d+$/.test(value.trim()) ? undefined : `${value} ${figure.unit} is not a whole number.`;
}

function replaced(check: Check, { field }: FigureChange, figure: Figure): Check {
  const whole = Number(figure.value);
  switch (check.kind) {
    case 'hold': return field === 'limit' ? { ...check, limit: figure } : { ...check, minutes: whole };
    case 'freeze': return field === 'limit' ? { ...check, limit: figure } : field === 'untilSolid' ? { ...check, untilSolid: figure } : { ...check, minutes: whole };
    case 'ceiling': return field === 'limit' ? { ...check, limit: figure } : { ...check, minutes: whole };
    case 'descent': return withTarget(check, field, figure);
    case 'probe-count': return { ...check, pieces: whole };
    case 'brine-start': return { ...check, limit: figure };
    case 'soak-room': return field === 'limit' ? { ...check, limit: figure } : { ...check, overMinutes: whole };
    case 'water-phase-salt': {
      if (field === 'percent') return { ...check, percent: figure.value };
      const range = check.nitritePpm ?? { least: '0', most: '0' };
      return { ...check, nitritePpm: field === 'nitriteLeast' ? { ...range, least: figure.value } : { ...range, most: figure.value } };
    }
    case 'total-salt': return { ...check, percent: figure.value };
    case 'nitrite-maximum': return { ...check, ppm: figure.value };
    case 'presence': return field === 'batches' ? { ...check, batches: whole } : { ...check, freshMinutes: whole };
    case 'review': return { ...check, days: whole };
    case 'calibration': return { ...check, within: { months: whole } };
    case 'retention': return { ...check, length: field === 'years' ? { years: whole } : { days: whole } };
    case 'label': return field === 'lifeDays' ? { ...check, lifeDays: whole } : { ...check, openedHours: whole };
    case 'film': return { ...check, oxygenRate: figure.value };
    default: return check;
  }
}

function withTarget(check: DescentCheck, field: string, figure: Figure): DescentCheck {
  if (field === 'from') return { ...check, from: figure };
  const targets = check.targets.map((target, index) => {
    if (field === `target-${index + 1}`) return { ...target, limit: figure };
    return field === `target-${index + 1}-minutes` ? { ...target, minutes: Number(figure.value) } : target;
  });
  return { ...check, targets };
}
