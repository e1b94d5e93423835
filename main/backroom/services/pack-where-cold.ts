/** How a pack was kept in the cold, by its moves: when it left, and whether what was frozen lies there no more. */
import type { Pack } from '../../../app/contract/requests/packing.ts';
import type { PackMove, Tray } from '../../../app/contract/requests/packs-where.ts';
import type { Place } from '../../../app/contract/requests/office.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { freezerStay, isStayOfPacks } from './judging/freezer-stay.ts';
import { isGone, movesOf } from './pack-where-last.ts';
import { loadOfBatch } from './taken-out.ts';
import { areMarksOfFish } from './trays-marks.ts';

/**
 * Out of the cold for no longer than this is a brief move, as from one freezer to another. Wisconsin Administrative Code
 * ATCP 70.46(4) excepts brief moves from its limit and gives no minutes (read); 30 are our choice.
 */
export const BRIEF_MS = 30 * 60_000;

/** Whether a move puts a pack into a place of a kind. */
export function isInto(room: BookRoom, kind: Place['kind'], { what, placeId }: PackMove): boolean {
  return what === 'into-store' && placeId !== null && room.book.shelf('places').get(placeId)?.kind === kind;
}

/**
 * When a pack first was somewhere else for longer than a brief move; undefined where it never was. Back for less than
 * half an hour it was still out: many brief moves in a row are none.
 * @param isThere whether a move puts it where it should be; it is there at `fromMs`
 * @param atMs up to when: what was moved a moment before counts as there still
 */
export function leftMs(room: BookRoom, packId: string, { isThere, fromMs, atMs }: { readonly isThere: (move: PackMove) => boolean; readonly fromMs: number; readonly atMs: number }): number | undefined {
  let outMs: number | undefined;
  let backMs: number | undefined;
  const wasLong = (untilMs: number): boolean => outMs !== undefined && backMs === undefined && untilMs - outMs > BRIEF_MS;
  for (const move of movesOf(room, packId)) {
    if (move.atMs < fromMs) continue;
    if (wasLong(move.atMs)) return outMs;
    // What is given away, served or destroyed out of the cold did not leave it before.
    if (isGone(move)) return undefined;
    if (isThere(move)) {
      backMs ??= move.atMs;
      continue;
    }
    if (backMs !== undefined && move.atMs - backMs >= BRIEF_MS) outMs = undefined;
    outMs ??= move.atMs;
    backMs = undefined;
  }
  return wasLong(atMs) ? outMs : undefined;
}

/** When a pack was frozen solid with others, and when it came out of the freezer for good or for longer than a brief move. */
export interface Frozen {
  readonly frozenMs: number;
  readonly leftMs: number | undefined;
}

/**
 * What is on record of a pack’s own freezing: by the first tray that it was solid on; of a batch without trays by its marks.
 * @param trays the batch’s trays of packs
 * @returns undefined where nothing shows that it was ever solid
 */
export function frozenOf(room: BookRoom, batch: StoredBatch, pack: Pack, trays: readonly Tray[], atMs: number): Frozen | undefined {
  const isThere = (move: PackMove): boolean => isInto(room, 'freezer', move);
  if (trays.length > 0) {
    const tray = trays.find(({ packIds, frozenAtMs }) => frozenAtMs !== null && packIds.includes(pack.id));
    if (tray === undefined || tray.frozenAtMs === null) return undefined;
    return { frozenMs: tray.frozenAtMs, leftMs: leftMs(room, pack.id, { isThere, fromMs: tray.intoFreezerAtMs, atMs }) };
  }
  const { intoFreezerAtMs, frozenAtMs, outOfFreezerAtMs } = batch;
  if (intoFreezerAtMs === null || frozenAtMs === null || !isStayOfPacks(freezerStay(batch, loadOfBatch(room, batch)), batch)) return undefined;
  const markedOut = outOfFreezerAtMs !== null && atMs - outOfFreezerAtMs > BRIEF_MS ? outOfFreezerAtMs : undefined;
  const moved = leftMs(room, pack.id, { isThere, fromMs: intoFreezerAtMs, atMs });
  return { frozenMs: frozenAtMs, leftMs: markedOut === undefined || moved === undefined ? (markedOut ?? moved) : Math.min(markedOut, moved) };
}

/** Whether a pack lay with its batch when that went into the freezer: sealed by then, or sealed frozen. */
export function wasThere(room: BookRoom, batch: StoredBatch, pack: Pack): boolean {
  return batch.intoFreezerAtMs === null || areMarksOfFish(room, batch) || Math.floor(pack.sealedAtMs / 60_000) * 60_000 <= batch.intoFreezerAtMs;
}
