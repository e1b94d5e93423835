/** The neighbours of one thing in the book, by indexed look-ups wherever a pack's own trace needs them. */
import type { TraceNode } from '../../../app/contract/requests/trace.ts';
import type { Complaint, IngredientLot } from '../../../app/contract/requests/trace-shapes.ts';
import type { TraceRef, TraceSource } from '../../../app/packs/trace.ts';
import type { Stored, StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { guestOfMove } from './pack-where.ts';
import { lastMoveOf, movesOf } from './pack-where-last.ts';
import { type BrineUses, brineUses } from './trace-brine.ts';

type Kind = TraceNode['kind'];
export type Ref = TraceRef<Kind>;
/** Where a trace begins. */
export interface Starts {
  readonly title: string;
  readonly refs: readonly Ref[];
}

/** What a trace reads; whole shelves only when it starts from what has no index. */
export interface TraceShelf {
  batch(id: string): StoredBatch;
  load(id: string): Stored<'loads'>;
  lot(id: string): Stored<'fishLots'>;
  pack(id: string): Stored<'packs'>;
  moves(packId: string): ReturnType<typeof movesOf>;
  complaints(batchId: string): readonly Complaint[];
  ingredientLot(id: string): IngredientLot;
  batchesOfLot(lotId: string): readonly StoredBatch[];
  /** Which batch’s brine was used again for which; from the whole shelf. */
  brines(): BrineUses;
  lotsOfSource(kind: 'supplier' | 'owner', name: string): readonly Stored<'fishLots'>[];
  /** Fish that a guest or party on file brought, by their name or by a name of theirs. */
  lotsOfGuest(guest: { readonly id: string; readonly name: string }): readonly Stored<'fishLots'>[];
  suppliedLots(name: string): readonly IngredientLot[];
  /** Keeps how a supplier's or owner's name was written first, and answers its id. */
  nameId(name: string): string;
  /** The name behind such an id as it was written. */
  writtenName(id: string): string;
}

export function openTraceShelf(room: BookRoom): TraceShelf {
  const { book } = room;
  const written = new Map<string, string>();
  const allLots = once(() => book.shelf('fishLots').all());
  const byLot = once(() => {
    const found = new Map<string, StoredBatch[]>();
    for (const batch of book.shelf('batches').all()) {
      for (const lotId of batch.lotIds) found.set(lotId, [...(found.get(lotId) ?? []), batch]);
    }
    return found;
  });
  return {
    batch: (id) => book.shelf('batches').need(id),
    load: (id) => book.shelf('loads').need(id),
    lot: (id) => book.shelf('fishLots').need(id),
    pack: (id) => book.shelf('packs').need(id),
    moves: (packId) => movesOf(room, packId),
    complaints: (batchId) => book.shelf('complaints').where('batchId', batchId),
    ingredientLot: (id) => book.shelf('ingredientLots').need(id),
    batchesOfLot: (lotId) => byLot().get(lotId) ?? [],
    brines: once(() => brineUses(book.shelf('batches').all())),
    lotsOfSource: (kind, name) => allLots().filter(({ source }) => source.kind === (kind === 'owner' ? 'guest' : 'supplier') && nameKey(sourceName(source)) === nameKey(name)),
    lotsOfGuest: (guest) => allLots().filter(({ source }) => source.kind === 'guest' && (source.guestId === guest.id || nameKey(source.ownerName) === nameKey(guest.name))),
    nameId(name) {
      const id = nameKey(name);
      if (!written.has(id)) written.set(id, name.trim());
      return id;
    },
    writtenName: (id) => written.get(id) ?? id,
    suppliedLots: (name) => book.shelf('ingredientLots').all().filter((lot) => nameKey(lot.supplierName) === nameKey(name)),
  };
}

/** The id of a supplier or an owner: one name typed with other capitals or blanks is one of them. */
export function nameKey(name: string): string {
  return name.trim().replace(/\s+/g, ' ').toLowerCase();
}

export function sourceName(source: Stored<'fishLots'>['source']): string {
  return source.kind === 'guest' ? source.ownerName : source.supplierName;
}

/** The walks' way through the book. */
export function traceSource(room: BookRoom, shelf: TraceShelf): TraceSource<Kind> {
  return {
    before({ kind, id }) {
      switch (kind) {
        case 'pack': return [{ kind: 'batch', id: shelf.pack(id).batchId }];
        case 'batch': return [
          ...shelf.batch(id).lotIds.map((lotId): Ref => ({ kind: 'fish-lot', id: lotId })),
          ...(shelf.batch(id).ingredientLotIds ?? []).map((lotId): Ref => ({ kind: 'ingredient-lot', id: lotId })),
          ...brineBefore(shelf, id),
        ];
        case 'fish-lot': return [sourceRef(shelf, shelf.lot(id).source)];
        case 'ingredient-lot': return supplierOf(shelf, shelf.ingredientLot(id));
        case 'recipient': return packsHandedTo(room, id).map((packId): Ref => ({ kind: 'pack', id: packId }));
        case 'complaint': return complainedOf(room.book.shelf('complaints').need(id));
        default: return [];
      }
    },
    after({ kind, id }) {
      switch (kind) {
        case 'supplier': return [
          ...shelf.lotsOfSource('supplier', id).map((lot): Ref => ({ kind: 'fish-lot', id: lot.id })),
          ...shelf.suppliedLots(id).map((lot): Ref => ({ kind: 'ingredient-lot', id: lot.id })),
        ];
        case 'owner': return shelf.lotsOfSource('owner', id).map((lot) => ({ kind: 'fish-lot', id: lot.id }));
        case 'fish-lot': return shelf.batchesOfLot(id).map((batch) => ({ kind: 'batch', id: batch.id }));
        case 'ingredient-lot': return shelf.ingredientLot(id).usedIn.map((use) => ({ kind: 'batch', id: use.batchId }));
        case 'batch': return [
          ...room.book.shelf('packs').where('batchId', id).map((pack): Ref => ({ kind: 'pack', id: pack.id })),
          ...shelf.brines().after(id).map((batch): Ref => ({ kind: 'batch', id: batch.id })),
          ...shelf.complaints(id).filter((one) => one.packId === null).map((one): Ref => ({ kind: 'complaint', id: one.id })),
        ];
        case 'pack': return [
          ...destinations(room, shelf, id),
          ...shelf.complaints(shelf.pack(id).batchId).filter((one) => one.packId === id).map((one): Ref => ({ kind: 'complaint', id: one.id })),
        ];
        default: return [];
      }
    },
    beside({ kind, id }) {
      if (kind === 'batch') {
        const { recipe, loadId } = shelf.batch(id);
        return [...(loadId === null ? [] : [{ kind: 'load', id: loadId } as const]), { kind: 'recipe', id: `${recipe.id}@${recipe.version}` }];
      }
      return kind === 'load' ? thermometersOf(room, shelf.load(id)).map((instrumentId) => ({ kind: 'thermometer', id: instrumentId })) : [];
    },
  };
}

export function sourceRef(shelf: TraceShelf, source: Stored<'fishLots'>['source']): Ref {
  return { kind: source.kind === 'guest' ? 'owner' : 'supplier', id: shelf.nameId(sourceName(source)) };
}

function supplierOf(shelf: TraceShelf, { supplierName }: IngredientLot): Ref[] {
  return supplierName === '' ? [] : [{ kind: 'supplier', id: shelf.nameId(supplierName) }];
}

function complainedOf({ packId, batchId }: Complaint): Ref[] {
  return [packId === null ? { kind: 'batch', id: batchId } : { kind: 'pack', id: packId }];
}

/** The batch whose brine this one lay in after it. */
function brineBefore(shelf: TraceShelf, id: string): Ref[] {
  const before = shelf.batch(id).brineReused === true ? shelf.brines().before(id) : undefined;
  return before === undefined ? [] : [{ kind: 'batch', id: before.id }];
}

/** Everybody it was ever handed to, and where it is now. */
function destinations(room: BookRoom, shelf: TraceShelf, packId: string): Ref[] {
  const moves = shelf.moves(packId);
  const guests = recipientsOf(room, moves).map((id): Ref => ({ kind: 'recipient', id }));
  const last = lastMoveOf(room, packId);
  if (last?.what === 'handed-over' && guestOfMove(room, last) !== undefined) return guests;
  return [...guests, last?.what === 'into-store' && last.placeId !== null ? { kind: 'place', id: last.placeId } : { kind: 'fate', id: last?.what ?? 'sealed' }];
}

/** Everybody that moves of a pack gave it to, each once. */
export function recipientsOf(room: BookRoom, moves: ReturnType<typeof movesOf>): string[] {
  return [...new Set(moves.flatMap((move) => (move.what === 'handed-over' ? (guestOfMove(room, move)?.id ?? []) : [])))];
}

/** Packs that a guest, party or buyer was ever given. */
export function packsHandedTo(room: BookRoom, guestId: string): string[] {
  return [...new Set(room.book.shelf('handOvers').where('guestId', guestId).flatMap((handOver) => handOver.packIds))];
}

/** The thermometers of a load's points, those before the present ones among them. */
export function thermometersOf(room: BookRoom, load: Stored<'loads'>): string[] {
  const points = room.book.shelf('points').where('loadId', load.id);
  const ids = points.flatMap((point) => [...(point.earlierInstruments ?? []).map(({ instrumentId }) => instrumentId), point.instrumentId]);
  return [...new Set(ids)].filter((id) => id !== null && room.book.shelf('instruments').get(id) !== undefined).map(String);
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
}
