/** What is copied from a numbered sheet: the number must be of a sheet for that. */
import type { PaperSheet } from '../../../app/contract/requests/paper-sheets.ts';
import type { StoredBatch, StoredPoint } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';

/** That something was written on paper first; `sheet` where that was a sheet with a number. */
export interface FromPaper {
  readonly fromPaper?: true;
  readonly sheet?: string;
}

/**
 * @param number as typed; undefined where another paper was used
 * @throws Refusal INVALID_INPUT: no sheet has that number, or it is a sheet for something else
 */
export function refuseWrongSheet(room: BookRoom, number: string | undefined, points: readonly StoredPoint[]): void {
  if (number === undefined) return;
  const sheet = sheetOf(room, number);
  const odd = points.find((point) => !isOnSheet(room, sheet, point));
  if (odd !== undefined) refuseOther(sheet, odd.name);
}

/**
 * What a step or sample of a soak keeps of the paper it was copied from.
 * @throws Refusal INVALID_INPUT: a number without paper, no sheet with that number, or one that is not of this soak
 */
export function soakPaper(room: BookRoom, batch: StoredBatch, { fromPaper = false, sheet: number }: { readonly fromPaper?: boolean | undefined; readonly sheet?: string | undefined }): FromPaper {
  if (!fromPaper) {
    if (number !== undefined) refuseInput('A sheet has a number, but nothing was copied from paper.', ['sheet'], 'Say that it is copied from paper, or leave the number empty.');
    return {};
  }
  if (number === undefined) return { fromPaper: true };
  const sheet = sheetOf(room, number);
  if (sheet.kind !== 'soak' || sheet.subjectId !== batch.id) refuseOther(sheet, `the soak of ${batch.shortName}`);
  return { fromPaper: true, sheet: String(sheet.number) };
}

/** “, copied from sheet 3”, for the line of the record. */
export function sayPaper({ fromPaper, sheet }: FromPaper): string {
  if (fromPaper === undefined) return '';
  return sheet === undefined ? ', copied from paper' : `, copied from sheet ${sheet}`;
}

function sheetOf(room: BookRoom, number: string): PaperSheet {
  const sheet = room.book.shelf('paperSheets').all().find((each) => String(each.number) === number.replace(/^0+(?=\d)/, ''));
  if (sheet === undefined) refuseInput(`No sheet of this book has the number ${number}.`, ['sheet'], 'The number stands at the head of the sheet. Leave it empty for any other paper.');
  return sheet;
}

/** A smoke sheet has its chamber, a cooling sheet only its pieces; a soak sheet has the room that its tub stands in. */
function isOnSheet(room: BookRoom, { kind, subjectId }: PaperSheet, point: StoredPoint): boolean {
  if (kind === 'store') return point.id === subjectId;
  if (kind === 'smoke') return point.loadId === subjectId;
  if (kind === 'cool') return point.loadId === subjectId && point.role === 'piece';
  const { brinePlaceId } = room.book.shelf('batches').need(subjectId);
  return brinePlaceId === null ? point.role === 'room' : point.id === brinePlaceId;
}

function refuseOther(sheet: PaperSheet, name: string): never {
  refuseInput(`Sheet ${sheet.number} is not for ${name}: it was printed for something else.`, ['sheet'], 'Look at the number again, or leave it empty.');
}
