import type { ReactNode } from 'react';
import { PressButton } from '../parts/button.tsx';
import { useFormats } from '../parts/format.ts';
import { words } from '../words/words.ts';
import { moved, zoomed, type TimeSpan, type View } from './chart-view.ts';

const text = words.chart;

export type Shape = 'drawing' | 'table' | 'words';

interface ChartToolsProps {
  readonly span: TimeSpan;
  readonly whole: TimeSpan;
  readonly view: View | null;
  readonly shape: Shape;
  onView(view: View | null): void;
  onShape(shape: Shape): void;
}

/** Closer, wider, earlier, later, the whole; and the chart as a table or in words. */
export function ChartTools({ span, whole, view, shape, onView, onShape }: ChartToolsProps): ReactNode {
  const formats = useFormats();
  // A view that follows keeps its right edge, which is where the fish is now.
  const aroundMs = view === null || view.follows ? span.toMs : (span.fromMs + span.toMs) / 2;
  const isPart = view !== null;
  return (
    <div className="row chart-head" role="group" aria-label={text.tools}>
      <span className="soft">{isPart ? `${text.window(formats.moment(span.fromMs), formats.moment(span.toMs))}${view.follows ? `. ${text.follows}` : ''}` : text.drag}</span>
      <PressButton look="quiet" label={text.closer} onPress={() => onView(zoomed(span, 0.5, aroundMs, whole))}><Drawn path="M3 10h14M10 3v14" /></PressButton>
      <PressButton look="quiet" label={text.wider} isDisabled={!isPart} onPress={() => onView(zoomed(span, 2, aroundMs, whole))}><Drawn path="M3 10h14" /></PressButton>
      <PressButton look="quiet" label={text.earlier} isDisabled={!isPart} onPress={() => onView(moved(span, -0.5, whole))}><Drawn path="M12 3L5 10l7 7" /></PressButton>
      <PressButton look="quiet" label={text.later} isDisabled={!isPart} onPress={() => onView(moved(span, 0.5, whole))}><Drawn path="M8 3l7 7-7 7" /></PressButton>
      <PressButton look="quiet" isDisabled={!isPart} onPress={() => onView(null)}>{text.whole}</PressButton>
      <span className="chart-shapes">
        {shape === 'drawing' ? null : <PressButton look="quiet" onPress={() => onShape('drawing')}>{words.smokehouse.chart.asDrawing}</PressButton>}
        {shape === 'table' ? null : <PressButton look="quiet" onPress={() => onShape('table')}>{words.smokehouse.chart.asTable}</PressButton>}
        {shape === 'words' ? null : <PressButton look="quiet" onPress={() => onShape('words')}>{text.inWords}</PressButton>}
      </span>
    </div>
  );
}

/** A sign that not every typeface has. */
function Drawn({ path }: { readonly path: string }): ReactNode {
  return <svg width="20" height="20" viewBox="0 0 20 20" aria-hidden="true"><path d={path} fill="none" stroke="currentColor" strokeWidth="2.4" strokeLinecap="round" strokeLinejoin="round" /></svg>;
}
