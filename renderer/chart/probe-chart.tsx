import { useId, useState, type ReactNode } from 'react';
import { CartesianGrid, LineChart, ReferenceArea, ReferenceLine, ResponsiveContainer, XAxis, YAxis } from 'recharts';
import { degreesFromTicks } from '../../app/measures/temperature.ts';
import { localTime } from '../../app/measures/zone.ts';
import type { LimitLine } from '../../app/contract/requests/smokehouse.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { useFormats } from '../parts/format.ts';
import { words } from '../words/words.ts';
import { PressButton } from '../parts/button.tsx';
import { chartDomain, degreeTicks, timeTicks, type ChartMark, type ChartSeries, type LeftOut } from './chart-model.ts';
import { EvidenceDrawing } from './evidence-drawing.tsx';
import { lanesHeightPx, lanesOf, type Sentence } from './evidence-lanes.ts';
import { EvidenceList } from './evidence-list.tsx';
import { MarkLines } from './mark-lines.tsx';
import { SeriesPaths } from './series-paths.tsx';
import { SeriesTable } from './series-table.tsx';
import './chart.css';

const DAY_MS = 86_400_000;

interface ProbeChartProps {
  readonly title: string;
  readonly series: readonly ChartSeries[];
  readonly limits: readonly LimitLine[];
  /** The sentences of the verdict, each with the stretches of the record it rests on: a lane each. */
  readonly sentences?: readonly Sentence[];
  /** The key of the sentence whose stretches are drawn over the readings too. */
  readonly chosen?: string | null;
  /** Readings that a person has left out. */
  readonly leftOut?: readonly LeftOut[];
  /** In, end of smoking, out: a labelled upright line each. */
  readonly marks?: readonly ChartMark[];
  readonly nowMs?: number | null;
  onChoose?(key: string): void;
}

const NO_SENTENCES: readonly Sentence[] = [];
const NONE_LEFT_OUT: readonly LeftOut[] = [];

/** Temperature against time with the limits that apply, and the same as a table. */
export function ProbeChart({ title, series, limits, sentences = NO_SENTENCES, chosen = null, leftOut = NONE_LEFT_OUT, marks = [], nowMs = null, onChoose }: ProbeChartProps): ReactNode {
  const hatchId = `hatch${useId()}`;
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const [asTable, setAsTable] = useState(false);
  const unit = kitchen.temperatureUnit;
  const moments = [...marks.map((mark) => mark.atMs), ...(nowMs === null ? [] : [nowMs])];
  const domain = chartDomain(series, limits.map((limit) => limit.ticks), moments, unit);
  if (domain === null || series.every((each) => each.atMs.length === 0)) return <p className="soft">{words.smokehouse.chart.empty}</p>;
  const degrees = (ticks: number): number => degreesFromTicks(ticks, unit);
  const lanes = lanesOf(sentences, series, domain);
  const lanesPx = lanesHeightPx(lanes);
  const limitsShown = limits.filter((limit, index) => limits.findIndex((other) => other.ticks === limit.ticks && other.kind === limit.kind) === index);
  return (
    <div className="chart-box">
      <div className="row chart-head">
        <span className="only-read-aloud">{title}</span>
        <PressButton look="quiet" onPress={() => setAsTable(!asTable)}>{asTable ? words.smokehouse.chart.asDrawing : words.smokehouse.chart.asTable}</PressButton>
      </div>
      {asTable ? <SeriesTable series={series} /> : (
        <figure className="chart" aria-label={title} style={{ height: `calc(var(--chart-height) + ${lanesPx}px)` }}>
          <ResponsiveContainer width="100%" height="100%">
            <LineChart data={[{ atMs: domain.fromMs }, { atMs: domain.toMs }]} margin={{ top: 12, right: 22, bottom: 6 + lanesPx, left: 0 }} accessibilityLayer={false}>
              <CartesianGrid stroke="var(--rule)" vertical={false} />
              <XAxis
                dataKey="atMs" type="number" domain={[domain.fromMs, domain.toMs]} allowDataOverflow
                ticks={timeTicks(domain, offsetMs(domain.fromMs, kitchen.timeZone))} tickFormatter={(atMs: number) => (domain.toMs - domain.fromMs > DAY_MS && formats.clock(atMs) === '00:00' ? formats.moment(atMs).split(',')[0] ?? '' : formats.clock(atMs))} stroke="var(--soft)" tick={{ fill: 'var(--soft)', fontSize: 16 }} interval={0}
              />
              <YAxis type="number" domain={[domain.low, domain.high]} allowDataOverflow ticks={degreeTicks(domain)} width={56} stroke="var(--soft)" tick={{ fill: 'var(--soft)', fontSize: 16 }} interval={0} />
              {limitsShown.map((limit) => (limit.kind === 'minimum'
                ? <ReferenceArea key={`area${limit.checkId}${limit.ticks}`} y1={degrees(limit.ticks)} y2={domain.high} fill="var(--good-band)" fillOpacity={1} ifOverflow="hidden" />
                : null))}
              <EvidenceDrawing lanes={lanes} chosen={chosen} hatchId={hatchId} {...(onChoose === undefined ? {} : { onChoose })} />
              {limitsShown.map((limit) => (
                <ReferenceLine
                  key={`${limit.checkId}${limit.ticks}${limit.kind}`} y={degrees(limit.ticks)} stroke={limit.kind === 'maximum' ? 'var(--hold)' : 'var(--moss)'} strokeWidth={1.8}
                  {...(limit.kind === 'target' ? { strokeDasharray: '8 5' } : {})}
                  label={{ value: limit.text, position: 'insideBottomLeft', fill: 'var(--ink)', fontSize: 16 }}
                />
              ))}
              {nowMs === null ? null : <ReferenceLine x={nowMs} stroke="var(--ink)" strokeWidth={2} />}
              <SeriesPaths series={series} unit={unit} leftOut={leftOut} />
              <MarkLines marks={marks} />
            </LineChart>
          </ResponsiveContainer>
        </figure>
      )}
      <EvidenceList lane={lanes.find((lane) => lane.key === chosen)} />
    </div>
  );
}

/** Every zone's offset is whole quarters of an hour. */
const QUARTER_HOUR_MS = 900_000;

/** How far the zone's wall clock is ahead of UTC at an instant. */
function offsetMs(atMs: number, timeZone: string): number {
  const { day, clock } = localTime(atMs, timeZone);
  return Math.round((Date.parse(`${day}T${clock}:00Z`) - atMs) / QUARTER_HOUR_MS) * QUARTER_HOUR_MS;
}
