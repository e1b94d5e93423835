/**
 * Time in growth temperatures, added up over every step on record: receiving, trimming, soak, drying, packing,
 * store. Chilling again takes nothing off it. The controlled smoking step and the cooling after a completed hold
 * have rules of their own and are shown apart. Information: no check decides by it.
 */
import type { Source } from '../limits/limit-set.ts';
import { best, worst, type Verdict } from '../limits/verdict.ts';
import type { Words } from '../limits/words.ts';
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { disagreementsOf } from './exposure-disagreements.ts';
import { EXPOSURE_RULES, GROWTH_RANGE, type ExposureLimb, type ExposureRule, type ExposureTier, type RuleExposure } from './exposure-rules.ts';
import { stretchesOf, timeBetween, timeInside, type ExposureStep, type HistoryStretch, type TimeBounds } from './exposure-stretches.ts';
import { GROWTH_ORGANISMS, GROWTH_SOURCE, type GrowthBand } from './growth-bands.ts';

const MINUTE_MS = 60_000;

export interface ExposureOptions {
  /** How the fish is eaten as it leaves: cold-smoked is raw, hot-smoked cooked. */
  readonly product: 'raw' | 'cooked';
  /** A named person has said that Staphylococcus aureus is the only concern. */
  readonly staphylococcusOnly: boolean;
  /** The last step is still running. */
  readonly isOpen: boolean;
}

/** One organism's band with the time in it. */
export interface BandExposure extends TimeBounds {
  readonly organism: string;
  readonly effect: string;
  readonly band: GrowthBand;
  readonly verdict: Verdict;
  readonly source: Source;
}

export interface Exposure {
  /** Above 50 °F and below 135 °F, without what is shown apart. */
  readonly counted: TimeBounds;
  readonly apart: readonly (TimeBounds & { readonly what: 'smoking' | 'cooling after the hold' })[];
  /** All steps. */
  readonly all: TimeBounds;
  readonly bands: readonly BandExposure[];
  readonly rules: readonly RuleExposure[];
  /** Where published texts say different things about this history. */
  readonly disagreements: readonly string[];
  /** Stretches that no temperature tells of: inside for the longest, outside for the shortest. */
  readonly unknown: readonly { readonly fromMs: number; readonly toMs: number }[];
}

/**
 * Adds up one fish's exposure.
 * @param steps in any order; time between steps that none covers counts as unknown
 * @returns the times and what each published text says of them, or a problem for a step that ends before it starts
 */
export function measureExposure(steps: readonly ExposureStep[], options: ExposureOptions, words: Words): Outcome<Exposure> {
  const backwards = steps.find((step) => !(step.toMs >= step.fromMs));
  if (backwards !== undefined) return bad(`The step “${backwards.name}” ends before it starts.`, 'toMs', 'Mend its start or its end.');
  const smoking = steps.filter((step) => step.kind === 'smoking').flatMap(stretchesOf);
  const cooling = steps.filter(isCoolingApart).flatMap(stretchesOf);
  const counted = [...steps.filter((step) => step.kind !== 'smoking' && !isCoolingApart(step)).flatMap(stretchesOf), ...timeBetween(steps)];
  const all = [...counted, ...smoking, ...cooling];
  const rules = EXPOSURE_RULES.filter((rule) => (rule.product ?? options.product) === options.product && (rule.reads === 'counted' || smoking.length > 0))
    .map((rule): RuleExposure => ({
      ...judgeRule(rule, rule.reads === 'smoking' ? smoking : counted, options),
      withApart: rule.reads === 'counted' && !rule.leavesSmokingOut ? judgeRule(rule, all, options).verdict : undefined,
    }));
  return good({
    counted: timeInside(counted, GROWTH_RANGE),
    apart: [
      ...(smoking.length === 0 ? [] : [{ what: 'smoking' as const, ...timeInside(smoking, GROWTH_RANGE) }]),
      ...(cooling.length === 0 ? [] : [{ what: 'cooling after the hold' as const, ...timeInside(cooling, GROWTH_RANGE) }]),
    ],
    all: timeInside(all, GROWTH_RANGE),
    bands: GROWTH_ORGANISMS.flatMap(({ name, effect, bands }) => bands
      // A figure for cooked food says nothing of raw fish.
      .filter((band) => band.note !== 'cooked, ready-to-eat food only' || options.product === 'cooked')
      .map((band): BandExposure => {
        const time = timeInside(counted, band);
        return { organism: name, effect, band, ...time, verdict: verdictOf(time, band.allowedMinutes, options.isOpen), source: GROWTH_SOURCE };
      })),
    rules,
    disagreements: disagreementsOf({ hasSmoking: smoking.length > 0, hasCooling: cooling.length > 0, all: timeInside(all, GROWTH_RANGE), rules }, words),
    unknown: all.filter((stretch) => stretch.known === 'nothing').map(({ fromMs, toMs }) => ({ fromMs, toMs })).sort((left, right) => left.fromMs - right.fromMs || left.toMs - right.toMs),
  });
}

