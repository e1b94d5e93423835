/** One place's readings put in order: two values at one instant merged to the worse, marks, gaps and intervals. */
import { ticksFromDecimal } from '../measures/temperature.ts';
import type { EarlyRecordKind, JudgeCase, MeasuredPoint, MeasuredRole, Reading, RecordKind, RecordSpan } from './judge-case.ts';
import type { Figure } from './limit-set.ts';
import { factsOfRow, partOfRow, placeAfter, placeOf } from './reading-order.ts';

const MINUTE_MS = 60_000;

/** Which of two values at one instant is the worse: the lower for a hold in heat, the higher for everything else. */
export type Worse = 'lower' | 'higher';

/** A limit of law in ticks, exactly. */
export function limitTicks(figure: Figure): number {
  const read = ticksFromDecimal(figure.value, figure.unit);
  if (!read.ok || read.value.lowTicks !== read.value.highTicks) throw new Error(`${figure.value} °${figure.unit} is not exact in ticks`);
  return read.value.lowTicks;
}

/**
 * Readings in order of time, one an instant. A maximum–minimum thermometer covers the stretch since it
 * was reset with its less favourable end: where no reading stands at the reset, its value stands there too.
 */
export function mergeReadings(readings: readonly Reading[], worse: Worse): readonly Reading[] {
  if (factsOfRow(readings).isPlain) return readings;
  const sorted = [...readings].sort((left, right) => left.atMs - right.atMs);
  const merged: Reading[] = [];
  let covers = false;
  for (const reading of sorted) {
    covers ||= reading.coversSinceMs !== undefined;
    const before = merged.at(-1);
    if (before?.atMs !== reading.atMs) merged.push(reading);
    else merged[merged.length - 1] = worseOf(before, reading, worse);
  }
  return covers ? withResets(merged) : merged;
}

function withResets(merged: readonly Reading[]): Reading[] {
  return merged.flatMap((reading, index) => {
    const sinceMs = reading.coversSinceMs;
    const beforeMs = merged[index - 1]?.atMs;
    if (sinceMs === undefined || sinceMs >= reading.atMs || (beforeMs !== undefined && sinceMs <= beforeMs)) return [reading];
    return [{ ...reading, atMs: sinceMs, coversSinceMs: undefined, isReset: true }, reading];
  });
}

/** The readings from the in mark on and, where it is given, to the out mark. One that covers the in mark covers it from there. */
export function betweenMarks(readings: readonly Reading[], fromMs: number | undefined, toMs?: number): readonly Reading[] {
  if (factsOfRow(readings).isPlain) return partOfRow(readings, fromMs === undefined ? 0 : placeOf(readings, fromMs), toMs === undefined ? readings.length : placeAfter(readings, toMs));
  const kept = readings.filter((reading) => (fromMs === undefined || reading.atMs >= fromMs) && (toMs === undefined || reading.atMs <= toMs));
  const first = kept[0];
  if (first?.coversSinceMs === undefined || fromMs === undefined || first.coversSinceMs >= fromMs || first.atMs === fromMs) return kept;
  return [{ ...first, atMs: fromMs, coversSinceMs: undefined, isReset: true }, ...kept];
}

/** The marks of a record. Where readings alone were given, those of whatever place is judged; else an early record without marks is open until the fish goes in. */
export function spanOf(judged: JudgeCase, record: RecordKind | EarlyRecordKind): RecordSpan {
  const { process } = judged.records;
  return judged.records[record] ?? (judged.readingsStandForMarks === true ? process : { open: process.open && process.inMs === undefined });
}

/** The points of a role that serve a record. One name given twice is one piece, read by two instruments in turn. */
export function pointsOf(judged: JudgeCase, role: MeasuredRole, record: RecordKind | EarlyRecordKind): MeasuredPoint[] {
  return joinPoints(judged.points.filter((point) => point.role === role && (point.record === undefined || point.record === record)));
}

/** Points of one role, one a name or id: what several instruments read of it joined. */
export function joinPoints(points: readonly MeasuredPoint[]): MeasuredPoint[] {
  const byKey = new Map<string, MeasuredPoint>();
  for (const point of points) {
    const key = point.id ?? `name ${point.name}`;
    const before = byKey.get(key);
    byKey.set(key, before === undefined ? point : { ...before, readings: [...before.readings, ...point.readings], thicknessMm: thickerOf(before, point) });
  }
  return [...byKey.values()];
}

function thickerOf(left: MeasuredPoint, right: MeasuredPoint): number | undefined {
  const known = [left.thicknessMm, right.thicknessMm].filter((value) => value !== undefined);
  return known.length === 0 ? undefined : Math.max(...known);
}

