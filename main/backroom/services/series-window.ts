/** The series of a window for so many pixels: what the chart asks for when it opens a load, and at each zoom. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { ThinnedSeries } from '../../../app/contract/requests/series.ts';
import { envelopeOf } from '../../../app/probes/envelope.ts';
import { gapMsOf } from '../../../app/probes/envelope-gaps.ts';
import type { BookRoom, ReadingNumbers } from '../room.ts';
import type { Services } from '../service.ts';
import { refuseInput } from './field-refusal.ts';
import { encodeArrays } from './series.ts';

export const seriesServices = { 'series.get': getSeries } satisfies Services<'series.get'>;

/** As many columns as a chart of a whole load is wide on most screens. */
const OVERVIEW_PIXELS = 960;

/** @throws Refusal INVALID_INPUT where the window ends before it begins, NOT_FOUND where no point has that id */
function getSeries(room: BookRoom, { pointIds, fromMs, toMs, pixels }: Parsed<'series.get'>): Output<'series.get'> {
  if (toMs <= fromMs) refuseInput('The window ends before it begins.', ['toMs'], 'Give an end that is later than the start.');
  return { series: pointIds.map((pointId) => {
    // A place's point has the place's own id.
    if (room.book.shelf('places').get(pointId) === undefined) room.book.shelf('points').need(pointId);
    return thin(pointId, room.book.seriesOf(pointId), fromMs, toMs, pixels);
  }) };
}

/** The whole records of these points, thinned to one common window from the first reading to the last. */
export function overviewOf(room: BookRoom, pointIds: readonly string[]): ThinnedSeries[] {
  const records = pointIds.map((pointId) => ({ pointId, numbers: room.book.seriesOf(pointId) }));
  const fromMs = Math.min(...records.map(({ numbers }) => numbers.atMs[0] ?? Infinity));
  const toMs = Math.max(...records.map(({ numbers }) => numbers.atMs.at(-1) ?? -Infinity));
  return records.map(({ pointId, numbers }) => thin(pointId, numbers, fromMs, toMs, OVERVIEW_PIXELS));
}

/** One record's window for so many pixels. */
export function thin(pointId: string, { atMs, lowTicks }: ReadingNumbers, fromMs: number, toMs: number, pixels: number): ThinnedSeries {
  const gapMs = gapMsOf(atMs);
  const envelope = envelopeOf(atMs, lowTicks, fromMs, toMs, pixels, gapMs);
  return { pointId, series: encodeArrays(envelope.atMs, envelope.ticks), breaks: [...envelope.breaks], gapMs, readings: envelope.readings, isWhole: envelope.isWhole };
}
