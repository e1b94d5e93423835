/** Receiving, transformation and shipping of a stretch of days, as the book has them. */
import type { Pack } from '../../../app/contract/requests/packing.ts';
import type { Kitchen } from '../../../app/contract/requests/office.ts';
import { massIn } from '../../../app/measures/mass.ts';
import type { TraceEvent } from '../../../app/packs/trace-events.ts';
import type { Stored, StoredBatch, StoredFishLot, StoredLoad } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { type DaySpan, offsetTeller } from './export-days.ts';
import { kitchenOf } from './kitchen.ts';
import { speciesOf } from './species.ts';
import { loadAsOf } from './taken-out.ts';

/** What each row is written with. */
interface Scribe {
  readonly room: BookRoom;
  readonly kitchen: Kitchen;
  readonly withGuests: boolean;
  /** The kitchen’s calendar day of an instant. */
  dayOf(atMs: number): string;
  /** The packs of a batch, read once. */
  packsOf(batchId: string): readonly Pack[];
  /** Read with their batch where that was made in the same stretch of days. */
  pack(packId: string): Pack;
  /** When and by whom a thing was entered, ISO 8601. */
  entered(subjectId: string, kind: string): { readonly recorded_by?: string; readonly recorded_at?: string };
}

/** Yields after each lot, load and hand-over, so that whoever drives it may pause. Fish of guests is left out unless asked for: it is not for sale. */
export function* eventsOf(room: BookRoom, span: DaySpan, withGuests: boolean): Generator<undefined, TraceEvent[]> {
  const { book } = room;
  const lots = book.shelf('fishLots').all().filter((lot) => within(lot.receivedAtMs, span) && (withGuests || lot.source.kind === 'supplier'));
  yield;
  const loads = book.shelf('loads').all().filter((load) => mayTouch(load, span));
  yield;
  const handOvers = book.shelf('handOvers').all().filter((handOver) => within(handOver.atMs, span));
  const scribe = scribeOf(room, withGuests, [...lots, ...loads, ...handOvers].map(({ id }) => id));
  const events: TraceEvent[] = [];
  for (const lot of lots) {
    events.push(received(scribe, lot));
    yield;
  }
  for (const load of loads) {
    for (const batchId of load.batchIds) events.push(...transformed(scribe, load, book.shelf('batches').need(batchId), span));
    yield;
  }
  const batches = new Map<string, StoredBatch>();
  for (const handOver of handOvers) {
    events.push(...shipped(scribe, handOver, batches));
    yield;
  }
  return events;
}

function within(atMs: number | null, { fromMs, toMs }: DaySpan): boolean {
  return atMs !== null && atMs >= fromMs && atMs < toMs;
}

/** A batch that was taken out early came out before its load did. */
function mayTouch(load: StoredLoad, span: DaySpan): boolean {
  return within(load.outAtMs, span) || (load.takenOut ?? []).some(({ atMs }) => within(atMs, span));
}

function scribeOf(room: BookRoom, withGuests: boolean, subjectIds: readonly string[]): Scribe {
  const firsts = new Map<string, { recorded_by: string; recorded_at: string }>();
  for (const entry of subjectIds.length === 0 ? [] : room.book.entriesAbout(subjectIds)) {
    const what = { recorded_by: entry.person, recorded_at: new Date(entry.enteredAtMs).toISOString() };
    for (const key of [entry.subjectId, `${entry.subjectId} ${entry.kind}`]) {
      // Of a mark the last entry counts: an out mark is entered after the in mark.
      if (key !== entry.subjectId || !firsts.has(key)) firsts.set(key, what);
    }
  }
  const packs = new Map<string, Pack>();
  const kitchen = kitchenOf(room.book);
  const offsetMs = offsetTeller(kitchen.timeZone);
  return {
    room, kitchen, withGuests, dayOf: (atMs) => new Date(atMs + offsetMs(atMs)).toISOString().slice(0, 10),
    packsOf(batchId) {
      const found = room.book.shelf('packs').where('batchId', batchId);
      for (const pack of found) packs.set(pack.id, pack);
      return found;
    },
    pack: (packId) => packs.get(packId) ?? room.book.shelf('packs').need(packId),
    entered: (subjectId, kind) => firsts.get(`${subjectId} ${kind}`) ?? firsts.get(subjectId) ?? {},
  };
}

function received({ room, kitchen, entered, dayOf }: Scribe, lot: StoredFishLot): TraceEvent {
  const { source } = lot;
  const species = speciesOf(room, lot.speciesId);
  const isBought = source.kind === 'supplier';
  const from = isBought ? source.supplierName : source.ownerName;
  return {
    event: 'RECEIVE', event_date: dayOf(lot.receivedAtMs), tlc: codeOf(lot),
    // A guest's catch has no code of its own: the kitchen assigns one, 21 CFR 1.1345(b) (read).
    tlc_source_name: isBought ? from : kitchen.name, tlc_source_address: isBought ? '' : addressOf(kitchen),
    product_description: `${species.marketName}, ${lot.form.replaceAll('-', ' ')}`, species_market_name: species.marketName, scientific_name: species.scientificName,
    ...quantity(kitchen, lot.mass.grams), from_name: from, from_address: isBought ? '' : (source.ownerAddress ?? ''), to_name: kitchen.name, to_address: addressOf(kitchen),
    ...(lot.caughtAtMs === null ? {} : { harvest_start: dayOf(lot.caughtAtMs), harvest_end: dayOf(lot.caughtAtMs) }),
    ...(isBought || (source.caughtArea ?? '') === '' ? {} : { harvest_area_standard: 'as the guest said', harvest_area_code: source.caughtArea ?? '' }),
    ref_doc_type: 'fish lot', ref_doc_no: lot.code, ...entered(lot.id, 'fishLot.receive'),
  };
}

