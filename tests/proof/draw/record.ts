/** Random records: irregular steps, gaps, equal minutes, either unit, values that come near a limit. */
import type { EarlyRecordKind, JudgeCase, MeasuredPoint, Reading, RecordKind, RecordSpan } from '../../../app/limits/judge-case.ts';
import type { Dice } from '../dice.ts';

const MINUTE_MS = 60_000;
const CLOSED: RecordSpan = { open: false };

export type Unit = 'F' | 'C';
/** Minutes and degrees Fahrenheit, before they are written down in a unit. */
export type Row = readonly [minute: number, fahrenheit: number];

/** A reading as a thermometer of that scale shows it: tenths of a °F or hundredths of a °C. */
export function readingOf(minute: number, fahrenheit: number, unit: Unit): Reading {
  const ticks = unit === 'F' ? Math.round(fahrenheit * 10) * 500 - 160_000 : Math.round(((fahrenheit - 32) / 1.8) * 100) * 90;
  return { atMs: minute * MINUTE_MS, lowTicks: ticks, highTicks: ticks };
}

/** Minutes in order: mostly one step, some others, some gaps, some twice the same minute. */
export function drawMinutes(dice: Dice, count: number, stepMinutes: number, gapMinutes: number): number[] {
  let minute = dice.once(3) ? dice.whole(0, stepMinutes) : 0;
  const wild = dice.pick([3, 6, 20, 1000]);
  return Array.from({ length: count }, (_, index) => {
    if (index === 0) return minute;
    if (dice.once(wild * 3)) minute += dice.whole(stepMinutes * 2, gapMinutes);
    else if (dice.once(wild)) minute += dice.whole(1, stepMinutes * 2 + 1);
    else if (!dice.once(15)) minute += stepMinutes;
    return minute;
  });
}

/** Degrees near a limit, mostly on one side of it and sometimes right at it or over. */
export function drawNear(dice: Dice, limitF: number, side: 'above' | 'below', outOnceIn: number): number {
  const away = dice.once(4) ? 0 : dice.whole(1, 30) / 10;
  const isOut = dice.once(outOnceIn);
  return side === (isOut ? 'below' : 'above') ? limitF + away : limitF - away - (isOut && away === 0 ? 0.1 : 0);
}

/** Rows written down, some of them with a second value, a doubt, or a thermometer that remembers its worst. */
export function writeDown(dice: Dice, rows: readonly Row[], unit: Unit, extras = true): Reading[] {
  const readings = rows.flatMap(([minute, fahrenheit], index): Reading[] => {
    const plain = readingOf(minute, fahrenheit, unit);
    if (!extras) return [plain];
    const second = dice.once(25) ? [readingOf(minute, fahrenheit + dice.whole(-20, 20) / 10, unit)] : [];
    const before = rows[index - 1]?.[0];
    const coversSinceMs = before !== undefined && dice.once(30) ? before * MINUTE_MS : undefined;
    const doubt = dice.once(40) ? 'a jump' : undefined;
    return [{ ...plain, ...(coversSinceMs === undefined ? {} : { coversSinceMs }), ...(doubt === undefined ? {} : { doubt }) }, ...second];
  });
  return dice.once(3) ? dice.shuffle(readings) : readings;
}

/** The same readings from two instruments in turn, as two points of one name. */
export function splitInTwo(dice: Dice, point: MeasuredPoint): MeasuredPoint[] {
  if (!dice.once(8)) return [point];
  const cut = dice.whole(0, point.readings.length);
  return dice.shuffle([{ ...point, readings: point.readings.slice(0, cut) }, { ...point, readings: point.readings.slice(cut) }]);
}

/** Marks round a record: missing, at its ends, inside it or outside. */
export function drawMarks(dice: Dice, rows: readonly Row[], reachMinutes: number): { inMs?: number; outMs?: number } {
  const first = rows[0]?.[0] ?? 0;
  const last = rows.at(-1)?.[0] ?? 0;
  const inMinute = dice.pick([undefined, undefined, first, first - dice.whole(0, reachMinutes), first + dice.whole(0, reachMinutes)]);
  const outMinute = dice.pick([undefined, undefined, last, last + dice.whole(0, reachMinutes), last - dice.whole(0, reachMinutes)]);
  return {
    ...(inMinute === undefined ? {} : { inMs: inMinute * MINUTE_MS }),
    ...(outMinute === undefined || outMinute < (inMinute ?? first) ? {} : { outMs: outMinute * MINUTE_MS }),
  };
}

/** What every record has in common: an interval and an allowance given or not, and the thermometer's error. */
export function drawTerms(dice: Dice, stepMinutes: number): Pick<JudgeCase, 'errorTicks' | 'maxGapMs' | 'nominalIntervalMs'> {
  const maxGapMinutes = dice.once(4) ? stepMinutes * dice.whole(1, 3) : undefined;
  const nominalMinutes = dice.once(5) ? Math.max(1, stepMinutes + dice.whole(-2, 2)) : undefined;
  return {
    errorTicks: dice.pick([0, 0, 0, 500, 5000, dice.whole(1, 12_000)]),
    ...(maxGapMinutes === undefined ? {} : { maxGapMs: maxGapMinutes * MINUTE_MS }),
    ...(nominalMinutes === undefined ? {} : { nominalIntervalMs: nominalMinutes * MINUTE_MS }),
  };
}

/** A batch with nothing known but its points. */
export function batchWith(points: readonly MeasuredPoint[], more: Partial<JudgeCase>): JudgeCase {
  return {
    process: 'hot', points, records: { process: CLOSED, soak: CLOSED, freezer: CLOSED, store: CLOSED }, errorTicks: 0, saltSamples: [], ...more,
  };
}

/** The batch's records, one of them as given. */
export function recordsWith(kind: RecordKind | EarlyRecordKind, span: RecordSpan): JudgeCase['records'] {
  return { process: CLOSED, soak: CLOSED, freezer: CLOSED, store: CLOSED, [kind]: span };
}
