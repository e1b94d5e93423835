/** The number of pieces with a thermometer, and the soak, worked out again from the words of their rules. */
import type { JudgeCase } from '../../../app/limits/judge-case.ts';
import type { BrineStartCheck, HoldCheck, ProbeCountCheck, SoakRoomCheck } from '../../../app/limits/limit-set.ts';
import type { Verdict } from '../../../app/limits/verdict.ts';
import { ceilingGap, verdictOf } from './ceiling.ts';
import { holdTerms, lengthOf, stretchesOf } from './hold.ts';
import { intervalOf, isGapBetween, MINUTE_MS, pointsServing, samplesOf, ticksOf, worseVerdict, type Opinion } from './record.ts';
import type { Stretch } from './stretches.ts';

/** Pieces whose record spans the hold without a gap; without a proven hold, whose record is as long as one. */
export function judgeProbesAgain(check: ProbeCountCheck, batch: JudgeCase, hold: HoldCheck): Opinion {
  const terms = holdTerms(hold, batch, { piecesAsked: 1, together: false }, 0);
  const pieces = pointsServing(batch, 'piece', 'process').map((point) => stretchesOf(point, batch, terms));
  const whole = pieces.filter((piece) => lengthOf(piece) >= terms.requiredMs);
  // Every stretch of the asked length, minute by minute, that lies in what some piece proves.
  const holds = pieces.flatMap(({ proven }) => proven.flatMap(({ fromMs, toMs }) => {
    const inside: Stretch[] = [];
    for (let startMs = fromMs; startMs + terms.requiredMs <= toMs; startMs += MINUTE_MS) inside.push({ fromMs: startMs, toMs: startMs + terms.requiredMs });
    return inside;
  }));
  const spans = (piece: (typeof pieces)[number], { fromMs, toMs }: Stretch) => {
    const { samples, maxGapMs, beginsMs } = piece;
    const last = samples.at(-1);
    if (last === undefined || beginsMs > fromMs || last.atMs < toMs) return false;
    return samples.every((after, index) => {
      const before = samples[index - 1];
      return before === undefined || after.atMs <= fromMs || before.atMs >= toMs || !isGapBetween(before.atMs, after, maxGapMs);
    });
  };
  const count = holds.length === 0
    ? whole.length
    : Math.max(...holds.map((one) => pieces.filter((piece) => spans(piece, one)).length));
  if (count >= check.pieces) return { verdict: 'meets' };
  return { verdict: terms.isOpen ? 'open' : 'not-proven' };
}

/** The brine's first reading; after a gap from the in mark on it doesn't tell how the brine started. */
export function judgeBrineStartAgain(check: BrineStartCheck, batch: JudgeCase, shiftTicks: number): Opinion {
  const { inMs, outMs, open } = batch.records.soak;
  const unread: Verdict = open && outMs === undefined ? 'open' : 'not-proven';
  const points = pointsServing(batch, 'brine', 'soak');
  const limitTicks = ticksOf(check.limit.value, check.limit.unit) - shiftTicks;
  const verdicts = points.map(({ readings }): Verdict => {
    const [first] = samplesOf(readings, 'higher', inMs, outMs);
    const samples = samplesOf(readings, 'higher');
    if (first === undefined) return unread;
    if (first.ticks > limitTicks) return 'misses';
    // Read once, a brine has no interval: then the longest allowance of a maximum is taken.
    const allowedMs = batch.maxGapMs === undefined && intervalOf(samples, batch) === 0 ? 120 * MINUTE_MS : ceilingGap(samples, batch);
    return inMs !== undefined && isGapBetween(inMs, first, allowedMs) ? 'not-proven' : 'meets';
  });
  return { verdict: verdicts.sort(worseVerdict)[0] ?? unread };
}

/** The room of a soak of more than so many minutes. */
export function judgeSoakRoomAgain(check: SoakRoomCheck, batch: JudgeCase, shiftTicks: number): Opinion {
  const marks = batch.records.soak;
  const brine = pointsServing(batch, 'brine', 'soak').flatMap(({ readings }) => samplesOf(readings, 'higher', marks.inMs, marks.outMs)).map(({ atMs }) => atMs);
  const isOpen = marks.open && marks.outMs === undefined;
  const isMarked = marks.inMs !== undefined && marks.outMs !== undefined;
  const lastMs = brine.length > 0 ? Math.max(...brine) : undefined;
  const fromMs = marks.inMs ?? (brine.length > 0 ? Math.min(...brine) : undefined);
  const toMs = isMarked ? marks.outMs : lastMs;
  // Without both marks a single instant proves no length, and a length that is not known excuses nothing.
  const isKnown = fromMs !== undefined && toMs !== undefined && (isMarked || toMs > fromMs);
  const isOver = isKnown && toMs - fromMs > check.overMinutes * MINUTE_MS;
  if (isKnown && !isOver && !isOpen) return { verdict: 'does-not-apply' };
  if (isKnown && isOpen && !isOver) return { verdict: 'open' };
  const terms = { limitTicks: ticksOf(check.limit.value, check.limit.unit) - shiftTicks, below: false, marks, isOpen, minutes: undefined, gap: 'ceiling' as const };
  const rooms = pointsServing(batch, 'room', 'soak');
  const verdicts = rooms.map(({ readings }) => verdictOf(samplesOf(readings, 'higher', marks.inMs, marks.outMs), batch, terms));
  return { verdict: verdicts.sort(worseVerdict)[0] ?? verdictOf([], batch, terms) };
}
