/** A kitchen's own set: one of the published sets with some figures tightened, loosened by a variance, or as a process authority's letter has them. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { figuresOf, figureWords, strictnessOf, withFigures, type FigureChange } from './figures.ts';
import { checkIdsOf, type Answer, type Check, type LimitBook, type LimitSet, type PermissionCheck, type Source } from './limit-set.ts';
import { standingOf, type FiledRecord } from './on-file.ts';
import type { Words } from './words.ts';

/** A process authority's letter; its file is kept in the book. */
export interface SetLetter {
  readonly authority: string;
  readonly number: string;
  /** The day it is of, YYYY-MM-DD. */
  readonly writtenOn: string;
  readonly fileId: string;
}

export interface SetChange {
  /** The published check, and the set's own one that stands for it. */
  readonly checkId: string;
  readonly ownId: string;
  readonly way: 'tightened' | 'loosened' | 'letter';
  readonly figures: readonly FigureChange[];
  /** The variance that a loosened figure rests on. */
  readonly varianceNumber?: string | undefined;
}

export interface OwnSet extends LimitSet {
  readonly base: { readonly setId: string; readonly version: string };
  readonly letter?: SetLetter | undefined;
  readonly changes: readonly SetChange[];
  /** Checks of this set alone; their ids end in the set's. */
  readonly ownChecks: readonly Check[];
}

/** What names an own set and tells its versions apart. */
export interface SetStamp {
  /** Small letters, digits, points and hyphens. */
  readonly id: string;
  readonly name: string;
  readonly version: string;
  readonly effectiveFrom: string;
  readonly note: string;
}

/** A published set under a name of the kitchen's own, nothing changed yet; a sentence where the id is taken or is none. */
export function ownSetFrom(base: LimitSet, book: LimitBook, stamp: SetStamp): Outcome<OwnSet> {
  if (!/^[a-z0-9][a-z0-9.-]*$/.test(stamp.id)) return bad(`“${stamp.id}” can’t name a set.`, 'id', 'Use small letters, digits and hyphens.');
  if (book.sets.some((set) => set.id === stamp.id)) return bad(`There is a set “${stamp.id}” already.`, 'id', 'Choose another name.');
  if (!/^\d{4}-\d{2}-\d{2}$/.test(stamp.effectiveFrom)) return bad('The day from which the set is in force is missing.', 'effectiveFrom', 'Write it as year, month, day: 2026-07-14.');
  return good({ ...base, ...stamp, effectiveUntil: undefined, base: { setId: base.id, version: base.version }, changes: [], ownChecks: [] });
}

/**
 * A check of the set with stricter figures. Every figure that changes must ask more of a batch: a
 * higher or longer hold, a lower ceiling, a shorter cooling.
 * @param source where the kitchen's own figure comes from
 */
export function tightenCheck(set: OwnSet, book: LimitBook, checkId: string, figures: readonly FigureChange[], source: Source): Outcome<OwnSet> {
  const check = needCheck(set, book, checkId);
  if (!check.ok) return check;
  const looser = looserSentence(check.value, figures);
  if (looser !== undefined) return bad(`${looser}, which is looser, not tighter.`, checkId, 'Give a stricter figure. A looser one needs a variance on file.');
  return changedSet(set, check.value, figures, source, { way: 'tightened' });
}

/**
 * A check of the set with looser figures, by a variance on file and valid now. The set then asks of
 * every batch that a variance was valid when it was made.
 */
export function loosenCheck(set: OwnSet, book: LimitBook, checkId: string, figures: readonly FigureChange[], source: Source, variance: { readonly onFile: FiledRecord | undefined; readonly nowMs: number; readonly words: Words }): Outcome<OwnSet> {
  const check = needCheck(set, book, checkId);
  if (!check.ok) return check;
  const { onFile, nowMs, words } = variance;
  const standing = standingOf(onFile === undefined ? [] : [onFile], 'variance', { fromMs: nowMs, toMs: nowMs }, words);
  if (!standing.isValid || onFile === undefined) return bad(`${standing.text} A limit is loosened only by a variance.`, checkId, 'Put the authority’s variance on file first.');
  const changed = changedSet(set, check.value, figures, source, { way: 'loosened', varianceNumber: onFile.number });
  return changed.ok ? good(askingVariance(changed.value, source)) : changed;
}

/** A set as a process authority's letter has it: the base set with the letter's figures, stricter or looser, each resting on the letter. */
export function setFromLetter(base: LimitSet, book: LimitBook, stamp: SetStamp, letter: SetLetter, changes: readonly { readonly checkId: string; readonly figures: readonly FigureChange[] }[]): Outcome<OwnSet> {
  const missing = (['authority', 'number', 'writtenOn', 'fileId'] as const).find((key) => letter[key].trim() === '');
  if (missing !== undefined) return bad('The letter needs its authority, number, day and file.', `letter.${missing}`, 'Keep the letter’s file with the set.');
  if (changes.length === 0) return bad('The letter changes no figure.', 'changes', 'Name each figure that the letter gives.');
  const started = ownSetFrom(base, book, stamp);
  const source: Source = { publisher: letter.authority, title: 'Process authority’s letter', section: letter.number, year: yearOf(letter.writtenOn), mark: 'read' };
  return changes.reduce<Outcome<OwnSet>>((found, { checkId, figures }) => {
    if (!found.ok) return found;
    const check = needCheck(found.value, book, checkId);
    return check.ok ? changedSet(found.value, check.value, figures, source, { way: 'letter' }) : check;
  }, started.ok ? good({ ...started.value, letter }) : started);
}

