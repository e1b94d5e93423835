/** What was entered wrong, put right: the old stays in the record, and released batches are judged again. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { listText } from '../../../app/limits/words.ts';
import type { StoredBatch, StoredFishLot, StoredPoint } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { differenceOfLots } from './correction-lots.ts';
import { refuseInput } from './field-refusal.ts';
import { packsOf } from './packs-of-batch.ts';
import { rejudge } from './rejudging.ts';
import { nameOf } from './release.ts';
import { openWork } from './work-items.ts';

export const correctionServices = {
  'fishLot.correct': correctLot,
  'batch.correct': correctBatch,
} satisfies Services<'fishLot.correct' | 'batch.correct'>;

/** A fillet of more than this is another unit. */
const THICKEST_MM = 300;

/**
 * Corrects a lot's species or owner, and with it the batches made of it. Where other lots of a batch are still of
 * another species or owner, the batch keeps its species and can't be released until they agree.
 * @throws Refusal INVALID_INPUT: an unknown species, an owner for bought fish; CONFLICT: nothing changes
 */
function correctLot(room: BookRoom, { lotId, speciesId, ownerName, why }: Parsed<'fishLot.correct'>): Output<'fishLot.correct'> {
  const lot = room.book.shelf('fishLots').need(lotId);
  const corrected: StoredFishLot = { ...lot, speciesId: speciesOf(room, lot, speciesId), source: sourceOf(lot, ownerName) };
  if (corrected.speciesId === lot.speciesId && JSON.stringify(corrected.source) === JSON.stringify(lot.source)) refuseSame(lot.code);
  room.book.shelf('fishLots').put(corrected);
  room.book.record({ kind: 'fishLot.correct', subjectId: lot.id, happenedAtMs: null, why, summary: `Corrected lot ${lot.code}: ${changesOf(room, lot, corrected)}.`, before: lot, after: corrected });
  const batches = room.book.shelf('batches').all().filter((batch) => batch.lotIds.includes(lot.id)).map((batch) => followLot(room, batch, corrected, why));
  room.changed('fish', [lot.id]);
  room.changed('batch', batches.map(({ id }) => id));
  room.changed('verdict', batches.map(({ id }) => id));
  const affectedBatches = rejudge(room, batches, `lot ${lot.code} was corrected`);
  for (const batch of batches) askNewLabels(room, batch, `lot ${lot.code} is ${changesOf(room, lot, corrected)}`);
  return { affectedBatches };
}

/** A batch is of its lots' species, once they are all of one. */
function followLot(room: BookRoom, batch: StoredBatch, lot: StoredFishLot, why: string): StoredBatch {
  if (batch.speciesId === lot.speciesId || differenceOfLots(room, batch) !== undefined) return batch;
  const followed: StoredBatch = { ...batch, speciesId: lot.speciesId };
  room.book.shelf('batches').put(followed);
  room.book.record({ kind: 'batch.correct', subjectId: batch.id, happenedAtMs: null, why, summary: `${nameOf(batch)} is ${marketName(room, lot.speciesId)}, as lot ${lot.code} is.`, before: batch, after: followed });
  return followed;
}

/** Labels that were printed before name the old species or owner, whether or not the fish may be eaten. */
function askNewLabels(room: BookRoom, batch: StoredBatch, said: string): void {
  const labelled = packsOf(room, batch.id).filter(({ printedCount }) => printedCount > 0);
  if (labelled.length === 0) return;
  const text = `Labels printed before say otherwise: ${said}. Take them off, and print them anew while the batch is released: ${listText(labelled.map(({ code }) => code))}.`;
  openWork(room, batch, [{ what: 'labels', text }], `The printed labels of ${nameOf(batch)} no longer say what is in the packs: ${said}.`);
}

/**
 * Corrects how thick a batch's fish is.
 * @throws Refusal INVALID_INPUT: no thickness of a fillet, a piece of another batch; CONFLICT: nothing changes
 */
