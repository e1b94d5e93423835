import { useMemo, type ReactNode } from 'react';
import { usePlotArea, useXAxisDomain, useYAxisDomain } from 'recharts';
import { degreesFromTicks, type TemperatureUnit } from '../../app/measures/temperature.ts';
import { gapEnds, gapOfMs, leftOutIndexes, seriesPath, spreadApart, type ChartSeries, type LeftOut } from './chart-model.ts';

/** More gaps than this are told by the broken line alone. */
const MOST_GAP_MARKS = 40;
const BADGE_PX = 23;

interface SeriesPathsProps {
  readonly series: readonly ChartSeries[];
  readonly unit: TemperatureUnit;
  readonly leftOut: readonly LeftOut[];
}

/**
 * The measured lines, one path each, inside a recharts chart: one node a series however many readings there are.
 * A ring at either side of a gap, a cross through each reading that was left out.
 */
export function SeriesPaths({ series, unit, leftOut }: SeriesPathsProps): ReactNode {
  const area = usePlotArea();
  const across = useXAxisDomain();
  const up = useYAxisDomain();
  const from = Number(across?.[0]);
  const to = Number(across?.[1]);
  const low = Number(up?.[0]);
  const high = Number(up?.[1]);
  const drawn = useMemo(() => {
    if (area === undefined || !Number.isFinite(to - from) || !Number.isFinite(high - low)) return [];
    const x = (atMs: number): number => area.x + ((atMs - from) / (to - from)) * area.width;
    const y = (ticks: number): number => area.y + (1 - (degreesFromTicks(ticks, unit) - low) / (high - low)) * area.height;
    const shown = series.filter((each) => each.atMs.length > 0);
    const ends = spreadApart(shown.map((each) => y(each.ticks.at(-1) ?? 0)), BADGE_PX, area.y + BADGE_PX, area.y + area.height - BADGE_PX / 2);
    const at = (each: ChartSeries, index: number): { x: number; y: number } => ({ x: x(each.atMs[index] ?? 0), y: y(each.ticks[index] ?? 0) });
    return shown.map((each, index) => ({
      each,
      path: seriesPath(each, gapOfMs(each), x, y),
      rings: gapEnds(each, gapOfMs(each)).slice(0, MOST_GAP_MARKS).flat().map((one) => at(each, one)),
      crosses: leftOutIndexes(each, leftOut).map((one) => at(each, one)),
      endX: x(each.atMs.at(-1) ?? 0),
      endY: ends[index] ?? 0,
    }));
  }, [area, from, to, low, high, series, unit, leftOut]);
  return (
    <g className="series-paths">
      {drawn.map(({ each, path, rings, crosses, endX, endY }) => (
        <g key={each.pointId}>
          <path d={path} fill="none" stroke={each.colour} strokeWidth={each.role === 'piece' ? 2.8 : 1.8} {...(each.role === 'piece' ? {} : { strokeDasharray: '2 4' })} />
          {each.atMs.length > 40 ? null : [...each.atMs].map((atMs, index) => (
            <circle key={atMs} cx={circleX(atMs, area, from, to)} cy={area === undefined ? 0 : area.y + (1 - (degreesFromTicks(each.ticks[index] ?? 0, unit) - low) / (high - low)) * area.height} r="3.4" fill={each.colour} />
          ))}
          {rings.map((ring) => <circle key={`ring${ring.x}`} className="gap-end" cx={ring.x} cy={ring.y} r="4.5" fill="var(--sheet)" stroke={each.colour} strokeWidth="2" />)}
          {crosses.map((cross) => <path key={`cross${cross.x}`} className="left-out" d={`M${cross.x - 5} ${cross.y - 5}l10 10m0-10l-10 10`} stroke="var(--hold)" strokeWidth="2.2" />)}
          {each.badge === '' ? <text className="end-name" x={endX - 6} y={endY - 8} textAnchor="end">{each.name}</text> : (
            <>
              <circle cx={endX} cy={endY} r="11" fill={each.colour} />
              <text className="badge" x={endX} y={endY + 5.5} textAnchor="middle">{each.badge}</text>
            </>
          )}
        </g>
      ))}
    </g>
  );
}

function circleX(atMs: number, area: { x: number; width: number } | undefined, from: number, to: number): number {
  return area === undefined ? 0 : area.x + ((atMs - from) / (to - from)) * area.width;
}
