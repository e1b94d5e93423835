/** Stretches of a record that satisfy a limit: proven ones, and ones that may have been. */
import type { Reading } from './judge-case.ts';
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
  return { proven: provenStretches(readings, rule), possible: possibleStretches(readings, rule) };
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

/** Runs of readings without a gap, whatever they say. */
export function unbrokenRuns(readings: readonly Reading[], maxGap: number): Stretch[] {
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
