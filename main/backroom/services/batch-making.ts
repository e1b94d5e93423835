/** Making a batch: lots of one species and one source, a recipe, and the limit set that will decide. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Recipe } from '../../../app/contract/requests/recipes.ts';
import type { Species } from '../../../app/contract/requests/fish.ts';
import { massFromText } from '../../../app/measures/mass.ts';
import { localDay } from '../../../app/measures/zone.ts';
import { dayOfYear, readDay } from '../../../app/packs/dates.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { makeCard } from './brine-card.ts';
import { refuseInput } from './field-refusal.ts';
import { kitchenOf } from './kitchen.ts';
import { ingredientsOf, ownIngredientsAmong } from './kitchen-ingredients.ts';
import { needDecidingSet } from './limit-standing.ts';
import { decidingSetIdFor } from './own-set-choice.ts';
import { refuseForbiddenNitrite, refuseUngroundedNitrite } from './nitrite-rule.ts';
import { lotsForOneTub, refuseMoreThanReceived } from './tub-lots.ts';
import { zoneOf } from './when.ts';

/** Without I and O, which read as 1 and 0; the first batch of a day goes without a letter. */
const LATER_LETTERS = 'BCDEFGHJKLMNPQRSTUVWXYZ';

/**
 * Makes the batch with the card that it will be brined by, kept word for word.
 * @throws Refusal: lots that can't share a tub, a weight that can't be, a recipe for the other process, nitrite where it
 *   isn't allowed, a limit set that may not decide
 */
export function makeBatch(room: BookRoom, input: Parsed<'batch.make'>): StoredBatch {
  const recipe = room.book.shelf('recipes').need(input.recipeId);
  refuseOtherProcess(recipe, input.process);
  const tub = lotsForOneTub(room, input.lotIds);
  const fillets = unwrap(massFromText(input.fillets.text, input.fillets.unit, 'fillets'));
  refuseMoreThanReceived(room, tub.lots, fillets.grams);
  const ingredients = ingredientsOf(room);
  refuseForbiddenNitrite(room, recipe, tub.species, ingredients);
  refuseUngroundedNitrite(kitchenOf(room.book), recipe, ingredients);
  const setId = input.setId ?? decidingSetIdFor(room, tub.sourceKind);
  needDecidingSet(room, setId, ['setId']);
  const batch: StoredBatch = {
    id: room.newId(), shortName: nextShortName(room, tub.species), lotCode: null, lotIds: input.lotIds,
    speciesId: tub.species.id, sourceKind: tub.sourceKind, fillets, thickestMm: input.thickestMm, thinnestMm: input.thinnestMm ?? null, skin: input.skin,
    process: input.process, pack: input.pack, store: input.store, setId,
    card: makeCard(room, { recipe, tub, filletGrams: fillets.grams, choices: input, ingredients }), recipe,
    ownIngredients: ownIngredientsAmong(room, recipe.ingredients.map(({ id }) => id)),
    brinePlaceId: null, tub: '', basket: '', asksReuse: true, brineReused: null, mends: [], scheduledId: null, weights: [],
    soak: [], loadId: null, madeAtMs: room.clock.nowMs(), madeBy: actingPerson(room).initials,
    intoFreezerAtMs: null, frozenAtMs: null, sealedAtMs: null, outOfFreezerAtMs: null, freezerPlaceId: null,
  };
  room.book.shelf('batches').put(batch);
  room.book.record({
    kind: 'batch.make', subjectId: batch.id, happenedAtMs: batch.madeAtMs,
    summary: `Made batch ${batch.shortName}: ${fillets.text} ${fillets.unit} of ${tub.species.marketName} fillets from ${tub.lots.map((lot) => lot.code).join(', ')}, “${recipe.name}” version ${recipe.version}, to be ${input.process}-smoked.`,
    after: batch,
  });
  room.changed('batch', [batch.id]);
  room.changed('fish', input.lotIds);
  return batch;
}

function refuseOtherProcess(recipe: Recipe, process: StoredBatch['process']): void {
  if (recipe.process === 'either' || recipe.process === process) return;
  const message = `“${recipe.name}” is a recipe for ${recipe.process} smoking, and this batch is to be ${process}-smoked.`;
  throw new Refusal('RULE_BLOCKS', message, { remedy: 'Choose another recipe, or the other process.', fields: [{ path: ['process'], message }] });
}

/** Species letters and day of the year, `WF 329`; a second one that day is `WF 329 B`. */
function nextShortName(room: BookRoom, species: Species): string {
  const zone = zoneOf(room);
  const today = localDay(room.clock.nowMs(), zone);
  const base = `${species.letters} ${String(dayOfYear(unwrap(readDay(today)))).padStart(3, '0')}`;
  const taken = new Set(
    room.book.shelf('batches').all().filter((batch) => localDay(batch.madeAtMs, zone) === today).map((batch) => batch.shortName),
  );
  const free = [base, ...[...LATER_LETTERS].map((letter) => `${base} ${letter}`)].find((name) => !taken.has(name));
  return free ?? refuseInput(`${taken.size} batches were made today.`, ['lotIds'], 'Make the next one tomorrow, or larger batches.');
}
