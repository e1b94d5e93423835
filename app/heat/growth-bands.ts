/**
 * How long fish may be in each growth band in all: US Food and Drug Administration, Fish and Fishery Products
 * Hazards and Controls Guidance, 4th edition, appendix 4, table A-2, 2011 (from memory). The table has no
 * figure for how hot its last band of an organism goes; the appendix counts up to 135 °F, and so do we.
 * It prints whole degrees; we let a band begin where the one before ends.
 */
import type { Source } from '../limits/limit-set.ts';
import { exactTicks } from '../measures/temperature.ts';
import type { TickRange } from './straight-line.ts';

/** Its limits are outside it; a limit shared with the band above belongs to this one, which prints it. */
export interface GrowthBand extends TickRange {
  /** As printed: `51–70 °F`. */
  readonly text: string;
  readonly allowedMinutes: number;
  /** A note the table itself makes. */
  readonly note?: 'more data are needed' | 'cooked, ready-to-eat food only' | undefined;
}

export interface GrowthOrganism {
  readonly name: string;
  /** What it does in that time. */
  readonly effect: string;
  readonly bands: readonly GrowthBand[];
}

export const GROWTH_SOURCE: Source = {
  publisher: 'US Food and Drug Administration', title: 'Fish and Fishery Products Hazards and Controls Guidance, 4th edition',
  section: 'appendix 4, table A-2', year: 2011, mark: 'from memory',
};

const HOUR = 60;
const DAY = 1440;
/** Where counting ends: the appendix's summary counts below 135 °F. */
const HOTTEST_FAHRENHEIT = 135;
const UNSURE = 'more data are needed';
const COOKED = 'cooked, ready-to-eat food only';

type Row = readonly [text: string, upToFahrenheit: number, minutes: number, note?: GrowthBand['note']];

export const GROWTH_ORGANISMS: readonly GrowthOrganism[] = [
  organism('Bacillus cereus', 'growth and toxin', 39.2, [['39.2–43 °F', 43, 5 * DAY], ['44–59 °F', 59, DAY], ['60–70 °F', 70, 6 * HOUR], ['above 70 °F', HOTTEST_FAHRENHEIT, 3 * HOUR]]),
  organism('Campylobacter jejuni', 'growth', 86, [['86–93 °F', 93, 48 * HOUR], ['above 93 °F', HOTTEST_FAHRENHEIT, 12 * HOUR]]),
  organism('Clostridium botulinum type A, proteolytic B and F', 'germination, growth and toxin', 50, [['50–70 °F', 70, 11 * HOUR], ['above 70 °F', HOTTEST_FAHRENHEIT, 2 * HOUR]]),
  organism('Clostridium botulinum type E, non-proteolytic B and F', 'germination, growth and toxin', 37.9, [['37.9–41 °F', 41, 7 * DAY], ['42–50 °F', 50, 2 * DAY], ['51–70 °F', 70, 11 * HOUR], ['above 70 °F', HOTTEST_FAHRENHEIT, 6 * HOUR]]),
  organism('Clostridium perfringens', 'growth', 50, [['50–54 °F', 54, 21 * DAY], ['55–57 °F', 57, DAY], ['58–70 °F', 70, 6 * HOUR, UNSURE], ['above 70 °F', HOTTEST_FAHRENHEIT, 2 * HOUR]]),
  organism('Pathogenic Escherichia coli', 'growth', 43.7, [['43.7–50 °F', 50, 2 * DAY], ['51–70 °F', 70, 5 * HOUR], ['above 70 °F', HOTTEST_FAHRENHEIT, 2 * HOUR]]),
  organism('Listeria monocytogenes', 'growth', 31.3, [['31.3–41 °F', 41, 7 * DAY], ['42–50 °F', 50, DAY], ['51–70 °F', 70, 7 * HOUR], ['71–86 °F', 86, 3 * HOUR], ['above 86 °F', HOTTEST_FAHRENHEIT, HOUR]]),
  organism('Salmonella', 'growth', 41.4, [['41.4–50 °F', 50, 2 * DAY], ['51–70 °F', 70, 5 * HOUR], ['above 70 °F', HOTTEST_FAHRENHEIT, 2 * HOUR]]),
  organism('Shigella', 'growth', 43, [['43–50 °F', 50, 2 * DAY], ['51–70 °F', 70, 5 * HOUR], ['above 70 °F', HOTTEST_FAHRENHEIT, 2 * HOUR]]),
  // Of its coldest band the table prints the single degree 50: taken to reach down to the growth minimum of table A-1.
  organism('Staphylococcus aureus', 'growth and toxin', 44.6, [['50 °F', 50, 14 * DAY], ['51–70 °F', 70, 12 * HOUR, UNSURE], ['above 70 °F', HOTTEST_FAHRENHEIT, 3 * HOUR]]),
  organism('Vibrio cholerae', 'growth', 50, [['50 °F', 50, 21 * DAY], ['51–70 °F', 70, 6 * HOUR], ['71–80 °F', 80, 2 * HOUR], ['above 80 °F', HOTTEST_FAHRENHEIT, HOUR, COOKED]]),
  organism('Vibrio parahaemolyticus', 'growth', 41, [['41–50 °F', 50, 21 * DAY], ['51–70 °F', 70, 6 * HOUR], ['71–80 °F', 80, 2 * HOUR], ['above 80 °F', HOTTEST_FAHRENHEIT, HOUR, COOKED]]),
  organism('Vibrio vulnificus', 'growth', 46.4, [['46.4–50 °F', 50, 21 * DAY], ['51–70 °F', 70, 6 * HOUR], ['71–80 °F', 80, 2 * HOUR], ['above 80 °F', HOTTEST_FAHRENHEIT, HOUR, COOKED]]),
  organism('Yersinia enterocolitica', 'growth', 29.7, [['29.7–50 °F', 50, DAY], ['51–70 °F', 70, 6 * HOUR], ['above 70 °F', HOTTEST_FAHRENHEIT, 2.5 * HOUR]]),
];

function organism(name: string, effect: string, fromFahrenheit: number, rows: readonly Row[]): GrowthOrganism {
  let aboveTicks = exactTicks(fromFahrenheit, 'F');
  const bands = rows.map(([text, upToFahrenheit, allowedMinutes, note], index): GrowthBand => {
    const upTo = exactTicks(upToFahrenheit, 'F');
    // One tick more, so that exactly 50 °F lies in the band that prints 50, and in one band only. A band that is
    // the single degree where growth begins has that degree.
    const from = upTo === aboveTicks ? upTo - 1 : aboveTicks;
    const band = { text, aboveTicks: from, belowTicks: index === rows.length - 1 ? upTo : upTo + 1, allowedMinutes, note };
    aboveTicks = upTo;
    return band;
  });
  return { name, effect, bands };
}
