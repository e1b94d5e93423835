/** Which part of a record the chart shows: zooming, moving, and following what is new. Pure. */

export interface TimeSpan {
  readonly fromMs: number;
  readonly toMs: number;
}
/** A part of the record; `follows` where it was chosen up to the right edge and moves on with new readings. */
export interface View extends TimeSpan {
  readonly follows: boolean;
}

/** Nobody needs a chart of less than a minute. */
const LEAST_SPAN_MS = 60_000;

/** The part from one moment to another, inside the whole; null where that is the whole. */
export function viewOf(oneMs: number, otherMs: number, whole: TimeSpan): View | null {
  const lengthMs = whole.toMs - whole.fromMs;
  const wantedMs = Math.max(Math.abs(otherMs - oneMs), LEAST_SPAN_MS);
  if (wantedMs >= lengthMs) return null;
  const middleMs = (oneMs + otherMs) / 2;
  const fromMs = Math.round(Math.min(Math.max(middleMs - wantedMs / 2, whole.fromMs), whole.toMs - wantedMs));
  const toMs = Math.round(fromMs + wantedMs);
  return { fromMs, toMs, follows: toMs >= whole.toMs - 1 };
}

/** What is shown of a record as it is now: a view that follows has moved on with its right edge. */
export function shownSpan(view: View | null, whole: TimeSpan): TimeSpan {
  if (view === null) return whole;
  const shiftMs = view.follows ? Math.max(0, whole.toMs - view.toMs) : 0;
  return { fromMs: view.fromMs + shiftMs, toMs: view.toMs + shiftMs };
}

/** Closer (`factor` below 1) or wider, keeping a moment where it stands on the screen. */
export function zoomed(span: TimeSpan, factor: number, aroundMs: number, whole: TimeSpan): View | null {
  const lengthMs = Math.max((span.toMs - span.fromMs) * factor, LEAST_SPAN_MS);
  const part = (aroundMs - span.fromMs) / (span.toMs - span.fromMs);
  const fromMs = aroundMs - part * lengthMs;
  return viewOf(fromMs, fromMs + lengthMs, whole);
}

/** Earlier (below 0) or later by a part of what is shown. */
export function moved(span: TimeSpan, part: number, whole: TimeSpan): View | null {
  const byMs = (span.toMs - span.fromMs) * part;
  return viewOf(span.fromMs + byMs, span.toMs + byMs, whole);
}
