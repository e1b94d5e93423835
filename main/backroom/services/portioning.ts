/** Portioning a batch: what stands before the first pack is weighed, and how the weights add up at the end. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Portioning } from '../../../app/contract/requests/packs-where.ts';
import type { SetResultWire } from '../../../app/contract/requests/verdict.ts';
import { massFromText, massIn } from '../../../app/measures/mass.ts';
import { addsUp } from '../../../app/packs/portion-balance.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { judgeBatch, keepingOf } from './judging/judge-batch.ts';
import type { Keeping } from './judging/compose.ts';
import { kitchenOf } from './kitchen.ts';
import { packsOf, sayMass } from './packs-of-batch.ts';
import { balanceOfBatch, FLOAT_GRAMS, portioningsOf } from './portioning-balance.ts';
import { nameOf } from './release.ts';
import { needStandingRelease } from './standing-release.ts';
import { storageWordsOf } from './storage-said.ts';
import { refuseFuture } from './when.ts';

type Says = Output<'portion.get'>['says'];
/** What decides how fish may be sealed. */
const ASKED = ['salt', 'pack', 'parasite'];

/** The state of a batch at the table. */
export function viewPortioning(room: BookRoom, { batchId }: Parsed<'portion.get'>): Output<'portion.get'> {
  const batch = room.book.shelf('batches').need(batchId);
  const keeping = keepingOf(room, batch);
  const { gates, deciding } = judgeBatch(room, batch, keeping);
  const portionings = portioningsOf(room, batchId);
  const counted = new Set(portionings.flatMap(({ packIds }) => packIds));
  const last = portionings.at(-1) ?? room.book.shelf('portionings').all().at(-1);
  return {
    balance: balanceOfBatch(room, batch), gate: gates.pack, says: saysOf(room, batch, keeping, deciding), refusal: refusalOf(room, batch), portionings,
    openPacks: packsOf(room, batchId).filter(({ id }) => !counted.has(id)).length, lastTarget: offered(room, last?.targetGrams ?? 0), lastTare: offered(room, last?.tareGrams ?? 0),
  };
}

/** What the pack must say, and what its sealing rests on. */
function saysOf(room: BookRoom, batch: StoredBatch, keeping: Keeping, deciding: SetResultWire): Says {
  if (keeping.pack === 'unpacked') return [];
  const asked = deciding.checks.filter(({ question, verdict }) => ASKED.includes(question) && verdict !== 'does-not-apply');
  const salt = deciding.checks.find(({ question, verdict }) => question === 'salt' && verdict === 'does-not-apply');
  // A set's minimum of salt is not asked of a vacuum pack kept frozen: then that it stays frozen is what keeps it.
  const instead = keeping.pack === 'vacuum' && keeping.store === 'frozen' && salt !== undefined && !asked.some(({ question }) => question === 'salt')
    ? [{ text: `${salt.checkId}, ${salt.title}: not asked of packs kept frozen. They must be frozen, and stay so.`, source: salt.source }] : [];
  return [
    ...storageWordsOf(room, batch, keeping).map(({ text, source }) => ({ text: `The label says: ${text}`, source })),
    ...instead,
    ...asked.map(({ checkId, title, reason, source }) => ({ text: `${checkId}, ${title}: ${reason}`, source })),
  ];
}

function refusalOf(room: BookRoom, batch: StoredBatch): Output<'portion.get'>['refusal'] {
  try {
    const { pack } = needStandingRelease(room, batch);
    return pack === 'unpacked' ? { message: `${nameOf(batch)} was released to be served unpacked.`, remedy: 'A manager releases it for packing first: that asks for other limits.' } : null;
  } catch (thrown) {
    if (thrown instanceof Refusal) return { message: thrown.message, remedy: thrown.remedy ?? '' };
    throw thrown;
  }
}

/** A weight of the portioning before, to be offered again in the kitchen's unit; empty where there was none. */
function offered(room: BookRoom, grams: number): string {
  return grams === 0 ? '' : String(Number(massIn(grams, kitchenOf(room.book).massUnit).toFixed(4)));
}

/**
 * Ends a portioning.
 * @throws Refusal INVALID_INPUT: nothing to close, more than went in, weights that don't add up and no word why
 */
