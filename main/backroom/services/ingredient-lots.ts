/** Deliveries of ingredients, which of them is in use, and which batches’ brines took from which. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { IngredientLot } from '../../../app/contract/requests/trace-shapes.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { ingredientsOf } from './kitchen-ingredients.ts';
import { nameOf } from './release.ts';
import { refuseFuture } from './when.ts';

export const ingredientLotServices = {
  'ingredientLot.list': (room: BookRoom): Output<'ingredientLot.list'> => ({
    lots: room.book.shelf('ingredientLots').all().toSorted((one, other) => other.receivedAtMs - one.receivedAtMs),
  }),
  'ingredientLot.receive': (room: BookRoom, input: Parsed<'ingredientLot.receive'>): Output<'ingredientLot.receive'> => ({ lot: receiveLot(room, input) }),
  'ingredientLot.use': (room: BookRoom, input: Parsed<'ingredientLot.use'>): Output<'ingredientLot.use'> => ({ lot: putInUse(room, room.book.shelf('ingredientLots').need(input.lotId), input.inUse) }),
  'ingredientLot.correct': (room: BookRoom, input: Parsed<'ingredientLot.correct'>): Output<'ingredientLot.correct'> => ({ lot: correctUse(room, input) }),
} satisfies Services<'ingredientLot.list' | 'ingredientLot.receive' | 'ingredientLot.use' | 'ingredientLot.correct'>;

/** @throws Refusal: an ingredient the kitchen doesn't have, a time to come, the same lot of the same supplier twice */
function receiveLot(room: BookRoom, input: Parsed<'ingredientLot.receive'>): IngredientLot {
  const ingredient = ingredientsOf(room).find(({ id }) => id === input.ingredientId);
  if (ingredient === undefined) return refuseInput('The kitchen has no such ingredient.', ['ingredientId'], 'Choose it from the list, or add it to the ingredients first.', 'NOT_FOUND');
  refuseFuture(room, input.receivedAtMs, ['receivedAtMs']);
  const same = room.book.shelf('ingredientLots').where('ingredientId', ingredient.id).find((lot) => lot.lotCode === input.lotCode && lot.supplierName === input.supplierName);
  if (same !== undefined) throw new Refusal('CONFLICT', `Lot ${input.lotCode} of ${ingredient.name} is in the book already.`, { remedy: 'Tap “in use” at that one, or check the code on the bag.', fields: [{ path: ['lotCode'], message: 'This lot is in the book already.' }] });
  const { inUse, ...given } = input;
  const lot: IngredientLot = { id: room.newId(), ...given, ingredientName: ingredient.name, inUseSinceMs: null, usedIn: [] };
  room.book.shelf('ingredientLots').put(lot);
  room.book.record({
    kind: 'ingredientLot.receive', subjectId: lot.id, happenedAtMs: lot.receivedAtMs,
    summary: `Received ${lot.ingredientName}, lot ${lot.lotCode}${lot.supplierName === '' ? '' : `, from ${lot.supplierName}`}.`, after: lot,
  });
  room.changed('recipes', [lot.id]);
  return inUse ? putInUse(room, lot, true) : lot;
}

/** Brines are made of it from now on; the lot of the same ingredient that was in use before is put by. */
function putInUse(room: BookRoom, lot: IngredientLot, inUse: boolean): IngredientLot {
  if ((lot.inUseSinceMs !== null) === inUse) return lot;
  const shelf = room.book.shelf('ingredientLots');
  const others = inUse ? shelf.where('ingredientId', lot.ingredientId).filter((other) => other.id !== lot.id && other.inUseSinceMs !== null) : [];
  for (const other of others) shelf.put({ ...other, inUseSinceMs: null });
  const used: IngredientLot = { ...lot, inUseSinceMs: inUse ? room.clock.nowMs() : null };
  shelf.put(used);
  room.book.record({
    kind: 'ingredientLot.use', subjectId: lot.id, happenedAtMs: room.clock.nowMs(),
    summary: `${inUse ? 'In use from now on' : 'No longer in use'}: ${lot.ingredientName}, lot ${lot.lotCode}${others.length === 0 ? '' : `, instead of ${others.map((other) => other.lotCode).join(', ')}`}.`,
    before: { inUseSinceMs: lot.inUseSinceMs }, after: { inUseSinceMs: used.inUseSinceMs },
  });
  room.changed('recipes', [lot.id]);
  return used;
}

