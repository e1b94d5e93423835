/**
 * A long record cut down to what a screen can show: of each column of pixels the first, lowest, highest and last
 * reading, so that no reading's excursion is ever hidden however long the record is.
 */
import { gapMsOf } from './envelope-gaps.ts';

export interface Envelope {
  /** Instants of the readings kept, UTC ms, in order of time; none of them is made up. */
  readonly atMs: Float64Array;
  /** What they read, in 1/9000 °C. */
  readonly ticks: Int32Array;
  /** Positions among those kept before which the line is broken: the record has a gap there. */
  readonly breaks: readonly number[];
  /** How many readings the record holds from `fromMs` to `toMs`, both included. */
  readonly readings: number;
  /** Whether all of these are kept. */
  readonly isWhole: boolean;
}

/** First, lowest, highest and last. */
const KEPT_A_COLUMN = 4;

/**
 * The readings of a window that a drawing so many columns wide needs, with the one before and the one after the
 * window, so that a line that comes in from outside is drawn.
 * @param atMs sorted instants of the record, UTC ms
 * @param lowTicks what was read, in 1/9000 °C, as long as `atMs`
 * @param columns how many pixels wide the window is drawn; at least 1
 * @param gapMs from which step on the record has a gap
 */
export function envelopeOf(atMs: Float64Array, lowTicks: Int32Array, fromMs: number, toMs: number, columns: number, gapMs: number = gapMsOf(atMs)): Envelope {
  const from = firstAtOrAfter(atMs, fromMs);
  const end = firstAfter(atMs, toMs);
  const readings = Math.max(0, end - from);
  const isWhole = readings <= columns * KEPT_A_COLUMN;
  const inside = isWhole ? allOf(from, end) : decisiveOf(atMs, lowTicks, from, end, { fromMs, columnMs: Math.max((toMs - fromMs) / columns, Number.EPSILON) });
  const kept = [...(from > 0 ? [from - 1] : []), ...inside, ...(end < atMs.length && end >= from ? [end] : [])];
  return {
    atMs: Float64Array.from(kept, (index) => atMs[index] ?? 0),
    ticks: Int32Array.from(kept, (index) => lowTicks[index] ?? 0),
    breaks: breaksOf(atMs, kept, gapMs),
    readings, isWhole,
  };
}

function allOf(from: number, end: number): number[] {
  return Array.from({ length: Math.max(0, end - from) }, (_, offset) => from + offset);
}

/** The indexes of each column's first, lowest, highest and last reading, in order of time. */
function decisiveOf(atMs: Float64Array, ticks: Int32Array, from: number, end: number, { fromMs, columnMs }: { readonly fromMs: number; readonly columnMs: number }): number[] {
  const kept: number[] = [];
  let index = from;
  while (index < end) {
    const column = Math.floor(((atMs[index] ?? 0) - fromMs) / columnMs);
    const first = index;
    let [lowest, highest] = [index, index];
    while (index < end && Math.floor(((atMs[index] ?? 0) - fromMs) / columnMs) === column) {
      if ((ticks[index] ?? 0) < (ticks[lowest] ?? 0)) lowest = index;
      if ((ticks[index] ?? 0) > (ticks[highest] ?? 0)) highest = index;
      index += 1;
    }
    for (const one of [first, Math.min(lowest, highest), Math.max(lowest, highest), index - 1]) {
      if (one !== kept.at(-1)) kept.push(one);
    }
  }
  return kept;
}

/** Between two readings kept the line is broken where any step of the record between them is a gap. */
function breaksOf(atMs: Float64Array, kept: readonly number[], gapMs: number): number[] {
  const breaks: number[] = [];
  for (let position = 1; position < kept.length; position += 1) {
    const [before = 0, after = 0] = [kept[position - 1], kept[position]];
    // Only a stretch this long can hold a gap, so most are not walked through.
    if ((atMs[after] ?? 0) - (atMs[before] ?? 0) > gapMs && hasGap(atMs, before, after, gapMs)) breaks.push(position);
  }
  return breaks;
}

function hasGap(atMs: Float64Array, before: number, after: number, gapMs: number): boolean {
  for (let index = before + 1; index <= after; index += 1) {
    if ((atMs[index] ?? 0) - (atMs[index - 1] ?? 0) > gapMs) return true;
  }
  return false;
}

/** The index of the first reading at or after an instant; the length where there is none. */
function firstAtOrAfter(atMs: Float64Array, wantedMs: number): number {
  let [low, high] = [0, atMs.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((atMs[middle] ?? 0) < wantedMs) low = middle + 1;
    else high = middle;
  }
  return low;
}

function firstAfter(atMs: Float64Array, wantedMs: number): number {
  let [low, high] = [0, atMs.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((atMs[middle] ?? 0) <= wantedMs) low = middle + 1;
    else high = middle;
  }
  return low;
}
