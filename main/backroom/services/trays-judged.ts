/**
 * What of a batch’s cold is judged where it has trays, or where its packs left: the fish’s own freezing and its packs’
 * are two stays, packs may lie in several freezers, and a store’s record ends when the last pack is gone. Without
 * trays and moves it is what the batch’s marks say.
 *
 * A record has one span for all its places, so each freezer is judged from the first pack’s going into one to the last
 * one’s leaving, also where packs lay in it for a part of that only: stricter than need be, never laxer.
 */
import type { RecordSpan, StoreKind } from '../../../app/limits/judge-case.ts';
import { timesTogether } from '../../../app/packs/stock-trays.ts';
import type { PackMove, Tray } from '../../../app/contract/requests/packs-where.ts';
import type { StoredBatch, StoredLoad } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { freezerStay, frozenWithin, isStayOfPacks } from './judging/freezer-stay.ts';
import { keptPoints } from './judging/points.ts';
import type { PointPlan } from './judging/taken-readings.ts';
import { BRIEF_MS, isInto, leftMs } from './pack-where-cold.ts';
import { lastMoveOf, movesOf, packsLeftMs } from './pack-where-last.ts';
import { areMarksOfFish, isFrozenFirst } from './trays-marks.ts';
import { countingTraysOf, packTraysOf, traysOf } from './trays-of-batch.ts';

/**
 * The longest that a published freezing against parasites takes: 7 days at −4 °F (US Food Code 3-402.11, read). Fish
 * frozen so long before its brine answers by that; a shorter stay leaves the answer to its packs’ freezing.
 */
const LONGEST_HOLD_MS = 168 * 3_600_000;

export interface KeptCold {
  /** The stay that answers for parasites. */
  readonly freezer: RecordSpan;
  /** The stay of the packs; undefined where what is marked is the fish’s own. */
  readonly packs: RecordSpan | undefined;
  /** All frozen solid within the packs’ stay, or where there is none within the fish’s. */
  readonly frozenMs: number | undefined;
  /** The first of them frozen solid: its store is judged from then on. Undefined where one isn’t yet. */
  readonly chilledMs: number | undefined;
  /** Out of that stay again. */
  readonly thawedMs: number | undefined;
  /** When the last pack was gone from the kitchen. */
  readonly goneMs: number | undefined;
  readonly plans: readonly PointPlan[];
  /** The batch as it lies in each of its freezers, for the errors of their thermometers. */
  readonly freezerIds: readonly string[];
  readonly probeIds: readonly string[];
}

/** Which packs of a batch are asked about, and as of when; left out: all of them, now. */
export interface AskedPacks {
  /** As if its last pack had left then. */
  readonly leftMs?: number | undefined;
  /** Only the trays that one of these ever lay on count. */
  readonly packIds?: readonly string[] | undefined;
}

/** @param store how the packs are kept */
export function keptColdOf(room: BookRoom, batch: StoredBatch, load: StoredLoad | undefined, store: StoreKind, asked: AskedPacks = {}): KeptCold {
  const goneMs = asked.leftMs ?? packsLeftMs(room, batch.id);
  const trays = traysAsked(packTraysOf(room, batch.id), asked.packIds);
  const marked = freezerStay(batch, load);
  const isOfPacks = isStayOfPacks(marked, batch);
  const own = isOfPacks ? endedBy(marked, goneMs) : marked;
  if (trays.length === 0 || (areMarksOfFish(room, batch) && isFrozenFirst(batch) && isOfPacks)) return byMarks(room, batch, store, { own, isOfPacks, goneMs });
  return byTrays(room, batch, store, { own, trays, goneMs });
}

function traysAsked(trays: readonly Tray[], packIds: readonly string[] | undefined): readonly Tray[] {
  const asked = packIds === undefined ? trays : trays.filter((tray) => packIds.some((id) => tray.packIds.includes(id)));
  return asked.length === 0 ? trays : asked;
}

