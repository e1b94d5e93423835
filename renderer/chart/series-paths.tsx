import { useId, useMemo, type ReactNode } from 'react';
import { usePlotArea, useXAxisDomain, useYAxisDomain } from 'recharts';
import { degreesFromTicks, type TemperatureUnit } from '../../app/measures/temperature.ts';
import { insideOf } from './chart-lines.ts';
import { doubtedIndexes, gapEnds, linePath, spreadApart, standingApart, type Doubted, type Line } from './chart-model.ts';

/** More gaps than this are told by the broken line alone. */
const MOST_GAP_MARKS = 40;
/** A line of more readings than this is drawn without a dot for each. */
const MOST_DOTS = 40;
const BADGE_PX = 23;
const CROSS_PX = 11;
const QUESTION_PX = 22;

interface SeriesPathsProps {
  readonly lines: readonly Line[];
  readonly unit: TemperatureUnit;
  readonly doubted: readonly Doubted[];
}

/**
 * The measured lines, one path each, inside a recharts chart: one node a series however many readings there are.
 * A ring at either side of a gap, a cross through what was left out, a question mark over what is in doubt.
 */
export function SeriesPaths({ lines, unit, doubted }: SeriesPathsProps): ReactNode {
  const clipId = `plot${useId()}`;
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
    const shown = lines.map((line) => ({ line, ...insideOf(line, { fromMs: from, toMs: to }) })).filter((each) => each.end > each.from);
    const ends = spreadApart(shown.map(({ line, end }) => y(line.ticks[end - 1] ?? 0)), BADGE_PX, area.y + BADGE_PX, area.y + area.height - BADGE_PX / 2);
    const at = (line: Line, index: number): { x: number; y: number } => ({ x: x(line.atMs[index] ?? 0), y: y(line.ticks[index] ?? 0) });
    const leftOut = doubted.filter((each) => each.isLeftOut);
    const waiting = doubted.filter((each) => !each.isLeftOut);
    return shown.map(({ line, end }, index) => ({
      line,
      path: linePath(line, x, y),
      dots: line.atMs.length > MOST_DOTS ? [] : [...line.atMs.keys()].map((one) => at(line, one)),
      rings: gapEnds(line).slice(0, MOST_GAP_MARKS).flat().map((one) => at(line, one)),
      crosses: standingApart(doubtedIndexes(line, leftOut).map((one) => at(line, one)), CROSS_PX),
      questions: standingApart(doubtedIndexes(line, waiting).map((one) => at(line, one)), QUESTION_PX),
      endX: x(line.atMs[end - 1] ?? 0),
      endY: ends[index] ?? 0,
    }));
  }, [area, from, to, low, high, lines, unit, doubted]);
  return (
    <g className="series-paths">
      <defs><clipPath id={clipId}><rect x={area?.x ?? 0} y={area?.y ?? 0} width={area?.width ?? 0} height={area?.height ?? 0} /></clipPath></defs>
      {drawn.map(({ line, path, dots, rings, crosses, questions, endX, endY }) => (
        <g key={line.pointId}>
          <g clipPath={`url(#${clipId})`}>
            <path d={path} fill="none" stroke={line.colour} strokeLinecap="round" strokeWidth={line.role === 'piece' ? 2.8 : 1.8} {...(line.role === 'piece' ? {} : { strokeDasharray: '2 4' })} />
            {dots.map((dot) => <circle key={`dot${dot.x}`} cx={dot.x} cy={dot.y} r="3.4" fill={line.colour} />)}
            {rings.map((ring) => <circle key={`ring${ring.x}`} className="gap-end" cx={ring.x} cy={ring.y} r="4.5" fill="var(--sheet)" stroke={line.colour} strokeWidth="2" />)}
            {crosses.map((cross) => <path key={`cross${cross.x}`} className="left-out" d={`M${cross.x - 5} ${cross.y - 5}l10 10m0-10l-10 10`} stroke="var(--hold)" strokeWidth="2.2" />)}
            {questions.map((one) => <text key={`question${one.x}`} className="in-doubt" x={one.x} y={one.y - 9} textAnchor="middle">?</text>)}
          </g>
          {line.badge === '' ? <text className="end-name" x={endX - 6} y={endY - 8} textAnchor="end">{line.name}</text> : (
            <>
              <circle cx={endX} cy={endY} r="11" fill={line.colour} />
              <text className="badge" x={endX} y={endY + 5.5} textAnchor="middle">{line.badge}</text>
            </>
          )}
        </g>
      ))}
    </g>
  );
}
