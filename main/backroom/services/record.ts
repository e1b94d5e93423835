/** The record shelf: finding a batch, and everything that was recorded of it. */
import { setImmediate } from 'node:timers/promises';
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { StoredBatch, StoredLoad } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { lotsOf, viewBatch } from './batch-view.ts';
import { viewFishLot } from './fish-lot-view.ts';
import { gateLines, judgeBatch } from './judging/judge-batch.ts';
import { withinSoak } from './judging/points.ts';
import { kitchenOf } from './kitchen.ts';
import { labResultsOf } from './lab-results.ts';
import { loadOf, pointsOf } from './load-view.ts';
import { decisionsOf, standingDecision } from './release.ts';
import { fits, searchWords } from './record-search.ts';
import { encodeSeries } from './series.ts';

export const recordServices = { 'record.find': findBatches, 'record.batch': showBatch } satisfies Services<'record.find' | 'record.batch'>;

/** More than a person reads on one page; a narrower search shows the rest. */
const MOST_FOUND = 100;

/**
 * Batches whose codes, species, owner, supplier or days fit all words of the text, the newest first; any when it is empty.
 * Each is judged on its record as it is now, with room for other requests between one and the next.
 */
async function findBatches(room: BookRoom, input: Parsed<'record.find'>): Promise<Output<'record.find'>> {
  const newestFirst = room.book.shelf('batches').all().toSorted((one, other) => other.madeAtMs - one.madeAtMs);
  const batches: Output<'record.find'>['batches'] = [];
  for (const batch of newestFirst) {
    if (batches.length === MOST_FOUND) break;
    if (input.text.trim() !== '' && !fits(searchWords(room, batch), input.text)) continue;
    batches.push({
      batch: viewBatch(room, batch),
      verdictWords: judgeBatch(room, batch).deciding.words,
      decision: standingDecision(room, batch.id) ?? null,
      packCount: room.book.shelf('packs').where('batchId', batch.id).length,
    });
    await setImmediate();
  }
  return { batches };
}

function showBatch(room: BookRoom, input: Parsed<'record.batch'>): Output<'record.batch'> {
  const { book } = room;
  const batch = book.shelf('batches').need(input.batchId);
  const lots = lotsOf(room, batch);
  const load = batch.loadId === null ? null : book.shelf('loads').need(batch.loadId);
  const packs = book.shelf('packs').where('batchId', batch.id);
  const { deciding, gates } = judgeBatch(room, batch);
  return {
    kitchen: kitchenOf(book),
    batch: viewBatch(room, batch),
    lots: lots.map((lot) => viewFishLot(room, lot)),
    load: load === null ? null : loadOf(room, load),
    series: measuredSeries(room, batch, load),
    deciding, gates: gateLines(gates),
    labResults: labResultsOf(room, batch.id),
    decisions: decisionsOf(room, batch.id),
    packs,
    labels: packs.flatMap((pack) => book.shelf('prints').where('packId', pack.id).at(-1)?.label ?? []),
    entries: book.entriesAbout([batch.id, ...batch.lotIds, ...(load === null ? [] : [load.id]), ...packs.map((pack) => pack.id)]),
    chain: book.checkChain(),
  };
}

/** What was measured of this batch: its pieces and their chamber, the brining rooms while it soaked, the freezer while it lay there. */
function measuredSeries(room: BookRoom, batch: StoredBatch, load: StoredLoad | null): Output<'record.batch'>['series'] {
  const { book } = room;
  const ofLoad = load === null ? [] : pointsOf(room, load).filter((point) => point.batchId === null || point.batchId === batch.id);
  const rooms = book.shelf('places').all().filter((place) => place.kind === 'brining-room');
  const [fromMs, toMs] = [batch.intoFreezerAtMs ?? 0, batch.outOfFreezerAtMs ?? Infinity];
  const measured = [
    ...ofLoad.map(({ id }) => ({ pointId: id, readings: book.readings(id) })),
    ...rooms.map(({ id }) => ({ pointId: id, readings: withinSoak(batch, book.readings(id)) })).filter(({ readings }) => readings.length > 0),
    ...(batch.freezerPlaceId === null ? [] : [batch.freezerPlaceId]).map((id) => ({
      pointId: id, readings: book.readings(id).filter(({ atMs }) => atMs >= fromMs && atMs <= toMs),
    })),
  ];
  return measured.map(({ pointId, readings }) => ({ pointId, series: encodeSeries(readings) }));
}
