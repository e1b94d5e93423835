/** Taking over a logger's file: every column to its point, in one go or not at all. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { ColumnPlace } from '../../../app/probes/log-columns.ts';
import { textAt } from '../../../app/probes/reading-columns.ts';
import { FEWEST_FOR_BLOCK } from '../book/block-bytes.ts';
import type { StoredPoint } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom, KeptReading, ReadingsAbout } from '../room.ts';
import { refuseInput } from './field-refusal.ts';
import { setLoadMark, type LoadMark } from './load-marks.ts';
import { rememberFile, takenAtOtherTimes } from './log-shapes.ts';
import { keepPoint, subjectOf } from './measuring.ts';
import { splitByInstrument, type SplitColumn } from './reading-import-split.ts';
import { greatestOf, instantsOf, leastOf, refuseWrongClock, shiftOf, spanOf, type ReadFile } from './reading-files.ts';
import { announceReadings } from './reading-news.ts';
import { refuseFuture, sayInstant } from './when.ts';

type Import = Parsed<'readings.import'>;

/** A column of the file with the point it goes to. */
interface Assigned {
  readonly place: ColumnPlace;
  readonly point: StoredPoint;
  readonly split: SplitColumn;
}

/**
 * Keeps the readings of the named columns and, when the file covers the smoke from in to out, sets those marks.
 * @throws Refusal: open questions, no such column, a column or point named twice, a point of another load,
 *   readings still to come, this file in the book with other times, marks on the wrong side of another step. Nothing is
 *   kept then.
 */
export function importReadings(room: BookRoom, input: Import, file: ReadFile): Output<'readings.import'> {
  const { fileName, log } = file;
  if (log.questions.length > 0) {
    const fields = log.questions.map((question) => ({ path: ['answers', question.id], message: question.text }));
    throw new Refusal('INVALID_INPUT', `${fileName} can’t be taken over yet: ${log.questions.map((question) => question.text).join(' ')}`, { remedy: 'Answer what is asked, then take it over.', fields });
  }
  const assigned = assign(room, input, fileName, log.places);
  refuseWrongClock(room, input.loggerClock, log);
  refuseReadingsToCome(room, fileName, assigned);
  const columns = assigned.map(({ place, point }) => ({ name: place.name, pointId: point.id, firstAtMs: spanOf(place).firstAtMs ?? 0, point: { ...point, instrumentName: nameOfInstrument(room, point) } }));
  if (input.whyAgain === undefined) refuseOtherTimes(room, input, fileName, columns);
  const count = { kept: 0, alreadyThere: 0 };
  for (const subjectId of new Set(assigned.map(({ point }) => subjectOf(point)))) {
    const mine = assigned.filter(({ point }) => subjectOf(point) === subjectId);
    for (const { point, split: { instrumentId, place } } of mine) {
      const { kept, alreadyThere } = keepPlace(room, { pointId: point.id, instrumentId, how: 'file', source: fileName }, place);
      count.kept += kept;
      count.alreadyThere += alreadyThere;
    }
    recordImport(room, input, subjectId, file, mine);
  }
  if (input.coversInToOut && input.loadId !== null) setMarksFrom(room, input.loadId, assigned, input.outAtMs ?? null);
  rememberFile(room, { ...file, shape: log.shape }, input.answers, columns);
  announceReadings(room, assigned.map(({ point }) => point));
  return { ...count, refused: log.refusedRows.length + assigned.reduce((sum, { split }) => sum + split.refused.length, 0) };
}

function assign(room: BookRoom, input: Import, fileName: string, places: readonly ColumnPlace[]): Assigned[] {
  const names = new Set<string>();
  const pointIds = new Set<string>();
  return input.columns.map(({ name, pointId, instrumentId }, index) => {
    const path = ['columns', index];
    const place = places.find((candidate) => candidate.name === name);
    if (place === undefined) refuseInput(`${fileName} has no column of readings called “${name}”.`, [...path, 'name'], 'Look at the file again and choose its columns.');
    if (place.columns.atMs.length === 0) refuseInput(`Column “${name}” of ${fileName} has no reading.`, [...path, 'name'], 'Leave that column out.');
    if (names.has(name)) refuseInput(`Column “${name}” is named twice.`, [...path, 'name'], 'A column goes to one point.');
    if (pointIds.has(pointId)) refuseInput(`Two columns go to the same point.`, [...path, 'pointId'], 'Give each column its own point, or leave one out.');
    names.add(name);
    pointIds.add(pointId);
    const point = keepPoint(room, pointId);
    if (point.loadId !== null && point.loadId !== input.loadId) {
      refuseInput(`“${point.name}” is of another load.`, [...path, 'pointId'], 'Choose a point of this load, or a place of the office.');
    }
    return { place, point, split: splitByInstrument(room, point, place, instrumentId, [...path, 'instrumentId']) };
  });
}

function refuseReadingsToCome(room: BookRoom, fileName: string, assigned: readonly Assigned[]): void {
  const lastAtMs = greatestOf(assigned.flatMap(({ place }) => spanOf(place).lastAtMs ?? []));
  if (lastAtMs === null) return;
  try {
    refuseFuture(room, lastAtMs, ['answers']);
  } catch (problem) {
    if (!(problem instanceof Refusal)) throw problem;
    refuseInput(`${fileName} has readings up to ${sayInstant(room, lastAtMs)}, which is still to come.`, ['answers'], 'Check the order of day and month, the time zone and the logger’s own clock.');
  }
}