export function closePortioning(room: BookRoom, input: Parsed<'portion.close'>): Output<'portion.close'> {
  const batch = room.book.shelf('batches').need(input.batchId);
  refuseFuture(room, input.atMs, ['atMs']);
  const grams = (field: 'remainder' | 'trim' | 'target' | 'tare'): number => {
    const typed = input[field];
    return typed === null || isNothing(typed.text) ? 0 : unwrap(massFromText(typed.text, typed.unit, `${field}.text`)).grams;
  };
  const [remainderGrams, trimGrams, targetGrams, tareGrams] = [grams('remainder'), grams('trim'), grams('target'), grams('tare')];
  const counted = new Set(portioningsOf(room, batch.id).flatMap(({ packIds }) => packIds));
  const packIds = packsOf(room, batch.id).map(({ id }) => id).filter((id) => !counted.has(id));
  if (packIds.length === 0 && remainderGrams === 0 && trimGrams === 0) refuseInput(`No pack of ${nameOf(batch)} was weighed since the last portioning.`, ['batchId'], 'Weigh the packs first.');
  const balance = balanceOfBatch(room, batch, { trimGrams, remainderGrams });
  const together = balance.packedGrams + balance.trimGrams + balance.remainderGrams;
  if (together > balance.filletsGrams + FLOAT_GRAMS) refuseInput(`Packs, trim and what is left would weigh ${sayMass(room, together)} together, but only ${sayMass(room, balance.filletsGrams)} of fillets went into ${nameOf(batch)}.`, ['remainder', 'text'], 'Check the weights and their unit.');
  if (input.why === '') refuseUnexplained(room, batch, balance);
  const portioning: Portioning = {
    id: room.newId(), batchId: batch.id, atMs: input.atMs, initials: actingPerson(room).initials, targetGrams: targetGrams === 0 ? null : targetGrams, tareGrams, packIds, remainderGrams, trimGrams, why: input.why,
  };
  room.book.shelf('portionings').put(portioning);
  room.book.record({
    kind: 'portion.close', subjectId: batch.id, happenedAtMs: input.atMs, ...(input.why === '' ? {} : { why: input.why }),
    summary: `Portioned ${nameOf(batch)}: ${packIds.length} ${packIds.length === 1 ? 'pack' : 'packs'}, ${sayMass(room, trimGrams)} trim, ${sayMass(room, remainderGrams)} left over; packs are ${balance.yieldOfFilletsPercent.toFixed(1)} % of the fillets${balance.unaccountedPercent === null ? '' : `, ${balance.unaccountedPercent.toFixed(1)} % of the finished fish unaccounted for`}.`,
    after: portioning,
  });
  room.changed('packs', packIds);
  room.changed('batch', [batch.id]);
  return { portioning, balance: balanceOfBatch(room, batch) };
}

function refuseUnexplained(room: BookRoom, batch: StoredBatch, balance: Output<'portion.close'>['balance']): void {
  const { finishedGrams, unaccountedGrams, unaccountedPercent, tolerancePercent } = balance;
  if (finishedGrams === null || unaccountedGrams === null) {
    refuseInput(`The finished fish of ${nameOf(batch)} was not weighed, so nothing shows that its weights add up.`, ['why'], 'Weigh it before it is cut, or say why it was not.');
  }
  const isKept = addsUp({ ...balance, leftGrams: undefined, yieldOfFinishedPercent: undefined, unaccountedGrams, unaccountedPercent: unaccountedPercent ?? undefined }, finishedGrams, tolerancePercent);
  if (isKept) return;
  const how = unaccountedGrams > 0 ? `${sayMass(room, unaccountedGrams)} of ${sayMass(room, finishedGrams)} is missing` : `${sayMass(room, -unaccountedGrams)} more was weighed than the ${sayMass(room, finishedGrams)} there was`;
  refuseInput(`The weights don’t add up: ${how}, ${Math.abs(unaccountedPercent ?? 0).toFixed(1)} %; up to ${tolerancePercent} % is this kitchen’s tolerance.`, ['why'], 'Weigh again what is left and the trim, or say why.');
}

function isNothing(text: string): boolean {
  return text.trim() === '' || /^0+(\.0*)?$/.test(text.trim());
}