/**
 * Notes that a batch's brine took from the lots in use: called where fish goes into a brine and where one is mended.
 * Where that was entered after another lot was put in use, both count: either bag may have been the one that was open.
 * @param atMs when it happened
 * @param ingredientIds what went in; each once noted for a lot stays
 */
export function noteLotsInUse(room: BookRoom, batch: StoredBatch, atMs: number, ingredientIds: readonly string[]): void {
  const shelf = room.book.shelf('ingredientLots');
  const initials = actingPerson(room).initials;
  for (const ingredientId of new Set(ingredientIds)) {
    const lots = shelf.where('ingredientId', ingredientId);
    const thenId = inUseAt(room, lots, atMs);
    for (const lot of lots) {
      if ((lot.inUseSinceMs === null && lot.id !== thenId) || lot.usedIn.some((use) => use.batchId === batch.id)) continue;
      noteInBatch(room, batch.id, lot.id, true);
      shelf.put({ ...lot, usedIn: [...lot.usedIn, { batchId: batch.id, atMs, initials }] });
      room.book.record({
        kind: 'ingredientLot.used', subjectId: batch.id, happenedAtMs: atMs,
        summary: `The brine of ${nameOf(batch)} took ${lot.ingredientName} of lot ${lot.lotCode}.`, after: { lotId: lot.id },
      });
    }
  }
}

/** The lot of one ingredient that was in use at an instant, by the entries of putting in use: each of a lot that is in use takes it out. */
function inUseAt(room: BookRoom, lots: readonly IngredientLot[], atMs: number): string | undefined {
  if (lots.length === 0) return undefined;
  const entries = room.book.entriesAbout(lots.map(({ id }) => id)).filter((entry) => entry.kind === 'ingredientLot.use' && entry.enteredAtMs <= atMs);
  return entries.reduce<string | undefined>((current, { subjectId }) => (current === subjectId ? undefined : subjectId), undefined);
}

/** The batch names the lot too, so that it is found from there by its id. */
function noteInBatch(room: BookRoom, batchId: string, lotId: string, used: boolean): void {
  const shelf = room.book.shelf('batches');
  const batch = shelf.need(batchId);
  const others = (batch.ingredientLotIds ?? []).filter((id) => id !== lotId);
  shelf.put({ ...batch, ingredientLotIds: used ? [...others, lotId] : others });
}

/** @throws Refusal INVALID_INPUT: an ingredient that the brine's card, as it was mended, doesn't have */
function correctUse(room: BookRoom, input: Parsed<'ingredientLot.correct'>): IngredientLot {
  const lot = room.book.shelf('ingredientLots').need(input.lotId);
  const batch = room.book.shelf('batches').need(input.batchId);
  if (lot.usedIn.some((use) => use.batchId === batch.id) === input.used) return lot;
  if (input.used && !batch.card.lines.some((line) => line.ingredientId === lot.ingredientId)) {
    refuseInput(`The brine of ${nameOf(batch)} has no ${lot.ingredientName}.`, ['batchId'], 'Choose another batch or another lot.');
  }
  const use = { batchId: batch.id, atMs: room.clock.nowMs(), initials: actingPerson(room).initials };
  const corrected: IngredientLot = { ...lot, usedIn: input.used ? [...lot.usedIn, use] : lot.usedIn.filter((one) => one.batchId !== batch.id) };
  room.book.shelf('ingredientLots').put(corrected);
  noteInBatch(room, batch.id, lot.id, input.used);
  room.book.record({
    kind: 'ingredientLot.correct', subjectId: batch.id, happenedAtMs: null,
    summary: `Corrected: the brine of ${nameOf(batch)} ${input.used ? 'took' : 'did not take'} ${lot.ingredientName} of lot ${lot.lotCode}.`,
    why: input.why, before: { usedIn: lot.usedIn }, after: { usedIn: corrected.usedIn },
  });
  room.changed('recipes', [lot.id]);
  return corrected;
}
