/** A logger's file of the inbox, read away from the book; with its shape remembered, and its clock set right. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { ColumnLog, ColumnPlace } from '../../../app/probes/log-columns.ts';
import { spanOfInstants } from '../../../app/probes/reading-columns.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';
import { rememberedShape, type RememberedShape } from './log-shapes.ts';
import { readOnceOnly } from './read-ahead.ts';
import { refuseFuture, zoneOf } from './when.ts';

export interface ReadFile {
  readonly fileId: string;
  readonly fileName: string;
  /** The instants are those of the kitchen's clock. */
  readonly log: ColumnLog;
  /** With those from the file before. */
  readonly answers: Readonly<Record<string, string>>;
  /** The last file of the same shape, where it was asked to go by it. */
  readonly before: RememberedShape | undefined;
}

type LoggerClock = NonNullable<Parsed<'readings.import'>['loggerClock']>;
type Asked = Pick<Parsed<'readings.preview'>, 'fileId' | 'answers' | 'asBefore' | 'loggerClock'>;

/**
 * Reads a file of the inbox with the kitchen's zone for times that are written without one.
 * @throws Refusal NOT_FOUND for a file that isn't there, FILE_UNREADABLE for bytes that are no log
 */
export async function readInboxFile(room: BookRoom, { fileId, answers, asBefore = false, loggerClock }: Asked): Promise<ReadFile> {
  const fileName = room.book.inboxFileName(fileId);
  if (fileName === undefined) throw new Refusal('NOT_FOUND', 'That file is not in the book’s inbox.', { remedy: 'Choose the file again.' });
  const read = async (given: Readonly<Record<string, string>>): Promise<ColumnLog> => {
    const outcome = await readOnceOnly(room.hands, fileId, { fileName, timeZone: zoneOf(room), answers: given }, () => room.book.inboxFile(fileId)?.bytes ?? new Uint8Array(0));
    if (outcome.ok) return outcome.value;
    const { message, remedy } = outcome.problem;
    throw new Refusal('FILE_UNREADABLE', message, { remedy });
  };
  const first = await read(answers);
  const before = asBefore ? rememberedShape(room, first.shape) : undefined;
  const all = { ...before?.answers, ...answers };
  const log = Object.keys(all).length === Object.keys(answers).length ? first : await read(all);
  return { fileId, fileName, log: loggerClock === undefined ? log : movedBy(log, shiftOf(loggerClock)), answers: all, before };
}

/** By how much readings are moved: the logger showed one time when it was another. */
export function shiftOf({ showsMs, atMs }: LoggerClock): number {
  return atMs - showsMs;
}

/** @throws Refusal when the comparison of the clocks is still to come */
export function refuseWrongClock(room: BookRoom, loggerClock: LoggerClock | undefined, log: ColumnLog): void {
  if (loggerClock === undefined) return;
  refuseFuture(room, loggerClock.atMs, ['loggerClock', 'atMs']);
  if (!readsClock(log)) refuseInput('The file counts its times from a start that was told, so the logger’s clock doesn’t matter.', ['loggerClock'], 'Leave the logger’s clock out.');
}

/** Whether the times of a file come from the logger's own clock. */
export function readsClock(log: ColumnLog): boolean {
  return log.columns.some(({ role }) => role === 'time' || role === 'date' || role === 'clock');
}

function movedBy(log: ColumnLog, shiftMs: number): ColumnLog {
  if (shiftMs === 0) return log;
  // Places whose rows all have readings share their instants: each array is moved once.
  const moved = new Map<Float64Array, Float64Array>();
  const move = (atMs: Float64Array): Float64Array => {
    const known = moved.get(atMs) ?? atMs.map((at) => at + shiftMs);
    moved.set(atMs, known);
    return known;
  };
  return { ...log, places: log.places.map((place): ColumnPlace => ({ ...place, columns: { ...place.columns, atMs: move(place.columns.atMs) } })) };
}

/** The first and the last of a place's instants. */
interface Span {
  readonly firstAtMs: number | null;
  readonly lastAtMs: number | null;
}

/** From when to when a place was read; nulls where it has no reading. */
export function spanOf({ columns: { atMs } }: ColumnPlace): Span {
  if (atMs.length === 0) return { firstAtMs: null, lastAtMs: null };
  const { firstMs, lastMs } = spanOfInstants(atMs);
  return { firstAtMs: firstMs, lastAtMs: lastMs };
}

/** As `spanOf`, as a list: empty where the place has no reading. */
export function instantsOf(place: ColumnPlace): number[] {
  const { firstAtMs, lastAtMs } = spanOf(place);
  return firstAtMs === null || lastAtMs === null ? [] : [firstAtMs, lastAtMs];
}

/** The least, or null of none. Without spreading: a log may have more readings than a call takes arguments. */
export function leastOf(values: ArrayLike<number>): number | null {
  let least = Infinity;
  for (let index = 0; index < values.length; index += 1) {
    const value = values[index] ?? Infinity;
    if (value < least) least = value;
  }
  return least === Infinity ? null : least;
}

/** The greatest, or null of none. */
export function greatestOf(values: ArrayLike<number>): number | null {
  let greatest = -Infinity;
  for (let index = 0; index < values.length; index += 1) {
    const value = values[index] ?? -Infinity;
    if (value > greatest) greatest = value;
  }
  return greatest === -Infinity ? null : greatest;
}
