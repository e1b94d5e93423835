/** What a trace starts from, for everything it can be asked about. */
import type { TraceStartKind } from '../../../app/contract/requests/trace.ts';
import { localDay } from '../../../app/measures/zone.ts';
import { readDay } from '../../../app/packs/dates.ts';
import type { StoredBatch, StoredFishLot } from '../book/stored.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { decisionsOf, nameOf } from './release.ts';
import { packsHandedTo, type Ref, sourceName, sourceRef, type TraceShelf } from './trace-source.ts';
import { describe, splitRecipeId } from './trace-words.ts';
import { sayDay, zoneOf } from './when.ts';

export interface Starts {
  readonly title: string;
  readonly refs: readonly Ref[];
}

/**
 * Where to start. Yields between look-ups where there are many of them.
 * @throws Refusal NOT_FOUND where the book has no such thing
 */
export function* startsOf(room: BookRoom, shelf: TraceShelf, kind: TraceStartKind, id: string): Generator<undefined, Starts> {
  switch (kind) {
    case 'pack': case 'batch': case 'fish-lot': case 'ingredient-lot': case 'complaint': return single(room, shelf, { kind, id });
    case 'load': {
      const { batchIds } = shelf.load(id);
      return { title: describe(room, shelf, { kind, id }).title, refs: batchIds.map((batchId) => ({ kind: 'batch', id: batchId })) };
    }
    case 'supplier': case 'owner': return ofSource(shelf, kind, id);
    case 'guest': return ofGuest(room, shelf, id);
    case 'recipe': return ofRecipe(room, id);
    case 'thermometer': return yield* ofThermometer(room, id);
    case 'person': return yield* ofBatchesAndLots(room, `What ${id} did`, (lot) => lot.receivedBy === id, (batch) => isBy(room, batch, id), ({ sealedBy }) => sealedBy === id);
    case 'day': return yield* ofDay(room, id);
  }
}

function single(room: BookRoom, shelf: TraceShelf, ref: Ref): Starts {
  return { title: describe(room, shelf, ref).title, refs: [ref] };
}

function ofSource(shelf: TraceShelf, kind: 'supplier' | 'owner', name: string): Starts {
  const lots = shelf.lotsOfSource(kind, name);
  const written = lots[0] === undefined ? shelf.suppliedLots(name)[0]?.supplierName : sourceName(lots[0].source);
  if (written === undefined) throw new Refusal('NOT_FOUND', `Nothing in the book came from “${name}”.`, { remedy: 'Search for the name again.' });
  return { title: written, refs: [{ kind, id: shelf.nameId(written) }] };
}

/** Packs they were given, and fish they brought. */
function ofGuest(room: BookRoom, shelf: TraceShelf, id: string): Starts {
  const guest = room.book.shelf('guests').need(id);
  const owners = new Map(shelf.lotsOfGuest(guest).map((lot) => sourceRef(shelf, lot.source)).map((ref) => [ref.id, ref]));
  return { title: guest.name, refs: [{ kind: 'recipient', id }, ...owners.values()] };
}

function ofRecipe(room: BookRoom, id: string): Starts {
  const [recipeId, version] = splitRecipeId(id);
  const recipe = room.book.shelf('recipes').need(recipeId);
  const batches = room.book.shelf('batches').all().filter((batch) => batch.recipe.id === recipeId && (version === '' || String(batch.recipe.version) === version));
  const refs: Ref[] = batches.map((batch) => ({ kind: 'batch', id: batch.id }));
  if (refs.length === 0) throw new Refusal('NOT_FOUND', `No batch was brined by “${recipe.name}”${version === '' ? '' : ` version ${version}`} yet.`, { remedy: 'Start from another recipe or version.' });
  return { title: `${recipe.name}${version === '' ? '' : `, version ${version}`}`, refs };
}

/** Batches in whose pieces, chamber, brining room or freezer it stood, or that were read with it by hand. */
function* ofThermometer(room: BookRoom, id: string): Generator<undefined, Starts> {
  const { name } = room.book.shelf('instruments').need(id);
  const batchIds = new Set<string>();
  for (const load of room.book.shelf('loads').all()) {
    const points = room.book.shelf('points').where('loadId', load.id);
    for (const point of points) {
      const stood = point.instrumentId === id || (point.earlierInstruments ?? []).some(({ instrumentId }) => instrumentId === id);
      if (!stood && !wasReadWith(room, point.id, id)) continue;
      for (const batchId of point.batchId === null ? load.batchIds : [point.batchId]) batchIds.add(batchId);
      yield;
    }
  }
  const places = room.book.shelf('places').all().filter((place) => wasReadWith(room, place.id, id)).map((place) => place.id);
  if (places.length > 0) {
    for (const batch of room.book.shelf('batches').all()) {
      if ([batch.brinePlaceId, batch.freezerPlaceId].some((placeId) => placeId !== null && places.includes(placeId))) batchIds.add(batch.id);
    }
  }
  if (batchIds.size === 0) throw new Refusal('NOT_FOUND', `No batch was read with ${name} yet.`, { remedy: 'Start from another thermometer.' });
  return { title: name, refs: [...batchIds].map((batchId) => ({ kind: 'batch', id: batchId })) };
}

