/** Where a batch soaks: the place, the tub and basket, and that no other fish is in that tub. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';
import { soakMarkMs } from './soak-bath.ts';
import { lotsForOneTub } from './tub-lots.ts';
import { sayInstant } from './when.ts';

type Logging = Parsed<'soak.log'>;

/** What is told once, at the start of a soak. */
export type SoakStand = Pick<StoredBatch, 'brinePlaceId' | 'tub' | 'basket' | 'brineReused'>;

/**
 * Reads where the batch goes in.
 * @throws Refusal: a place that is neither brining room nor cooler, a tub in which another batch lies; at another step than the start, any of it
 */
export function readStand(room: BookRoom, batch: StoredBatch, input: Logging): SoakStand {
  if (input.what !== 'start') {
    refuseLateStand(input);
    const { brinePlaceId, tub, basket, brineReused } = batch;
    return { brinePlaceId, tub, basket, brineReused };
  }
  const stand: SoakStand = {
    brinePlaceId: input.placeId === undefined || input.placeId === null ? null : soakPlaceId(room, input.placeId),
    tub: input.tub ?? '', basket: input.basket ?? '',
    // A dry cure has no brine that could have been used before.
    brineReused: batch.card.cure === 'dry' ? null : (input.brineReused ?? null),
  };
  refuseTakenTub(room, batch, stand, input.atMs);
  return stand;
}

function refuseLateStand(input: Logging): void {
  const [told] = (['placeId', 'tub', 'basket', 'brineReused'] as const).filter((key) => input[key] !== undefined && input[key] !== null && input[key] !== '');
  if (told !== undefined) refuseInput('Where the tub stands, its basket and its brine are told at the start of the soak.', [told], 'Leave it out here.');
}

function soakPlaceId(room: BookRoom, placeId: string): string {
  const place = room.book.shelf('places').get(placeId);
  if (place === undefined) refuseInput('That place is not in this book.', ['placeId'], 'Choose a brining room or a cooler, or add it in the office.', 'NOT_FOUND');
  if (place.kind === 'freezer') refuseInput(`“${place.name}” is a freezer, and fish is brined above freezing.`, ['placeId'], 'Choose the brining room or the cooler that the tub stands in.');
  return place.id;
}

function refuseTakenTub(room: BookRoom, batch: StoredBatch, stand: SoakStand, atMs: number): void {
  if (stand.tub === '') return;
  const other = room.book.shelf('batches').all().find((candidate) => candidate.id !== batch.id && isSameTub(candidate, stand) && isSoakingAt(candidate, atMs));
  if (other === undefined) return;
  const since = sayInstant(room, soakMarkMs(other, 'start') ?? atMs);
  const apart = whyApart(room, batch, other);
  const message = `Batch ${other.shortName} has been soaking in tub “${other.tub}” since ${since}. ${apart ?? 'Its fish and this are of one species and one owner.'}`;
  const remedy = apart === undefined
    ? 'Make one batch of both when they share a brine, so that one card and one soak stand for all of it; or take another tub.'
    : 'Take another tub: different fish never share a brine.';
  throw new Refusal('RULE_BLOCKS', message, { remedy, fields: [{ path: ['tub'], message }] });
}

/** A tub is one by its name; where both are known, also by the place it stands in. */
export function isSameTub(one: Pick<SoakStand, 'brinePlaceId' | 'tub'>, other: Pick<SoakStand, 'brinePlaceId' | 'tub'>): boolean {
  const isElsewhere = one.brinePlaceId !== null && other.brinePlaceId !== null && one.brinePlaceId !== other.brinePlaceId;
  return !isElsewhere && plain(one.tub) === plain(other.tub);
}

/** In the brine at that moment, or gone in after it and still there now. */
function isSoakingAt(batch: StoredBatch, atMs: number): boolean {
  const startMs = soakMarkMs(batch, 'start');
  const endMs = soakMarkMs(batch, 'end');
  if (startMs === undefined) return false;
  return startMs <= atMs ? endMs === undefined || endMs > atMs : endMs === undefined;
}

/** Why the lots of two batches may not share a tub, in a sentence; undefined where they may. */
function whyApart(room: BookRoom, one: StoredBatch, other: StoredBatch): string | undefined {
  try {
    lotsForOneTub(room, [...new Set([...one.lotIds, ...other.lotIds])]);
    return undefined;
  } catch (thrown) {
    if (thrown instanceof Refusal && thrown.code === 'RULE_BLOCKS') return thrown.message;
    throw thrown;
  }
}

function plain(words: string): string {
  return words.trim().replace(/\s+/g, ' ').toLowerCase();
}
