/** Everything that decides a column's role, side by side. */
import type { TemperatureUnit } from '../measures/temperature.ts';
import { hintFromHeading, unitFromHeading, unitFromUnitsCell, type HeadingHint } from './log-headings.ts';
import type { LogLayout } from './log-layout.ts';
import type { ColumnProfile } from './log-profile.ts';

export interface ColumnFacts {
  readonly index: number;
  readonly heading: string;
  /** The cell of the units row; empty without one. */
  readonly unitsCell: string;
  readonly profile: ColumnProfile;
  readonly hint: HeadingHint;
}

/** Gathers what is known of each column. */
export function gatherFacts(layout: LogLayout, profiles: readonly ColumnProfile[]): readonly ColumnFacts[] {
  return profiles.map((profile, index) => {
    const heading = layout.headings[index] ?? '';
    return { index, heading, unitsCell: layout.units[index] ?? '', profile, hint: hintFromHeading(heading) };
  });
}

/** The unit that a column's heading or the units row states; `other` for a quantity that is no temperature. */
export function statedUnit(fact: ColumnFacts): TemperatureUnit | 'other' | undefined {
  const byCell = unitFromUnitsCell(fact.unitsCell);
  const byHeading = unitFromHeading(fact.heading).unit;
  if (fact.unitsCell === fact.heading) return byHeading ?? (byCell === 'other' ? undefined : byCell);
  return byCell ?? byHeading;
}

/** How a column is called in a sentence. */
export function nameColumn(index: number, heading: string): string {
  return heading === '' ? `column ${index + 1}` : `the column “${heading.slice(0, 60)}”`;
}
