/** The trays of a batch: of its packs, and of the fish itself before it was packed. */
import type { Tray } from '../../../app/contract/requests/packs-where.ts';
import type { BookRoom } from '../room.ts';
import { lastMoveOf } from './pack-where-last.ts';

/** Every tray of a batch, oldest first. */
export function traysOf(room: BookRoom, batchId: string): Tray[] {
  return room.book.shelf('trays').where('batchId', batchId);
}

/** Those that packs lie on. */
export function packTraysOf(room: BookRoom, batchId: string): Tray[] {
  return traysOf(room, batchId).filter(({ packIds }) => packIds.length > 0);
}

/** Of trays those that something is asked of: a pack that wasn’t destroyed lies, or last lay, on them. All of them where there is no such pack. */
export function countingTraysOf(room: BookRoom, trays: readonly Tray[]): readonly Tray[] {
  const counting = trays.filter((tray) => tray.packIds.some((id) => trayOfPack(trays, id) === tray && lastMoveOf(room, id)?.what !== 'destroyed'));
  return counting.length === 0 ? trays : counting;
}

/** The tray a pack lies on or last lay on. */
export function trayOfPack(trays: readonly Tray[], packId: string): Tray | undefined {
  return trays.findLast((tray) => tray.packIds.includes(packId));
}