/** The book with a kitchen's own sets and their checks beside the published ones. Throws where an id stands twice. */
export function bookWith(book: LimitBook, ownSets: readonly OwnSet[]): LimitBook {
  const checks = [...book.checks, ...ownSets.flatMap((set) => set.ownChecks)];
  const sets = [...book.sets, ...ownSets];
  const ids = [...checks, ...sets].map(({ id }) => id);
  const twice = ids.find((id, index) => ids.indexOf(id) !== index);
  if (twice !== undefined) throw new Error(`${twice} stands twice`);
  return { checks, sets };
}

/** By the published id or the set's own; only what the set names can be changed. */
function needCheck(set: OwnSet, book: LimitBook, checkId: string): Outcome<Check> {
  const ownId = set.changes.find((change) => change.checkId === checkId)?.ownId ?? checkId;
  const check = checkIdsOf(set).includes(ownId) ? [...set.ownChecks, ...book.checks].find((one) => one.id === ownId) : undefined;
  return check === undefined ? bad(`${set.name} has no check ${checkId}.`, 'checkId', 'Choose one of the set’s own checks.') : good(check);
}

function changedSet(set: OwnSet, check: Check, figures: readonly FigureChange[], source: Source, how: Pick<SetChange, 'way' | 'varianceNumber'>): Outcome<OwnSet> {
  const made = withFigures(check, figures);
  if (!made.ok) return made;
  const own = figuresOf(check);
  const really = figures.filter((change) => own.some((figure) => figure.field === change.field && strictnessOf(figure, change) !== 'same'));
  if (really.length === 0) return bad(`${check.id} has these figures already.`, check.id, 'Give another figure.');
  const before = set.changes.find((change) => change.ownId === check.id);
  const checkId = before?.checkId ?? check.id;
  const ownId = `${checkId}.${set.id.toUpperCase()}`;
  const figuresNow = figuresOf(made.value).map((figure) => figureWords(figure)).join(', ');
  const changed: Check = { ...made.value, id: ownId, title: `${check.title.split('; here ')[0] ?? check.title}; here ${figuresNow}`, sources: [source, ...check.sources.filter((one) => !isSame(one, source))] };
  return good({
    ...set,
    answers: set.answers.map((answer) => renamed(answer, check.id, ownId)),
    ownChecks: [...set.ownChecks.filter((one) => one.id !== ownId), changed],
    changes: [...set.changes, { checkId, ownId, figures: really, ...how }],
  });
}

function renamed(answer: Answer, fromId: string, toId: string): Answer {
  const swap = (ids: readonly string[] | undefined) => ids?.map((id) => (id === fromId ? toId : id));
  const cites = answer.cites === undefined ? undefined : Object.fromEntries(Object.entries(answer.cites).filter(([id]) => id !== fromId));
  return { ...answer, checks: swap(answer.checks), oneOf: swap(answer.oneOf), cites };
}

/** The first figure that asks less than before, as a sentence's beginning. */
function looserSentence(check: Check, figures: readonly FigureChange[]): string | undefined {
  if (!withFigures(check, figures).ok) return undefined;
  return figures.flatMap((change) => {
    const figure = figuresOf(check).find((one) => one.field === change.field);
    if (figure === undefined || strictnessOf(figure, change) !== 'looser') return [];
    const isTime = ['min', 'h', 'days', 'months', 'years'].includes(figure.unit);
    const than = figure.stricter === 'higher' ? (isTime ? 'shorter' : 'lower') : isTime ? 'longer' : 'higher';
    return [`${check.id}: ${figureWords(figure, change)} is ${than} than ${figureWords(figure)}`];
  })[0];
}

/** Asked with the chamber, which every batch raises: a question that is left out would take the variance with it. */
function askingVariance(set: OwnSet, source: Source): OwnSet {
  const id = `VARIANCE.${set.id.toUpperCase()}`;
  if (set.ownChecks.some((check) => check.id === id)) return set;
  const check: PermissionCheck = { id, title: 'The variance that loosened limits rest on', question: 'chamber', gate: 'pack', kind: 'permission', proof: 'variance', sources: [source] };
  return { ...set, ownChecks: [...set.ownChecks, check], answers: [...set.answers, { question: 'chamber', checks: [id], besides: true }] };
}

function isSame(left: Source, right: Source): boolean {
  return left.publisher === right.publisher && left.title === right.title && left.section === right.section;
}

function yearOf(day: string): number | null {
  return /^\d{4}/.test(day) ? Number(day.slice(0, 4)) : null;
}
