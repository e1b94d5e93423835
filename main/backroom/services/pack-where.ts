/** What became of a pack: its last move says it; without one it lies sealed at the packing table. */
import type { PackWhere } from '../../../app/contract/requests/cold-store.ts';
import type { Pack } from '../../../app/contract/requests/packing.ts';
import type { Guest, PackMove } from '../../../app/contract/requests/packs-where.ts';
import { localDay } from '../../../app/measures/zone.ts';
import { bestByOf } from '../../../app/packs/stock-order.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { lotsOf } from './batch-view.ts';
import { keepingOf } from './judging/judge-batch.ts';
import { lastMoveOf } from './pack-where-last.ts';
import { packsOf } from './packs-of-batch.ts';
import { nameOf } from './release.ts';
import { speciesOf } from './species.ts';
import { loadOfBatch } from './taken-out.ts';
import { traysOf } from './trays-of-batch.ts';
import { sayInstant, zoneOf } from './when.ts';

/** Where a pack is by its last move and since when, in words that end no sentence. */
export function whereWords(room: BookRoom, pack: Pick<Pack, 'sealedAtMs'>, move: PackMove | undefined): string {
  const where = whereNow(room, move);
  if (move === undefined) return `${where}, sealed at ${sayInstant(room, pack.sealedAtMs)}`;
  const at = sayInstant(room, move.atMs);
  switch (move.what) {
    case 'into-store': case 'out-of-store': return `${where}, since ${at}`;
    case 'handed-over': case 'served': return `${where} at ${at}`;
    case 'returned': case 'destroyed': return `${where} at ${at}${move.why === '' ? '' : ` (${move.why})`}`;
  }
}

/** Where a move leaves a pack, without the time: the same for all packs that share it. Undefined: nothing was entered since it was sealed. */
export function whereNow(room: BookRoom, move: PackMove | undefined): string {
  switch (move?.what) {
    case undefined: return 'at the packing table';
    case 'into-store': return `in ${placeWords(room, move)}`;
    case 'out-of-store': return `out of ${placeWords(room, move)}`;
    case 'handed-over': return `handed to ${guestOfMove(room, move)?.name ?? 'somebody'}`;
    case 'returned': return 'brought back';
    case 'served': return 'served';
    case 'destroyed': return 'destroyed';
  }
}

/** The place of a move with its spot: `Chest freezer, shelf 2`. */
export function placeWords(room: BookRoom, { placeId, spot }: Pick<PackMove, 'placeId' | 'spot'>): string {
  const place = placeId === null ? undefined : room.book.shelf('places').get(placeId);
  const name = place?.name ?? 'the cold store';
  return spot === '' ? name : `${name}, ${spot}`;
}

/** To whom a move gave the pack; undefined where it gave it to nobody. */
export function guestOfMove(room: BookRoom, { handOverId }: Pick<PackMove, 'handOverId'>): Guest | undefined {
  const handOver = handOverId === null ? undefined : room.book.shelf('handOvers').get(handOverId);
  return handOver === undefined ? undefined : room.book.shelf('guests').get(handOver.guestId);
}

/** What all packs of a batch have in common on screen. */
interface BatchWords extends Pick<PackWhere, 'batchId' | 'batchName' | 'marketName' | 'ownerName' | 'store'> {
  readonly smokedOn: string;
  readonly trayNames: ReadonlyMap<string, string>;
}

function batchWords(room: BookRoom, batch: StoredBatch): BatchWords {
  const source = lotsOf(room, batch)[0]?.source;
  const outAtMs = loadOfBatch(room, batch)?.outAtMs ?? batch.madeAtMs;
  return {
    batchId: batch.id, batchName: nameOf(batch), marketName: speciesOf(room, batch.speciesId).marketName,
    ownerName: source?.kind === 'guest' ? source.ownerName : null, store: keepingOf(room, batch).store, smokedOn: localDay(outAtMs, zoneOf(room)),
    trayNames: new Map(traysOf(room, batch.id).flatMap((tray) => tray.packIds.map((packId) => [packId, tray.name] as const))),
  };
}

/** One pack as it crosses the contract. */
export function viewPackWhere(room: BookRoom, pack: Pack): PackWhere {
  return viewPack(room, pack, batchWords(room, room.book.shelf('batches').need(pack.batchId)));
}

/** The packs of a batch with where each is, by their number. */
export function viewPacksWhere(room: BookRoom, batch: StoredBatch): PackWhere[] {
  const common = batchWords(room, batch);
  return packsOf(room, batch.id).map((pack) => viewPack(room, pack, common));
}

function viewPack(room: BookRoom, pack: Pack, { smokedOn, trayNames, ...common }: BatchWords): PackWhere {
  const move = lastMoveOf(room, pack.id);
  return {
    ...common, packId: pack.id, code: pack.code, grams: pack.net.grams, sealedAtMs: pack.sealedAtMs,
    bestBy: bestByOf(common.store, { smokedOn, packedOn: localDay(pack.sealedAtMs, zoneOf(room)) }),
    state: move?.what ?? 'at-table', placeId: move?.placeId ?? null, spot: move?.spot ?? '',
    where: whereWords(room, pack, move), sinceMs: move?.atMs ?? pack.sealedAtMs, trayName: trayNames.get(pack.id) ?? null,
  };
}
