/** What a brine is made to reach: a strength of its own, or a water-phase salt in the fish. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { fractionBeforeSmoking, type RawFish } from './balance.ts';
import { plainNumber } from './rounding.ts';
import { percentOfSalometer } from './strength.ts';
import { saltPerWater } from './water-phase.ts';

export type BrineTarget =
  | { readonly form: 'brinePercent'; readonly percent: number }
  | { readonly form: 'brineSalometer'; readonly degrees: number }
  | { readonly form: 'fishEquilibriumWaterPhasePercent'; readonly percent: number }
  | { readonly form: 'finishedWaterPhasePercent'; readonly percent: number; readonly yieldPercent: number };

/** The keys that a target may be written with; `yieldPercent` belongs to the last. */
const TARGET_FORMS = ['brinePercent', 'brineSalometer', 'fishEquilibriumWaterPhasePercent', 'finishedWaterPhasePercent'] as const;
type TargetKey = (typeof TARGET_FORMS)[number] | 'yieldPercent';
export type TargetKeys = Readonly<Partial<Record<TargetKey, number | undefined>>>;

/**
 * A goal as a balance: reached where `saltWeight × salt + waterWeight × water + brineWeight × all
 * = offsetGrams`, in grams of the brine; short of it the left side is less.
 */
export interface BrineGoal {
  readonly saltWeight: number;
  readonly waterWeight: number;
  readonly brineWeight: number;
  readonly offsetGrams: number;
}

/** How the balance of a goal stands for a brine: below 0 short of it, above 0 beyond. */
export function goalGap(goal: BrineGoal, saltGrams: number, waterGrams: number, brineGrams: number): number {
  return goal.saltWeight * saltGrams + goal.waterWeight * waterGrams + goal.brineWeight * brineGrams - goal.offsetGrams;
}

/** The one target that a set of keys gives, or a problem naming the key at fault (`target.…`). */
export function targetOfKeys(keys: TargetKeys): Outcome<BrineTarget> {
  const given = TARGET_FORMS.filter((key) => keys[key] !== undefined);
  const [form, second] = given;
  if (form === undefined) return bad('The target is missing.', 'target', `Give one of ${TARGET_FORMS.join(', ')}.`);
  if (second !== undefined) return bad(`The target is given twice, as ${given.join(' and ')}.`, `target.${second}`, 'Give one of them.');
  const value = keys[form] ?? NaN;
  const { yieldPercent } = keys;
  if (form === 'finishedWaterPhasePercent') {
    if (yieldPercent === undefined) return bad('A finished water-phase salt needs the yield.', 'target.yieldPercent', 'Give finished over brined weight in per cent, such as 82.');
    return good({ form, percent: value, yieldPercent });
  }
  if (yieldPercent !== undefined) return bad(`A yield says nothing beside ${form}.`, 'target.yieldPercent', 'Leave it out, or give finishedWaterPhasePercent.');
  return good(form === 'brineSalometer' ? { form, degrees: value } : { form, percent: value });
}

/** The input key that holds a target's figure, for naming it in a problem. */
export function targetField(target: BrineTarget): string {
  return `target.${target.form}`;
}

/** A target in words, for a sentence. */
export function targetWords(target: BrineTarget): string {
  switch (target.form) {
    case 'brinePercent': return `${plainNumber(target.percent, 3)} % salt`;
    case 'brineSalometer': return `${plainNumber(target.degrees, 2)} °SAL`;
    case 'fishEquilibriumWaterPhasePercent': return `${plainNumber(target.percent, 3)} % water-phase salt in the fish`;
    case 'finishedWaterPhasePercent': return `${plainNumber(target.percent, 3)} % water-phase salt in the finished fish`;
  }
}

/**
 * The balance that a target asks of the brine.
 * @param fish all the fish that goes in
 * @returns a goal, or a problem naming the figure: no number, below 0, 100 or more, a yield that can't be
 */
export function goalOfTarget(target: BrineTarget, fish: RawFish): Outcome<BrineGoal> {
  const figure = target.form === 'brineSalometer' ? target.degrees : target.percent;
  if (!Number.isFinite(figure) || figure < 0) return bad(`A target of ${plainNumber(figure, 3)} can’t be.`, targetField(target), 'It can’t be below zero.');
  if (target.form === 'brinePercent') return good(brineGoal(target.percent / 100));
  if (target.form === 'brineSalometer') return good(brineGoal(percentOfSalometer(target.degrees) / 100));
  if (target.percent >= 100) return bad(`${targetWords(target)} can’t be: it is all salt.`, targetField(target), 'Finished fish has 2 to 8 % as a rule.');
  if (target.form === 'fishEquilibriumWaterPhasePercent') return good(fishGoal(target.percent / 100, fish));
  const { yieldPercent } = target;
  if (!(yieldPercent > 0 && yieldPercent <= 100)) {
    return bad(`A yield of ${plainNumber(yieldPercent, 2)} % can’t be.`, 'target.yieldPercent', 'Give finished over brined weight in per cent, above 0 and at most 100.');
  }
  const before = fractionBeforeSmoking(fish, target.percent / 100, yieldPercent / 100);
  if (before === undefined) {
    return bad(`A yield of ${plainNumber(yieldPercent, 2)} % takes all the water the fish has.`, 'target.yieldPercent', `Check the weights: this fish is ${plainNumber(fish.moistureFraction * 100, 1)} % water.`);
  }
  return good(fishGoal(before, fish));
}

function brineGoal(fraction: number): BrineGoal {
  return { saltWeight: 1, waterWeight: 0, brineWeight: -fraction, offsetGrams: 0 };
}

/** fish salt + salt = k × (fish water + water) */
function fishGoal(fraction: number, fish: RawFish): BrineGoal {
  const perWater = saltPerWater(fraction);
  return { saltWeight: 1, waterWeight: -perWater, brineWeight: 0, offsetGrams: fish.grams * (perWater * fish.moistureFraction - fish.saltFraction) };
}
