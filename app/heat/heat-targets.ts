/** Reference temperatures, z and required minutes of published heat targets, as data with their sources. */
import { exactTicks } from '../measures/temperature.ts';
import type { Source } from '../limits/limit-set.ts';

export interface HeatTarget {
  readonly id: string;
  readonly organism: string;
  /** P for a pasteurising value, F for a spore's. */
  readonly symbol: 'P' | 'F';
  readonly referenceTicks: number;
  /** The rise that cuts the time tenfold, as a difference in ticks, up to the reference. */
  readonly zTicks: number;
  /** The same above the reference; equal where one z serves. */
  readonly zAboveTicks: number;
  /** Minutes at the reference that do `requiredLogs`. */
  readonly requiredMinutes: number;
  /** Powers of ten; undefined where none is printed, and then none is claimed. */
  readonly requiredLogs: number | undefined;
  readonly sources: readonly Source[];
}

const FDA_GUIDE = { publisher: 'US Food and Drug Administration', title: 'Fish and Fishery Products Hazards and Controls Guidance, 4th edition', year: 2011 };
const JOURNAL_OF_FOOD_PROTECTION = { publisher: 'International Association for Food Protection', title: 'Journal of Food Protection', year: 1995 };

/** Six powers of ten of Listeria monocytogenes. */
export const LISTERIA_TARGET: HeatTarget = target('listeria-6d', 'Listeria monocytogenes', 'P', { reference: 70, z: 7.5, minutes: 2, logs: 6 }, [
  { ...FDA_GUIDE, section: 'appendix 4, table A-3', mark: 'from memory' },
  { publisher: 'Society for Applied Bacteriology', title: 'Letters in Applied Microbiology: Mackey and Bratchell, The heat resistance of Listeria monocytogenes', section: 'abstract: 70 °C for 2 min', year: 1989, mark: 'read' },
]);

/**
 * Six powers of ten of spores of non-proteolytic Clostridium botulinum type B; smoking gives next to nothing
 * of it. Where lysozyme helps the spores recover, z is 9 °C and more than 10 min are needed.
 */
export const BOTULINUM_TARGET: HeatTarget = target('botulinum-b-6d', 'non-proteolytic Clostridium botulinum type B', 'F', { reference: 90, z: 7, zAbove: 10, minutes: 10, logs: 6 }, [
  { ...FDA_GUIDE, section: 'appendix 4, table A-4', mark: 'from memory' },
  { publisher: 'American Society for Microbiology', title: 'Wachnicka and others, Systematic assessment of nonproteolytic Clostridium botulinum spores for heat resistance', section: 'abstract: 90 °C for 10 min, z 7 °C without lysozyme', year: 2016, mark: 'read' },
]);

/** The pasteurising value for the flora of fish that forms no spores: no power of ten is printed. */
export const FISH_FLORA_TARGET: HeatTarget = target('fish-flora', 'flora of fish that forms no spores', 'P', { reference: 70, z: 6, minutes: 15 }, [
  { ...JOURNAL_OF_FOOD_PROTECTION, section: 'volume 58, number 1, abstract: 15 min in fish', mark: 'read' },
]);

/** Canned food, for comparison only: twelve powers of ten of proteolytic Clostridium botulinum. */
export const CANNING_TARGET: HeatTarget = target('canning', 'proteolytic Clostridium botulinum (canned food, for comparison)', 'F', { reference: 121.1, z: 10, minutes: 3, logs: 12 }, [
  { publisher: 'Government of Canada', title: 'guide to canned low-acid food, as quoted', section: 'F0 of 3 min', year: null, mark: 'second-hand' },
]);

export const HEAT_TARGETS: readonly HeatTarget[] = [LISTERIA_TARGET, BOTULINUM_TARGET, FISH_FLORA_TARGET, CANNING_TARGET];

interface CelsiusFigures {
  readonly reference: number;
  readonly z: number;
  readonly zAbove?: number;
  readonly minutes: number;
  readonly logs?: number;
}

function target(id: string, organism: string, symbol: 'P' | 'F', figures: CelsiusFigures, sources: readonly Source[]): HeatTarget {
  return {
    id, organism, symbol, sources,
    referenceTicks: exactTicks(figures.reference, 'C'),
    zTicks: exactTicks(figures.z, 'C'),
    zAboveTicks: exactTicks(figures.zAbove ?? figures.z, 'C'),
    requiredMinutes: figures.minutes,
    requiredLogs: figures.logs,
  };
}
