/** From a load's answer to the lines and marks of its chart. Pure. */
import type { Output } from '../../app/contract/contract.ts';
import type { ThinnedSeries } from '../../app/contract/requests/series.ts';
import type { Load } from '../../app/contract/requests/smokehouse.ts';
import type { ChartMark, ChartSeries } from './chart-model.ts';
import { decodeSeries } from './decode-series.ts';
import { words } from '../words/words.ts';

const COLOURS = 8;

/** The colour of the n-th piece; the palette repeats after eight. */
export function pieceColour(index: number): string {
  return `var(--series-${(index % COLOURS) + 1})`;
}

/** The pieces of a load numbered as on the rack; the chamber and other places without a number. */
export function pieceNumbers(load: Load): ReadonlyMap<string, number> {
  return new Map(load.points.filter((point) => point.role === 'piece').map((point, index) => [point.id, index + 1]));
}

type SeriesWire = Output<'record.batch'>['series'][number] | ThinnedSeries;

/** The series of a load's points in their order: whole, or thinned by the back room. */
export function chartSeriesOf(load: Load, series: readonly SeriesWire[]): ChartSeries[] {
  const numbers = pieceNumbers(load);
  return load.points.flatMap((point) => {
    const found = series.find((each) => each.pointId === point.id);
    if (found === undefined) return [];
    const number = numbers.get(point.id);
    return [{
      ...decodeSeries(found.series),
      pointId: point.id,
      name: point.name,
      badge: number === undefined ? '' : String(number),
      colour: number === undefined ? 'var(--soft)' : pieceColour(number - 1),
      role: point.role,
      ...('gapMs' in found ? { thinned: { breaks: found.breaks, gapMs: found.gapMs, readings: found.readings, isWhole: found.isWhole } } : {}),
    }];
  });
}

/** The load's marks with their words. */
export function marksOf(load: Load): ChartMark[] {
  const marks: [number | null, string][] = [
    [load.inAtMs, words.smokehouse.marks.in],
    [load.endOfSmokingAtMs, words.smokehouse.marks.endOfSmoking],
    [load.outAtMs, words.smokehouse.marks.out],
    [load.cooledAtMs, words.smokehouse.marks.cooled],
  ];
  return marks.flatMap(([atMs, text]) => (atMs === null ? [] : [{ atMs, text }]));
}
