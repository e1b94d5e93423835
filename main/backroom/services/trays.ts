/** Trays: packs frozen together, or the fish itself before it is packed. They carry the batch’s marks of the freezer. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { TrayView } from '../../../app/contract/requests/cold-store.ts';
import type { Tray } from '../../../app/contract/requests/packs-where.ts';
import { exactTicks, formatDegrees } from '../../../app/measures/temperature.ts';
import type { StoredBatch, StoredPoint } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { markBatch } from './batch-marks.ts';
import { refuseInput } from './field-refusal.ts';
import { kitchenOf } from './kitchen.ts';
import { placeWords, whereWords } from './pack-where.ts';
import { isGone, lastMoveOf } from './pack-where-last.ts';
import { keepMoves, moveOf, needPacks, refuseEarlier } from './pack-where-moves.ts';
import { rejudge, releasedOf } from './rejudging.ts';
import { nameOf } from './release.ts';
import { speciesOf } from './species.ts';
import { marksByTrays } from './trays-marks.ts';
import { traysOf } from './trays-of-batch.ts';
import { refuseBefore, refuseFuture, sayInstant } from './when.ts';

/** A core at this is frozen solid: what the store is held to as well (our choice). */
const SOLID_TICKS = exactTicks(0, 'F');

/** Every tray, or those of a batch; those in the freezer first, the latest on top. */
export function listTrays(room: BookRoom, { batchId }: Parsed<'tray.list'>): Output<'tray.list'> {
  const trays = batchId === null ? room.book.shelf('trays').all() : traysOf(room, batchId);
  const order = trays.toSorted((one, other) => Number(one.outAtMs !== null) - Number(other.outAtMs !== null) || other.intoFreezerAtMs - one.intoFreezerAtMs);
  return { trays: order.map((tray) => viewTray(room, tray)) };
}

function viewTray(room: BookRoom, tray: Tray): TrayView {
  const batch = room.book.shelf('batches').need(tray.batchId);
  const point = tray.pointId === null ? undefined : room.book.shelf('points').get(tray.pointId);
  const last = tray.pointId === null ? undefined : room.book.lastReading(tray.pointId);
  return {
    ...tray, batchName: nameOf(batch), marketName: speciesOf(room, batch.speciesId).marketName, placeName: placeWords(room, tray),
    packs: tray.packIds.filter((id) => !isGone(lastMoveOf(room, id))).length,
    probeTicks: last?.highTicks ?? null, probeAtMs: last?.atMs ?? null, probeName: point?.name ?? '',
  };
}

/**
 * Puts packs into a freezer together; without packs the fish itself, whose marks are the batch’s own.
 * @throws Refusal: no freezer, a pack of another batch, gone, or on a tray already, a time before it was sealed
 */
