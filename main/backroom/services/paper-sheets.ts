/** Numbered sheets of paper: each has its number before it is printed, and readings copied from it name it. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { PaperSheet, PaperSheetKind } from '../../../app/contract/requests/paper-sheets.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';

export const paperSheetServices = {
  'paperSheet.list': (room: BookRoom, { subjectId }: Parsed<'paperSheet.list'>): Output<'paperSheet.list'> => ({ sheets: room.book.shelf('paperSheets').where('subjectId', subjectId) }),
  'paperSheet.number': (room: BookRoom, { kind, subjectId }: Parsed<'paperSheet.number'>): Output<'paperSheet.number'> => ({ sheet: numberSheet(room, kind, subjectId) }),
} satisfies Services<'paperSheet.list' | 'paperSheet.number'>;

/** @throws Refusal NOT_FOUND where there is no such batch, load or place; RULE_BLOCKS where its record is closed */
function numberSheet(room: BookRoom, kind: PaperSheetKind, subjectId: string): PaperSheet {
  const about = subjectOf(room, kind, subjectId);
  const person = actingPerson(room);
  const sheets = room.book.shelf('paperSheets');
  const sheet: PaperSheet = {
    id: room.newId(), number: Math.max(0, ...sheets.all().map((other) => other.number)) + 1, kind, subjectId,
    madeAtMs: room.clock.nowMs(), initials: person.initials, personId: person.id,
  };
  sheets.put(sheet);
  room.book.record({ kind: 'paperSheet.number', subjectId, happenedAtMs: sheet.madeAtMs, summary: `Sheet ${sheet.number} for paper: ${kind}, ${about}.`, after: sheet });
  return sheet;
}

function subjectOf(room: BookRoom, kind: PaperSheetKind, subjectId: string): string {
  if (kind === 'soak') return room.book.shelf('batches').need(subjectId).shortName;
  if (kind === 'store') return room.book.shelf('places').need(subjectId).name;
  const load = room.book.shelf('loads').need(subjectId);
  if (load.cooledAtMs !== null) throw new Refusal('RULE_BLOCKS', `The record of load ${load.number} is closed.`, { remedy: 'A sheet is for what is still to be read. Print the record instead.' });
  return `load ${load.number}`;
}
