/** Every trace and recall of a book of chance, beside naive walks that look through whole shelves and know none of the service's ways. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TraceStartKind } from '../../app/contract/requests/trace.ts';
import { catalogue } from '../../main/backroom/catalogue.ts';
import type { BookRoom, OpenBook } from '../../main/backroom/room.ts';
import type { StoredBatch } from '../../main/backroom/book/stored.ts';
import { scopeOf } from '../../main/backroom/services/recall-scope.ts';
import { traceOf } from '../../main/backroom/services/trace.ts';
import { openSmokeKitchen } from './smoke-kitchen.ts';
import { RANDOM_BOOK, withRandomBook, type RandomKitchen } from './trace-random-book.ts';

const RUNS = 60;

interface Found {
  readonly back: string[];
  readonly packs: string[];
  readonly batches: string[];
}

async function randomKitchen(): Promise<RandomKitchen> {
  const { kitchen, ...more } = await openSmokeKitchen();
  await kitchen.close();
  return { ...more, file: kitchen.file, nowMs: kitchen.clock.nowMs() };
}

/** Ids by what the service says: everything that came before, and packs and batches that it starts from or leads to. */
function traced(room: BookRoom, kind: TraceStartKind, id: string): Found {
  const walk = traceOf(room, kind, id);
  let step = walk.next();
  while (step.done !== true) step = walk.next();
  const { found } = step.value.trace;
  const ids = (kinds: string, sides: readonly string[]): string[] => found.filter(({ ref, side }) => ref.kind === kinds && sides.includes(side)).map(({ ref }) => ref.id).sort();
  return {
    back: found.filter(({ side }) => side === 'back').map(({ key }) => key).sort(), packs: ids('pack', ['start', 'forward']), batches: ids('batch', ['start', 'forward']),
  };
}

function tubOf({ tub }: StoredBatch): string {
  return tub.trim().toLowerCase();
}

function startOf({ soak }: StoredBatch): number {
  return soak.find(({ what }) => what === 'start')?.atMs ?? 0;
}

/** Of used brine: whatever lay in a tub of that name before, in no other place, the latest of them. */
function lentBy(batch: StoredBatch, all: readonly StoredBatch[]): StoredBatch | undefined {
  if (batch.brineReused !== true || batch.tub === '') return undefined;
  return all.filter((other) => other.id !== batch.id && tubOf(other) === tubOf(batch) && startOf(other) < startOf(batch))
    .filter((other) => other.brinePlaceId === batch.brinePlaceId || other.brinePlaceId === null || batch.brinePlaceId === null)
    .sort((one, other) => startOf(one) - startOf(other)).at(-1);
}

/** With every batch that later lay in a brine of one of them. */
function onward(first: readonly StoredBatch[], all: readonly StoredBatch[]): StoredBatch[] {
  let reached = [...first];
  for (;;) {
    const more = all.filter((batch) => !reached.includes(batch) && reached.some((one) => one === lentBy(batch, all)));
    if (more.length === 0) return reached;
    reached = [...reached, ...more];
  }
}

/** The batches that each start reaches first. */
function naiveStarts(book: OpenBook, probeIds: readonly string[]): { readonly kind: TraceStartKind; readonly id: string; readonly batches: StoredBatch[] }[] {
  const all = book.shelf('batches').all();
  const lots = book.shelf('fishLots').all();
  const salts = book.shelf('ingredientLots').all();
  const took = (saltIds: readonly string[], batch: StoredBatch): boolean => (batch.ingredientLotIds ?? []).some((id) => saltIds.includes(id));
  const isOfLots = (lotIds: readonly string[], batch: StoredBatch): boolean => batch.lotIds.some((id) => lotIds.includes(id));
  const named = (name: string): string => name.toLowerCase().split(/\s+/).join(' ');
  const starts: { kind: TraceStartKind; id: string; batches: StoredBatch[] }[] = [];
  for (const lot of lots) {
    starts.push({ kind: 'fish-lot', id: lot.id, batches: all.filter((batch) => isOfLots([lot.id], batch)) });
    const { source } = lot;
    const same = lots.filter((other) => (source.kind === 'guest' ? other.source.kind === 'guest' && other.source.ownerName === source.ownerName : other.source.kind === 'supplier' && other.source.supplierName === source.supplierName)).map(({ id }) => id);
    const bags = source.kind === 'guest' ? [] : salts.filter(({ supplierName }) => named(supplierName) === named(source.supplierName)).map(({ id }) => id);
    starts.push({ kind: source.kind === 'guest' ? 'owner' : 'supplier', id: source.kind === 'guest' ? source.ownerName : source.supplierName, batches: all.filter((batch) => isOfLots(same, batch) || took(bags, batch)) });
  }
  for (const { id } of salts) starts.push({ kind: 'ingredient-lot', id, batches: all.filter((batch) => took([id], batch)) });
  for (const batch of all) starts.push({ kind: 'batch', id: batch.id, batches: [batch] });
  for (const { id } of book.shelf('loads').all()) starts.push({ kind: 'load', id, batches: all.filter(({ loadId }) => loadId === id) });
  const points = book.shelf('points').all();
  for (const id of probeIds) {
    const its = points.filter((point) => point.instrumentId === id || (point.earlierInstruments ?? []).some(({ instrumentId }) => instrumentId === id));
    starts.push({ kind: 'thermometer', id, batches: all.filter((batch) => its.some((point) => (point.batchId === null ? point.loadId === batch.loadId : point.batchId === batch.id))) });
  }
  return starts;
}

