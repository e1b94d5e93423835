/** Which fish lots may go into one tub together, and how much fish they hold. */
import type { Species } from '../../../app/contract/requests/fish.ts';
import { massIn } from '../../../app/measures/mass.ts';
import type { StoredBatch, StoredFishLot } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';
import { speciesOf } from './species.ts';

/** Two scales of a kitchen differ by about this much, so that fillets may weigh a little over what was received (our choice). */
const SCALE_ROOM = 1.02;

/** The lots of one tub: one species, one kind of source and, for guests' fish, one owner. */
export interface TubLots {
  readonly lots: readonly StoredFishLot[];
  readonly species: Species;
  readonly sourceKind: StoredFishLot['source']['kind'];
}

/**
 * Reads the lots that are to go into one tub.
 * @throws Refusal NOT_FOUND for an unknown lot; RULE_BLOCKS on `lotIds` for two species, guest and bought fish, or two owners
 */
export function lotsForOneTub(room: BookRoom, lotIds: readonly string[]): TubLots {
  if (new Set(lotIds).size !== lotIds.length) refuseInput('The same fish lot is named twice.', ['lotIds'], 'Name each lot once.');
  const lots = lotIds.map((lotId) => room.book.shelf('fishLots').need(lotId));
  const [first, ...others] = lots;
  if (first === undefined) throw new Error('a tub needs a lot');
  for (const other of others) {
    refuseOtherSpecies(room, first, other);
    refuseOtherSource(first, other);
    refuseOtherOwner(first, other);
  }
  return { lots, species: speciesOf(room, first.speciesId), sourceKind: first.source.kind };
}

function refuseOtherSpecies(room: BookRoom, first: StoredFishLot, other: StoredFishLot): void {
  if (first.speciesId === other.speciesId) return;
  blockTub(
    `Lot ${first.code} is ${speciesOf(room, first.speciesId).marketName} and lot ${other.code} is ${speciesOf(room, other.speciesId).marketName}: one tub takes one species.`,
    'Make a batch of each.',
  );
}

function refuseOtherSource(first: StoredFishLot, other: StoredFishLot): void {
  if (first.source.kind === other.source.kind) return;
  const [guest, bought] = first.source.kind === 'guest' ? [first, other] : [other, first];
  blockTub(
    `Lot ${guest.code} is a guest’s own catch and lot ${bought.code} was bought: the two never share a tub.`,
    'Make a batch of each, in two tubs: a guest’s catch is not for sale, and it must come back to the guest.',
  );
}

function refuseOtherOwner(first: StoredFishLot, other: StoredFishLot): void {
  if (first.source.kind !== 'guest' || other.source.kind !== 'guest' || isOneOwner(first.source, other.source)) return;
  const differs = sameWords(first.source.ownerName, other.source.ownerName) ? ' under another licence' : '';
  blockTub(
    `Lot ${first.code} belongs to ${first.source.ownerName} and lot ${other.code} to ${other.source.ownerName}${differs}: each guest gets their own fish back.`,
    'Make a batch for each guest, in two tubs.',
  );
}

type GuestSource = Extract<StoredFishLot['source'], { kind: 'guest' }>;

/** One name is one owner, unless two licences say that two guests share it. */
function isOneOwner(one: GuestSource, other: GuestSource): boolean {
  if (!sameWords(one.ownerName, other.ownerName)) return false;
  const [first = '', second = ''] = [one.licence, other.licence];
  return first === '' || second === '' || sameWords(first, second);
}

function sameWords(one: string, other: string): boolean {
  return plain(one) === plain(other);
}

function plain(words: string): string {
  return words.trim().replace(/\s+/g, ' ').toLowerCase();
}

function blockTub(message: string, remedy: string): never {
  throw new Refusal('RULE_BLOCKS', message, { remedy, fields: [{ path: ['lotIds'], message }] });
}

/**
 * Refuses more fillets than can have come from the lots: these lots by themselves, and together with
 * every batch that was made from them or from lots that shared a tub with them.
 */
export function refuseMoreThanReceived(room: BookRoom, lots: readonly StoredFishLot[], filletGrams: number): void {
  const received = weightOf(lots);
  if (filletGrams > received * SCALE_ROOM) {
    refuseInput(
      `${saying(filletGrams)} of fillets can’t come from ${naming(lots)}: ${saying(received)} was received.`,
      ['fillets'], 'Weigh again, check the unit, or add the lot that the rest came from.',
    );
  }
  const { linkedLots, batches } = linkedTo(room, lots);
  const used = batches.reduce((sum, batch) => sum + batch.fillets.grams, 0);
  if (used + filletGrams > weightOf(linkedLots) * SCALE_ROOM) {
    refuseInput(
      `Only ${saying(Math.max(0, weightOf(linkedLots) - used))} is left of ${naming(linkedLots)}: ${batches.map((batch) => batch.shortName).join(', ')} took ${saying(used)}.`,
      ['fillets'], 'Weigh again, check the unit, or add the lot that the rest came from.',
    );
  }
}

function linkedTo(room: BookRoom, lots: readonly StoredFishLot[]): { linkedLots: StoredFishLot[]; batches: StoredBatch[] } {
  const all = room.book.shelf('batches').all();
  const lotIds = new Set(lots.map((lot) => lot.id));
  const batches = new Set<StoredBatch>();
  let grew = true;
  while (grew) {
    grew = false;
    for (const batch of all) {
      if (batches.has(batch) || !batch.lotIds.some((lotId) => lotIds.has(lotId))) continue;
      batches.add(batch);
      for (const lotId of batch.lotIds) lotIds.add(lotId);
      grew = true;
    }
  }
  return { linkedLots: [...lotIds].map((lotId) => room.book.shelf('fishLots').need(lotId)), batches: [...batches] };
}

function weightOf(lots: readonly StoredFishLot[]): number {
  return lots.reduce((sum, lot) => sum + lot.mass.grams, 0);
}

function naming(lots: readonly StoredFishLot[]): string {
  return lots.length === 1 ? `lot ${lots[0]?.code ?? ''}` : `lots ${lots.map((lot) => lot.code).join(', ')}`;
}

/** Both systems, as lots may have been weighed in either. */
function saying(grams: number): string {
  return `${massIn(grams, 'kg').toFixed(2)} kg (${massIn(grams, 'lb').toFixed(2)} lb)`;
}
