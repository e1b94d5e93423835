/** What a version of an own set changes of the published set, check by check. */
import type { FigureChange as TypedChange } from '../../../app/contract/requests/limits-office.ts';
import { figuresOf, strictnessOf, withFigures, type FigureChange } from '../../../app/limits/figures.ts';
import { checkIdsOf, findCheck, type Check, type LimitBook, type LimitSet } from '../../../app/limits/limit-set.ts';
import type { OwnSet } from '../../../app/limits/own-set.ts';
import { refuseInput } from './field-refusal.ts';
import { publishedIdOf } from './own-set-book.ts';

/** A published check with every figure that the version has otherwise. */
export interface ChangedCheck {
  readonly check: Check;
  readonly figures: readonly FigureChange[];
  /** The version before has all of them; else at least one is new. */
  readonly carried: boolean;
  /** One of them asks less than the published figure. */
  readonly isLooser: boolean;
}

interface Wanted {
  readonly limits: LimitBook;
  readonly published: LimitSet;
  /** The version it goes on from; its changes stay unless they are changed again. */
  readonly from: OwnSet | null;
  readonly changes: readonly TypedChange[];
}

/**
 * Figures are compared with the published ones, not with those of the version before: a kitchen may
 * take back a part of its own strictness.
 * @throws Refusal INVALID_INPUT or NOT_FOUND for a check or figure that isn't there, a value that can't be, nothing changed
 */
export function changedFigures({ limits, published, from, changes }: Wanted): ChangedCheck[] {
  const wanted = new Map<string, Map<string, FigureChange>>();
  const fresh = new Set<string>();
  for (const [checkId, figures] of carriedFigures(limits, from)) wanted.set(checkId, new Map(figures.map((figure) => [figure.field, figure])));
  for (const [index, change] of changes.entries()) {
    const checkId = from === null ? change.checkId : publishedIdOf(from, change.checkId);
    const check = checkIdsOf(published).includes(checkId) ? findCheck(limits, checkId) : undefined;
    if (check === undefined) refuseInput(`${published.name} has no check “${change.checkId}”.`, ['changes', index, 'checkId'], 'Choose one of the set’s own checks.', 'NOT_FOUND');
    const figures = readChange(check, change, index);
    wanted.set(checkId, new Map([...(wanted.get(checkId) ?? []), ...figures.map((figure) => [figure.field, figure] as const)]));
    fresh.add(checkId);
  }
  const changed = [...wanted].flatMap(([checkId, figures]) => changedCheck(limits, checkId, [...figures.values()], !fresh.has(checkId)));
  if (changes.length === 0 || changed.length === 0) refuseInput('No figure is changed.', ['changes'], `Change a figure, or let ${published.name} itself decide.`);
  return changed;
}

function changedCheck(limits: LimitBook, checkId: string, figures: readonly FigureChange[], carried: boolean): ChangedCheck[] {
  const check = findCheck(limits, checkId);
  if (check === undefined) return [];
  const ways = figures.map((figure) => wayOf(check, figure));
  const really = figures.filter((_, index) => ways[index] !== 'same');
  return really.length === 0 ? [] : [{ check, figures: really, carried, isLooser: ways.includes('looser') }];
}

function wayOf(check: Check, change: FigureChange): 'tighter' | 'looser' | 'same' {
  const figure = figuresOf(check).find((one) => one.field === change.field);
  return figure === undefined ? 'same' : strictnessOf(figure, change);
}

/** Every figure that the version before has otherwise than the published check, by the check's published id. */
function carriedFigures(limits: LimitBook, from: OwnSet | null): [string, FigureChange[]][] {
  return (from?.changes ?? []).flatMap(({ checkId, ownId }): [string, FigureChange[]][] => {
    const [own, check] = [findCheck(limits, ownId), findCheck(limits, checkId)];
    if (own === undefined || check === undefined) return [];
    const figures = figuresOf(own).map(({ field, value, unit }): FigureChange => (unit === 'F' || unit === 'C' ? { field, value, unit } : { field, value }));
    return [[checkId, figures]];
  });
}

/** A typed change in the figures' own fields: `value` is the check's first figure unless a field is named, `minutes` its time. */
function readChange(check: Check, change: TypedChange, index: number): FigureChange[] {
  const [first] = figuresOf(check);
  if (first === undefined) refuseInput(`${check.id} has no figure that could be changed.`, ['changes', index, 'checkId'], 'Choose another limit.');
  const figures: (FigureChange & { readonly key: 'value' | 'minutes' })[] = [];
  if (change.value !== undefined) figures.push({ key: 'value', field: change.field ?? first.field, value: change.value, ...(change.unit === undefined ? {} : { unit: change.unit }) });
  if (change.minutes !== undefined) figures.push({ key: 'minutes', field: 'minutes', value: String(change.minutes) });
  if (figures.length === 0) refuseInput(`No figure is given for ${check.id}.`, ['changes', index, 'value'], 'Type the figure.');
  for (const { key, ...figure } of figures) {
    const made = withFigures(check, [figure]);
    if (!made.ok) refuseInput(made.problem.message, ['changes', index, key], made.problem.remedy ?? 'Type another figure.');
  }
  return figures.map(({ key: _key, ...figure }) => figure);
}
