/** The kitchen whose book is open. */
import type { Kitchen } from '../../../app/contract/requests/office.ts';
import type { OpenBook } from '../room.ts';

/** The kitchen as it crosses the contract; every book has one from its first entry on. */
export function kitchenOf(book: OpenBook): Kitchen {
  const { id: _id, ...kitchen } = book.shelf('kitchen').need('kitchen');
  return kitchen;
}