/** From the first to the last reading; 0 for one reading or none. */
export function spanMs(readings: readonly Reading[]): number {
  const first = readings[0];
  const last = readings.at(-1);
  return first === undefined || last === undefined ? 0 : last.atMs - first.atMs;
}

/** The nominal interval of a place: the one given, else the lower median of its steps; undefined where there is none. */
export function intervalMs(readings: readonly Reading[], givenMs: number | undefined): number | undefined {
  if (givenMs !== undefined) return givenMs;
  const { isPlain, shortestMs, longestMs } = factsOfRow(readings);
  if (isPlain && shortestMs === longestMs) return readings.length < 2 ? undefined : shortestMs;
  const read = readings.filter((reading) => reading.isReset !== true);
  const steps = read.slice(1).map((reading, index) => reading.atMs - (read[index]?.atMs ?? reading.atMs)).filter((step) => step > 0).sort((left, right) => left - right);
  return steps[Math.floor((steps.length - 1) / 2)];
}

/** What the longest allowed step depends on. */
export type GapRule =
  | { readonly kind: 'heat-hold' }
  | { readonly kind: 'freeze-hold'; readonly requiredMs: number }
  | { readonly kind: 'ceiling' }
  | { readonly kind: 'frozen-store' };

/**
 * The longest step that is no gap. One that is given is used as it stands. A place with a single
 * reading has no interval: then the shortest allowance, 5 minutes, is taken.
 */
export function maxGapMs(rule: GapRule, readings: readonly Reading[], judged: JudgeCase): number {
  if (judged.maxGapMs !== undefined) return judged.maxGapMs;
  const interval = intervalMs(readings, judged.nominalIntervalMs) ?? 0;
  const usual = Math.max(2 * interval, 5 * MINUTE_MS);
  switch (rule.kind) {
    case 'heat-hold': return Math.min(usual, 12 * MINUTE_MS);
    case 'freeze-hold': return Math.min(usual, rule.requiredMs / 7);
    case 'ceiling': return interval >= 15 * MINUTE_MS ? 120 * MINUTE_MS : usual;
    case 'frozen-store': return 24 * 60 * MINUTE_MS;
  }
}

/** Whether nothing is known between two successive readings; a maximum–minimum thermometer knows. */
export function isGap(before: Reading, after: Reading, longestMs: number): boolean {
  if (after.coversSinceMs !== undefined && after.coversSinceMs <= before.atMs) return false;
  return after.atMs - before.atMs > longestMs;
}

/** Entered longer than this after it was read, a reading is said to be late (our own choice; common practice). */
export const LATE_MS = 30 * MINUTE_MS;

/** How a reading came into the record, as it is said in the reason; undefined where there is nothing to say. */
export function enteredHow(readAtMs: number, enteredAtMs: number, fromPaper: boolean): Reading['entered'] {
  return fromPaper ? 'paper' : enteredAtMs - readAtMs > LATE_MS ? 'late' : undefined;
}

/** A sentence on doubts that nobody has decided; empty when there are none. */
export function doubtRemark(points: readonly MeasuredPoint[]): string {
  const doubts = points.filter((point) => factsOfRow(point.readings).hasDoubt).flatMap((point) => point.readings.flatMap((reading) => reading.doubt ?? []));
  if (doubts.length === 0) return '';
  return ` ${doubts.length} reading${doubts.length === 1 ? ' is' : 's are'} in doubt (${[...new Set(doubts)].toSorted().join(', ')}) and count${doubts.length === 1 ? 's' : ''} against the batch until a person decides.`;
}

/** A sentence on readings entered late or copied from paper; empty when there are none. */
export function entryRemark(points: readonly MeasuredPoint[]): string {
  const entered = points.filter((point) => factsOfRow(point.readings).hasEntered);
  const count = (how: 'late' | 'paper') => entered.reduce((sum, point) => sum + point.readings.filter((reading) => reading.entered === how).length, 0);
  const said = [[count('late'), 'entered late (over 30 min after reading)'], [count('paper'), 'copied from paper']] as const;
  return said.filter(([number]) => number > 0).map(([number, how]) => ` ${number} reading${number === 1 ? ' was' : 's were'} ${how}.`).join('');
}

function worseOf(left: Reading, right: Reading, worse: Worse): Reading {
  const choose = worse === 'lower' ? Math.min : Math.max;
  const covers = [left.coversSinceMs, right.coversSinceMs].filter((value) => value !== undefined);
  return {
    atMs: left.atMs,
    lowTicks: choose(left.lowTicks, right.lowTicks),
    highTicks: choose(left.highTicks, right.highTicks),
    entered: left.entered ?? right.entered,
    doubt: left.doubt ?? right.doubt,
    coversSinceMs: covers.length === 0 ? undefined : Math.min(...covers),
  };
}