/** A stay by the batch’s marks; freezers that its packs were put into later are judged beside the one that is marked. */
function byMarks(room: BookRoom, batch: StoredBatch, store: StoreKind, { own, isOfPacks, goneMs }: { readonly own: RecordSpan; readonly isOfPacks: boolean; readonly goneMs: number | undefined }): KeptCold {
  const { inMs } = own;
  const marked = idsOf(batch);
  const others = isOfPacks ? freezersOf(room, batch.id).filter((id) => !marked.includes(id)) : [];
  // The marked freezer’s record shows a hold until the first pack was put somewhere else.
  const isThere = ({ what, placeId }: PackMove): boolean => what === 'into-store' && placeId !== null && marked.includes(placeId);
  const hold = isOfPacks && inMs !== undefined ? endedBy(own, firstOf(packIdsOf(room, batch.id).map((id) => leftMs(room, id, { isThere, fromMs: inMs, atMs: room.clock.nowMs() })))) : own;
  const frozenMs = frozenWithin(own, batch);
  const probed = traysOfFish(room, batch.id);
  const elsewhere = others.flatMap((id) => keptPoints(room, { ...batch, freezerPlaceId: id }, own, store)).filter(({ record }) => record === 'store');
  return {
    freezer: hold, packs: isOfPacks ? own : undefined, frozenMs, chilledMs: frozenMs, thawedMs: frozenMs === undefined ? undefined : own.outMs, goneMs,
    plans: [...atCoolers(room, batch, onceEach([...keptPoints(room, batch, own, store), ...elsewhere])), ...probesOf(room, probed, hold)],
    freezerIds: [...marked, ...others], probeIds: idsOfProbes(probed),
  };
}

function byTrays(room: BookRoom, batch: StoredBatch, store: StoreKind, { own, trays, goneMs }: { readonly own: RecordSpan; readonly trays: readonly Tray[]; readonly goneMs: number | undefined }): KeptCold {
  const counting = countingTraysOf(room, trays);
  const together = timesTogether(counting);
  if (together === undefined) throw new Error(`no trays of ${batch.id}`);
  const lastOutMs = outOfFreezersMs(room, trays);
  const firstInMs = Math.min(...trays.map(({ intoFreezerAtMs }) => intoFreezerAtMs));
  const packs = endedBy({ inMs: firstInMs, outMs: lastOutMs, open: lastOutMs === undefined }, goneMs);
  const frozenMs = together.frozenAtMs !== null && (packs.outMs === undefined || together.frozenAtMs <= packs.outMs) ? together.frozenAtMs : undefined;
  // For a hold the last that went in counts, and the first that came out: between them all of them lay there.
  const isThere = (move: PackMove): boolean => isInto(room, 'freezer', move);
  const outs = counting.flatMap(({ packIds, intoFreezerAtMs }) => packIds.filter((id) => lastMoveOf(room, id)?.what !== 'destroyed').map((id) => leftMs(room, id, { isThere, fromMs: intoFreezerAtMs, atMs: room.clock.nowMs() })));
  const hold = endedBy({ ...packs, inMs: together.intoFreezerAtMs }, firstOf(outs));
  const isFishs = areMarksOfFish(room, batch) && own.inMs !== undefined && own.outMs !== undefined && own.outMs - own.inMs >= LONGEST_HOLD_MS;
  const freezerIds = [...new Set([...trays.map(({ placeId }) => placeId), ...freezersOfPacks(room, trays.flatMap(({ packIds }) => packIds))])];
  const lying = freezerIds.flatMap((id) => keptPoints(room, { ...batch, freezerPlaceId: id }, packs, store));
  const freezers = isFishs ? keptPoints(room, batch, own, 'frozen').filter(({ record }) => record === 'freezer') : lying.filter(({ record }) => record === 'freezer');
  const probed = isFishs ? traysOfFish(room, batch.id) : counting;
  // A probe shows the cores of the freezer that it stands in; another freezer without one is judged beside it, by its own record.
  const areAllProbed = isFishs || freezerIds.every((id) => counting.some(({ pointId, placeId }) => pointId !== null && placeId === id));
  const probes = probesOf(room, probed, isFishs ? own : hold).map((plan): PointPlan => (areAllProbed ? plan : { ...plan, role: 'store' }));
  return {
    freezer: isFishs ? own : hold, packs, frozenMs, chilledMs: frozenMs === undefined ? undefined : Math.min(...trays.map(({ frozenAtMs }) => frozenAtMs ?? Infinity)),
    thawedMs: frozenMs === undefined ? undefined : packs.outMs, goneMs,
    plans: [...freezers, ...atCoolers(room, batch, onceEach(lying.filter(({ record }) => record === 'store'))), ...probes],
    freezerIds: [...new Set([...freezerIds, ...idsOf(batch)])], probeIds: idsOfProbes(probed),
  };
}

