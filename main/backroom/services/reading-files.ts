/** A logger's file of the inbox, read away from the book, and what can be said of it before it is taken over. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { LogPlace, LogReading } from '../../../app/probes/log-types.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { likelyPlace, likelyPoints, type NamedPoint } from './column-names.ts';
import { loadOf } from './load-view.ts';
import { zoneOf } from './when.ts';

export interface ReadFile {
  readonly fileName: string;
  readonly log: LogReading;
}

/**
 * Reads a file of the inbox with the kitchen's zone for times that are written without one.
 * @throws Refusal NOT_FOUND for a file that isn't there, FILE_UNREADABLE for bytes that are no log
 */
export async function readInboxFile(room: BookRoom, fileId: string, answers: Readonly<Record<string, string>>): Promise<ReadFile> {
  const file = room.book.inboxFile(fileId);
  if (file === undefined) throw new Refusal('NOT_FOUND', 'That file is not in the book’s inbox.', { remedy: 'Choose the file again.' });
  const read = await room.hands.run('readLog', file.bytes, { fileName: file.fileName, timeZone: zoneOf(room), answers });
  if (read.ok) return { fileName: file.fileName, log: read.value };
  const { message, remedy } = read.problem;
  throw new Refusal('FILE_UNREADABLE', message, { remedy });
}

/** What a file holds, what must be asked, and which point each of its columns most likely belongs to. */
export async function previewFile(room: BookRoom, input: Parsed<'readings.preview'>): Promise<Output<'readings.preview'>> {
  const points = pointsToChoose(room, input.loadId);
  const { fileName, log } = await readInboxFile(room, input.fileId, input.answers);
  const headings = log.places.map((place) => place.name);
  const [onlyHeading, secondHeading] = headings;
  const likely = input.loadId !== null ? likelyPoints(headings, points)
    : headings.map(() => (onlyHeading !== undefined && secondHeading === undefined ? likelyPlace(fileName, onlyHeading, points) : null));
  return {
    fileName,
    columns: log.columns.map((column) => ({ ...column })),
    questions: log.questions.map((question) => ({ ...question, choices: [...question.choices] })),
    places: log.places.map((place, index) => ({ ...spanOf(place), likelyPointId: likely[index] ?? null })),
    refusedRows: log.refusedRows.slice(0, SHOWN_ROWS).map((row) => ({ ...row })),
    refusedCount: log.refusedRows.length,
    remarks: log.remarks.map((remark) => (remark.line === undefined ? remark.text : `Line ${remark.line}: ${remark.text}`)),
  };
}

/** More refused rows than this are counted, not listed. */
const SHOWN_ROWS = 50;

function pointsToChoose(room: BookRoom, loadId: string | null): NamedPoint[] {
  if (loadId !== null) return loadOf(room, room.book.shelf('loads').need(loadId)).points;
  return room.book.shelf('places').all().map((place) => ({ id: place.id, name: place.name, role: 'place', instrumentName: '' }));
}

function spanOf(place: LogPlace): Omit<Output<'readings.preview'>['places'][number], 'likelyPointId'> {
  return {
    name: place.name, unit: place.unit, count: place.atMs.length,
    firstAtMs: leastOf(place.atMs), lastAtMs: greatestOf(place.atMs),
    lowestTicks: leastOf(place.lowTicks), highestTicks: greatestOf(place.highTicks),
  };
}

/** Without spreading: a log may have more readings than a call takes arguments. */
export function leastOf(values: readonly number[]): number | null {
  return values.reduce<number | null>((least, value) => (least === null || value < least ? value : least), null);
}

/** The greatest, or null of none. */
export function greatestOf(values: readonly number[]): number | null {
  return values.reduce<number | null>((greatest, value) => (greatest === null || value > greatest ? value : greatest), null);
}
