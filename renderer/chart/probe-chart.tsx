import { useEffect, useId, useMemo, useRef, useState, type ReactNode } from 'react';
import type { LimitLine } from '../../app/contract/requests/smokehouse.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { useFormats } from '../parts/format.ts';
import { words } from '../words/words.ts';
import { linesIn } from './chart-lines.ts';
import { chartDomain, type ChartMark, type ChartSeries, type Doubted } from './chart-model.ts';
import { ChartDrawing } from './chart-drawing.tsx';
import { ChartTools, type Shape } from './chart-tools.tsx';
import { ChartValues, sayCursor } from './chart-values.tsx';
import { shownSpan, type TimeSpan, type View } from './chart-view.ts';
import { CursorLayer } from './cursor-layer.tsx';
import { lanesHeightPx, lanesOf, type Sentence } from './evidence-lanes.ts';
import { EvidenceList } from './evidence-list.tsx';
import { grouped, sayLine } from './series-sentences.ts';
import { SeriesTable } from './series-table.tsx';
import { useRoundWidth } from './use-width.ts';
import './chart.css';

/** The series of a stretch, as fine as the screen can show. */
export interface FineSeries extends TimeSpan {
  readonly series: readonly ChartSeries[];
}

interface ProbeChartProps {
  readonly title: string;
  readonly series: readonly ChartSeries[];
  readonly limits: readonly LimitLine[];
  /** The sentences of the verdict, each with the stretches of the record it rests on: a lane each. */
  readonly sentences?: readonly Sentence[];
  /** The key of the sentence whose stretches are drawn over the readings too. */
  readonly chosen?: string | null;
  /** Readings that a person has left out. */
  readonly doubted?: readonly Doubted[];
  /** In, end of smoking, out: a labelled upright line each. */
  readonly marks?: readonly ChartMark[];
  readonly nowMs?: number | null;
  /** What was asked for of the stretch shown, where the series are thinned. */
  readonly fine?: FineSeries | null;
  onChoose?(key: string): void;
  /** The stretch shown, and how many pixels it has; null where it is the whole record. */
  onSpan?(span: TimeSpan | null, pixels: number): void;
}

const NO_SENTENCES: readonly Sentence[] = [];
const NO_DOUBTS: readonly Doubted[] = [];
const NO_MARKS: readonly ChartMark[] = [];

/** Temperature against time with the limits that apply, any part of it closer, and the same as a table and in words. */
export function ProbeChart({ title, series, limits, sentences = NO_SENTENCES, chosen = null, doubted = NO_DOUBTS, marks = NO_MARKS, nowMs = null, fine = null, onChoose, onSpan }: ProbeChartProps): ReactNode {
  const hatchId = `hatch${useId()}`;
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const [shape, setShape] = useState<Shape>('drawing');
  const [view, setView] = useState<View | null>(null);
  const [cursorMs, setCursorMs] = useState<number | null>(null);
  const box = useRef<HTMLDivElement>(null);
  const pixels = useRoundWidth(box);
  const unit = kitchen.temperatureUnit;
  const whole = useMemo(() => {
    const moments = [...marks.map((mark) => mark.atMs), ...(nowMs === null ? [] : [nowMs])];
    return chartDomain(series, limits.map((limit) => limit.ticks), moments, unit);
  }, [series, limits, marks, nowMs, unit]);
  const span = whole === null ? null : shownSpan(view, whole);
  const isPart = view !== null;
  const [fromMs, toMs] = [span?.fromMs ?? 0, span?.toMs ?? 0];
  useEffect(() => onSpan?.(isPart ? { fromMs, toMs } : null, pixels), [isPart, fromMs, toMs, pixels, onSpan]);
  const lines = useMemo(() => {
    const isFine = isPart && fine !== null && fine.fromMs <= fromMs && fine.toMs >= toMs;
    return linesIn(isFine ? fine.series : series, { fromMs, toMs }, pixels);
  }, [series, fine, isPart, fromMs, toMs, pixels]);
  const domain = useMemo(() => (whole === null || !isPart ? whole : chartDomain(lines, [], [fromMs, toMs], unit) ?? whole), [whole, isPart, lines, fromMs, toMs, unit]);
  const shown = useMemo(() => (domain === null ? null : { ...domain, fromMs, toMs }), [domain, fromMs, toMs]);
  const lanes = useMemo(() => (shown === null ? [] : lanesOf(sentences, series, shown)), [sentences, series, shown]);
  if (whole === null || span === null || shown === null || series.every((each) => each.atMs.length === 0)) return <p className="soft">{words.smokehouse.chart.empty}</p>;
  const thinned = lines.filter((line) => !line.isWhole);
  return (
    <div className="chart-box" ref={box}>
      <span className="only-read-aloud">{title}</span>
      <ChartTools span={span} whole={whole} view={view} shape={shape} onView={setView} onShape={setShape} />
      <ChartValues lines={lines} span={span} cursorMs={cursorMs} />
      {shape === 'table' ? <SeriesTable lines={lines} span={span} /> : null}
      {shape === 'words' ? <ul className="chart-words">{lines.map((line) => <li key={line.pointId}>{sayLine(line, span, formats)}</li>)}</ul> : null}
      {shape !== 'drawing' ? null : (
        <figure className="chart" aria-label={title} style={{ height: `calc(var(--chart-height) + ${lanesHeightPx(lanes)}px)` }}>
          <ChartDrawing domain={shown} lines={lines} limits={limits} lanes={lanes} chosen={chosen} doubted={doubted} marks={marks} nowMs={nowMs} hatchId={hatchId} {...(onChoose === undefined ? {} : { onChoose })}>
            <CursorLayer span={span} whole={whole} cursorMs={cursorMs} spoken={sayCursor(lines, span, cursorMs, formats)} onCursor={setCursorMs} onView={setView} />
          </ChartDrawing>
        </figure>
      )}
      {thinned.length === 0 ? null : <p className="soft small chart-thinned">{words.chart.thinned(grouped(sum(thinned.map((line) => line.readings))), grouped(sum(thinned.map((line) => line.atMs.length))))}</p>}
      <EvidenceList lane={lanes.find((lane) => lane.key === chosen)} />
    </div>
  );
}

function sum(counts: readonly number[]): number {
  return counts.reduce((total, count) => total + count, 0);
}