/** More refused rows than this in an entry would be a file of another kind; they can be read again from the file, which is kept. */
const MOST_ROWS_KEPT = 20_000;

function keepPlace(room: BookRoom, about: ReadingsAbout, { columns }: ColumnPlace): { kept: number; alreadyThere: number } {
  if (columns.atMs.length >= FEWEST_FOR_BLOCK) return room.book.keepColumns(about, columns);
  const rows = Array.from(columns.atMs, (atMs, index): KeptReading => {
    const lowTicks = columns.lowTicks[index] ?? 0;
    return { atMs, lowTicks, highTicks: lowTicks + (columns.cut?.[index] ?? 0), text: textAt(columns, index) };
  });
  return room.book.keepReadings({ ...about, unit: columns.unit, rows });
}

function refuseOtherTimes(room: BookRoom, input: Import, fileName: string, columns: Parameters<typeof takenAtOtherTimes>[2]): void {
  const before = takenAtOtherTimes(room, input.fileId, columns);
  if (before === undefined) return;
  refuseInput(
    `${fileName} was taken over at ${sayInstant(room, before.takenAtMs)} with its readings from ${sayInstant(room, before.firstAtMs)} on; with other times each would be there twice.`,
    ['whyAgain'], 'Leave it as it is, or say why it is taken over again.',
  );
}

function nameOfInstrument(room: BookRoom, { instrumentId }: StoredPoint): string {
  return instrumentId === null ? '' : (room.book.shelf('instruments').get(instrumentId)?.name ?? '');
}

/** By how much the logger's clock moved the readings, as part of a sentence. */
function sayMoved({ loggerClock }: Import): string {
  const movedMs = loggerClock === undefined ? 0 : shiftOf(loggerClock);
  if (movedMs === 0) return '';
  const seconds = Math.round(Math.abs(movedMs) / 1000);
  const amount = seconds % 60 === 0 ? `${seconds / 60} min` : `${seconds} s`;
  return `, moved ${amount} ${movedMs > 0 ? 'later' : 'earlier'} by the logger’s clock`;
}

function recordImport(room: BookRoom, input: Import, subjectId: string, { fileName, log: { refusedRows, sheet } }: ReadFile, mine: readonly Assigned[]): void {
  const refused = refusedRows.length;
  const columns = mine.map(({ point, split: { place, instrumentId } }) => ({
    column: place.name, pointId: point.id, pointName: point.name, unit: place.columns.unit, count: place.columns.atMs.length,
    ...(point.earlierInstruments === undefined ? {} : { instrumentId }), ...spanOf(place),
  }));
  const others = mine.flatMap(({ split }) => split.refused);
  const total = columns.reduce((sum, column) => sum + column.count, 0);
  room.book.record({
    kind: 'readings.import', subjectId, happenedAtMs: leastOf(columns.flatMap((column) => column.firstAtMs ?? [])),
    summary: `Took over ${total} readings of ${columns.map((column) => column.pointName).join(', ')} from ${fileName}${sheet === undefined ? '' : `, sheet “${sheet}”`}${sayMoved(input)}${refused === 0 ? '' : `; ${refused} ${refused === 1 ? 'row' : 'rows'} could not be read`}${others.length === 0 ? '' : `; ${others.length} ${others.length === 1 ? 'reading' : 'readings'} of a time when another thermometer was there left out`}.`,
    ...(input.whyAgain === undefined ? {} : { why: input.whyAgain }),
    after: {
      fileId: input.fileId, fileName, ...(sheet === undefined ? {} : { sheet }), answers: input.answers, columns, refused: refused + others.length, refusedRows: [...refusedRows, ...others].slice(0, MOST_ROWS_KEPT),
      ...(input.loggerClock === undefined ? {} : { loggerClock: { ...input.loggerClock, movedMs: shiftOf(input.loggerClock) } }),
    },
  });
}

/**
 * The chamber's first and last reading are the marks; without a column for the chamber, the first and last of any piece.
 * With `outAtMs` the file goes on into the cooling: the fish came out then, and the last reading closes the record.
 */
function setMarksFrom(room: BookRoom, loadId: string, assigned: readonly Assigned[], outAtMs: number | null): void {
  const ofLoad = assigned.filter(({ point }) => point.loadId === loadId);
  const chamber = ofLoad.filter(({ point }) => point.role === 'chamber');
  const instants = (chamber.length > 0 && outAtMs === null ? chamber : ofLoad).flatMap(({ place }) => instantsOf(place));
  const last = greatestOf(instants);
  const marks: readonly (readonly [LoadMark, 'inAtMs' | 'outAtMs' | 'cooledAtMs', number | null])[] = [
    ['in', 'inAtMs', leastOf(instants)], ['out', 'outAtMs', outAtMs ?? last], ['cooled', 'cooledAtMs', outAtMs === null ? null : last],
  ];
  for (const [what, key, atMs] of marks) {
    if (atMs === null || room.book.shelf('loads').need(loadId)[key] !== null) continue;
    setLoadMark(room, loadId, {
      what, atMs, path: outAtMs !== null && what === 'out' ? ['outAtMs'] : ['coversInToOut'],
      why: outAtMs === null ? 'the log covers the load from in to out' : 'the log covers the load from in to cooled',
    });
  }
}
