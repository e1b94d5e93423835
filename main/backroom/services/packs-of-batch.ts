/** The packs of a batch, and their weights in words. */
import type { Pack } from '../../../app/contract/requests/packing.ts';
import { massIn } from '../../../app/measures/mass.ts';
import type { BookRoom } from '../room.ts';
import { kitchenOf } from './kitchen.ts';

/** The packs of a batch, by their number. */
export function packsOf(room: BookRoom, batchId: string): Pack[] {
  return room.book.shelf('packs').where('batchId', batchId).toSorted((one, other) => one.serial - other.serial);
}

/** A weight in the kitchen's unit, such as `1.21 lb`. */
export function sayMass(room: BookRoom, grams: number): string {
  const unit = kitchenOf(room.book).massUnit;
  return `${massIn(grams, unit).toFixed(2)} ${unit}`;
}
