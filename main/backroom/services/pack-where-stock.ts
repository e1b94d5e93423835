/** What lies in the cold store: what to take first, what expires, how much of which fish and whose. */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Output } from '../../../app/contract/contract.ts';
import type { PackWhere, StockGroup } from '../../../app/contract/requests/cold-store.ts';
import { localDay } from '../../../app/measures/zone.ts';
import { inOrderOfTaking, isExpiring } from '../../../app/packs/stock-order.ts';
import type { BookRoom } from '../room.ts';
import { viewPacksWhere } from './pack-where.ts';
import { zoneOf } from './when.ts';

/** Batches of the book that is open of which nothing is here any more: they needn’t be looked through again until something happens to them. */
const emptied = new Set<string>();
let emptiedOf = '';

/** So many batches are looked through in one turn. */
const BATCHES_A_TURN = 10;

/** Told whenever a pack of a batch is sealed or moved. */
export function forgetEmptied(batchId: string): void {
  emptied.delete(batchId);
}

/** Every pack that is here, each batch in a turn of few, so that the back room answers others in between. */
export async function stockOf(room: BookRoom): Promise<Output<'pack.stock'>> {
  const here: PackWhere[] = [];
  let looked = 0;
  forgetOtherBook(room);
  for (const batch of room.book.shelf('batches').all()) {
    if (batch.sealedAtMs === null || emptied.has(batch.id)) continue;
    const packs = viewPacksWhere(room, batch).filter(isHere);
    if (packs.length === 0) emptied.add(batch.id);
    here.push(...packs);
    looked += 1;
    if (looked % BATCHES_A_TURN === 0) await nextTurn();
  }
  const today = localDay(room.clock.nowMs(), zoneOf(room));
  const packs = inOrderOfTaking(here);
  const names = new Map(room.book.shelf('places').all().map((place) => [place.id, place.name]));
  return {
    packs,
    bySpecies: groupsOf(packs, ({ marketName }) => [marketName, marketName]),
    byOwner: groupsOf(packs, ({ ownerName }) => [ownerName ?? '', ownerName ?? '']),
    byPlace: groupsOf(packs, ({ placeId, state }) => (state === 'into-store' ? [placeId ?? '', names.get(placeId ?? '') ?? ''] : ['', ''])),
    expiring: packs.filter(({ bestBy }) => isExpiring(bestBy, today)).map(({ packId }) => packId),
    spots: spotsOf(packs),
  };
}

/** A backup of the same book has the same batches, and may have packs of them that are gone here. */
function forgetOtherBook({ book: { fileName, openedAtMs } }: BookRoom): void {
  const opening = `${openedAtMs} ${fileName}`;
  if (opening !== emptiedOf) emptied.clear();
  emptiedOf = opening;
}

function isHere({ state }: PackWhere): boolean {
  return state !== 'handed-over' && state !== 'served' && state !== 'destroyed';
}

function groupsOf(packs: readonly PackWhere[], of: (pack: PackWhere) => readonly [key: string, name: string]): StockGroup[] {
  const groups = new Map<string, StockGroup>();
  for (const pack of packs) {
    const [key, name] = of(pack);
    const group = groups.get(key) ?? { key, name, packs: 0, grams: 0 };
    groups.set(key, { ...group, packs: group.packs + 1, grams: group.grams + pack.grams });
  }
  return [...groups.values()].toSorted((one, other) => (one.name < other.name ? -1 : 1));
}

function spotsOf(packs: readonly PackWhere[]): { placeId: string; spot: string }[] {
  const spots = new Map(packs.flatMap(({ placeId, spot }) => (placeId === null || spot === '' ? [] : [[`${placeId} ${spot}`, { placeId, spot }] as const])));
  return [...spots.values()].toSorted((one, other) => (one.spot < other.spot ? -1 : 1));
}
