/** A float's reading in a brine that is mixed by taste, kept as it was read. */
import { isBrineCelsius } from '../../../app/brine/density.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Tasting } from '../../../app/contract/requests/taste.ts';
import { TICKS_PER_CELSIUS } from '../../../app/measures/temperature.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { nameIn } from './recipe-names.ts';
import { openTasting } from './taste-book.ts';
import { readTypedTemperature } from './typed-temperature.ts';

/**
 * Keeps a reading with the brine's temperature. One that fits no brine of this sugar is kept too: that something is amiss is worth knowing.
 * @throws Refusal: no number, off the stem, a temperature at which no brine is read
 */
export function readFloat(room: BookRoom, { tastingId, shown, brine }: Parsed<'taste.float'>): Tasting {
  const tasting = openTasting(room, tastingId);
  const shownDegrees = degreesFrom(shown);
  const { lowTicks, text } = readTypedTemperature(brine, ['brine']);
  if (!isBrineCelsius(lowTicks / TICKS_PER_CELSIUS)) refuseInput(`A float at ${text} °${brine.unit} can’t be corrected.`, ['brine'], 'Read it in a brine of 32 to 122 °F (0 to 50 °C), and check the unit.');
  const float = { atMs: room.clock.nowMs(), shownDegrees, brineTicks: lowTicks, initials: actingPerson(room).initials, afterAdditions: tasting.additions.length };
  const after = { ...tasting, floats: [...tasting.floats, float] };
  room.book.shelf('tastings').put(after);
  room.book.record({
    kind: 'taste.float', subjectId: tasting.id, happenedAtMs: float.atMs,
    summary: `${nameIn(tasting.name)}: the float showed ${plainNumber(shownDegrees, 2)} °SAL at ${text} °${brine.unit}.`, after: float,
  });
  room.changed('tasting', [tasting.id]);
  return after;
}

function degreesFrom(shown: string): number {
  const text = shown.trim();
  if (text === '') refuseInput('The reading is empty.', ['shown'], 'Read the stem where the brine cuts it and type the degrees.');
  if (/^\d+,\d+$/.test(text)) refuseInput(`“${text}” has a comma, which can mean a decimal or a thousand.`, ['shown'], `Write ${text.replace(',', '.')} with a point.`);
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(text)) refuseInput(`“${text}” is not a float’s reading.`, ['shown'], 'Type the degrees on the stem, 0 to 100.');
  const degrees = Number(text);
  if (degrees < 0 || degrees > 100) refuseInput(`A float can’t show ${text} °SAL.`, ['shown'], 'Give the reading on the stem, 0 to 100.');
  return degrees;
}