function wasReadWith(room: BookRoom, pointId: string, instrumentId: string): boolean {
  return room.book.readings(pointId).some((reading) => reading.instrumentId === instrumentId);
}

/** Received, made, brined, smoked, sealed or moved on that day by the kitchen's calendar. */
function* ofDay(room: BookRoom, day: string): Generator<undefined, Starts> {
  unwrap(readDay(day, 'id'));
  const zone = zoneOf(room);
  const isThen = (atMs: number | null | undefined): boolean => typeof atMs === 'number' && localDay(atMs, zone) === day;
  const loads = new Set(room.book.shelf('loads').all().filter((load) => [load.inAtMs, load.outAtMs, load.cooledAtMs].some(isThen)).map((load) => load.id));
  return yield* ofBatchesAndLots(
    room, sayDay(day), (lot) => isThen(lot.receivedAtMs),
    (batch) => isThen(batch.madeAtMs) || batch.soak.some(({ atMs }) => isThen(atMs)) || (batch.loadId !== null && loads.has(batch.loadId)),
    ({ sealedAtMs, moves }) => isThen(sealedAtMs) || moves().some(({ atMs }) => isThen(atMs)),
  );
}

interface PackSeen {
  readonly sealedBy: string;
  readonly sealedAtMs: number;
  moves(): readonly { readonly atMs: number }[];
}

function* ofBatchesAndLots(
  room: BookRoom, title: string, isLot: (lot: StoredFishLot) => boolean, isBatch: (batch: StoredBatch) => boolean, isPack: (pack: PackSeen) => boolean,
): Generator<undefined, Starts> {
  const { book } = room;
  const refs: Ref[] = book.shelf('fishLots').all().filter(isLot).map((lot) => ({ kind: 'fish-lot', id: lot.id }));
  for (const batch of book.shelf('batches').all()) {
    if (isBatch(batch)) refs.push({ kind: 'batch', id: batch.id });
    else if (batch.sealedAtMs !== null) {
      const packs = book.shelf('packs').where('batchId', batch.id)
        .filter((pack) => isPack({ sealedBy: pack.sealedBy, sealedAtMs: pack.sealedAtMs, moves: () => book.shelf('packMoves').where('packId', pack.id) }));
      refs.push(...packs.map((pack): Ref => ({ kind: 'pack', id: pack.id })));
    }
    yield;
  }
  if (refs.length === 0) throw new Refusal('NOT_FOUND', `The book has no fish, batch or pack for this: ${title}.`, { remedy: 'Try another day or person.' });
  return { title, refs };
}

/** Made, soaked, mended or decided by that person. */
function isBy(room: BookRoom, batch: StoredBatch, initials: string): boolean {
  if (batch.madeBy === initials || batch.soak.some((event) => event.initials === initials) || batch.mends.some((mend) => mend.initials === initials)) return true;
  if (batch.loadId !== null && room.book.shelf('loads').get(batch.loadId)?.openedBy === initials) return true;
  return decisionsOf(room, batch.id).some((decision) => decision.initials === initials);
}

/** The packs that a recall of something is about: all of a pack's batch, everything a guest was given, what the walk reaches else. */
export function recallStart(room: BookRoom, kind: TraceStartKind, id: string): { readonly kind: TraceStartKind; readonly id: string; readonly label: string } {
  if (kind === 'pack') {
    const pack = room.book.shelf('packs').need(id);
    return { kind: 'batch', id: pack.batchId, label: `${nameOf(room.book.shelf('batches').need(pack.batchId))}, the batch of pack ${pack.code}` };
  }
  if (kind === 'complaint') {
    const { batchId, fromName } = room.book.shelf('complaints').need(id);
    return { kind: 'batch', id: batchId, label: `${nameOf(room.book.shelf('batches').need(batchId))}, after a complaint of ${fromName}` };
  }
  return { kind, id, label: '' };
}

/** Packs reached forward, and for a guest also those they were given. */
export function recalledPacks(room: BookRoom, kind: TraceStartKind, id: string, forward: readonly string[]): string[] {
  return kind === 'guest' ? [...new Set([...packsHandedTo(room, id), ...forward])] : [...forward];
}
