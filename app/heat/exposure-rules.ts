/** What published texts allow for all the time in growth temperatures together, as data with their sources. */
import type { Source } from '../limits/limit-set.ts';
import type { Verdict } from '../limits/verdict.ts';
import { exactTicks, type TemperatureUnit } from '../measures/temperature.ts';
import type { TimeBounds } from './exposure-stretches.ts';
import type { TickRange } from './straight-line.ts';

/** At most so long inside a range. */
export interface ExposureLimb extends TickRange {
  /** “above 50 °F”. */
  readonly text: string;
  readonly allowedMinutes: number;
}

/** What is allowed once the fish was hotter than a temperature: any one of the ways, each with all its limbs. */
export interface ExposureTier {
  /** The tier of fish hotter than this; the last one that applies counts. */
  readonly hotterThanTicks: number;
  readonly text: string;
  /** An empty way asks nothing. */
  readonly ways: readonly (readonly ExposureLimb[])[];
  /** More ways, where a person has said that Staphylococcus aureus is the only concern; never inferred. */
  readonly staphylococcusWays: readonly (readonly ExposureLimb[])[];
}

export interface ExposureRule {
  readonly id: string;
  readonly title: string;
  /** Which fish it is for; undefined for any. */
  readonly product: 'raw' | 'cooked' | undefined;
  /** `counted`: everything but smoking and the cooling after a hold. `smoking`: that step alone. */
  readonly reads: 'counted' | 'smoking';
  /** Whether its text leaves the smoking step out of the count by itself. */
  readonly leavesSmokingOut: boolean;
  readonly tiers: readonly ExposureTier[];
  readonly source: Source;
}

/** One published rule against the time on record. */
export interface RuleExposure {
  readonly rule: ExposureRule;
  readonly verdict: Verdict;
  /** Which tier of the rule counts; two or more while the hottest temperature is not known. */
  readonly tiers: readonly string[];
  readonly limbs: readonly (TimeBounds & { readonly text: string; readonly allowedMinutes: number })[];
  /** The same with the steps shown apart counted in, where the rule's text does not leave them out. */
  readonly withApart: Verdict | undefined;
}

const HOUR = 60;
const FDA_SUMMARY: Source = {
  publisher: 'US Food and Drug Administration', title: 'Fish and Fishery Products Hazards and Controls Guidance, 4th edition',
  section: 'appendix 4, summary for ready-to-eat products', year: 2011, mark: 'from memory',
};

/** All of the growth range: above 50 °F and below 135 °F. */
export const GROWTH_RANGE: TickRange = range(50, 135, 'F');

export const EXPOSURE_RULES: readonly ExposureRule[] = [
  {
    id: 'FDA-RAW', title: 'FDA appendix 4, raw fish ready to eat', product: 'raw', reads: 'counted', leavesSmokingOut: false,
    // The first two rows of the raw summary were seen, the rest is recalled: the weaker mark stands for all.
    source: FDA_SUMMARY,
    tiers: [
      asksNothing('never above 50 °F'),
      tier(50, 'above 50 °F, never above 70 °F', [[above(50, 5)]], [[above(50, 12)]]),
      tier(70, 'above 70 °F at some time', [[above(50, 2)], [above(50, 4), above(70, 2)]], [[above(50, 3)]]),
    ],
  },
  {
    id: 'FDA-COOKED', title: 'FDA appendix 4, cooked fish ready to eat', product: 'cooked', reads: 'counted', leavesSmokingOut: false, source: FDA_SUMMARY,
    tiers: [
      asksNothing('never above 50 °F'),
      tier(50, 'above 50 °F, never above 70 °F', [[above(50, 5)]], [[above(50, 12)]]),
      tier(70, 'above 70 °F, never above 80 °F', [[above(50, 2)], [above(50, 4), above(70, 2)]], [[above(50, 3)]]),
      tier(80, 'above 80 °F at some time', [[above(50, 1)], [above(50, 4), above(70, 1)]], [[above(50, 3)]]),
    ],
  },
  {
    id: 'BC-SMOKED', title: 'British Columbia, all steps but the smoking', product: undefined, reads: 'counted', leavesSmokingOut: true,
    source: { publisher: 'Province of British Columbia', title: 'overview sheet on smoked fish', section: 'cumulative time out of refrigeration', year: null, mark: 'read' },
    tiers: [{
      hotterThanTicks: -Infinity, text: 'by range', staphylococcusWays: [],
      ways: [[
        // 21 °C itself lies in the range that prints it.
        { ...range(10, 21, 'C', 1), text: '10 to 21 °C', allowedMinutes: 9 * HOUR },
        { aboveTicks: exactTicks(21, 'C'), belowTicks: Infinity, text: 'above 21 °C', allowedMinutes: 6 * HOUR },
      ]],
    }],
  },
  {
    id: 'FSIS-COME-UP', title: 'USDA come-up time of meat, for comparison; none is stated for fish', product: undefined, reads: 'smoking', leavesSmokingOut: false,
    source: { publisher: 'US Department of Agriculture, Food Safety and Inspection Service', title: 'Cooking Guideline for Meat and Poultry Products', section: 'come-up time', year: 2021, mark: 'read' },
    tiers: [{
      hotterThanTicks: -Infinity, text: 'while heating', staphylococcusWays: [],
      ways: [[{ ...range(50, 130, 'F'), text: 'between 50 and 130 °F', allowedMinutes: 6 * HOUR }]],
    }],
  },
];

function range(above_: number, below: number, unit: TemperatureUnit, moreTicks = 0): TickRange {
  return { aboveTicks: exactTicks(above_, unit), belowTicks: exactTicks(below, unit) + moreTicks };
}

/** Above so many °F and below 135 °F, for at most so many hours. */
function above(fahrenheit: number, hours: number): ExposureLimb {
  return { ...range(fahrenheit, 135, 'F'), text: `above ${fahrenheit} °F`, allowedMinutes: hours * HOUR };
}

function asksNothing(text: string): ExposureTier {
  return { hotterThanTicks: -Infinity, text, ways: [[]], staphylococcusWays: [] };
}

function tier(hotterThanFahrenheit: number, text: string, ways: ExposureTier['ways'], staphylococcusWays: ExposureTier['ways']): ExposureTier {
  return { hotterThanTicks: exactTicks(hotterThanFahrenheit, 'F'), text, ways, staphylococcusWays };
}
