/**
 * What of a batch’s cold is judged where it has trays, or where its packs left: the fish’s own freezing and its packs’
 * are two stays, packs may lie in several freezers, and a store’s record ends when the last pack is gone. Without
 * trays and moves it is what the batch’s marks say.
 */
import type { RecordSpan, StoreKind } from '../../../app/limits/judge-case.ts';
import { timesTogether } from '../../../app/packs/stock-trays.ts';
import type { Tray } from '../../../app/contract/requests/packs-where.ts';
import type { StoredBatch, StoredLoad } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { freezerStay, frozenWithin, isStayOfPacks } from './judging/freezer-stay.ts';
import { keptPoints } from './judging/points.ts';
import type { PointPlan } from './judging/taken-readings.ts';
import { lastMoveOf, movesOf, packsGoneMs } from './pack-where-last.ts';
import { areMarksOfFish, isFrozenFirst } from './trays-marks.ts';
import { packTraysOf, traysOf } from './trays-of-batch.ts';

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
  /** Frozen solid within the packs’ stay, or where there is none within the fish’s. */
  readonly frozenMs: number | undefined;
  /** Out of that stay again. */
  readonly thawedMs: number | undefined;
  /** When the last pack was gone from the kitchen. */
  readonly goneMs: number | undefined;
  readonly plans: readonly PointPlan[];
  /** The batch as it lies in each of its freezers, for the errors of their thermometers. */
  readonly freezerIds: readonly string[];
  readonly probeIds: readonly string[];
}

/** @param store how the packs are kept */
export function keptColdOf(room: BookRoom, batch: StoredBatch, load: StoredLoad | undefined, store: StoreKind): KeptCold {
  const goneMs = packsGoneMs(room, batch.id);
  const trays = packTraysOf(room, batch.id);
  const together = timesTogether(trays);
  const marked = freezerStay(batch, load);
  const own = isStayOfPacks(marked, batch) ? endedBy(marked, goneMs) : marked;
  const byFish = traysOf(room, batch.id).filter((tray) => tray.packIds.length === 0);
  if (together === undefined || (areMarksOfFish(room, batch) && isFrozenFirst(batch) && isStayOfPacks(marked, batch))) {
    const frozenMs = frozenWithin(own, batch);
    return {
      freezer: own, packs: isStayOfPacks(own, batch) ? own : undefined, frozenMs, thawedMs: frozenMs === undefined ? undefined : own.outMs, goneMs,
      plans: [...atCoolers(room, batch, keptPoints(room, batch, own, store)), ...probesOf(room, byFish, own)], freezerIds: idsOf(batch), probeIds: byFish.flatMap(({ pointId }) => pointId ?? []),
    };
  }
  const packs = endedBy({ inMs: together.intoFreezerAtMs, outMs: together.lastOutAtMs ?? undefined, open: together.lastOutAtMs === null }, goneMs);
  const frozenMs = together.frozenAtMs !== null && (packs.outMs === undefined || together.frozenAtMs <= packs.outMs) ? together.frozenAtMs : undefined;
  // For a hold the first tray that came out counts: until then all of them lay there.
  const hold = endedBy(packs, together.firstOutAtMs ?? undefined);
  const isFishs = areMarksOfFish(room, batch) && own.inMs !== undefined && own.outMs !== undefined && own.outMs - own.inMs >= LONGEST_HOLD_MS;
  const freezerIds = freezersOf(room, trays);
  const lying = freezerIds.flatMap((id) => keptPoints(room, { ...batch, freezerPlaceId: id }, packs, store));
  const freezers = isFishs ? keptPoints(room, batch, own, 'frozen').filter(({ record }) => record === 'freezer') : lying.filter(({ record }) => record === 'freezer');
  const probed = isFishs ? byFish : trays;
  return {
    freezer: isFishs ? own : hold, packs, frozenMs, thawedMs: frozenMs === undefined ? undefined : packs.outMs, goneMs,
    plans: [...freezers, ...atCoolers(room, batch, onceEach(lying.filter(({ record }) => record === 'store'))), ...probesOf(room, probed, isFishs ? own : hold)],
    freezerIds: [...new Set([...freezerIds, ...idsOf(batch)])], probeIds: probed.flatMap(({ pointId }) => pointId ?? []),
  };
}

/** The places whose later readings may still say something of a batch’s packs, from and until when; undefined where any cooler may. */
export function coolersOf(room: BookRoom, batch: StoredBatch): ReadonlySet<string> | undefined {
  const packs = room.book.shelf('packs').where('batchId', batch.id);
  const ids = new Set<string>();
  for (const pack of packs) {
    const stays = movesOf(room, pack.id).filter(({ what }) => what === 'into-store');
    // Of a pack that nobody put into a place, any cooler may be the one.
    if (stays.length === 0 && lastMoveOf(room, pack.id) === undefined) return undefined;
    for (const { placeId } of stays) if (placeId !== null) ids.add(placeId);
  }
  return ids.size === 0 ? undefined : ids;
}

/** The freezers of trays, and those that packs were put into afterwards. */
export function freezersOf(room: BookRoom, trays: readonly Tray[]): string[] {
  const moved = trays.flatMap(({ packIds }) => packIds.flatMap((id) => movesOf(room, id).flatMap(({ what, placeId }) => (what === 'into-store' ? (placeId ?? []) : []))));
  const isFreezer = (id: string): boolean => room.book.shelf('places').get(id)?.kind === 'freezer';
  return [...new Set([...trays.map(({ placeId }) => placeId), ...moved.filter(isFreezer)])];
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
