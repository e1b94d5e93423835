/** What the chart draws of a record, for a window and as many pixels as it has. */
import { z } from 'zod';
import { query } from '../endpoint.ts';
import { Id, InstantMs, Series } from './quantities.ts';

/**
 * The readings of a window that decide what is drawn: of each column of pixels the first, lowest, highest and last, and
 * the one before and after the window. A short record comes whole.
 */
export const ThinnedSeries = z.strictObject({
  pointId: Id,
  series: Series,
  /** Positions in the series before which the line is broken: the record has a gap there. */
  breaks: z.array(z.int().nonnegative()),
  /** From which step on, in ms, the record has a gap. */
  gapMs: z.number().nonnegative(),
  /** How many readings the record holds in the window. */
  readings: z.int().nonnegative(),
  /** Whether all of them are in the series. */
  isWhole: z.boolean(),
});

export const seriesRequests = {
  'series.get': query(
    z.strictObject({ pointIds: z.array(Id).min(1).max(64), fromMs: InstantMs, toMs: InstantMs, pixels: z.int().min(1).max(4000) }),
    z.strictObject({ series: z.array(ThinnedSeries) }),
  ),
} as const;

export type ThinnedSeries = z.infer<typeof ThinnedSeries>;
