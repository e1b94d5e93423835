/** What goes into a tub that is mixed by taste: each addition as it was weighed, kept at once. */
import { ingredientById } from '../../../app/brine/ingredients.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Tasting } from '../../../app/contract/requests/taste.ts';
import { massFromText, massIn, type MassUnit } from '../../../app/measures/mass.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { ingredientsOf } from './kitchen-ingredients.ts';
import { nameIn } from './recipe-names.ts';
import { openTasting } from './taste-book.ts';

type Addition = Tasting['additions'][number];

/** Less than this between two readings is no addition: a tenth of the finest kitchen scale. */
const LEAST_GRAMS = 0.01;
const DECIMALS: Readonly<Record<MassUnit, number>> = { g: 1, kg: 3, lb: 3, oz: 2 };

/** Grams that lie in the tub by what was not struck. */
export function gramsIn(additions: readonly Addition[]): number {
  return additions.reduce((sum, { grams, struck }) => sum + (struck ? 0 : grams), 0);
}

/**
 * Adds what was weighed. A running reading counts from the tub tared: what went in is what it shows above all that was in before.
 * @throws Refusal: an unknown ingredient, a weight that can't be, a reading that is not above the one before, a tasting that is a recipe already
 */
export function addWeighed(room: BookRoom, { tastingId, ingredientId, weighed, scale }: Parsed<'taste.add'>): Tasting {
  const tasting = openTasting(room, tastingId);
  const ingredient = ingredientById(ingredientsOf(room), ingredientId);
  if (ingredient === undefined) return refuseInput(`There is no ingredient ${nameIn(ingredientId)}.`, ['ingredientId'], 'Use an ingredient of the kitchen’s list, or add it there first.', 'NOT_FOUND');
  const entered = unwrap(massFromText(weighed.text, weighed.unit, 'weighed'));
  const before = scale === 'running' ? gramsIn(tasting.additions) : 0;
  const grams = entered.grams - before;
  if (grams < LEAST_GRAMS) {
    refuseInput(
      `The scale showed ${inUnit(before, entered.unit)} before, so ${entered.text} ${entered.unit} adds nothing.`, ['weighed'],
      'Type what it shows with everything in, or strike out a slip before; a weight by itself is “alone”.',
    );
  }
  const addition: Addition = {
    id: room.newId(), ingredientId, name: ingredient.name, grams, entered, scale, atMs: room.clock.nowMs(), initials: actingPerson(room).initials, struck: false,
  };
  const after = { ...tasting, additions: [...tasting.additions, addition] };
  room.book.shelf('tastings').put(after);
  room.book.record({
    kind: 'taste.add', subjectId: tasting.id, happenedAtMs: addition.atMs,
    summary: `${nameIn(tasting.name)}: ${plainNumber(grams, 1)} g of ${ingredient.name} in (${scale === 'running' ? 'the scale showed' : 'weighed'} ${entered.text} ${entered.unit}).`,
    after: addition,
  });
  room.changed('tasting', [tasting.id]);
  return after;
}

/**
 * Strikes an addition through: it was a slip, and counts no more. It stays to be read.
 * @throws Refusal NOT_FOUND; CONFLICT for one that is struck already
 */
export function strikeAddition(room: BookRoom, { tastingId, additionId }: Parsed<'taste.strike'>): Tasting {
  const tasting = openTasting(room, tastingId);
  const slip = tasting.additions.find((one) => one.id === additionId);
  if (slip === undefined) return refuseInput(`${nameIn(tasting.name)} has no such addition.`, ['additionId'], 'Look at the list again; it may have changed.', 'NOT_FOUND');
  if (slip.struck) refuseInput(`That ${slip.name} is struck through already.`, ['additionId'], 'Weigh it in again if it is in the tub.', 'CONFLICT');
  const struck = { ...slip, struck: true };
  const after = { ...tasting, additions: tasting.additions.map((one) => (one.id === additionId ? struck : one)) };
  room.book.shelf('tastings').put(after);
  room.book.record({
    kind: 'taste.strike', subjectId: tasting.id, happenedAtMs: null,
    summary: `${nameIn(tasting.name)}: struck through ${plainNumber(slip.grams, 1)} g of ${slip.name}.`, before: slip, after: struck,
  });
  room.changed('tasting', [tasting.id]);
  return after;
}

/** Additions whose weight was the difference to a reading that was struck since: nobody knows now what they weighed. */
export function additionsOnStruckReadings(additions: readonly Addition[]): Addition[] {
  return additions.filter((one, index) => {
    if (one.struck || one.scale !== 'running') return false;
    const beforeThen = one.entered.grams - one.grams;
    return Math.abs(beforeThen - gramsIn(additions.slice(0, index))) >= LEAST_GRAMS;
  });
}

function inUnit(grams: number, unit: MassUnit): string {
  return `${plainNumber(massIn(grams, unit), DECIMALS[unit])} ${unit}`;
}
