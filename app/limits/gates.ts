/** Gates: what a batch needs before it is brined, smoked, packed (or served), and before it leaves. */
import type { CheckResult } from './judge.ts';
import type { PackKind, StoreKind } from './judge-case.ts';
import type { SetResult, SetUnit } from './judge-set.ts';
import { GATES, type CheckKind, type Gate, type Question } from './limit-set.ts';
import { listText } from './words.ts';
import { isMet, worst, type Verdict } from './verdict.ts';

/** How the batch will be packed and kept. */
export interface PackPlan {
  readonly pack: PackKind;
  readonly store: StoreKind;
}

export interface GateDecision {
  readonly gate: Gate;
  /** The worst of what is needed here; `meets-within-error` asks a person's initials. */
  readonly verdict: Verdict;
  readonly needsInitials: boolean;
  /** What keeps it here, each with what it needs. */
  readonly blocking: readonly Blocker[];
  /** What is still to come at a later gate. */
  readonly later: readonly string[];
  /** The only ways on from a miss; empty when nothing was missed. */
  readonly ways: readonly string[];
  /** “May be packed. Before it leaves: freeze record.” */
  readonly line: string;
}

export interface Blocker {
  readonly checkId: string;
  readonly verdict: Verdict;
  readonly reason: string;
  readonly needed: string;
}

/** One thing needed at a gate: a unit of the set, or a record beside it. */
interface Need extends Blocker {
  readonly gate: Gate;
  /** “freeze record”, for what is still to come. */
  readonly name: string;
  /** A miss that only corrective acts lead on from. */
  readonly isHard: boolean;
}

/** Misses of these can't be released for eating (heat, parasite, cooling, exposure, store). */
const HARD: readonly Question[] = ['chamber', 'cooling', 'exposure', 'parasite', 'store'];
const NAMES: Readonly<Record<Question, string>> = {
  raw: 'raw fish', thaw: 'thawing', brine: 'brining', dry: 'drying', chamber: 'smoking', cooling: 'cooling', exposure: 'exposure',
  parasite: 'parasite freezing', salt: 'salt', pack: 'pack', store: 'store record', record: 'review of the record',
};
/** Papers are called by what they are, not by the question they are asked under. */
const KIND_NAMES: Readonly<Partial<Record<CheckKind, string>>> = {
  retention: 'keeping of the record', calibration: 'check of the thermometers', label: 'shelf life on the label', film: 'film',
};
const VERBS: Readonly<Record<Gate, string>> = { brine: 'be brined', smoke: 'be smoked', pack: 'be packed', leave: 'leave' };
/** Why something keeps it here, the worst first. */
const WHY_NOT: readonly (readonly [Verdict, { readonly one: string; readonly several: string }])[] = [
  ['misses', { one: 'does not meet', several: 'do not meet' }],
  ['not-proven', { one: 'not proven', several: 'not proven' }],
  ['no-figure', { one: 'has no figure in this set', several: 'have no figure in this set' }],
  ['open', { one: 'not finished', several: 'not finished' }],
];

/**
 * Decides a gate. Everything due at or before it is needed, so that a miss found late still stops
 * the batch; what is due later is named. At the leave gate the result must be judged with the
 * store's record closed at the hand-over.
 * @param plan the pack and store that the set's result was judged for
 */
export function mayPass(gate: Gate, plan: PackPlan, result: SetResult): GateDecision {
  const needs = [...result.units.flatMap((unit) => needOf(unit, plan)), ...recordsBeside(plan, result)].filter((need) => need.verdict !== 'does-not-apply');
  const due = needs.filter((need) => GATES.indexOf(need.gate) <= GATES.indexOf(gate));
  const later = needs.filter((need) => GATES.indexOf(need.gate) > GATES.indexOf(gate) && !isMet(need.verdict));
  const verdict = worst(due.map((need) => need.verdict));
  const blocking = due.filter((need) => !isMet(need.verdict));
  const names = [...new Set(later.map((need) => need.name))];
  return {
    gate, verdict,
    needsInitials: verdict === 'meets-within-error',
    blocking: blocking.map(({ checkId, verdict: own, reason, needed }) => ({ checkId, verdict: own, reason, needed })),
    later: names,
    ways: blocking.some((need) => need.verdict === 'misses' && need.isHard) ? result.correctiveActs : [],
    line: lineOf(gate, plan, verdict, blocking, names),
  };
}

