/** Maxima of places, worked out again from the words of the rule. */
import type { JudgeCase, MeasuredPoint, RecordSpan } from '../../../app/limits/judge-case.ts';
import type { CeilingCheck } from '../../../app/limits/limit-set.ts';
import type { Verdict } from '../../../app/limits/verdict.ts';
import { intervalOf, isGapBetween, MINUTE_MS, pointsServing, samplesOf, ticksOf, worseVerdict, type Opinion, type Sample } from './record.ts';

export interface CeilingTerms {
  readonly limitTicks: number;
  /** The limit itself is too much. */
  readonly below: boolean;
  readonly marks: RecordSpan;
  readonly isOpen: boolean;
  readonly minutes: number | undefined;
  readonly gap: 'ceiling' | 'frozen-store';
}

/** Every place that a ceiling reads, the worst decides. */
export function judgeCeilingAgain(check: CeilingCheck, batch: JudgeCase, shiftTicks: number): Opinion {
  const record = check.record;
  const points = pointsServing(batch, check.reads, record);
  const marks = batch.records[record];
  if (marks === undefined) throw new Error(`the case has no record of ${record}`);
  const limitTicks = ticksOf(check.limit.value, check.limit.unit) - shiftTicks;
  // Out of the chamber its record is closed, though the fish may still be cooling.
  const isOpen = marks.open && marks.outMs === undefined;
  const terms: CeilingTerms = { limitTicks, below: check.below === true, marks, isOpen, minutes: check.minutes, gap: check.gap };
  if (points.length === 0) return { verdict: verdictOf([], batch, terms) };
  const verdicts = points.map((point) => {
    // The thermometer's error moves the limit, not the stretch that is judged.
    const from = check.stretch === 'whole' ? marks.inMs : chilledFrom(point, batch, { ...terms, limitTicks: limitTicks + shiftTicks });
    const whole = samplesOf(point.readings, 'higher', marks.inMs, marks.outMs);
    const samples = samplesOf(point.readings, 'higher', from, marks.outMs);
    return verdictOf(samples, batch, check.stretch === 'whole' ? terms : { ...terms, marks: { ...marks, inMs: from } }, whole);
  });
  return { verdict: verdicts.sort(worseVerdict)[0] ?? 'not-proven' };
}

/** One place against its maximum, its readings in order. The interval is that of its whole record. */
export function verdictOf(samples: readonly Sample[], batch: JudgeCase, terms: CeilingTerms, whole = samples): Verdict {
  const { limitTicks, marks, minutes } = terms;
  const first = samples[0];
  const last = samples.at(-1);
  if (samples.some(({ ticks }) => ticks > limitTicks || (terms.below && ticks === limitTicks))) return 'misses';
  const beganMs = marks.inMs ?? first?.atMs;
  const endedMs = marks.outMs ?? last?.atMs;
  if (minutes !== undefined && beganMs !== undefined && endedMs !== undefined && endedMs - beganMs > minutes * MINUTE_MS) return 'misses';
  if (first === undefined || last === undefined) return terms.isOpen ? 'open' : 'not-proven';
  const maxGapMs = terms.gap === 'ceiling' ? ceilingGap(whole, batch) : batch.maxGapMs ?? 24 * 60 * MINUTE_MS;
  const startsLate = marks.inMs !== undefined && isGapBetween(marks.inMs, first, maxGapMs);
  const endsEarly = marks.outMs !== undefined && marks.outMs - last.atMs > maxGapMs;
  const isBroken = samples.some((sample, index) => {
    const before = samples[index - 1];
    return before !== undefined && isGapBetween(before.atMs, sample, maxGapMs);
  });
  if (startsLate || endsEarly || isBroken) return 'not-proven';
  if (terms.isOpen) return 'open';
  // A time limit asks for both marks, or for readings that stand for them.
  const lacksMark = minutes !== undefined && batch.readingsStandForMarks !== true && (marks.inMs === undefined || marks.outMs === undefined);
  if (lacksMark) return 'not-proven';
  const provesStretch = samples.length > 1 || (first.coversSinceMs ?? first.atMs) < first.atMs;
  return provesStretch ? 'meets' : 'not-proven';
}

/** The longest step that is no gap under a maximum. */
export function ceilingGap(samples: readonly Sample[], batch: JudgeCase): number {
  if (batch.maxGapMs !== undefined) return batch.maxGapMs;
  const interval = intervalOf(samples, batch);
  return interval >= 15 * MINUTE_MS ? 120 * MINUTE_MS : Math.max(2 * interval, 5 * MINUTE_MS);
}

/** From when the fish was chilled; not known, from the first reading at or below the limit; none, from the beginning. */
function chilledFrom(point: MeasuredPoint, batch: JudgeCase, terms: CeilingTerms): number | undefined {
  const { inMs, outMs } = terms.marks;
  if (batch.chilledMs !== undefined) return Math.max(batch.chilledMs, inMs ?? -Infinity);
  const samples = samplesOf(point.readings, 'higher', inMs, outMs);
  const chilled = samples.find(({ ticks }) => ticks < terms.limitTicks || (ticks === terms.limitTicks && !terms.below));
  return chilled?.atMs ?? inMs;
}
