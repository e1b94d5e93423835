/** What each piece read last and where it is going, for the round that is typed now. */
import { useMemo, useState } from 'react';
import { trendOf } from '../../app/probes/alarm-trend.ts';
import { useAsk } from '../bridge/use-ask.ts';
import { decodeSeries } from '../chart/decode-series.ts';

const HOUR_MS = 3_600_000;
const HOURS_BACK = 6;
const HOURS_AHEAD = 18;
const PIXELS = 600;

export interface LastRead {
  readonly atMs: number;
  readonly ticks: number;
  /** In an hour, by a straight line; null where there is too little to tell. */
  readonly ticksAnHour: number | null;
}

/** The last reading and the trend of each point, asked again whenever the book changes, so that two open screens agree. */
export function useLastRead(pointIds: readonly string[]): ReadonlyMap<string, LastRead> {
  const [openedMs] = useState(() => Date.now());
  const { data } = useAsk('series.get', { pointIds: [...pointIds], fromMs: openedMs - HOURS_BACK * HOUR_MS, toMs: openedMs + HOURS_AHEAD * HOUR_MS, pixels: PIXELS });
  return useMemo(() => new Map((data?.series ?? []).flatMap(({ pointId, series }) => {
    const { atMs, ticks } = decodeSeries(series);
    const trend = trendOf([...atMs].map((at, index) => ({ atMs: at, ticks: ticks[index] ?? 0 })));
    const [lastMs, lastTicks] = [atMs.at(-1), ticks.at(-1)];
    return lastMs === undefined || lastTicks === undefined ? [] : [[pointId, { atMs: lastMs, ticks: lastTicks, ticksAnHour: trend === undefined ? null : trend.ticksPerMs * HOUR_MS }] as const];
  })), [data]);
}
