/** Sealing packs: only of a released batch, never more fish than went in, each with the next number. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Pack } from '../../../app/contract/requests/packing.ts';
import { massFromText, massIn, type EnteredMass } from '../../../app/measures/mass.ts';
import { netOfGross } from '../../../app/packs/portion-balance.ts';
import { makePackCode } from '../../../app/packs/lot-code.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { kitchenOf } from './kitchen.ts';
import { nameOf } from './release.ts';
import { forgetEmptied } from './pack-where-stock.ts';
import { packsOf, sayMass } from './packs-of-batch.ts';
import { balanceOfBatch, FLOAT_GRAMS } from './portioning-balance.ts';
import { needStandingRelease } from './standing-release.ts';
import { refuseBefore, refuseFuture } from './when.ts';

const MINUTE_MS = 60_000;

/**
 * Seals packs of the weights given and marks the batch as sealed with its first pack.
 * @throws Refusal: not released, released to be served unpacked, a bad weight, more than went in, a time before the release
 */
export function sealPacks(room: BookRoom, input: Parsed<'pack.seal'>): Pack[] {
  const batch = room.book.shelf('batches').need(input.batchId);
  const release = needStandingRelease(room, batch);
  if (release.pack === 'unpacked') {
    throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} was released to be served unpacked.`, { remedy: 'A manager releases it for packing first: that asks for other limits.' });
  }
  refuseFuture(room, input.sealedAtMs, ['sealedAtMs']);
  // People type whole minutes, so a pack sealed in the minute of the release is sealed after it.
  refuseBefore(room, input.sealedAtMs, 'Sealing', { what: 'the release', atMs: Math.floor(release.atMs / MINUTE_MS) * MINUTE_MS }, ['sealedAtMs']);
  const weights = netWeights(room, input);
  const earlier = packsOf(room, batch.id);
  refuseTooHeavy(room, batch, earlier, weights);
  refuseMoreThanLeft(room, batch, weights);
  const packs = weights.map((net, index) => packOf(room, batch, input.sealedAtMs, net, earlier.length + index + 1));
  for (const pack of packs) room.book.shelf('packs').put(pack);
  if (batch.sealedAtMs === null) room.book.shelf('batches').put({ ...batch, sealedAtMs: input.sealedAtMs });
  room.book.record({
    kind: 'pack.seal', subjectId: batch.id, happenedAtMs: input.sealedAtMs,
    summary: `Sealed ${packs.length} ${packs.length === 1 ? 'pack' : 'packs'} of ${nameOf(batch)}: ${packs.at(0)?.code ?? ''}${packs.length > 1 ? ` to ${packs.at(-1)?.code ?? ''}` : ''}.`,
    after: { packs, ...weighedHow(input) },
  });
  forgetEmptied(batch.id);
  room.changed('packs', packs.map((pack) => pack.id));
  room.changed('batch', [batch.id]);
  room.changed('verdict', [batch.id]);
  return packs;
}

/** Net weights; of packs weighed in their bag the tare is taken off, and the record keeps what stood on the scale. */
function netWeights(room: BookRoom, input: Parsed<'pack.seal'>): EnteredMass[] {
  const typed = input.weights.map(({ text, unit }, index) => unwrap(massFromText(text, unit, `weights.${index}.text`)));
  if (input.weighed !== 'gross') return typed;
  if (input.tare === undefined) refuseInput('The weight of the empty bag is missing.', ['tare', 'text'], 'Weigh a new bag with its label and pad, and type that as the tare.');
  const tare = unwrap(massFromText(input.tare.text, input.tare.unit, 'tare.text'));
  return typed.map((gross, index): EnteredMass => {
    const grams = netOfGross(gross.grams, tare.grams);
    if (grams === undefined) refuseInput(`${gross.text} ${gross.unit} is no more than the bag weighs (${sayMass(room, tare.grams)}).`, ['weights', index, 'text'], 'Weigh it again, or choose net.');
    const net = Math.floor(massIn(grams, gross.unit) * 1e4 + 1e-6) / 1e4;
    return { text: String(net), unit: gross.unit, grams };
  });
}

/** What the entry keeps beside the packs. */
function weighedHow({ weighed, weights, tare, target }: Parsed<'pack.seal'>): Readonly<Record<string, unknown>> {
  return { ...(weighed === 'gross' ? { gross: weights, tare } : {}), ...(target === undefined ? {} : { target }) };
}

/** Where the finished fish was weighed, no more is packed than is left of it, the kitchen's tolerance allowed. */
function refuseMoreThanLeft(room: BookRoom, batch: StoredBatch, weights: readonly EnteredMass[]): void {
  const { finishedGrams, leftGrams, packs, packedGrams, trimGrams, tolerancePercent } = balanceOfBatch(room, batch);
  if (finishedGrams === null || leftGrams === null) return;
  let left = leftGrams + (finishedGrams * tolerancePercent) / 100;
  for (const [index, net] of weights.entries()) {
    left -= net.grams;
    if (left >= -FLOAT_GRAMS) continue;
    const trim = trimGrams === 0 ? '' : ` and ${sayMass(room, trimGrams)} trimmed off`;
    refuseInput(
      `Pack ${packs + index + 1} weighs ${net.text} ${net.unit}, but of the ${sayMass(room, finishedGrams)} of finished fish only ${sayMass(room, Math.max(0, left + net.grams - (finishedGrams * tolerancePercent) / 100))} is left: ${sayMass(room, packedGrams + weights.slice(0, index).reduce((sum, one) => sum + one.grams, 0))} is packed${trim}.`,
      ['weights', index, 'text'], 'Weigh it again; check the unit, and whether it was weighed with its bag.',
    );
  }
}

function packOf(room: BookRoom, batch: StoredBatch, sealedAtMs: number, net: EnteredMass, serial: number): Pack {
  if (batch.lotCode === null) throw new Error(`released batch ${batch.id} has no lot code`);
  return {
    id: room.newId(), batchId: batch.id, serial, code: unwrap(makePackCode(batch.lotCode, serial), 'RULE_BLOCKS'),
    net: { ...net }, sealedAtMs, sealedBy: actingPerson(room).initials, printedCount: 0,
  };
}

function refuseTooHeavy(room: BookRoom, batch: StoredBatch, earlier: readonly Pack[], weights: readonly EnteredMass[]): void {
  const grams = earlier.reduce((sum, pack) => sum + pack.net.grams, 0) + weights.reduce((sum, net) => sum + net.grams, 0);
  if (grams <= batch.fillets.grams + FLOAT_GRAMS) return;
  const unit = kitchenOf(room.book).massUnit;
  const [packed, went] = [grams, batch.fillets.grams].map((one) => `${massIn(one, unit).toFixed(2)} ${unit}`);
  refuseInput(
    `The packs of ${nameOf(batch)} would weigh ${packed} together, but only ${went} of fillets went into it.`,
    ['weights'], 'Smoked fish weighs less than the fillets did: check the weights and their unit.',
  );
}
