/** What can be said of a logger's file before it is taken over. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { firstWhere } from '../../../app/measures/halving.ts';
import type { ColumnPlace } from '../../../app/probes/log-columns.ts';
import type { ReadingNumbers, BookRoom } from '../room.ts';
import { likelyPlace, rememberedPoints, type NamedPoint } from './column-names.ts';
import { loadOf } from './load-view.ts';
import { takenAtOtherTimes } from './log-shapes.ts';
import { greatestOf, leastOf, readInboxFile, spanOf, type ReadFile } from './reading-files.ts';

type Preview = Output<'readings.preview'>;

/** More refused rows than this are counted, not listed. */
const SHOWN_ROWS = 50;

/** What a file holds, what must be asked, which point each of its columns most likely belongs to, and what of it is in the book. */
export async function previewFile(room: BookRoom, input: Parsed<'readings.preview'>): Promise<Preview> {
  const points = pointsToChoose(room, input.loadId);
  const file = await readInboxFile(room, input);
  const { fileName, log, before } = file;
  const likely = likelyOf(file, input.loadId !== null, points);
  const columns = input.columns === undefined ? [] : log.places.flatMap((place) => {
    const pointId = input.columns?.find(({ name }) => name === place.name)?.pointId;
    return pointId === undefined ? [] : [{ place, name: place.name, pointId, firstAtMs: spanOf(place).firstAtMs ?? 0 }];
  });
  const otherTimes = takenAtOtherTimes(room, input.fileId, columns);
  return {
    fileName,
    ...(log.sheet === undefined ? {} : { sheet: log.sheet }),
    ...(input.asBefore === true ? { answers: { ...file.answers } } : {}),
    ...(before === undefined ? {} : { before: { fileName: before.fileName, takenAtMs: before.takenAtMs } }),
    ...(input.columns === undefined ? {} : { already: countThere(room, columns) }),
    ...(otherTimes === undefined ? {} : { otherTimes }),
    columns: log.columns.map((column) => ({ ...column })),
    questions: log.questions.map((question) => ({ ...question, choices: [...question.choices] })),
    places: log.places.map((place, index) => ({ ...describePlace(place), likelyPointId: likely[index] ?? null })),
    refusedRows: log.refusedRows.slice(0, SHOWN_ROWS).map((row) => ({ ...row })),
    refusedCount: log.refusedRows.length,
    remarks: log.remarks.map((remark) => (remark.line === undefined ? remark.text : `Line ${remark.line}: ${remark.text}`)),
  };
}

function likelyOf({ fileName, log, before }: ReadFile, isLoad: boolean, points: readonly NamedPoint[]): (string | null)[] {
  const headings = log.places.map((place) => place.name);
  const [onlyHeading, secondHeading] = headings;
  if (isLoad) return rememberedPoints(headings, points, before?.columns ?? []);
  const known = before === undefined ? headings.map(() => null) : rememberedPoints(headings, points, before.columns);
  if (onlyHeading === undefined || secondHeading !== undefined) return known;
  return [known[0] ?? likelyPlace(fileName, onlyHeading, points)];
}

function pointsToChoose(room: BookRoom, loadId: string | null): NamedPoint[] {
  if (loadId !== null) return loadOf(room, room.book.shelf('loads').need(loadId)).points;
  return room.book.shelf('places').all().map((place) => ({ id: place.id, name: place.name, role: 'place', instrumentName: '' }));
}

function describePlace(place: ColumnPlace): Omit<Preview['places'][number], 'likelyPointId'> {
  const { name, columns } = place;
  const highest = greatestOf(columns.lowTicks);
  return {
    name, unit: columns.unit, count: columns.atMs.length, ...spanOf(place),
    lowestTicks: leastOf(columns.lowTicks),
    highestTicks: highest === null ? null : highest + (columns.cut?.some((bit, index) => bit === 1 && columns.lowTicks[index] === highest) === true ? 1 : 0),
  };
}

/** How many of the columns' readings are in the book: the same point, instant and ticks. */
function countThere(room: BookRoom, columns: readonly { readonly place: ColumnPlace; readonly pointId: string }[]): { there: number; all: number } {
  const count = { there: 0, all: 0 };
  for (const { place, pointId } of columns) {
    const { atMs, lowTicks, cut } = place.columns;
    count.all += atMs.length;
    const { firstAtMs: fromMs, lastAtMs: toMs } = spanOf(place);
    if (fromMs === null || toMs === null) continue;
    const known = room.book.seriesOf(pointId, { fromMs, toMs });
    if (known.atMs.length === 0) continue;
    for (let index = 0; index < atMs.length; index += 1) {
      if (isThere(known, atMs[index] ?? 0, lowTicks[index] ?? 0, cut?.[index] ?? 0)) count.there += 1;
    }
  }
  return count;
}

function isThere({ atMs, lowTicks, cut }: ReadingNumbers, at: number, low: number, cutBit: number): boolean {
  for (let index = firstWhere(atMs.length, (place) => (atMs[place] ?? 0) >= at); index < atMs.length && atMs[index] === at; index += 1) {
    if (lowTicks[index] === low && (cut?.[index] ?? 0) === cutBit) return true;
  }
  return false;
}
