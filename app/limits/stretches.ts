/** Stretches of a record that satisfy a limit: proven ones, and ones that may have been. */
import type { Reading } from './judge-case.ts';
import { factsOfRow } from './reading-order.ts';
import { isGap } from './readings.ts';

/** A closed stretch of time. */
export interface Stretch {
  readonly fromMs: number;
  readonly toMs: number;
}

export interface Stretches {
  /** From an in reading to an in reading, only in readings between, no gap. */
  readonly proven: readonly Stretch[];
  /** With no out reading inside, gaps bridged; a gap beside an out reading counts up to that reading. */
  readonly possible: readonly Stretch[];
}

export interface StretchRule {
  isIn(reading: Reading): boolean;
  readonly maxGapMs: number;
  readonly inMs?: number | undefined;
  readonly outMs?: number | undefined;
}

/** Both kinds of stretches of merged, ordered readings. */
export function findStretches(readings: readonly Reading[], rule: StretchRule): Stretches {
  const { isPlain, longestMs } = factsOfRow(readings);
  if (isPlain && longestMs <= rule.maxGapMs) return withoutGaps(readings, rule);
  return { proven: provenStretches(readings, rule), possible: possibleStretches(readings, rule) };
}

/** Where no step is a gap: each run of in readings is proven, and may have lasted longer only up to a mark. */
function withoutGaps(readings: readonly Reading[], rule: StretchRule): Stretches {
  const proven: Stretch[] = [];
  const possible: Stretch[] = [];
  const last = readings.length - 1;
  let from = -1;
  for (let index = 0; index <= last; index += 1) {
    const reading = readings[index];
    if (reading === undefined) continue;
    const isIn = rule.isIn(reading);
    if (isIn && from < 0) from = index;
    if (from < 0 || (isIn && index < last)) continue;
    const first = readings[from];
    const end = isIn ? reading : readings[index - 1];
    if (first === undefined || end === undefined) continue;
    proven.push({ fromMs: first.atMs, toMs: end.atMs });
    possible.push({
      fromMs: from === 0 ? Math.min(first.atMs, rule.inMs ?? first.atMs) : first.atMs,
      toMs: isIn ? Math.max(end.atMs, rule.outMs ?? end.atMs) : end.atMs,
    });
    from = -1;
  }
  return { proven, possible };
}

/** The longest; the earliest of equals; undefined of none. */
export function longest(stretches: readonly Stretch[]): Stretch | undefined {
  return stretches.reduce<Stretch | undefined>((found, next) => (found === undefined || lengthOf(next) > lengthOf(found) ? next : found), undefined);
}

/** Milliseconds; 0 for none. */
export function lengthOf(stretch: Stretch | undefined): number {
  return stretch === undefined ? 0 : stretch.toMs - stretch.fromMs;
}

/** What two lists of stretches have in common; each list in order, its stretches touching at most. */
export function intersect(left: readonly Stretch[], right: readonly Stretch[]): Stretch[] {
  const common: Stretch[] = [];
  let at = 0;
  let beside = 0;
  for (;;) {
    const one = left[at];
    const other = right[beside];
    if (one === undefined || other === undefined) return common;
    const fromMs = Math.max(one.fromMs, other.fromMs);
    const toMs = Math.min(one.toMs, other.toMs);
    if (fromMs <= toMs) common.push({ fromMs, toMs });
    if (one.toMs < other.toMs) at += 1;
    else beside += 1;
  }
}

/** What several lists of stretches have in common; nothing of none. */
export function intersectAll(lists: readonly (readonly Stretch[])[]): readonly Stretch[] {
  return lists.length === 0 ? [] : lists.reduce((shared, list) => intersect(shared, list));
}

/** Runs of readings without a gap, whatever they say. */
export function unbrokenRuns(readings: readonly Reading[], maxGap: number): Stretch[] {
  const [first, last] = [readings[0], readings.at(-1)];
  const { isPlain, longestMs } = factsOfRow(readings);
  if (isPlain && longestMs <= maxGap && first !== undefined && last !== undefined) return [{ fromMs: first.atMs, toMs: last.atMs }];
  return provenStretches(readings, { isIn: () => true, maxGapMs: maxGap });
}

function provenStretches(readings: readonly Reading[], rule: StretchRule): Stretch[] {
  const found: Stretch[] = [];
  let fromMs: number | undefined;
  readings.forEach((reading, index) => {
    const before = readings[index - 1];
    const isIn = rule.isIn(reading);
    if (fromMs !== undefined && before !== undefined && (!isIn || isGap(before, reading, rule.maxGapMs))) {
      found.push({ fromMs, toMs: before.atMs });
      fromMs = undefined;
    }
    if (isIn) fromMs ??= reading.atMs;
  });
  const last = readings.at(-1);
  if (fromMs !== undefined && last !== undefined) found.push({ fromMs, toMs: last.atMs });
  return found;
}

function possibleStretches(readings: readonly Reading[], rule: StretchRule): Stretch[] {
  const found: Stretch[] = [];
  let fromMs: number | undefined;
  readings.forEach((reading, index) => {
    const before = readings[index - 1];
    const after = readings[index + 1];
    if (!rule.isIn(reading)) {
      // Between two out readings a gap alone may hide a whole stretch.
      if (after !== undefined && !rule.isIn(after) && isGap(reading, after, rule.maxGapMs)) found.push({ fromMs: reading.atMs, toMs: after.atMs });
      return;
    }
    if (fromMs === undefined) {
      if (before === undefined) fromMs = Math.min(reading.atMs, rule.inMs ?? reading.atMs);
      else fromMs = isGap(before, reading, rule.maxGapMs) ? before.atMs : reading.atMs;
    }
    if (after === undefined) {
      found.push({ fromMs, toMs: Math.max(reading.atMs, rule.outMs ?? reading.atMs) });
    } else if (!rule.isIn(after)) {
      found.push({ fromMs, toMs: isGap(reading, after, rule.maxGapMs) ? after.atMs : reading.atMs });
      fromMs = undefined;
    }
  });
  return found;
}
