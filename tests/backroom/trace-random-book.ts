/** Books of chance for traces: lots in several batches, brines used again, shared loads, packs that went here and there; and the kitchen they are written into. */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { randomUUID } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import type { PackMove } from '../../app/contract/requests/packs-where.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import type { OpenBook } from '../../main/backroom/room.ts';
import { HOUR_MS } from './fish-and-brine.ts';
import type { SmokeKitchen } from './smoke-kitchen.ts';

const few = (most: number) => fc.nat({ max: most - 1 });
const BATCHES = 6;

/** Indices of what belongs together; each is taken modulo how many there are. */
export const RANDOM_BOOK = fc.record({
  lots: fc.array(fc.record({ isGuest: fc.boolean(), name: few(3) }), { minLength: 4, maxLength: 4 }),
  batches: fc.array(fc.record({
    lots: fc.uniqueArray(few(4), { minLength: 1, maxLength: 3 }), salts: fc.uniqueArray(few(3), { maxLength: 2 }), reused: fc.option(fc.boolean()), tub: fc.constantFrom('', 'One', ' one', 'Two'),
    startHour: fc.nat({ max: 60 }), load: fc.option(few(2)), isInRoom: fc.boolean(), packs: fc.nat({ max: 3 }), recipe: few(2),
  }), { minLength: BATCHES, maxLength: BATCHES }),
  points: fc.array(fc.record({ load: few(2), batch: fc.option(few(BATCHES)), instrument: few(3), earlier: fc.option(few(3)) }), { maxLength: 5 }),
  moves: fc.array(fc.record({ pack: fc.nat({ max: 17 }), what: fc.constantFrom<PackMove['what']>('into-store', 'out-of-store', 'handed-over', 'handed-over', 'returned', 'served', 'destroyed'), guest: few(3) }), { maxLength: 25 }),
  trays: fc.array(fc.record({ batch: few(BATCHES), instrument: few(3) }), { maxLength: 3 }),
});
export type RandomBook = typeof RANDOM_BOOK extends fc.Arbitrary<infer T> ? T : never;

export interface RandomKitchen extends Pick<SmokeKitchen, 'probeIds' | 'freezerId' | 'roomId' | 'batchId'> {
  readonly file: string;
  readonly nowMs: number;
}

