/** Where a piece's cooling begins: each fall from above the start, between a reading above it and one at or below. */
import type { JudgeCase, Reading } from './judge-case.ts';
import { placeAfter, placeOf } from './reading-order.ts';
import type { Stretch } from './stretches.ts';

/** When something was crossed: between two readings, or exactly at one. */
export interface Crossing {
  /** Undefined: nothing tells how early. */
  readonly earliestMs: number | undefined;
  readonly latestMs: number;
}

/** One descent of a piece: its readings from the last one above the start, and where the start lies. */
export interface Descent {
  readonly start: Crossing;
  /** The piece's whole row, in order; its own are those from one place to before another. The first may be the last reading above the start. */
  readonly readings: readonly Reading[];
  readonly from: number;
  readonly to: number;
  /** Cut off by a new completed hold: nothing more can be shown of it. */
  readonly isCut: boolean;
}

/** What a piece's record says about descents. */
export interface DescentRecord {
  readonly descents: readonly Descent[];
  /** Hot to its last reading, or since its last completed hold: the descent that decides is still to come. */
  readonly isHot: boolean;
}

/**
 * Finds a piece's descents.
 * @param readings merged, in order, from the in mark on
 * @param startTicks the start, moved up by the instrument's error; undefined: the end-of-smoking mark starts it
 * @param holds the piece's completed holds, in order
 */
export function findDescents(readings: readonly Reading[], startTicks: number | undefined, holds: readonly Stretch[], judged: JudgeCase): DescentRecord {
  const first = readings[0];
  if (first === undefined) return { descents: [], isHot: false };
  if (startTicks === undefined) return fromMark(readings, judged.endOfSmokingMs);
  if (holds.length > 0) return afterHolds(readings, startTicks, holds);
  const fall = firstFall(readings, startTicks, 0, readings.length);
  if (fall !== undefined) return { descents: [fall], isHot: false };
  if (readings.some((reading) => reading.lowTicks > startTicks)) return { descents: [], isHot: true };
  return { descents: [{ start: withoutAbove(first, startTicks, judged.endOfSmokingMs), readings, from: 0, to: readings.length, isCut: false }], isHot: false };
}

/**
 * The first fall to the start or below among `readings[from..to)`. Whether a reading is above the
 * start is told by its lower value: an earlier start is the less favourable one.
 */
function firstFall(readings: readonly Reading[], startTicks: number, from: number, to: number): Descent | undefined {
  for (let index = Math.max(from, 1); index < to; index += 1) {
    const before = readings[index - 1];
    const reading = readings[index];
    if (before === undefined || reading === undefined || reading.lowTicks > startTicks) continue;
    if (index > from && before.lowTicks <= startTicks) continue;
    const isExact = reading.lowTicks === startTicks;
    return {
      start: { earliestMs: isExact ? reading.atMs : before.atMs, latestMs: reading.atMs },
      readings, from: index - 1, to,
      isCut: to < readings.length,
    };
  }
  return undefined;
}

/** After each completed hold, up to the last reading before the next one. */
function afterHolds(readings: readonly Reading[], startTicks: number, holds: readonly Stretch[]): DescentRecord {
  const descents: Descent[] = [];
  holds.forEach((hold, number) => {
    const from = placeAfter(readings, hold.toMs);
    const next = holds[number + 1];
    const to = next === undefined ? readings.length : placeOf(readings, next.fromMs);
    if (from === readings.length) return;
    const fall = firstFall(readings, startTicks, from, to);
    if (fall !== undefined) descents.push(fall);
  });
  const lastHold = holds.at(-1);
  return { descents, isHot: lastHold !== undefined && !descents.some((descent) => descent.start.latestMs > lastHold.toMs) };
}

/** No reading above the start: it lies between the end of smoking and the first reading. A first reading exactly at it is the crossing. */
function withoutAbove(first: Reading, startTicks: number, markMs: number | undefined): Crossing {
  if (first.lowTicks === startTicks) return { earliestMs: first.atMs, latestMs: first.atMs };
  return { earliestMs: markMs === undefined ? undefined : Math.min(markMs, first.atMs), latestMs: first.atMs };
}

function fromMark(readings: readonly Reading[], markMs: number | undefined): DescentRecord {
  const index = markMs === undefined ? -1 : readings.findIndex((reading) => reading.atMs >= markMs);
  if (markMs === undefined || index === -1) return { descents: [], isHot: true };
  const start = { earliestMs: markMs, latestMs: markMs };
  return { descents: [{ start, readings, from: Math.max(0, index - 1), to: readings.length, isCut: false }], isHot: false };
}
