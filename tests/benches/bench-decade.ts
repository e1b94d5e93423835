/** A book of ten years: 5,000 packs a year, each batch of 24 from a lot of its own, half of them given away; all of it invented. */
import { randomUUID } from 'node:crypto';
import { newUuidV7 } from '../../main/backroom/identifiers.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import type { StoredBatch, StoredFishLot, StoredLoad } from '../../main/backroom/book/stored.ts';
import type { OpenBook } from '../../main/backroom/room.ts';
import { openBenchKitchen, openBenchLoad } from './bench-kitchen.ts';

export const DECADE = { years: 10, packsAYear: 5000, packsABatch: 24 } as const;
const DAY_MS = 86_400_000;
const YEAR_MS = 365 * DAY_MS;
/** 1 January 2016; the last year is 2025, but for leap days. */
export const DECADE_START_MS = Date.UTC(2016, 0, 1, 15);

export interface Decade {
  readonly file: string;
  readonly packIds: readonly string[];
  remove(): Promise<void>;
}

/** @param years fewer for a brief run */
export async function makeDecade(years: number = DECADE.years): Promise<Decade> {
  const kitchen = await openBenchKitchen();
  await openBenchLoad(kitchen, 3);
  await kitchen.close();
  const packIds: string[] = [];
  const handle = openBookFile(kitchen.file, { clock: { nowMs: Date.now } });
  const batchesAYear = Math.ceil(DECADE.packsAYear / DECADE.packsABatch);
  for (let year = 0; year < years; year += 1) {
    handle.command((as) => {
      const book = as({ personId: null, initials: 'MG', device: 'this computer', commandId: null, nowMs: Date.now, newId: randomUUID });
      const pattern = patternOf(book);
      for (let batch = 0; batch < batchesAYear; batch += 1) {
        packIds.push(...addBatch(book, pattern, DECADE_START_MS + year * YEAR_MS + Math.floor((batch * YEAR_MS) / batchesAYear), year * batchesAYear + batch, Math.min(DECADE.packsABatch, DECADE.packsAYear - batch * DECADE.packsABatch)));
      }
    });
  }
  handle.close();
  return { file: kitchen.file, packIds, remove: kitchen.remove };
}

interface Pattern {
  readonly batch: StoredBatch;
  readonly lot: StoredFishLot;
  readonly load: StoredLoad;
}

/** The batch that the kitchen made itself, with its lot and its load. */
function patternOf(book: OpenBook): Pattern {
  const load = book.shelf('loads').all()[0];
  const batch = load === undefined ? undefined : book.shelf('batches').where('loadId', load.id)[0];
  if (load === undefined || batch === undefined) throw new Error('The kitchen has no batch in a load.');
  return { batch, lot: book.shelf('fishLots').need(batch.lotIds[0] ?? ''), load };
}

/** A batch as the kitchen's own first one, with ids, times and codes of its own, and everything around it. */
function addBatch(book: OpenBook, pattern: Pattern, atMs: number, number: number, packs: number): string[] {
  const id = (): string => newUuidV7(atMs);
  const { batch, lot, load } = pattern;
  const [lotId, batchId, loadId, guestId] = [id(), id(), id(), `guest-${number % 500}`];
  const saltId = `salt-${Math.floor(number / 20)}`;
  const code = `WF${String(number).padStart(5, '0')}A0`;
  book.shelf('fishLots').put({ ...lot, id: lotId, code: `F${String(number).padStart(8, '0')}`, receivedAtMs: atMs, source: { kind: 'supplier', supplierName: `Boat ${number % 40}`, supplierLot: `L-${number}` } });
  const points = book.shelf('points').where('loadId', load.id).map((point) => ({ ...point, id: id(), loadId, batchId: point.batchId === null ? null : batchId }));
  for (const point of points) book.shelf('points').put(point);
  book.shelf('loads').put({ ...load, id: loadId, number: number + 2, batchIds: [batchId], pointIds: points.map((point) => point.id), inAtMs: atMs + 4 * 3_600_000, outAtMs: atMs + 10 * 3_600_000, cooledAtMs: atMs + 16 * 3_600_000 });
  book.shelf('batches').put({ ...batch, id: batchId, lotCode: code, lotIds: [lotId], loadId, madeAtMs: atMs, sealedAtMs: atMs + DAY_MS, ingredientLotIds: [saltId] });
  book.shelf('decisions').put({
    id: id(), batchId, decision: 'release', reason: 'Record read through.', initials: 'MG', personId: 'person', atMs: atMs + DAY_MS, pack: 'vacuum', store: 'frozen', keptWhere: '',
    verdictWords: '', judgementDigest: '', initialsForError: false,
  });
  book.shelf('guests').put({ id: guestId, kind: 'buyer', name: `Buyer ${number % 500}`, contact: '555 0100', address: '1 Main Street', room: '', checkoutDay: null });
  const salt = batch.card.lines.find((line) => line.saltGrams > 0);
  const saltLot = book.shelf('ingredientLots').get(saltId);
  book.shelf('ingredientLots').put({
    id: saltId, ingredientId: salt?.ingredientId ?? '', ingredientName: salt?.name ?? '', lotCode: `S-${Math.floor(number / 20)}`, supplierName: 'Harbour Dry Goods', receivedAtMs: atMs, inUseSinceMs: null,
    usedIn: [...(saltLot?.usedIn ?? []), { batchId, atMs, initials: 'MG' }],
  });
  const packIds = Array.from({ length: packs }, id);
  const handOverId = id();
  packIds.forEach((packId, index) => {
    book.shelf('packs').put({ id: packId, batchId, serial: index + 1, code: `${code}-${String(index + 1).padStart(3, '0')}`, net: { text: '0.35', unit: 'lb', grams: 158.757 }, sealedAtMs: atMs + DAY_MS, sealedBy: 'MG', printedCount: 1 });
    const move = { packId, atMs: atMs + DAY_MS, placeId: null, spot: '', handOverId: null, why: '', initials: 'MG' };
    book.shelf('packMoves').put({ ...move, id: id(), what: 'into-store', placeId: 'freezer', spot: 'basket 2' });
    if (index % 2 === 0) book.shelf('packMoves').put({ ...move, id: id(), what: 'handed-over', atMs: atMs + 2 * DAY_MS, handOverId });
  });
  book.shelf('handOvers').put({
    id: handOverId, guestId, atMs: atMs + 2 * DAY_MS, packIds: packIds.filter((_, index) => index % 2 === 0), of: Math.ceil(packs / 2), frozenHard: { how: 'touch', ticks: null, text: '' }, box: 'foam box',
    travelHours: 5, missed: [], signature: { path: `M20,120 ${Array.from({ length: 120 }, (_, at) => `L${20 + at * 4},${60 + ((at * 37) % 80)}`).join(' ')}`, name: 'Ada Hollis' }, sheetGiven: true, why: '', initials: 'MG',
  });
  const entered = [['fishLot.receive', lotId, atMs], ['load.mark', loadId, atMs + DAY_MS], ['handOver.make', handOverId, atMs + 2 * DAY_MS]] as const;
  for (const [kind, subjectId, happenedAtMs] of entered) book.record({ kind, subjectId, happenedAtMs, summary: 'Done.', after: { subjectId } });
  return packIds;
}
