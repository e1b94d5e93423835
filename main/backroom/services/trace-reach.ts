/** What a thermometer, a person or a day had to do with: looked up through whole shelves, in short turns. */
import type { StoredBatch, StoredFishLot } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { spanOfDays } from './export-days.ts';
import { wasIn } from './rejudging-reach.ts';
import { loadOfBatch } from './taken-out.ts';
import type { Ref, Starts } from './trace-source.ts';
import { traysOf } from './trays-of-batch.ts';
import { sayDay, zoneOf } from './when.ts';

interface Span {
  readonly fromMs: number;
  readonly toMs: number;
}

/** Batches with it in a piece, their chamber or a tray, and those that lay in a brining room, freezer or cooler while it read there. */
export function* ofThermometer(room: BookRoom, id: string): Generator<undefined, Starts> {
  const { book } = room;
  const { name } = book.shelf('instruments').need(id);
  const places: { readonly placeId: string; readonly span: Span }[] = [];
  for (const { id: placeId } of book.shelf('places').all()) {
    const span = spanReadBy(room, placeId, id);
    if (span !== undefined) places.push({ placeId, span });
    yield;
  }
  const ofPoints = new Set<string>();
  for (const load of book.shelf('loads').all()) {
    for (const point of book.shelf('points').where('loadId', load.id)) {
      const stood = point.instrumentId === id || (point.earlierInstruments ?? []).some(({ instrumentId }) => instrumentId === id);
      if (!stood && spanReadBy(room, point.id, id) === undefined) continue;
      for (const batchId of point.batchId === null ? load.batchIds : [point.batchId]) ofPoints.add(batchId);
    }
    yield;
  }
  const refs: Ref[] = [];
  for (const batch of book.shelf('batches').all()) {
    if (ofPoints.has(batch.id) || isOnTray(room, batch, id) || places.some(({ placeId, span }) => wasIn(room, batch, placeId, span))) refs.push({ kind: 'batch', id: batch.id });
    yield;
  }
  if (refs.length === 0) throw new Refusal('NOT_FOUND', `No batch was read with ${name} yet.`, { remedy: 'Start from another thermometer.' });
  return { title: name, refs };
}

/** From the first to the last reading of a point by a thermometer; undefined where there is none. */
function spanReadBy(room: BookRoom, pointId: string, instrumentId: string): Span | undefined {
  const own = room.book.readings(pointId).filter((reading) => reading.instrumentId === instrumentId);
  const [first, last] = [own[0], own.at(-1)];
  return first === undefined || last === undefined ? undefined : { fromMs: first.atMs, toMs: last.atMs };
}

/** Whether it stood in a fish or a dummy on a tray. */
function isOnTray(room: BookRoom, batch: StoredBatch, instrumentId: string): boolean {
  return traysOf(room, batch.id).some(({ pointId }) => pointId !== null
    && (room.book.shelf('points').get(pointId)?.instrumentId === instrumentId || spanReadBy(room, pointId, instrumentId) !== undefined));
}

/** Received, or in the kitchen between its making and its cooling, or sealed or moved on that day by the kitchen's calendar. */
export function* ofDay(room: BookRoom, day: string): Generator<undefined, Starts> {
  const span = spanOfDays(day, day, zoneOf(room));
  const isThen = (atMs: number): boolean => atMs >= span.fromMs && atMs < span.toMs;
  const deliveries = room.book.shelf('ingredientLots').all().filter((lot) => isThen(lot.receivedAtMs)).map((lot): Ref => ({ kind: 'ingredient-lot', id: lot.id }));
  return yield* ofBatchesAndLots(
    room, sayDay(day), deliveries, (lot) => isThen(lot.receivedAtMs),
    (batch) => {
      const made = makingOf(room, batch);
      return made.fromMs < span.toMs && made.toMs >= span.fromMs;
    },
    ({ sealedAtMs, moves }) => isThen(sealedAtMs) || moves().some(({ atMs }) => isThen(atMs)),
  );
}

/** From its making or the start of its soak to the last mark of its load; without end while it soaks or smokes. */
function makingOf(room: BookRoom, batch: StoredBatch): Span {
  const load = loadOfBatch(room, batch);
  const isUnderWay = load === undefined ? batch.soak.length > 0 && !batch.soak.some(({ what }) => what === 'end') : load.inAtMs !== null && load.outAtMs === null;
  const marks = [batch.madeAtMs, ...batch.soak.map(({ atMs }) => atMs), load?.inAtMs, load?.outAtMs, load?.cooledAtMs].filter((atMs) => typeof atMs === 'number');
  return { fromMs: Math.min(...marks), toMs: isUnderWay ? Infinity : Math.max(...marks) };
}

/** Received, made, soaked, mended, smoked, decided or anything else entered about it by that person; of packs sealed or moved. */
export function* ofPerson(room: BookRoom, initials: string): Generator<undefined, Starts> {
  const isBy = (batch: StoredBatch): boolean => batch.madeBy === initials || room.book.entriesAbout(batch.loadId === null ? [batch.id] : [batch.id, batch.loadId])
    .some((entry) => entry.person === initials && !OF_PACKS.test(entry.kind));
  return yield* ofBatchesAndLots(
    room, `What ${initials} did`, [], (lot) => lot.receivedBy === initials, isBy,
    ({ sealedBy, moves }) => sealedBy === initials || moves().some((move) => move.initials === initials),
  );
}

/** Entries about single packs stand under their batch; who did them is told by the packs themselves. */
const OF_PACKS = /^(?:pack|label|complaint)\./;

interface PackSeen {
  readonly sealedBy: string;
  readonly sealedAtMs: number;
  moves(): readonly { readonly atMs: number; readonly initials: string }[];
}

function* ofBatchesAndLots(
  room: BookRoom, title: string, others: readonly Ref[], isLot: (lot: StoredFishLot) => boolean, isBatch: (batch: StoredBatch) => boolean, isPack: (pack: PackSeen) => boolean,
): Generator<undefined, Starts> {
  const { book } = room;
  const refs: Ref[] = [...book.shelf('fishLots').all().filter(isLot).map((lot): Ref => ({ kind: 'fish-lot', id: lot.id })), ...others];
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