function packsIn(book: OpenBook, batches: readonly StoredBatch[]): string[] {
  return book.shelf('packs').all().filter(({ batchId }) => batches.some(({ id }) => id === batchId)).map(({ id }) => id).sort();
}

describe('of a book of chance', () => {
  it('every trace forward and every recall has exactly the packs that a walk over whole shelves finds, and calls whoever ever had one', async () => {
    const kitchen = await randomKitchen();
    let traces = 0;
    await fc.assert(fc.asyncProperty(RANDOM_BOOK, (random) => withRandomBook(kitchen, random, async (book) => {
      const room = { book, catalogue, clock: { nowMs: () => kitchen.nowMs } } as BookRoom;
      const all = book.shelf('batches').all();
      for (const { kind, id, batches } of naiveStarts(book, kitchen.probeIds)) {
        const reached = onward(batches, all);
        if (reached.length === 0) continue;
        traces += 1;
        const found = traced(room, kind, id);
        expect([kind, id, found.batches]).toEqual([kind, id, reached.map((batch) => batch.id).sort()]);
        expect([kind, id, found.packs]).toEqual([kind, id, packsIn(book, reached)]);
        const scope = await scopeOf(room, { kind, id });
        expect(scope.packs.map(({ packId }) => packId).sort()).toEqual(packsIn(book, reached));
        const had = book.shelf('packMoves').all().filter(({ what, packId }) => what === 'handed-over' && packsIn(book, reached).includes(packId));
        const guests = book.shelf('handOvers').all().filter((handOver) => had.some(({ handOverId }) => handOverId === handOver.id)).map(({ guestId }) => guestId);
        expect(scope.calls.map(({ guestId }) => guestId).sort()).toEqual([...new Set(guests)].sort());
        for (const { guestId, packs } of scope.calls) {
          const theirs = had.filter(({ handOverId }) => book.shelf('handOvers').get(handOverId ?? '')?.guestId === guestId).map(({ packId }) => packId);
          expect(packs).toBe(new Set(theirs).size);
        }
      }
    })), { numRuns: RUNS });
    expect(traces).toBeGreaterThan(RUNS * 10);
  }, 120_000);

  it('every pack goes back to its batch, the lots and bags of it, those of each brine before it, and all their sources', async () => {
    const kitchen = await randomKitchen();
    await fc.assert(fc.asyncProperty(RANDOM_BOOK, (random) => withRandomBook(kitchen, random, async (book) => {
      const room = { book, catalogue, clock: { nowMs: () => kitchen.nowMs } } as BookRoom;
      const all = book.shelf('batches').all();
      for (const pack of book.shelf('packs').all()) {
        const chain: StoredBatch[] = [];
        for (let batch = all.find(({ id }) => id === pack.batchId); batch !== undefined; batch = lentBy(batch, all)) chain.push(batch);
        const lots = book.shelf('fishLots').all().filter(({ id }) => chain.some((batch) => batch.lotIds.includes(id)));
        const bags = book.shelf('ingredientLots').all().filter(({ usedIn }) => usedIn.some(({ batchId }) => chain.some(({ id }) => id === batchId)));
        const sources = [
          ...lots.map(({ source }) => (source.kind === 'guest' ? `owner:${source.ownerName.toLowerCase()}` : `supplier:${source.supplierName.toLowerCase().replace('  ', ' ')}`)),
          ...bags.map(({ supplierName }) => `supplier:${supplierName}`),
        ];
        const expected = [...chain.map(({ id }) => `batch:${id}`), ...lots.map(({ id }) => `fish-lot:${id}`), ...bags.map(({ id }) => `ingredient-lot:${id}`), ...new Set(sources)];
        expect([pack.id, traced(room, 'pack', pack.id).back]).toEqual([pack.id, expected.sort()]);
      }
    })), { numRuns: RUNS });
  }, 120_000);

  it('a guest’s trace has every pack they were ever given and every pack of fish they brought', async () => {
    const kitchen = await randomKitchen();
    await fc.assert(fc.asyncProperty(RANDOM_BOOK, (random) => withRandomBook(kitchen, random, async (book) => {
      const room = { book, catalogue, clock: { nowMs: () => kitchen.nowMs } } as BookRoom;
      const all = book.shelf('batches').all();
      for (const guest of book.shelf('guests').all()) {
        const given = book.shelf('handOvers').all().filter(({ guestId }) => guestId === guest.id).flatMap(({ packIds }) => packIds);
        const lots = book.shelf('fishLots').all().filter(({ source }) => source.kind === 'guest' && source.ownerName === guest.name).map(({ id }) => id);
        const brought = packsIn(book, onward(all.filter(({ lotIds }) => lotIds.some((id) => lots.includes(id))), all));
        const { back, packs } = traced(room, 'guest', guest.id);
        expect(new Set([...packs, ...back.flatMap((key) => (key.startsWith('pack:') ? [key.slice(5)] : []))])).toEqual(new Set([...given, ...brought]));
      }
    })), { numRuns: RUNS });
  }, 120_000);
});
