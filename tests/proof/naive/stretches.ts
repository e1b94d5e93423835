/** Stretches of one record that prove, or may have been, an unbroken hold: by trying every pair of ends. */
import type { RecordSpan } from '../../../app/limits/judge-case.ts';
import { isGapBetween, type Sample } from './record.ts';

export interface Stretch {
  readonly fromMs: number;
  readonly toMs: number;
}

/** Every pair of in readings with only in readings between them and no gap. */
export function everyProven(samples: readonly Sample[], isIn: (sample: Sample) => boolean, maxGapMs: number, inMs: number | undefined): Stretch[] {
  const found: Stretch[] = [];
  for (let first = 0; first < samples.length; first += 1) {
    for (let last = first; last < samples.length; last += 1) {
      const row = samples.slice(first, last + 1);
      const isUnbroken = row.every((sample, index) => {
        const before = row[index - 1];
        return isIn(sample) && (before === undefined || !isGapBetween(before.atMs, sample, maxGapMs));
      });
      const [from] = row;
      const to = row.at(-1);
      if (isUnbroken && from !== undefined && to !== undefined) found.push({ fromMs: knownSince(from, samples[first - 1], inMs), toMs: to.atMs });
    }
  }
  return found;
}

/** From when the first reading of a row speaks: one that remembers its worst since before the in mark speaks from the mark on. */
export function knownSince(sample: Sample, before: Sample | undefined, inMs: number | undefined): number {
  const { atMs, coversSinceMs } = sample;
  if (before !== undefined || coversSinceMs === undefined || inMs === undefined) return atMs;
  return Math.min(atMs, Math.max(coversSinceMs, inMs));
}

/** Every pair of ends (readings and marks) with no out reading inside and nothing between them that a reading rules out. */
export function everyPossible(samples: readonly Sample[], isIn: (sample: Sample) => boolean, maxGapMs: number, marks: RecordSpan): Stretch[] {
  const first = samples[0];
  const last = samples.at(-1);
  if (first === undefined || last === undefined) return [];
  // Steps that may have been in: between two in readings, across a gap, and out to a mark from an in reading.
  const steps: Stretch[] = [];
  if (marks.inMs !== undefined && marks.inMs < first.atMs && isIn(first)) steps.push({ fromMs: marks.inMs, toMs: first.atMs });
  samples.forEach((after, index) => {
    const before = samples[index - 1];
    if (before === undefined) return;
    if ((isIn(before) && isIn(after)) || isGapBetween(before.atMs, after, maxGapMs)) steps.push({ fromMs: before.atMs, toMs: after.atMs });
  });
  if (marks.outMs !== undefined && marks.outMs > last.atMs && isIn(last)) steps.push({ fromMs: last.atMs, toMs: marks.outMs });
  const outs = samples.filter((sample) => !isIn(sample)).map(({ atMs }) => atMs);
  const found: Stretch[] = samples.filter(isIn).map(({ atMs }) => ({ fromMs: atMs, toMs: atMs }));
  steps.forEach((from, start) => {
    for (let end = start; end < steps.length; end += 1) {
      const row = steps.slice(start, end + 1);
      const joins = row.every((step, index) => index === 0 || (step.fromMs === row[index - 1]?.toMs && !outs.includes(step.fromMs)));
      if (joins) found.push({ fromMs: from.fromMs, toMs: row.at(-1)?.toMs ?? from.toMs });
    }
  });
  return found;
}

/** How long the longest is; 0 for none. */
export function longestOf(stretches: readonly Stretch[]): number {
  return stretches.reduce((longest, { fromMs, toMs }) => Math.max(longest, toMs - fromMs), 0);
}

/** The longest that lie within some stretch of every piece, by trying every pair of their ends; none where they have nothing in common. */
export function longestCommon(pieces: readonly (readonly Stretch[])[]): Stretch[] {
  const ends = [...new Set(pieces.flatMap((stretches) => stretches.flatMap(({ fromMs, toMs }) => [fromMs, toMs])))].sort((left, right) => left - right);
  let found: Stretch[] = [];
  for (const fromMs of ends) {
    for (const toMs of ends) {
      const longest = longestOf(found);
      if (toMs < fromMs || toMs - fromMs < longest) continue;
      if (!pieces.every((stretches) => stretches.some((stretch) => stretch.fromMs <= fromMs && stretch.toMs >= toMs))) continue;
      found = toMs - fromMs > longest ? [{ fromMs, toMs }] : [...found, { fromMs, toMs }];
    }
  }
  return found;
}
