/** The judge against a second way of working out the same thing: holds by trying every stretch, coolings by straight lines. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeOne, type Points } from '../support/judged-log.ts';
import { coolingLog, heatLog } from '../support/random-logs.ts';

const MAX_GAP = 10;

describe('a hold', () => {
  it('is proven and possible for as long as trying every stretch says', () => {
    fc.assert(fc.property(heatLog, fc.nat(20), fc.nat(20), (log, before, after) => {
      const ordered = worstPerMinute(log);
      const inMinute = (ordered[0]?.[0] ?? 0) - before;
      const outMinute = (ordered.at(-1)?.[0] ?? 0) + after;
      const found = judgeOne('HOT-145-30', 'piece', log, { maxGapMinutes: MAX_GAP, marks: { inMinute, outMinute } });
      expect([found.provenMinutes, found.possibleMinutes]).toEqual([longestProven(ordered), longestPossible(ordered, inMinute, outMinute)]);
    }), { numRuns: 400 });
  });
});

describe('a cooling', () => {
  it('has bounds that hold the straight-line estimate between them', () => {
    fc.assert(fc.property(coolingLog, (log) => {
      const falling = worstPerMinute(log).filter(([, value], index, all) => all.slice(0, index).every(([, earlier]) => earlier > value));
      const found = judgeOne('COOL-FC', 'piece', falling);
      const start = crossing(falling, 135);
      const end = crossing(falling, 70);
      if (start === undefined || end === undefined || found.spans.length === 0) return;
      const [first] = found.spans;
      // The first span runs from the earliest start to the latest end of the first stage.
      expect(first?.fromMinute).toBeLessThanOrEqual(start + 1e-6);
      expect(first?.toMinute).toBeGreaterThanOrEqual(end - 1e-6);
      if (end - start > 120 + 1e-6) expect(found.verdict).not.toBe('meets');
    }), { numRuns: 400 });
  });
});

/** In order, the lower of two values at one minute. */
function worstPerMinute(points: Points): Points {
  const byMinute = new Map<number, number>();
  for (const [minute, value] of points) byMinute.set(minute, Math.min(value, byMinute.get(minute) ?? Infinity));
  return [...byMinute].sort(([left], [right]) => left - right);
}

/** Every pair of in readings with only in readings and no wide step between. */
function longestProven(points: Points): number {
  let found = 0;
  points.forEach(([from], first) => {
    points.forEach(([to], last) => {
      const part = points.slice(first, last + 1);
      const isKept = part.length > 0 && part.every(([minute, value], index) => value >= 145 && (index === 0 || minute - (part[index - 1]?.[0] ?? 0) <= MAX_GAP));
      if (isKept) found = Math.max(found, to - from);
    });
  });
  return found;
}

/** Every pair of ends (readings and marks) with no out reading inside and nothing between that a reading rules out. */
function longestPossible(points: Points, inMinute: number, outMinute: number): number {
  const isIn = (value: number | undefined) => value !== undefined && value >= 145;
  const steps = points.slice(1).map(([minute, value], index) => {
    const [before, earlier] = points[index] ?? [0, 0];
    return { from: before, to: minute, counts: (isIn(earlier) && isIn(value)) || minute - before > MAX_GAP };
  });
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) return 0;
  const all = [{ from: inMinute, to: first[0], counts: isIn(first[1]) }, ...steps, { from: last[0], to: outMinute, counts: isIn(last[1]) }];
  const outs = new Set(points.filter(([, value]) => !isIn(value)).map(([minute]) => minute));
  let found = 0;
  all.forEach((from, start) => {
    for (let end = start; end < all.length; end += 1) {
      const part = all.slice(start, end + 1);
      const isFree = part.every((step) => step.counts) && part.slice(1).every((step) => !outs.has(step.from));
      if (isFree) found = Math.max(found, (all[end]?.to ?? 0) - from.from);
    }
  });
  return found;
}

/** Where the straight line through falling readings first touches a value; undefined where it does not. */
function crossing(points: Points, value: number): number | undefined {
  for (let index = 1; index < points.length; index += 1) {
    const [before, high] = points[index - 1] ?? [0, 0];
    const [after, low] = points[index] ?? [0, 0];
    if (high > value && low <= value) return before + ((high - value) / (high - low)) * (after - before);
  }
  return undefined;
}
