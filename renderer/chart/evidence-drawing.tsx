import type { ReactNode } from 'react';
import { usePlotArea, useXAxisDomain } from 'recharts';
import { words } from '../words/words.ts';
import { LANE_HEAD_PX, LANE_ROW_PX, type Lane, type LaneSpan } from './evidence-lanes.ts';

/** The time axis with its words stands between the plot and the first lane. */
export const AXIS_PX = 36;
const BAR_PX = 12;
/** A span of a single reading is still to be seen. */
const LEAST_WIDTH_PX = 3;

interface EvidenceProps {
  readonly lanes: readonly Lane[];
  readonly chosen: string | null;
  readonly hatchId: string;
  onChoose?(key: string): void;
}

/**
 * Under the chart a lane for each sentence: full where the record counts, hatched where it does not. Reads in black
 * and white. The lane that was tapped is drawn over the readings too.
 */
export function EvidenceDrawing({ lanes, chosen, hatchId, onChoose }: EvidenceProps): ReactNode {
  const area = usePlotArea();
  const across = useXAxisDomain();
  const from = Number(across?.[0]);
  const to = Number(across?.[1]);
  if (area === undefined || !Number.isFinite(to - from)) return null;
  const x = (atMs: number): number => area.x + ((atMs - from) / (to - from)) * area.width;
  const lanesTop = area.y + area.height + AXIS_PX;
  const shown = lanes.find((lane) => lane.key === chosen);
  return (
    <g className="evidence">
      <defs>
        <pattern id={hatchId} width="8" height="8" patternUnits="userSpaceOnUse">
          <path d="M0 8L8 0" stroke="var(--hold)" strokeWidth="1.6" />
        </pattern>
      </defs>
      {shown?.rows.flatMap((row) => row.spans.map((span) => (
        <rect key={`${row.badge}${row.name}${span.fromMs}${span.why}`} {...boxOf(span, x)} y={area.y} height={area.height} {...lookOf(span, hatchId)} opacity={span.counts ? 0.18 : 0.3} />
      )))}
      {lanes.map((lane) => {
        const top = lanesTop + lane.topPx;
        const isChosen = lane.key === chosen;
        const drawn = (
          <>
            <rect className="lane-ground" x={0} y={top} width={area.x + area.width} height={lane.heightPx} />
            <text className={isChosen ? 'lane-title chosen' : 'lane-title'} x={area.x} y={top + LANE_HEAD_PX - 7}>{words.smokehouse.chart.sentence(lane.number, lane.title)}</text>
            {lane.rows.map((row, index) => {
              const y = top + LANE_HEAD_PX + index * LANE_ROW_PX;
              return (
                <g key={`${row.badge}${row.name}`}>
                  <text className="lane-badge" x={area.x - 8} y={y + BAR_PX} textAnchor="end">{row.badge}</text>
                  {row.spans.map((span) => (
                    <rect key={`${span.fromMs}${span.toMs}${span.why}`} {...boxOf(span, x)} y={y} height={BAR_PX} {...lookOf(span, hatchId)}>
                      <title>{span.why}</title>
                    </rect>
                  ))}
                </g>
              );
            })}
          </>
        );
        return onChoose === undefined ? <g key={lane.key}>{drawn}</g> : (
          <g
            key={lane.key} className="lane" role="button" tabIndex={0} aria-pressed={isChosen}
            onClick={() => onChoose(lane.key)}
            onKeyDown={(event) => {
              if (event.key !== 'Enter' && event.key !== ' ') return;
              event.preventDefault();
              onChoose(lane.key);
            }}
          >
            {drawn}
          </g>
        );
      })}
    </g>
  );
}

function boxOf(span: LaneSpan, x: (atMs: number) => number): { x: number; width: number } {
  return { x: x(span.fromMs), width: Math.max(LEAST_WIDTH_PX, x(span.toMs) - x(span.fromMs)) };
}

function lookOf(span: LaneSpan, hatchId: string): { fill: string; stroke?: string } {
  return span.counts ? { fill: 'var(--moss)' } : { fill: `url(#${hatchId})`, stroke: 'var(--hold)' };
}