function isCoolingApart(step: ExposureStep): boolean {
  return step.kind === 'cooling' && step.afterCompletedHold === true;
}

/** As for a descent: within by the longest, over by the shortest, else not proven; a running record that is within is open. */
function verdictOf(time: TimeBounds, allowedMinutes: number, isOpen: boolean): Verdict {
  const allowedMs = allowedMinutes * MINUTE_MS;
  if (time.shortestMs > allowedMs) return 'misses';
  if (time.longestMs > allowedMs) return 'not-proven';
  return isOpen ? 'open' : 'meets';
}

/** Judged by every tier that the hottest temperature may put it in. */
function judgeRule(rule: ExposureRule, stretches: readonly HistoryStretch[], options: ExposureOptions): Omit<RuleExposure, 'withApart'> {
  const tiers = tiersOf(rule, stretches);
  const waysOf = (tier: ExposureTier) => (options.staphylococcusOnly ? [...tier.ways, ...tier.staphylococcusWays] : tier.ways);
  const verdicts = tiers.map((tier) => judgeWays(waysOf(tier), stretches, options.isOpen));
  const limbs = new Map(tiers.flatMap((tier) => waysOf(tier).flat()).map((limb) => [`${limb.text} ${limb.allowedMinutes}`, limb]));
  return {
    rule,
    verdict: together(verdicts),
    tiers: tiers.map((tier) => tier.text),
    limbs: [...limbs.values()].map((limb) => ({ text: limb.text, allowedMinutes: limb.allowedMinutes, ...timeInside(stretches, limb) })),
  };
}

/** Missed only if every tier that may count is missed; met only if every one is met. */
function together(verdicts: readonly Verdict[]): Verdict {
  return verdicts.every((verdict) => verdict === 'misses') ? 'misses' : verdicts.includes('misses') ? 'not-proven' : worst(verdicts);
}

function judgeWays(ways: readonly (readonly ExposureLimb[])[], stretches: readonly HistoryStretch[], isOpen: boolean): Verdict {
  const verdicts = ways.map((way) => (way.length === 0 ? (isOpen ? 'open' : 'meets') : worst(way.map((limb) => verdictOf(timeInside(stretches, limb), limb.allowedMinutes, isOpen)))));
  return best(verdicts) ?? 'not-proven';
}

/** From the tier that the readings prove to the one that the hottest possible temperature would put it in. */
function tiersOf(rule: ExposureRule, stretches: readonly HistoryStretch[]): ExposureTier[] {
  const provenTicks = stretches.reduce((hottest, stretch) => Math.max(hottest, stretch.provenHighTicks), -Infinity);
  const possibleTicks = stretches.reduce((hottest, stretch) => Math.max(hottest, stretch.highTicks), -Infinity);
  const last = (ticks: number) => rule.tiers.findLastIndex((tier) => ticks > tier.hotterThanTicks);
  return rule.tiers.slice(Math.max(0, last(provenTicks)), Math.max(0, last(possibleTicks)) + 1);
}
