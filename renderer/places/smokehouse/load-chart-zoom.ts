/** The finer series of the stretch a chart shows, where the load's own answer is thinned. */
import { useCallback, useMemo, useState } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { useAsk } from '../../bridge/use-ask.ts';
import type { TimeSpan } from '../../chart/chart-view.ts';
import { chartSeriesOf } from '../../chart/load-series.ts';
import type { FineSeries } from '../../chart/probe-chart.tsx';

interface Asked extends TimeSpan {
  readonly pixels: number;
}

export interface Zooming {
  /** Null until it has come, and where the record is whole already. */
  readonly fine: FineSeries | null;
  onSpan(span: TimeSpan | null, pixels: number): void;
}

/** Asks the back room again at each zoom, and whenever the book changes; a short record never has to be asked for. */
export function useZoom({ load, series }: Output<'load.get'>): Zooming {
  const [asked, setAsked] = useState<Asked | null>(null);
  const isThinned = series.some((each) => !each.isWhole);
  const pointIds = load.points.map((point) => point.id);
  const answer = useAsk('series.get', asked === null || !isThinned ? null : { pointIds, fromMs: asked.fromMs, toMs: asked.toMs, pixels: Math.min(asked.pixels, 4000) });
  const onSpan = useCallback((span: TimeSpan | null, pixels: number) => setAsked(span === null ? null : { fromMs: Math.round(span.fromMs), toMs: Math.round(span.toMs), pixels }), []);
  const { data, isPlaceholderData } = answer;
  const fine = useMemo(
    () => (asked === null || data === undefined || isPlaceholderData ? null : { fromMs: asked.fromMs, toMs: asked.toMs, series: chartSeriesOf(load, data.series) }),
    [asked, data, isPlaceholderData, load],
  );
  return { fine, onSpan };
}
