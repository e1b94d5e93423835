/** From the record to what the chart shows: domains, axis marks and paths. Pure. */
import { degreesFromTicks, type TemperatureUnit } from '../../app/measures/temperature.ts';
import type { DrawnSeries } from './decode-series.ts';

const MINUTE_MS = 60_000;
const TIME_STEPS_MINUTES = [0.25, 0.5, 1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720, 1440, 2880];
const MOST_TIME_TICKS = 9;
const DEGREE_STEPS = [5, 10, 20, 50, 100];

export interface ChartSeries extends DrawnSeries {
  readonly pointId: string;
  readonly name: string;
  /** What stands at the end of its line: “1”, “2”; empty for a chamber. */
  readonly badge: string;
  readonly colour: string;
  readonly role: 'piece' | 'chamber' | 'room' | 'brine' | 'store';
  /** Given where the back room cut the record down to what a screen can show; else the series is the record. */
  readonly thinned?: Thinned;
}
/** How a series was cut down: where it is broken, from which step on it has a gap, and of how many readings it is. */
export interface Thinned {
  readonly breaks: readonly number[];
  readonly gapMs: number;
  readonly readings: number;
  readonly isWhole: boolean;
}

/** A line as it is drawn: a series cut to what is shown. */
export interface Line extends ChartSeries {
  /** Positions before which the line is broken. */
  readonly breaks: readonly number[];
  readonly gapMs: number;
  /** How many readings the record has in what is shown. */
  readonly readings: number;
  readonly isWhole: boolean;
}

export interface Domain {
  readonly fromMs: number;
  readonly toMs: number;
  readonly low: number;
  readonly high: number;
}

/** What must be seen: every reading, every limit, and the time until the next deadline. In the kitchen's degrees. */
export function chartDomain(series: readonly DrawnSeries[], limitTicks: readonly number[], momentsMs: readonly number[], unit: TemperatureUnit): Domain | null {
  let fromMs = Math.min(...momentsMs);
  let toMs = Math.max(...momentsMs);
  let lowTicks = Math.min(...limitTicks);
  let highTicks = Math.max(...limitTicks);
  for (const each of series) {
    for (let index = 0; index < each.atMs.length; index += 1) {
      fromMs = Math.min(fromMs, each.atMs[index] ?? fromMs);
      toMs = Math.max(toMs, each.atMs[index] ?? toMs);
      lowTicks = Math.min(lowTicks, each.ticks[index] ?? lowTicks);
      highTicks = Math.max(highTicks, each.ticks[index] ?? highTicks);
    }
  }
  if (!Number.isFinite(fromMs) || !Number.isFinite(lowTicks)) return null;
  const low = Math.floor((degreesFromTicks(lowTicks, unit) - 2) / 10) * 10;
  const high = Math.ceil((degreesFromTicks(highTicks, unit) + 4) / 10) * 10;
  return { fromMs, toMs: Math.max(toMs, fromMs + 30 * MINUTE_MS), low, high };
}

/** Marks of the time axis on whole steps of the wall clock; `zoneOffsetMs` is the zone's offset at the start. */
export function timeTicks(domain: Domain, zoneOffsetMs: number): number[] {
  const minutes = (domain.toMs - domain.fromMs) / MINUTE_MS;
  const step = (TIME_STEPS_MINUTES.find((each) => minutes / each <= MOST_TIME_TICKS) ?? 2880) * MINUTE_MS;
  const ticks: number[] = [];
  for (let atMs = Math.ceil((domain.fromMs + zoneOffsetMs) / step) * step - zoneOffsetMs; atMs <= domain.toMs; atMs += step) ticks.push(atMs);
  return ticks;
}

/** Marks of the temperature axis, at most eight. */
export function degreeTicks(domain: Domain): number[] {
  const step = DEGREE_STEPS.find((each) => (domain.high - domain.low) / each <= 8) ?? 100;
  const ticks: number[] = [];
  for (let value = Math.ceil(domain.low / step) * step; value <= domain.high; value += step) ticks.push(value);
  return ticks;
}

/**
 * One SVG path for a line. It is broken at gaps, so that the eye never bridges what was not measured; a reading
 * alone between two gaps is a dot (round line ends draw it).
 */