export function makeTray(room: BookRoom, input: Parsed<'tray.make'>): Tray {
  const batch = room.book.shelf('batches').need(input.batchId);
  const place = room.book.shelf('places').need(input.placeId);
  if (place.kind !== 'freezer') refuseInput(`${place.name} is not a freezer.`, ['placeId'], 'Choose a freezer: its own record is the proof.');
  refuseFuture(room, input.atMs, ['atMs']);
  const packs = needPacks(room, input.packIds);
  const trays = traysOf(room, batch.id);
  for (const [index, pack] of packs.entries()) {
    if (pack.batchId !== batch.id) refuseInput(`Pack ${pack.code} is not of ${nameOf(batch)}.`, ['packIds', index], 'A tray holds packs of one batch; make another for the rest.');
    const last = lastMoveOf(room, pack.id);
    if (isGone(last)) throw new Refusal('CONFLICT', `Pack ${pack.code} is not here: ${whereWords(room, pack, last)}.`, { remedy: 'Take it off the list.' });
    refuseEarlier(room, pack, last, input.atMs);
    const other = trays.find((tray) => tray.outAtMs === null && tray.packIds.includes(pack.id));
    if (other !== undefined) throw new Refusal('CONFLICT', `Pack ${pack.code} lies on ${other.name} already.`, { remedy: 'It was scanned before. Take it off the list.' });
  }
  if (packs.length === 0 && batch.freezerPlaceId !== null && batch.freezerPlaceId !== place.id) refuseInput(`The fish of ${nameOf(batch)} went into ${room.book.shelf('places').need(batch.freezerPlaceId).name}, by its mark.`, ['placeId'], 'Choose that freezer: its own record is the proof.');
  const own = trays.filter((tray) => (tray.packIds.length > 0) === (packs.length > 0));
  if (packs.length === 0 && own.length > 0) throw new Refusal('CONFLICT', `The fish of ${nameOf(batch)} was put into the freezer already.`, { remedy: 'Mark when it is frozen and when it comes out.' });
  const name = input.name === '' ? (packs.length === 0 ? `Fish of ${nameOf(batch)}` : `Tray ${own.length + 1}`) : input.name;
  const tray: Tray = {
    id: room.newId(), batchId: batch.id, name, packIds: packs.map(({ id }) => id), placeId: place.id, spot: input.spot,
    sealedAtMs: packs.length === 0 ? null : Math.min(...packs.map(({ sealedAtMs }) => sealedAtMs)), intoFreezerAtMs: input.atMs,
    frozenAtMs: null, frozenHow: null, pointId: input.probe === null ? null : addProbe(room, batch, name, input.probe), ...(input.probe === null ? {} : { probeIn: input.probe.in }),
    outAtMs: null, initials: actingPerson(room).initials,
  };
  if (packs.length === 0 && batch.intoFreezerAtMs === null) markBatch(room, { batchId: batch.id, what: 'into-freezer', atMs: input.atMs, placeId: place.id });
  room.book.shelf('trays').put(tray);
  if (packs.length > 0) keepMoves(room, packs, packs.map((pack) => moveOf(room, pack, { what: 'into-store', atMs: input.atMs, placeId: place.id, spot: input.spot, handOverId: null, why: '' })), `on ${name} into ${placeWords(room, tray)}`);
  keepTray(room, batch, tray, null, `${name} of ${nameOf(batch)}${packs.length === 0 ? '' : `, ${packs.length} ${packs.length === 1 ? 'pack' : 'packs'},`} went into ${placeWords(room, tray)} at ${sayInstant(room, input.atMs)}${input.probe === null ? '' : `, with a probe in a ${input.probe.in}`}.`);
  return tray;
}

/**
 * Marks a tray frozen solid, or out of the freezer.
 * @throws Refusal: marked already, before it went in, a probe that shows no such thing
 */
export function markTray(room: BookRoom, input: Parsed<'tray.mark'>): Tray {
  const tray = room.book.shelf('trays').need(input.trayId);
  const batch = room.book.shelf('batches').need(tray.batchId);
  const setAtMs = input.what === 'frozen' ? tray.frozenAtMs : tray.outAtMs;
  if (setAtMs !== null) throw new Refusal('CONFLICT', `${tray.name} ${input.what === 'frozen' ? 'was frozen solid' : 'came out of the freezer'} at ${sayInstant(room, setAtMs)}; that is marked already.`, { remedy: 'A mark is set once.' });
  refuseFuture(room, input.atMs, ['atMs']);
  const what = input.what === 'frozen' ? 'Being frozen solid' : 'Coming out of the freezer';
  refuseBefore(room, input.atMs, what, { what: 'going into the freezer', atMs: tray.intoFreezerAtMs }, ['atMs']);
  if (input.what === 'out') refuseBefore(room, input.atMs, what, { what: 'being frozen solid', atMs: tray.frozenAtMs }, ['atMs']);
  if (input.what === 'frozen' && tray.outAtMs !== null && input.atMs > tray.outAtMs) refuseInput(`${tray.name} came out of the freezer at ${sayInstant(room, tray.outAtMs)}, before that.`, ['atMs'], 'Check both times.');
  if (input.what === 'frozen') refuseUnproven(room, tray, input);
  const marked: Tray = input.what === 'frozen' ? { ...tray, frozenAtMs: input.atMs, frozenHow: input.how } : { ...tray, outAtMs: input.atMs };
  if (tray.packIds.length === 0) markBatch(room, { batchId: batch.id, what: input.what === 'frozen' ? 'frozen' : 'out-of-freezer', atMs: input.atMs, placeId: null });
  room.book.shelf('trays').put(marked);
  if (input.what === 'out') moveOut(room, marked, input.atMs);
  const how = input.how === null ? '' : `, by ${{ 'probe-in-fish': 'a probe in a fish', 'probe-in-dummy': 'a probe in a dummy', touch: 'touch' }[input.how]}`;
  keepTray(room, batch, marked, tray, `${tray.name} of ${nameOf(batch)} ${input.what === 'frozen' ? `was frozen solid${how},` : 'came out of the freezer'} at ${sayInstant(room, input.atMs)}.`);
  return marked;
}

