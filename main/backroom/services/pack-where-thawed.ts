/** How a pack that came out of the freezer thawed here: by its moves and by the record of the coolers that it lay in. */
import { isMet } from '../../../app/limits/verdict.ts';
import type { Pack } from '../../../app/contract/requests/packing.ts';
import type { BookRoom } from '../room.ts';
import { BRIEF_MS, isInto, leftMs } from './pack-where-cold.ts';
import { movesOf } from './pack-where-last.ts';
import { judgePlace } from './pack-where-place.ts';
import { sayInstant } from './when.ts';

/**
 * Why a thawed pack isn’t shown to have been kept cold; undefined where it is. Its label says to thaw it at 38 °F or below:
 * no longer than a brief move in no cooler, and the check of a chilled store met by each cooler’s own record.
 * @param outMs when it came out of the freezer
 * @param mayBeClose whether a manager put initials to what meets only within the thermometer’s error
 */
export function whyThawedWarm(room: BookRoom, pack: Pick<Pack, 'id'>, { outMs, atMs, mayBeClose }: { readonly outMs: number; readonly atMs: number; readonly mayBeClose: boolean }): string | undefined {
  const moves = movesOf(room, pack.id).filter((move) => move.atMs >= outMs);
  // Taken out by a mark of its batch alone, nothing says where it went.
  const nowhereMs = moves.length === 0 && atMs - outMs > BRIEF_MS ? outMs : undefined;
  const warmMs = nowhereMs ?? leftMs(room, pack.id, { isThere: (move) => isInto(room, 'cooler', move) || isInto(room, 'freezer', move), fromMs: outMs, atMs });
  if (warmMs !== undefined) return `it was in no cooler from ${sayInstant(room, warmMs)} on, and nothing shows that it thawed cold.`;
  for (const [index, move] of moves.entries()) {
    const toMs = moves[index + 1]?.atMs ?? atMs;
    if (!isInto(room, 'cooler', move) || move.placeId === null || toMs - move.atMs <= BRIEF_MS) continue;
    const place = room.book.shelf('places').need(move.placeId);
    const broken = judgePlace(room, place, { fromMs: move.atMs, toMs }).find(({ verdict }) => !isMet(verdict) || (verdict === 'meets-within-error' && !mayBeClose));
    if (broken === undefined) continue;
    return `it thawed in ${place.name}. ${broken.title} ${broken.verdict === 'meets-within-error' ? 'is met only within the thermometer’s error' : 'is not shown'}: ${broken.reason}`;
  }
  return undefined;
}