export function linePath({ atMs, ticks, breaks }: Pick<Line, 'atMs' | 'ticks' | 'breaks'>, x: (atMs: number) => number, y: (ticks: number) => number): string {
  const broken = new Set([0, ...breaks, atMs.length]);
  const parts: string[] = [];
  for (let index = 0; index < atMs.length; index += 1) {
    const starts = broken.has(index);
    parts.push(`${starts ? 'M' : 'L'}${tenths(x(atMs[index] ?? 0))} ${tenths(y(ticks[index] ?? 0))}${starts && broken.has(index + 1) ? 'h0' : ''}`);
  }
  return parts.join('');
}

/** To a tenth of a pixel; much faster than toFixed. */
function tenths(pixels: number): number {
  return Math.round(pixels * 10) / 10;
}

/** The positions on either side of each gap: nothing between them was measured. */
export function gapEnds({ breaks }: Pick<Line, 'breaks'>): (readonly [before: number, after: number])[] {
  return breaks.map((position) => [position - 1, position] as const);
}

/** Readings in doubt, by place and time: left out by a person, or waiting for somebody to decide. */
export interface Doubted {
  readonly pointId: string;
  readonly fromMs: number;
  readonly toMs: number;
  readonly isLeftOut: boolean;
}

/** The indexes of a series' readings that lie in one of these stretches. */
export function doubtedIndexes(series: Pick<ChartSeries, 'pointId' | 'atMs'>, doubted: readonly Doubted[]): number[] {
  const own = doubted.filter((each) => each.pointId === series.pointId);
  if (own.length === 0) return [];
  return [...series.atMs].flatMap((atMs, index) => (own.some((each) => atMs >= each.fromMs && atMs <= each.toMs) ? [index] : []));
}

/** Of points in order of x those that stand at least so far apart, the first one always: marks that touch can't be told apart. */
export function standingApart<Point extends { readonly x: number }>(points: readonly Point[], leastPx: number): Point[] {
  const kept: Point[] = [];
  for (const point of points) if (point.x - (kept.at(-1)?.x ?? -Infinity) >= leastPx) kept.push(point);
  return kept;
}

export interface ChartMark {
  readonly atMs: number;
  readonly text: string;
}
interface PlacedMark {
  readonly x: number;
  readonly textX: number;
  readonly text: string;
  readonly anchor: 'start' | 'end';
  /** Counted from the top; words that would overlap stand on different rows. */
  readonly row: number;
}

/** About the width of a letter at 16 px; enough to keep words apart. */
const LETTER_PX = 8.6;

/** Where each mark's word stands: right of its line, left of it at the chart's edge, a row lower when it would touch another. */
export function placeMarks(marks: readonly ChartMark[], x: (atMs: number) => number, rightEdge: number): PlacedMark[] {
  const taken: { from: number; to: number; row: number }[] = [];
  return marks.toSorted((a, b) => a.atMs - b.atMs).map((mark) => {
    const lineX = x(mark.atMs);
    const width = mark.text.length * LETTER_PX;
    const atEdge = lineX + 6 + width > rightEdge;
    const from = atEdge ? lineX - 6 - width : lineX + 6;
    let row = 0;
    while (taken.some((other) => other.row === row && from < other.to && from + width > other.from)) row += 1;
    taken.push({ from, to: from + width, row });
    return { x: lineX, textX: atEdge ? lineX - 6 : lineX + 6, text: mark.text, anchor: atEdge ? 'end' : 'start', row };
  });
}

/**
 * Pushes heights apart until neighbours are `least` px from each other, keeping their order and,
 * where there is room, inside `top` to `bottom`; for the numbers at the lines' ends.
 */
export function spreadApart(heights: readonly number[], least: number, top: number, bottom: number): number[] {
  const order = heights.map((height, index) => ({ height, index })).sort((a, b) => a.height - b.height);
  let before = top - least;
  for (const each of order) {
    each.height = Math.max(each.height, before + least);
    before = each.height;
  }
  let after = bottom + least;
  for (const each of order.toReversed()) {
    each.height = Math.min(each.height, after - least);
    after = each.height;
  }
  const placed = [...heights];
  for (const each of order) placed[each.index] = each.height;
  return placed;
}
