/**
 * What a cook with a hand thermometer is told: when each piece must be read next, and why. A record
 * by hand proves a hold or a cooling only when it is read at the right moments (computed from the
 * judge's own rules for gaps and crossings).
 */
import type { JudgeContext } from './finding.ts';
import { commonHold } from './common-hold.ts';
import { measureDescent } from './descent.ts';
import { heatRule, measurePlace } from './hold-rule.ts';
import type { JudgeCase, MeasuredPoint } from './judge-case.ts';
import type { DescentCheck, FreezeCheck, HoldCheck } from './limit-set.ts';
import { maxGapMs, mergeReadings } from './readings.ts';
import { lengthOf } from './stretches.ts';
import { figureText, nameText } from './words.ts';

const MINUTE_MS = 60_000;
/** By hand, every 10 minutes: within the widest step of 12 that still proves a hold. */
const HOLD_STEP_MS = 10 * MINUTE_MS;
/** A second reading this soon after coming out tells when the cooling began. */
const SECOND_READING_MS = 15 * MINUTE_MS;
/** Two readings further apart prove nothing of a cooling. */
const WIDEST_STEP_MS = 120 * MINUTE_MS;

export interface NextReading {
  readonly pointId?: string | undefined;
  readonly pointName: string;
  /** Undefined: no moment yet, only what to watch for. */
  readonly dueMs: number | undefined;
  readonly text: string;
  readonly isOverdue: boolean;
}

/**
 * The next reading of a piece for its hold; undefined once it is kept or the record is closed. Where the
 * set asks all pieces together the common clock counts, and the piece's own stands beside it.
 */
export function nextHoldReading(check: HoldCheck, point: MeasuredPoint, judged: JudgeCase, context: JudgeContext, nowMs: number): NextReading | undefined {
  const span = judged.records.process;
  const rule = heatRule(check, 0);
  const hold = measurePlace(point, rule, judged, span);
  const common = commonHold(check, judged, context);
  if (!span.open || span.outMs !== undefined || (common ?? hold).provenMs >= rule.requiredMs) return undefined;
  const { words } = context;
  const name = nameText('piece', point.name);
  const say = (dueMs: number | undefined, text: string) => nextOf(point, dueMs, `${name}: ${text}`, nowMs);
  const last = hold.readings.at(-1);
  if (last === undefined) return say(span.inMs ?? nowMs, 'not read yet.');
  if (!rule.isIn(last)) {
    return say(undefined, `at ${words.degrees(last.lowTicks)}. From the first ${figureText(check.limit)} on, read it every ${words.lasting(HOLD_STEP_MS)} until ${words.lasting(rule.requiredMs)} are kept.`);
  }
  const own = hold.stretches.proven.at(-1);
  // Together the time ends when the common run is long enough; before there is one, a step is all that is known.
  const run = common === undefined ? own : common.running;
  const stepMs = last.atMs + Math.min(HOLD_STEP_MS, hold.maxGapMs);
  const dueMs = common !== undefined && run === undefined ? stepMs : Math.min(stepMs, (run?.fromMs ?? last.atMs) + rule.requiredMs);
  if (nowMs - last.atMs > hold.maxGapMs) return say(dueMs, `not read for ${words.lasting(nowMs - last.atMs)}, so the ${words.lasting(rule.requiredMs)} start again with the next reading.`);
  const kept = `${words.part(lengthOf(run), rule.requiredMs)}${common === undefined ? '' : `, all pieces together; this piece ${words.lasting(lengthOf(own))}`}`;
  return say(dueMs, `read by ${words.at(dueMs)}: must show ${figureText(check.limit)} or more. Kept ${kept}.`);
}

/** The next reading of a piece for its cooling; undefined while it smokes and once every target is reached. */
export function nextCoolingReading(check: DescentCheck, point: MeasuredPoint, judged: JudgeCase, context: JudgeContext, nowMs: number): NextReading | undefined {
  const span = judged.records.process;
  if (!span.open) return undefined;
  const piece = measureDescent(check, point, judged, context, 0);
  const { words } = context;
  const name = nameText('piece', point.name);
  const say = (dueMs: number, text: string) => nextOf(point, dueMs, `${name}: ${text}`, nowMs);
  const outMs = judged.endOfSmokingMs ?? span.outMs;
  const last = piece.readings.at(-1);
  if (outMs === undefined) return undefined;
  if (last === undefined || last.atMs < outMs) return say(outMs, 'it has come out: read it now.');
  const since = piece.readings.filter((reading) => reading.atMs >= outMs);
  const firstSince = since.length === 1 ? since[0] : undefined;
  const soonMs = firstSince === undefined ? Number.MAX_SAFE_INTEGER : firstSince.atMs + SECOND_READING_MS;
  const stages = piece.record.isHot ? undefined : piece.descents.at(-1);
  if (stages === undefined) {
    const from = check.from === undefined ? 'the end of smoking is not marked yet' : `still above ${figureText(check.from)}`;
    return say(last.atMs + SECOND_READING_MS, `${from}. Read it again within ${words.lasting(SECOND_READING_MS)}, so that the start of the cooling is known.`);
  }
  const stage = stages.stages.find((one) => !one.isReached);
  const target = stage === undefined ? undefined : check.targets[stage.number];
  if (stage === undefined || target === undefined) return undefined;
  const base = check.clock === 'shared' || stage.number === 0 ? stages.start : stages.stages[stage.number - 1]?.end ?? stages.start;
  const deadlineMs = (base.earliestMs ?? base.latestMs) + stage.withinMs;
  const must = `${figureText(target.limit)} or less`;
  const latestMs = Math.min(last.atMs + WIDEST_STEP_MS, soonMs);
  if (deadlineMs <= latestMs) return say(deadlineMs, `read by ${words.at(deadlineMs)}: must show ${must}.`);
  const why = latestMs === soonMs ? `within ${words.lasting(SECOND_READING_MS)} of the first reading` : `never over ${words.lasting(WIDEST_STEP_MS)} between readings`;
  return say(latestMs, `read by ${words.at(latestMs)} (${why}); ${must} by ${words.at(deadlineMs)}.`);
}

/** The next reading of a freezer for a parasite freezing: once a day at least, and never past the widest step that still proves it. */
export function nextFreezerReading(check: FreezeCheck, point: MeasuredPoint, judged: JudgeCase, context: JudgeContext, nowMs: number): NextReading | undefined {
  const span = judged.records.freezer;
  if (!span.open || span.outMs !== undefined) return undefined;
  const requiredMs = check.minutes * MINUTE_MS;
  const readings = mergeReadings(point.readings, 'higher');
  const last = readings.at(-1);
  const dueMs = last === undefined ? span.inMs ?? nowMs : last.atMs + Math.min(24 * 60 * MINUTE_MS, judged.maxGapMs ?? requiredMs / 7, maxGapMs({ kind: 'freeze-hold', requiredMs }, readings, judged));
  return nextOf(point, dueMs, `${nameText(point.role, point.name)}: read by ${context.words.at(dueMs)}: must show ${figureText(check.limit)} or less.`, nowMs);
}

function nextOf(point: MeasuredPoint, dueMs: number | undefined, text: string, nowMs: number): NextReading {
  return { pointId: point.id, pointName: point.name, dueMs, text, isOverdue: dueMs !== undefined && nowMs > dueMs };
}
