/** The record shelf: finding a batch, and everything that was recorded of it. */
import { setImmediate } from 'node:timers/promises';
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { lotsOf, viewBatch } from './batch-view.ts';
import { viewFishLot } from './fish-lot-view.ts';
import { gateLines, judgeBatch } from './judging/judge-batch.ts';
import { kitchenOf } from './kitchen.ts';
import { labResultsOf } from './lab-results.ts';
import { loadOf } from './load-view.ts';
import { decisionsOf, standingDecision } from './release.ts';
import { fits, searchWords } from './record-search.ts';
import { afterPacking } from './record-after.ts';
import { measuredPoints, type MeasuredPoint } from './record-series.ts';
import { tableOf } from './record-table.ts';
import { overviewOf, thin } from './series-window.ts';

export const recordServices = { 'record.find': findBatches, 'record.batch': showBatch } satisfies Services<'record.find' | 'record.batch'>;

/** More than a person reads on one page; a narrower search shows the rest. */
const MOST_FOUND = 100;
/** As wide as a place's own chart on most screens. */
const PLACE_PIXELS = 960;

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
  const points = measuredPoints(room, batch, load);
  const after = afterPacking(room, batch, packs);
  return {
    kitchen: kitchenOf(book),
    batch: viewBatch(room, batch),
    lots: lots.map((lot) => viewFishLot(room, lot)),
    load: load === null ? null : loadOf(room, load),
    series: thinnedSeries(room, points),
    table: tableOf(points),
    deciding, gates: gateLines(gates),
    labResults: labResultsOf(room, batch.id),
    decisions: decisionsOf(room, batch.id),
    packs,
    labels: packs.flatMap((pack) => book.shelf('prints').where('packId', pack.id).at(-1)?.label ?? []),
    ...after,
    entries: book.entriesAbout([batch.id, ...after.handOvers.map(({ handOver }) => handOver.id), ...batch.lotIds, ...(load === null ? [] : [load.id]), ...packs.map((pack) => pack.id)]),
    chain: book.checkChain(),
  };
}

/** One common window for what is drawn together; a place for the time that the batch lay there. */
function thinnedSeries(room: BookRoom, points: readonly MeasuredPoint[]): Output<'record.batch'>['series'] {
  const ofLoad = overviewOf(room, points.filter(({ isOfLoad }) => isOfLoad).map(({ pointId }) => pointId));
  const ofPlaces = points.filter(({ isOfLoad }) => !isOfLoad).map(({ pointId, numbers }) => thin(pointId, numbers, numbers.atMs[0] ?? 0, numbers.atMs.at(-1) ?? 0, PLACE_PIXELS));
  return [...ofLoad, ...ofPlaces];
}
