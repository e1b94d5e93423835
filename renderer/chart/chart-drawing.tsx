import { useMemo, type ReactNode } from 'react';
import { CartesianGrid, LineChart, ReferenceArea, ReferenceLine, ResponsiveContainer, XAxis, YAxis } from 'recharts';
import type { LimitLine } from '../../app/contract/requests/smokehouse.ts';
import { degreesFromTicks } from '../../app/measures/temperature.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { useFormats } from '../parts/format.ts';
import { degreeTicks, timeTicks, type ChartMark, type Domain, type Doubted, type Line } from './chart-model.ts';
import { EvidenceDrawing } from './evidence-drawing.tsx';
import { lanesHeightPx, type Lane } from './evidence-lanes.ts';
import { MarkLines } from './mark-lines.tsx';
import { SeriesPaths } from './series-paths.tsx';
import { zoneOffsetMs } from './zone-offset.ts';

const DAY_MS = 86_400_000;

interface ChartDrawingProps {
  readonly domain: Domain;
  readonly lines: readonly Line[];
  readonly limits: readonly LimitLine[];
  readonly lanes: readonly Lane[];
  readonly chosen: string | null;
  readonly doubted: readonly Doubted[];
  readonly marks: readonly ChartMark[];
  readonly nowMs: number | null;
  readonly hatchId: string;
  /** Drawn over the lines. */
  readonly children: ReactNode;
  onChoose?(key: string): void;
}

/** Axes, limits, marks and lines. All but the cursor is drawn again only when what it shows has changed. */
export function ChartDrawing({ domain, lines, limits, lanes, chosen, doubted, marks, nowMs, hatchId, children, onChoose }: ChartDrawingProps): ReactNode {
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const unit = kitchen.temperatureUnit;
  const lanesPx = lanesHeightPx(lanes);
  const ends = useMemo(() => [{ atMs: domain.fromMs }, { atMs: domain.toMs }], [domain]);
  const margin = useMemo(() => ({ top: 12, right: 22, bottom: 6 + lanesPx, left: 0 }), [lanesPx]);
  const degrees = (ticks: number): number => degreesFromTicks(ticks, unit);
  const sayTime = (atMs: number): string => (domain.toMs - domain.fromMs > DAY_MS && formats.clock(atMs) === '00:00' ? formats.moment(atMs).split(',')[0] ?? '' : formats.clock(atMs));
  const limitsShown = limits.filter((limit, index) => limits.findIndex((other) => other.ticks === limit.ticks && other.kind === limit.kind) === index);
  const paths = useMemo(() => <SeriesPaths lines={lines} unit={unit} doubted={doubted} />, [lines, unit, doubted]);
  return (
    <ResponsiveContainer width="100%" height="100%">
      <LineChart data={ends} margin={margin} accessibilityLayer={false}>
        <CartesianGrid stroke="var(--rule)" vertical={false} />
        <XAxis
          dataKey="atMs" type="number" domain={[domain.fromMs, domain.toMs]} allowDataOverflow
          ticks={timeTicks(domain, zoneOffsetMs(domain.fromMs, kitchen.timeZone))} tickFormatter={sayTime} stroke="var(--soft)" tick={{ fill: 'var(--soft)', fontSize: 16 }} interval={0}
        />
        <YAxis type="number" domain={[domain.low, domain.high]} allowDataOverflow ticks={degreeTicks(domain)} width={56} stroke="var(--soft)" tick={{ fill: 'var(--soft)', fontSize: 16 }} interval={0} />
        {limitsShown.map((limit) => (limit.kind === 'minimum' && degrees(limit.ticks) < domain.high
          ? <ReferenceArea key={`area${limit.checkId}${limit.ticks}`} y1={Math.max(degrees(limit.ticks), domain.low)} y2={domain.high} fill="var(--good-band)" fillOpacity={1} ifOverflow="hidden" />
          : null))}
        <EvidenceDrawing lanes={lanes} chosen={chosen} hatchId={hatchId} {...(onChoose === undefined ? {} : { onChoose })} />
        {limitsShown.map((limit) => (
          <ReferenceLine
            key={`${limit.checkId}${limit.ticks}${limit.kind}`} y={degrees(limit.ticks)} stroke={limit.kind === 'maximum' ? 'var(--hold)' : 'var(--moss)'} strokeWidth={1.8} ifOverflow="hidden"
            {...(limit.kind === 'target' ? { strokeDasharray: '8 5' } : {})}
            label={{ value: limit.text, position: 'insideBottomLeft', fill: 'var(--ink)', fontSize: 16 }}
          />
        ))}
        {nowMs === null ? null : <ReferenceLine x={nowMs} stroke="var(--ink)" strokeWidth={2} ifOverflow="hidden" />}
        {paths}
        <MarkLines marks={marks} />
        {children}
      </LineChart>
    </ResponsiveContainer>
  );
}
