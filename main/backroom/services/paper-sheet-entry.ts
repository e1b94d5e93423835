/** Readings copied from a numbered sheet: the number must be of a sheet for what was read. */
import type { StoredPoint } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';

/**
 * @param number as typed; undefined where another paper was used
 * @throws Refusal INVALID_INPUT: no sheet has that number, or it is a sheet for something else
 */
export function refuseWrongSheet(room: BookRoom, number: string | undefined, points: readonly StoredPoint[]): void {
  if (number === undefined) return;
  const sheet = room.book.shelf('paperSheets').all().find((each) => String(each.number) === number);
  if (sheet === undefined) refuseInput(`No sheet of this book has the number ${number}.`, ['sheet'], 'The number stands at the head of the sheet. Leave it empty for any other paper.');
  const odd = points.find((point) => point.loadId !== sheet.subjectId && point.id !== sheet.subjectId);
  if (odd !== undefined && sheet.kind !== 'soak') refuseInput(`Sheet ${number} is not for ${odd.name}: it was printed for something else.`, ['sheet'], 'Look at the number again, or leave it empty.');
}