/** What a unit is needed for under this plan; nothing when another route stands in for it. */
function needOf(unit: SetUnit, plan: PackPlan): Need[] {
  const isFrozenVacuum = plan.pack === 'vacuum' && plan.store === 'frozen';
  const isServed = plan.pack === 'unpacked';
  const { deciding, question } = unit;
  // The frozen route stands in for the minimum of salt and for chilled-store evidence, never for a nitrite maximum or a ban.
  if (isFrozenVacuum && question === 'salt' && (deciding.frozenStandsIn || deciding.kind === 'no-figure')) return [];
  // Fish served unpacked answers heat, cooling and parasite; nitrite that is too much stays too much.
  if (isServed && !['chamber', 'cooling', 'parasite'].includes(question) && !(question === 'salt' && unit.verdict === 'misses')) return [];
  const gate = isFrozenVacuum && question === 'parasite' ? 'leave' : unit.gate;
  // A label can be printed anew: its shelf life is no miss of the store.
  return [{ gate, name: nameOf(unit, plan), isHard: HARD.includes(question) && deciding.kind !== 'label', ...blockerOf(unit, deciding) }];
}

function nameOf({ question, gate, deciding }: SetUnit, plan: PackPlan): string {
  if (question === 'record' && deciding.kind === 'permission') return gate === 'leave' ? 'manager’s initials' : 'permission';
  return KIND_NAMES[deciding.kind] ?? (question === 'store' && plan.store === 'frozen' ? 'freeze record' : NAMES[question]);
}

function blockerOf(unit: SetUnit, deciding: CheckResult): Blocker {
  return { checkId: deciding.checkId, verdict: unit.verdict, reason: deciding.reason, needed: deciding.needed };
}

/** Leaving needs the label as sealed and, frozen, the marks of sealing and freezing. */
function recordsBeside(plan: PackPlan, result: SetResult): Need[] {
  if (plan.pack === 'unpacked') return [];
  const beside = (checkId: string, name: string, has: boolean, reason: string, needed: string): Need => ({
    gate: 'leave', checkId, name, isHard: false, verdict: has ? 'meets' : 'not-proven', reason: has ? '' : reason, needed: has ? '' : needed,
  });
  const label = beside('label', 'label as sealed', result.labelledAsSealed === true, 'The label as sealed is not recorded.', 'The label printed for this pack and store.');
  if (plan.store !== 'frozen') return [label];
  const { sealedMs, frozenMs, thawedMs } = result;
  const isMarked = sealedMs !== undefined && frozenMs !== undefined;
  // Fish taken out before it was sealed was frozen once, and its packs were not.
  const isThawed = isMarked && thawedMs !== undefined && thawedMs <= sealedMs;
  const why = isThawed ? 'It was taken out of the freezer before it was sealed; no later freezing is marked.' : 'When it was sealed and frozen is not marked.';
  return [beside('freeze', 'freeze record', isMarked && !isThawed, why, 'The times it was sealed and frozen solid, and the freezer’s record.'), label];
}

function lineOf(gate: Gate, plan: PackPlan, verdict: Verdict, blocking: readonly Need[], later: readonly string[]): string {
  const act = gate === 'pack' && plan.pack === 'unpacked' ? 'be served' : VERBS[gate];
  const rest = later.length === 0 ? '' : ` ${gate === 'pack' ? 'Before it leaves' : 'Still to come'}: ${listText(later)}.`;
  if (isMet(verdict)) return `May ${act}${verdict === 'meets-within-error' ? ', with initials: within the thermometer’s error' : ''}.${rest}`;
  if (blocking.length === 0) return `May not ${act}: nothing was judged.${rest}`;
  // What is said for a worse reason isn't said again for a lesser one.
  const said = new Set<string>();
  const why = WHY_NOT.flatMap(([own, words]) => {
    const named = [...new Set(blocking.filter((need) => need.verdict === own).map((need) => need.name))].filter((name) => !said.has(name));
    for (const name of named) said.add(name);
    return named.length === 0 ? [] : [`${listText(named)} ${named.length === 1 ? words.one : words.several}`];
  });
  return `May not ${act}: ${why.join('; ')}.${rest}`;
}