/** The code the fish came under. */
function codeOf({ source, code }: StoredFishLot): string {
  return source.kind === 'supplier' ? source.supplierLot : code;
}

/** A row for each lot that went in; how much of each is known only where there was one. */
function transformed(scribe: Scribe, load: StoredLoad, batch: StoredBatch, span: DaySpan): TraceEvent[] {
  const { room, kitchen, withGuests, entered, dayOf } = scribe;
  const { outAtMs } = loadAsOf(load, batch.id);
  if (batch.lotCode === null || !within(outAtMs, span) || (batch.sourceKind === 'guest' && !withGuests)) return [];
  const made = madeGrams(scribe, batch);
  return batch.lotIds.map((lotId, _index, all): TraceEvent => {
    const lot = room.book.shelf('fishLots').need(lotId);
    return {
      event: 'TRANSFORM', event_date: dayOf(outAtMs ?? 0), tlc: batch.lotCode ?? '', tlc_source_name: kitchen.name, tlc_source_address: addressOf(kitchen),
      input_tlc: codeOf(lot), ...(all.length > 1 ? {} : { input_qty: figure(kitchen, batch.fillets.grams), input_uom: kitchen.massUnit }),
      ...described(room, batch), ...(made === null ? {} : quantity(kitchen, made)),
      ref_doc_type: 'load', ref_doc_no: `Load ${load.number}, ${batch.shortName}`, ...entered(load.id, 'load.mark'),
    };
  });
}

/** The finished weight, or what was packed where nobody weighed it before. */
function madeGrams({ packsOf }: Scribe, batch: StoredBatch): number | null {
  const finished = batch.weights.filter(({ what }) => what === 'finished').at(-1);
  if (finished !== undefined) return finished.mass.grams;
  const packs = packsOf(batch.id);
  return packs.length === 0 ? null : packs.reduce((sum, pack) => sum + pack.net.grams, 0);
}

/** A row for each lot that somebody took away. */
function shipped({ room, kitchen, withGuests, entered, pack, dayOf }: Scribe, handOver: Stored<'handOvers'>, batches: Map<string, StoredBatch>): TraceEvent[] {
  const guest = room.book.shelf('guests').need(handOver.guestId);
  const weights = new Map<string, { grams: number; packs: number }>();
  for (const packId of handOver.packIds) {
    const { batchId, net } = pack(packId);
    const sum = weights.get(batchId) ?? { grams: 0, packs: 0 };
    weights.set(batchId, { grams: sum.grams + net.grams, packs: sum.packs + 1 });
  }
  return [...weights].flatMap(([batchId, { grams, packs }]): TraceEvent[] => {
    const batch = batches.get(batchId) ?? room.book.shelf('batches').need(batchId);
    batches.set(batchId, batch);
    if (batch.sourceKind === 'guest' && !withGuests) return [];
    const about = described(room, batch);
    return [{
      event: 'SHIP', event_date: dayOf(handOver.atMs), tlc: batch.lotCode ?? '', tlc_source_name: kitchen.name, tlc_source_address: addressOf(kitchen),
      ...about, product_description: `${about.product_description}, ${packs} ${packs === 1 ? 'pack' : 'packs'}`, ...quantity(kitchen, grams),
      from_name: kitchen.name, from_address: addressOf(kitchen), to_name: guest.name, to_address: guest.address,
      ref_doc_type: 'hand-over', ref_doc_no: handOver.id, recorded_by: handOver.initials, ...entered(handOver.id, 'handOver.make'),
    }];
  });
}

function described(room: BookRoom, batch: StoredBatch): { product_description: string; species_market_name: string; scientific_name: string } {
  const { marketName, scientificName } = speciesOf(room, batch.speciesId);
  const pack = batch.pack === 'unpacked' ? 'unpacked' : `${batch.pack} pack`;
  return { product_description: `Smoked ${marketName}, ${batch.process}-smoked, ${pack}, ${batch.store}`, species_market_name: marketName, scientific_name: scientificName };
}

function quantity(kitchen: Kitchen, grams: number): { qty: number; uom: string } {
  return { qty: figure(kitchen, grams), uom: kitchen.massUnit };
}

function figure(kitchen: Kitchen, grams: number): number {
  return Number(massIn(grams, kitchen.massUnit).toFixed(3));
}

function addressOf({ address, phone }: Kitchen): string {
  return [address.street, address.city, `${address.region} ${address.postalCode}`.trim(), phone ?? ''].filter((part) => part !== '').join(', ');
}
