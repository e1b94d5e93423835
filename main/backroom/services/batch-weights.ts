/** Weights of a batch on its way: drained after the brine, and finished. The last of each counts; earlier ones stay on record. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { BatchWeight } from '../../../app/contract/requests/corrective.ts';
import { massFromText, massIn, type EnteredMass } from '../../../app/measures/mass.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { kitchenOf } from './kitchen.ts';
import { nameOf } from './release.ts';
import { refuseBefore, refuseFuture, sayInstant } from './when.ts';
import { loadOfBatch } from './taken-out.ts';

type Weighing = Parsed<'batch.weigh'>;

/** Fish takes up a few per cent in a brine; half as much again is a slip of the unit (common practice). */
const MOST_UPTAKE = 1.5;

/**
 * Adds a weight.
 * @returns all weights of the batch, oldest first
 * @throws Refusal: a bad weight, a time to come or before the step it follows, more than the fish can weigh
 */
export function weighBatch(room: BookRoom, input: Weighing): BatchWeight[] {
  const batch = room.book.shelf('batches').need(input.batchId);
  const mass = unwrap(massFromText(input.mass.text, input.mass.unit, 'mass.text'));
  refuseFuture(room, input.atMs, ['atMs']);
  if (input.what === 'brined') refuseBrined(room, batch, input, mass);
  else refuseFinished(room, batch, input, mass);
  const weight: BatchWeight = { what: input.what, mass: { ...mass }, atMs: input.atMs, initials: actingPerson(room).initials };
  const weights = [...batch.weights, weight];
  room.book.shelf('batches').put({ ...batch, weights });
  room.book.record({
    kind: 'batch.weigh', subjectId: batch.id, happenedAtMs: input.atMs,
    summary: `${nameOf(batch)} weighed ${mass.text} ${mass.unit} ${input.what === 'brined' ? 'drained after the brine' : 'finished'} at ${sayInstant(room, input.atMs)}.`,
    before: { weights: batch.weights }, after: { weights },
  });
  room.changed('batch', [batch.id]);
  room.changed('verdict', [batch.id]);
  return weights;
}

/** The last weight of this kind. */
export function weightOf(batch: Pick<StoredBatch, 'weights'>, what: BatchWeight['what']): BatchWeight | undefined {
  return batch.weights.findLast((weight) => weight.what === what);
}

function refuseBrined(room: BookRoom, batch: StoredBatch, input: Weighing, mass: EnteredMass): void {
  const ended = batch.soak.find((event) => event.what === 'end');
  if (ended === undefined) throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} has not come out of its brine.`, { remedy: 'Log the end of its soak first.' });
  refuseBefore(room, input.atMs, 'Weighing after the brine', { what: 'the end of the soak', atMs: ended.atMs }, ['atMs']);
  refuseHeavier(room, mass, batch.fillets.grams * MOST_UPTAKE, `${sayMass(room, batch.fillets.grams)} of fillets went into the brine`);
}

function refuseFinished(room: BookRoom, batch: StoredBatch, input: Weighing, mass: EnteredMass): void {
  const load = loadOfBatch(room, batch);
  if (load === undefined || load.outAtMs === null) throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} has not come out of the smoker.`, { remedy: 'Mark the load out first.' });
  refuseBefore(room, input.atMs, 'Weighing the finished fish', { what: 'coming out of the smoker', atMs: load.outAtMs }, ['atMs']);
  const brined = weightOf(batch, 'brined');
  if (brined === undefined) refuseHeavier(room, mass, batch.fillets.grams * MOST_UPTAKE, `${sayMass(room, batch.fillets.grams)} of fillets went into the brine`);
  else refuseHeavier(room, mass, brined.mass.grams, `it weighed ${sayMass(room, brined.mass.grams)} after the brine, and smoking only dries it`);
}

function refuseHeavier(room: BookRoom, mass: EnteredMass, mostGrams: number, because: string): void {
  if (mass.grams <= mostGrams) return;
  refuseInput(`${sayMass(room, mass.grams)} can’t be: ${because}.`, ['mass', 'text'], 'Weigh it again; check the point and the unit.');
}

function sayMass(room: BookRoom, grams: number): string {
  const unit = kitchenOf(room.book).massUnit;
  return `${massIn(grams, unit).toFixed(2)} ${unit}`;
}
