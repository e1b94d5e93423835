import { useState, type KeyboardEvent, type PointerEvent, type ReactNode } from 'react';
import { ReferenceArea, ReferenceLine, usePlotArea } from 'recharts';
import { words } from '../words/words.ts';
import { moved, viewOf, zoomed, type TimeSpan, type View } from './chart-view.ts';

const text = words.chart;
/** A drag shorter than this is a tap that shook. */
const LEAST_DRAG_PX = 10;
/** An arrow key moves the cursor by this part of what is shown. */
const KEY_STEP = 1 / 100;
const ZOOM_FACTOR = 0.5;

interface CursorLayerProps {
  readonly span: TimeSpan;
  readonly whole: TimeSpan;
  readonly cursorMs: number | null;
  /** The values at the cursor, for a reader. */
  readonly spoken: string;
  onCursor(atMs: number | null): void;
  onView(view: View | null): void;
}

/** Over the plot: a moment is looked at with pointer or arrow keys, a stretch dragged over is shown closer. */
export function CursorLayer({ span, whole, cursorMs, spoken, onCursor, onView }: CursorLayerProps): ReactNode {
  const area = usePlotArea();
  const [dragFromMs, setDragFromMs] = useState<number | null>(null);
  if (area === undefined) return null;
  const lengthMs = span.toMs - span.fromMs;
  const momentOf = (event: PointerEvent<SVGRectElement>): number => {
    const box = event.currentTarget.getBoundingClientRect();
    const part = Math.min(1, Math.max(0, (event.clientX - box.left) / box.width));
    return Math.round(span.fromMs + part * lengthMs);
  };
  const isDrag = (toMs: number): boolean => dragFromMs !== null && (Math.abs(toMs - dragFromMs) / lengthMs) * area.width >= LEAST_DRAG_PX;
  const release = (event: PointerEvent<SVGRectElement>): void => {
    const toMs = momentOf(event);
    if (dragFromMs !== null && isDrag(toMs)) onView(viewOf(dragFromMs, toMs, whole));
    setDragFromMs(null);
  };
  const hearKey = (event: KeyboardEvent<SVGRectElement>): void => {
    const atMs = cursorMs ?? span.toMs;
    const step = lengthMs * KEY_STEP * (event.shiftKey ? 10 : 1);
    const keys: Readonly<Record<string, () => void>> = {
      ArrowLeft: () => onCursor(Math.max(span.fromMs, Math.round(atMs - step))),
      ArrowRight: () => onCursor(Math.min(span.toMs, Math.round(atMs + step))),
      Home: () => onCursor(span.fromMs),
      End: () => onCursor(span.toMs),
      PageUp: () => onView(moved(span, -0.5, whole)),
      PageDown: () => onView(moved(span, 0.5, whole)),
      '+': () => onView(zoomed(span, ZOOM_FACTOR, atMs, whole)),
      '=': () => onView(zoomed(span, ZOOM_FACTOR, atMs, whole)),
      '-': () => onView(zoomed(span, 1 / ZOOM_FACTOR, atMs, whole)),
      Escape: () => onView(null),
    };
    const act = Object.hasOwn(keys, event.key) ? keys[event.key] : undefined;
    if (act === undefined) return;
    event.preventDefault();
    act();
  };
  return (
    <g className="cursor-layer">
      {dragFromMs !== null && cursorMs !== null && isDrag(cursorMs) ? <ReferenceArea x1={dragFromMs} x2={cursorMs} fill="var(--lake)" fillOpacity={0.18} ifOverflow="hidden" /> : null}
      {cursorMs === null ? null : <ReferenceLine x={cursorMs} stroke="var(--lake)" strokeWidth={1.6} ifOverflow="hidden" />}
      <rect
        className="cursor-ground" x={area.x} y={area.y} width={area.width} height={area.height} fill="transparent"
        role="slider" tabIndex={0} aria-label={text.cursor} aria-valuemin={span.fromMs} aria-valuemax={span.toMs} aria-valuenow={cursorMs ?? span.toMs} aria-valuetext={spoken}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          setDragFromMs(momentOf(event));
          onCursor(momentOf(event));
        }}
        onPointerMove={(event) => onCursor(momentOf(event))}
        onPointerUp={release}
        onPointerCancel={() => setDragFromMs(null)}
        onPointerLeave={(event) => { if (event.pointerType === 'mouse' && dragFromMs === null) onCursor(null); }}
        onKeyDown={hearKey}
      />
    </g>
  );
}