/** Packs of a tray that still lie where it stood are out with it. */
function moveOut(room: BookRoom, tray: Tray, atMs: number): void {
  const packs = tray.packIds.map((id) => room.book.shelf('packs').need(id)).filter((pack) => {
    const last = lastMoveOf(room, pack.id);
    return last?.what === 'into-store' && last.placeId === tray.placeId && last.atMs <= atMs;
  });
  if (packs.length === 0) return;
  keepMoves(room, packs, packs.map((pack) => moveOf(room, pack, { what: 'out-of-store', atMs, placeId: tray.placeId, spot: tray.spot, handOverId: null, why: '' })), `with ${tray.name} out of ${placeWords(room, tray)}`);
}

/** A probe that is said to show it must have shown it by then. */
function refuseUnproven(room: BookRoom, tray: Tray, { how, atMs }: Parsed<'tray.mark'>): void {
  if (how === null) refuseInput('Nothing says how it is known that it is solid.', ['how'], 'Choose the probe, or touch.');
  if (how === 'touch') return;
  if (tray.pointId === null || tray.probeIn !== (how === 'probe-in-fish' ? 'fish' : 'dummy')) refuseInput(`No probe stands in a ${how === 'probe-in-fish' ? 'fish' : 'dummy'} on ${tray.name}.`, ['how'], 'Feel it, and choose touch.');
  const shown = room.book.readings(tray.pointId).findLast((reading) => reading.atMs <= atMs);
  if (shown === undefined) refuseInput(`The probe on ${tray.name} has no reading up to ${sayInstant(room, atMs)}.`, ['how'], 'Enter its reading first, or feel it and choose touch.');
  if (shown.highTicks <= SOLID_TICKS) return;
  const { temperatureUnit: unit } = kitchenOf(room.book);
  refuseInput(`The probe on ${tray.name} showed ${formatDegrees(shown.highTicks, unit, 1)} °${unit} at ${sayInstant(room, shown.atMs)}: not frozen solid yet.`, ['how'], `Wait until it shows ${formatDegrees(SOLID_TICKS, unit, 1)} °${unit} or less.`);
}

function addProbe(room: BookRoom, batch: StoredBatch, trayName: string, probe: { readonly in: 'fish' | 'dummy'; readonly instrumentId: string | null }): string {
  if (probe.instrumentId !== null) room.book.shelf('instruments').need(probe.instrumentId);
  const point: StoredPoint = {
    id: room.newId(), name: `Probe in a ${probe.in}, ${trayName}`, role: 'piece', batchId: batch.id, loadId: null, thicknessMm: null, rackPlace: '', instrumentId: probe.instrumentId,
  };
  room.book.shelf('points').put(point);
  return point.id;
}

/** The entry of a tray, with the marks of its batch that follow from it; a release is judged again by them. */
function keepTray(room: BookRoom, before: StoredBatch, tray: Tray, was: Tray | null, summary: string): void {
  const batch = room.book.shelf('batches').need(before.id);
  const marked = tray.packIds.length === 0 ? batch : marksByTrays(room, batch);
  if (marked !== batch) room.book.shelf('batches').put(marked);
  const marks = ({ intoFreezerAtMs, frozenAtMs, outOfFreezerAtMs, freezerPlaceId }: StoredBatch) => ({ intoFreezerAtMs, frozenAtMs, outOfFreezerAtMs, freezerPlaceId });
  room.book.record({ kind: 'tray.keep', subjectId: batch.id, happenedAtMs: tray.outAtMs ?? tray.frozenAtMs ?? tray.intoFreezerAtMs, summary, before: { tray: was, marks: marks(batch) }, after: { tray, marks: marks(marked) } });
  room.changed('packs', tray.packIds);
  room.changed('batch', [batch.id]);
  room.changed('verdict', [batch.id]);
  rejudge(room, releasedOf(room, [batch.id]), 'a mark of the freezer was set');
}
