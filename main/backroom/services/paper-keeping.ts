/** Putting a paper on file, and striking one out. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { PaperKind } from '../../../app/contract/requests/papers.ts';
import type { Stored } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { readPaper } from './paper-reading.ts';
import { sayDay, sayInstant } from './when.ts';

type StoredPaper = Stored<'papers'>;

export const PAPER_WORDS: Readonly<Record<PaperKind, string>> = {
  permission: 'permission', variance: 'variance', training: 'training certificate', 'supplier-statement': 'supplier’s statement',
  'process-letter': 'letter on a scheduled process', 'limit-letter': 'letter on limits', film: 'oxygen figure of a film', other: 'paper',
};

/**
 * Puts a paper on file. It counts from its first day on, or from now where it names none.
 * @throws Refusal INVALID_INPUT with the field: what is missing for its kind, days that can't be, a file that isn't there
 */
export function addPaper(room: BookRoom, input: Parsed<'paper.add'>): Output<'paper.add'> {
  const draft = readPaper(room, input);
  refuseTwice(room, draft);
  const paper: StoredPaper = {
    id: room.newId(), ...draft, fileName: fileNameOf(room, draft.fileId),
    addedBy: actingPerson(room).initials, addedAtMs: room.clock.nowMs(), struck: null,
  };
  room.book.shelf('papers').put(paper);
  room.book.record({
    kind: 'paper.add', subjectId: paper.id, happenedAtMs: paper.addedAtMs,
    summary: `Put on file: ${nameOfPaper(paper)}${paper.validUntil === null ? '' : `, valid until ${sayDay(paper.validUntil)}`}.`, after: paper,
  });
  announcePapers(room, paper.id);
  return { paper };
}

/** Strikes a paper out: it stays in the record and counts no more, for batches made before either. */
export function strikePaper(room: BookRoom, { paperId, why }: Parsed<'paper.strike'>): Output<'paper.strike'> {
  const before = room.book.shelf('papers').need(paperId);
  if (before.struck !== null) {
    throw new Refusal('CONFLICT', `“${before.what}” was struck out already, at ${sayInstant(room, before.struck.atMs)} by ${before.struck.initials}.`, { remedy: 'Nothing is left to do.' });
  }
  const paper: StoredPaper = { ...before, struck: { why, initials: actingPerson(room).initials, atMs: room.clock.nowMs() } };
  room.book.shelf('papers').put(paper);
  room.book.record({ kind: 'paper.strike', subjectId: paper.id, happenedAtMs: room.clock.nowMs(), summary: `Struck out: ${nameOfPaper(paper)}.`, why, before, after: paper });
  announcePapers(room, paper.id);
  return { paper };
}

/** “training certificate “Seafood HACCP”, 7-114 (MG)”. */
export function nameOfPaper({ kind, what, number, holder }: Pick<StoredPaper, 'kind' | 'what' | 'number' | 'holder'>): string {
  return `${PAPER_WORDS[kind]} “${what}”${number === '' ? '' : `, ${number}`}${holder === '' ? '' : ` (${holder})`}`;
}

function refuseTwice(room: BookRoom, draft: Parsed<'paper.add'>): void {
  const same = room.book.shelf('papers').all().find((paper) => paper.struck === null && draft.number !== '' && paper.kind === draft.kind && paper.number === draft.number && paper.issuedBy === draft.issuedBy && paper.holder === draft.holder);
  if (same !== undefined) refuseInput(`The ${PAPER_WORDS[same.kind]} ${same.number} of ${same.issuedBy} is on file already.`, ['number'], 'Strike the old one out first, or check the number.');
}

function fileNameOf(room: BookRoom, fileId: string | null): string {
  if (fileId === null) return '';
  const file = room.book.inboxFile(fileId);
  return file?.fileName ?? refuseInput('The file of this paper is not in the book.', ['fileId'], 'Choose the file again.', 'NOT_FOUND');
}

function announcePapers(room: BookRoom, paperId: string): void {
  room.changed('papers', [paperId]);
  room.changed('verdict', []);
}