/** When the last pack of trays came out of the freezers; undefined while one lies in one. */
function outOfFreezersMs(room: BookRoom, trays: readonly Tray[]): number | undefined {
  const outs = [...new Set(trays.flatMap(({ packIds }) => packIds))].map((packId) => {
    const moves = movesOf(room, packId);
    return moves[moves.findLastIndex((move) => isInto(room, 'freezer', move)) + 1]?.atMs;
  });
  return outs.includes(undefined) ? undefined : Math.max(...outs.filter((atMs) => atMs !== undefined));
}

/** The places that a batch’s packs were put into; undefined where one may have lain in any cooler: before somebody put it somewhere. */
export function coolersOf(room: BookRoom, batch: StoredBatch): ReadonlySet<string> | undefined {
  const ids = new Set<string>();
  for (const pack of room.book.shelf('packs').where('batchId', batch.id)) {
    const stays = movesOf(room, pack.id).filter(({ what }) => what === 'into-store');
    const [first] = stays;
    if (first === undefined || first.atMs - pack.sealedAtMs > BRIEF_MS) return undefined;
    for (const { placeId } of stays) if (placeId !== null) ids.add(placeId);
  }
  return ids.size === 0 ? undefined : ids;
}

/** The freezers that packs of a batch were put into. */
export function freezersOf(room: BookRoom, batchId: string): string[] {
  return freezersOfPacks(room, packIdsOf(room, batchId));
}

function freezersOfPacks(room: BookRoom, packIds: readonly string[]): string[] {
  const moves = packIds.flatMap((id) => movesOf(room, id));
  return [...new Set(moves.flatMap((move) => (isInto(room, 'freezer', move) ? (move.placeId ?? []) : [])))];
}

function atCoolers(room: BookRoom, batch: StoredBatch, plans: readonly PointPlan[]): PointPlan[] {
  const isCooler = (plan: PointPlan): boolean => plan.record === 'store' && room.book.shelf('places').get(plan.id ?? '')?.kind === 'cooler';
  if (!plans.some(isCooler)) return [...plans];
  const ids = coolersOf(room, batch);
  const lying = ids === undefined ? plans : plans.filter((plan) => !isCooler(plan) || ids.has(plan.id ?? ''));
  return lying.some(({ record }) => record === 'store') ? [...lying] : [...plans];
}

function probesOf(room: BookRoom, trays: readonly Tray[], { outMs }: RecordSpan): PointPlan[] {
  return trays.flatMap(({ pointId, intoFreezerAtMs }): PointPlan[] => {
    const point = pointId === null ? undefined : room.book.shelf('points').get(pointId);
    if (point === undefined) return [];
    return [{ id: point.id, name: point.name, role: 'piece', record: 'freezer', taken: { pointId: point.id, fromMs: intoFreezerAtMs, ...(outMs === undefined ? {} : { toMs: outMs }) }, typed: [] }];
  });
}

function onceEach(plans: readonly PointPlan[]): PointPlan[] {
  return [...new Map(plans.map((plan) => [`${plan.record ?? ''} ${plan.id ?? plan.name}`, plan])).values()];
}

function endedBy(span: RecordSpan, atMs: number | undefined): RecordSpan {
  if (atMs === undefined || span.inMs === undefined || (span.outMs !== undefined && span.outMs <= atMs)) return span;
  return { ...span, outMs: Math.max(span.inMs, atMs), open: false };
}

function idsOf({ freezerPlaceId }: StoredBatch): string[] {
  return freezerPlaceId === null ? [] : [freezerPlaceId];
}

function idsOfProbes(trays: readonly Tray[]): string[] {
  return trays.flatMap(({ pointId }) => pointId ?? []);
}

function packIdsOf(room: BookRoom, batchId: string): string[] {
  return room.book.shelf('packs').where('batchId', batchId).map(({ id }) => id);
}

function traysOfFish(room: BookRoom, batchId: string): Tray[] {
  return traysOf(room, batchId).filter(({ packIds }) => packIds.length === 0);
}

/** The first of some instants; undefined where there is none. */
function firstOf(instants: readonly (number | undefined)[]): number | undefined {
  const known = instants.filter((atMs) => atMs !== undefined);
  return known.length === 0 ? undefined : Math.min(...known);
}
