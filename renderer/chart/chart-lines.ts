/** The lines as drawn: each series cut to what is shown, with its gaps and with how much of the record it is. Pure. */
import { envelopeOf } from '../../app/probes/envelope.ts';
import { gapMsOf } from '../../app/probes/envelope-gaps.ts';
import type { ChartSeries, Line } from './chart-model.ts';
import type { TimeSpan } from './chart-view.ts';

/**
 * The lines of a stretch of time, so many pixels wide, each with one reading beyond either end.
 * A series that was thinned before it came is only cut.
 */
export function linesIn(series: readonly ChartSeries[], { fromMs, toMs }: TimeSpan, pixels: number): Line[] {
  return series.map((each) => {
    if (each.thinned !== undefined && !each.thinned.isWhole) return cutThinned(each, each.thinned, fromMs, toMs);
    const gapMs = each.thinned?.gapMs ?? gapMsOf(each.atMs);
    return { ...each, gapMs, ...envelopeOf(each.atMs, each.ticks, fromMs, toMs, pixels, gapMs) };
  });
}

function cutThinned(series: ChartSeries, { breaks, gapMs, readings }: NonNullable<ChartSeries['thinned']>, fromMs: number, toMs: number): Line {
  const firstInside = series.atMs.findIndex((atMs) => atMs >= fromMs);
  const firstAfter = series.atMs.findIndex((atMs) => atMs > toMs);
  const from = Math.max(0, (firstInside === -1 ? series.atMs.length : firstInside) - 1);
  const end = firstAfter === -1 ? series.atMs.length : firstAfter + 1;
  return {
    ...series, gapMs, readings, isWhole: false,
    atMs: series.atMs.subarray(from, end), ticks: series.ticks.subarray(from, end),
    breaks: breaks.filter((position) => position > from && position < end).map((position) => position - from),
  };
}

/** The positions of a line's readings inside a stretch of time: from, and up to but without the end. */
export function insideOf(line: Line, { fromMs, toMs }: TimeSpan): { readonly from: number; readonly end: number } {
  const from = line.atMs.findIndex((atMs) => atMs >= fromMs);
  const after = line.atMs.findIndex((atMs) => atMs > toMs);
  const end = after === -1 ? line.atMs.length : after;
  return { from: from === -1 ? end : from, end };
}

/** The position of the reading nearest to a moment; null where none is near enough to speak of it. */
export function nearestOf(line: Line, atMs: number): number | null {
  let [low, high] = [0, line.atMs.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((line.atMs[middle] ?? 0) < atMs) low = middle + 1;
    else high = middle;
  }
  const [before, after] = [line.atMs[low - 1], line.atMs[low]];
  const nearest = after === undefined || (before !== undefined && atMs - before <= after - atMs) ? low - 1 : low;
  const nearestMs = line.atMs[nearest];
  return nearestMs === undefined || Math.abs(nearestMs - atMs) > line.gapMs ? null : nearest;
}
