/** The tastings of the book: beginning one, and finding one that still goes on. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Tasting } from '../../../app/contract/requests/taste.ts';
import { massFromText } from '../../../app/measures/mass.ts';
import { localDay } from '../../../app/measures/zone.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { freeName, nameIn } from './recipe-names.ts';
import { speciesOf } from './species.ts';
import { sayDay, zoneOf } from './when.ts';

/**
 * Begins a tasting; without a name it is that of the day.
 * @throws Refusal: an unknown species, a weight of fillets that can't be
 */
export function startTasting(room: BookRoom, { name, speciesId, fillets }: Parsed<'taste.start'>): Tasting {
  const species = speciesId === null ? null : speciesOf(room, speciesId);
  const tastings = room.book.shelf('tastings');
  const startedAtMs = room.clock.nowMs();
  const tasting: Tasting = {
    id: room.newId(), name: name === '' ? freeName(nameOfDay(room, startedAtMs), tastings.all().map((one) => one.name)) : name,
    startedAtMs, startedBy: actingPerson(room).initials, speciesId,
    fillets: fillets === null ? null : unwrap(massFromText(fillets.text, fillets.unit, 'fillets')),
    additions: [], floats: [], recipeId: null,
  };
  tastings.put(tasting);
  const fish = [...(tasting.fillets === null ? [] : [`${tasting.fillets.text} ${tasting.fillets.unit}`]), ...(species === null ? [] : [species.marketName])].join(' of ');
  room.book.record({
    kind: 'taste.start', subjectId: tasting.id, happenedAtMs: startedAtMs,
    summary: `Began to mix a brine by taste: ${nameIn(tasting.name)}${fish === '' ? '' : `, for ${fish}`}.`, after: tasting,
  });
  room.changed('tasting', [tasting.id]);
  return tasting;
}

/**
 * A tasting that can still be changed.
 * @throws Refusal NOT_FOUND; CONFLICT for one that became a recipe
 */
export function openTasting(room: BookRoom, tastingId: string): Tasting {
  const tasting = room.book.shelf('tastings').need(tastingId);
  if (tasting.recipeId === null) return tasting;
  const recipe = room.book.shelf('recipes').need(tasting.recipeId);
  return refuseInput(`${nameIn(tasting.name)} became the recipe ${nameIn(recipe.name)} already.`, ['tastingId'], 'Change that recipe, or begin a new tasting.', 'CONFLICT');
}

/** `Tasting of 25 Nov`: the year is in the record. */
function nameOfDay(room: BookRoom, atMs: number): string {
  return `Tasting of ${sayDay(localDay(atMs, zoneOf(room))).replace(/ \d{4}$/, '')}`;
}