/** Writes it into a copy of the kitchen's book, beside the batch that lies there, and lets it be read. */
export async function withRandomBook(kitchen: RandomKitchen, random: RandomBook, look: (book: OpenBook) => Promise<void>): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'alderbook-random-'));
  const file = join(folder, 'book.alderbook');
  copyFileSync(kitchen.file, file);
  const handle = openBookFile(file, { clock: { nowMs: () => kitchen.nowMs } });
  try {
    handle.command((as) => write(as({ personId: null, initials: 'MG', device: 'this computer', commandId: null, nowMs: () => kitchen.nowMs, newId: randomUUID }), kitchen, random));
    await look(handle.reader());
  } finally {
    handle.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

function write(book: OpenBook, { probeIds, freezerId, roomId, batchId, nowMs }: RandomKitchen, random: RandomBook): void {
  const pattern = book.shelf('batches').need(batchId);
  const lot = book.shelf('fishLots').need(pattern.lotIds[0] ?? '');
  const probe = (index: number): string => probeIds[index] ?? '';
  const startMs = nowMs + HOUR_MS;
  random.lots.forEach(({ isGuest, name }, index) => book.shelf('fishLots').put({
    ...lot, id: `lot-${index}`, code: `F2600000${index}`, source: isGuest ? { kind: 'guest', ownerName: `Owner ${name}` } : { kind: 'supplier', supplierName: `Boat  ${name}`, supplierLot: `B-${index}` },
  }));
  for (const salt of [0, 1, 2]) {
    book.shelf('ingredientLots').put({
      id: `salt-${salt}`, ingredientId: 'salt', ingredientName: 'Salt', lotCode: `S-${salt}`, supplierName: `boat ${salt % 2}`, receivedAtMs: startMs, inUseSinceMs: null,
      usedIn: random.batches.flatMap(({ salts }, index) => (salts.includes(salt) ? [{ batchId: `batch-${index}`, atMs: startMs, initials: 'MG' }] : [])),
    });
  }
  for (const load of [0, 1]) {
    const batchIds = random.batches.flatMap((batch, index) => (batch.load === load ? [`batch-${index}`] : []));
    const points = random.points.flatMap((point, index) => (point.load === load ? [{ ...point, id: `point-${index}` }] : []));
    book.shelf('loads').put({
      id: `load-${load}`, number: 100 + load, letter: null, smokerId: 'smoker', process: 'hot', batchIds, openedAtMs: startMs, openedBy: 'MG', inAtMs: startMs, endOfSmokingAtMs: null, outAtMs: null, cooledAtMs: null,
      pointIds: points.map(({ id }) => id),
    });
    for (const { id, batch, instrument, earlier } of points) {
      book.shelf('points').put({
        id, name: id, role: batch === null ? 'chamber' : 'piece', batchId: batch === null ? null : `batch-${batch}`, loadId: `load-${load}`, thicknessMm: null, rackPlace: '', instrumentId: probe(instrument),
        ...(earlier === null ? {} : { earlierInstruments: [{ instrumentId: probe(earlier), untilMs: startMs }] }),
      });
    }
  }
  const packIds: string[] = [];
  random.batches.forEach((batch, index) => {
    const id = `batch-${index}`;
    // An hour apart at least, so that which lay in a tub last is never a tie.
    const atMs = startMs + batch.startHour * HOUR_MS + index * 60_000;
    book.shelf('batches').put({
      ...pattern, id, shortName: `B${index}`, lotCode: null, lotIds: batch.lots.map((each) => `lot-${each}`), ingredientLotIds: batch.salts.map((each) => `salt-${each}`),
      recipe: { ...pattern.recipe, id: `recipe-${batch.recipe}` }, brineReused: batch.reused, tub: batch.tub, brinePlaceId: batch.isInRoom ? roomId : null, loadId: batch.load === null ? null : `load-${batch.load}`,
      soak: [{ ...soakEvent(pattern.soak), what: 'start', atMs }], madeAtMs: startMs, sealedAtMs: batch.packs === 0 ? null : startMs,
    });
    for (let serial = 1; serial <= batch.packs; serial += 1) {
      const packId = `${id}-pack-${serial}`;
      packIds.push(packId);
      book.shelf('packs').put({ id: packId, batchId: id, serial, code: `XX26000${index}A-00${serial}`, net: { text: '0.2', unit: 'lb', grams: 90 }, sealedAtMs: startMs, sealedBy: 'MG', printedCount: 0 });
    }
  });
  for (const guest of [0, 1, 2]) book.shelf('guests').put({ id: `guest-${guest}`, kind: 'guest', name: `Owner ${guest}`, contact: '', address: '', room: '', checkoutDay: null });
  random.trays.forEach(({ batch, instrument }, index) => {
    const own = packIds.filter((id) => id.startsWith(`batch-${batch}-`));
    book.shelf('points').put({ id: `tray-point-${index}`, name: 'Probe in a fish', role: 'piece', batchId: `batch-${batch}`, loadId: null, thicknessMm: null, rackPlace: '', instrumentId: probe(instrument) });
    book.shelf('trays').put({ id: `tray-${index}`, batchId: `batch-${batch}`, name: 'Tray', packIds: own, placeId: freezerId, spot: '', sealedAtMs: null, intoFreezerAtMs: startMs, frozenAtMs: null, frozenHow: null, pointId: `tray-point-${index}`, outAtMs: null, initials: 'MG' });
  });
  random.moves.forEach(({ pack, what, guest }, index) => {
    const packId = packIds[pack % Math.max(1, packIds.length)];
    if (packId === undefined) return;
    const handOverId = what === 'handed-over' ? `hand-over-${index}` : null;
    if (handOverId !== null) {
      book.shelf('handOvers').put({ id: handOverId, guestId: `guest-${guest}`, atMs: startMs, packIds: [packId], of: 1, frozenHard: { how: 'touch', ticks: null, text: '' }, box: '', travelHours: null, missed: [], signature: null, sheetGiven: false, why: '', initials: 'MG' });
    }
    book.shelf('packMoves').put({ id: `move-${index}`, packId, what, atMs: startMs + index, placeId: what === 'into-store' ? freezerId : null, spot: '', handOverId, why: '', initials: 'MG' });
  });
  book.record({ kind: 'test.write', subjectId: 'book', happenedAtMs: nowMs, summary: 'Written by chance.', after: {} });
}

function soakEvent<T>(soak: readonly T[]): T {
  const [first] = soak;
  if (first === undefined) throw new Error('the pattern has no soak');
  return first;
}