function correctBatch(room: BookRoom, { batchId, thickestMm, pieces, why }: Parsed<'batch.correct'>): Output<'batch.correct'> {
  const batch = room.book.shelf('batches').need(batchId);
  if (thickestMm !== null) refuseThickness(thickestMm, ['thickestMm']);
  const points = pieces.map(({ pointId, thicknessMm }, index): StoredPoint => {
    refuseThickness(thicknessMm, ['pieces', index, 'thicknessMm']);
    const point = room.book.shelf('points').need(pointId);
    if (point.batchId !== batch.id) refuseInput(`“${point.name}” is no piece of ${nameOf(batch)}.`, ['pieces', index, 'pointId'], 'Choose a piece of this batch.');
    return { ...point, thicknessMm };
  });
  const before = { batch, points: points.map(({ id }) => room.book.shelf('points').need(id)) };
  const corrected: StoredBatch = { ...batch, thickestMm: thickestMm ?? batch.thickestMm };
  if (batch.thinnestMm !== null && corrected.thickestMm < batch.thinnestMm) {
    refuseInput(`The thinnest piece of ${nameOf(batch)} is ${batch.thinnestMm} mm.`, ['thickestMm'], 'The thickest is at least that. Measure again.');
  }
  if (corrected.thickestMm === batch.thickestMm && JSON.stringify(points) === JSON.stringify(before.points)) refuseSame(nameOf(batch));
  room.book.shelf('batches').put(corrected);
  for (const point of points) room.book.shelf('points').put(point);
  const said = [...(corrected.thickestMm === batch.thickestMm ? [] : [`thickest fillet ${corrected.thickestMm} mm, not ${batch.thickestMm} mm`]), ...points.map((point) => `${point.name} ${point.thicknessMm ?? 0} mm`)];
  room.book.record({ kind: 'batch.correct', subjectId: batch.id, happenedAtMs: null, why, summary: `Corrected ${nameOf(batch)}: ${said.join(', ')}.`, before, after: { batch: corrected, points } });
  room.changed('batch', [batch.id]);
  room.changed('verdict', [batch.id]);
  return { affectedBatches: rejudge(room, [corrected], `how thick ${nameOf(batch)} is was corrected`) };
}

function speciesOf(room: BookRoom, lot: StoredFishLot, speciesId: string | null): string {
  if (speciesId === null) return lot.speciesId;
  if (!room.catalogue.species.some(({ id }) => id === speciesId)) refuseInput('That species is not in the list.', ['speciesId'], 'Choose one from the list.');
  return speciesId;
}

function sourceOf(lot: StoredFishLot, ownerName: string | null): StoredFishLot['source'] {
  if (ownerName === null) return lot.source;
  if (lot.source.kind !== 'guest') refuseInput(`Lot ${lot.code} was bought and has no owner.`, ['ownerName'], 'Leave the owner as it is.');
  if (ownerName.trim() === '') refuseInput('An owner needs a name.', ['ownerName'], 'Type the name of the guest or party.');
  // The guest on file was the wrong one; by the right name the packs find their owner.
  const { guestId: _guestId, ...source } = lot.source;
  return { ...source, ownerName: ownerName.trim() };
}

function refuseThickness(millimetres: number, path: readonly (string | number)[]): void {
  if (millimetres > 0 && millimetres <= THICKEST_MM) return;
  refuseInput(`${millimetres} mm is not how thick a fillet is.`, path, `Give millimetres above 0 and up to ${THICKEST_MM}.`);
}

function refuseSame(what: string): never {
  throw new Refusal('CONFLICT', `${what} has that already; nothing was changed.`, { remedy: 'Change what is wrong, then save.' });
}

function changesOf(room: BookRoom, before: StoredFishLot, after: StoredFishLot): string {
  const species = before.speciesId === after.speciesId ? [] : [`${marketName(room, after.speciesId)}, not ${marketName(room, before.speciesId)}`];
  const owner = before.source.kind === 'guest' && after.source.kind === 'guest' && before.source.ownerName !== after.source.ownerName ? [`of ${after.source.ownerName}, not of ${before.source.ownerName}`] : [];
  return [...species, ...owner].join('; ');
}

function marketName(room: BookRoom, speciesId: string): string {
  return room.catalogue.species.find(({ id }) => id === speciesId)?.marketName ?? speciesId;
}
