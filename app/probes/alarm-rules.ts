/**
 * Alarms while a load runs. Each warns of what will go wrong if nothing is done; none of them judges. Every rule says
 * on what ground it warns. Pure.
 */
import { differenceTicks } from '../measures/temperature.ts';
import type { Words } from '../limits/words.ts';
import { LOOK_BACK_MS, reachMs, trendOf, type ReadAt, type Trend } from './alarm-trend.ts';

const MINUTE_MS = 60_000;
/** Cold fish warms slowly at first, so that a line tells nothing before this (our choice). */
const SETTLING_MS = 45 * MINUTE_MS;
/** What is late is worse with each quarter of an hour (our choice). */
const WORSE_EACH_MS = 15 * MINUTE_MS;
/** A chamber that loses this much in 20 minutes has lost its fire or stands open (our choice: a door opened for a look costs less). */
const CHAMBER_FALL_TICKS = differenceTicks(15, 'F');
const WORSE_EACH_TICKS = differenceTicks(5, 'F');
/** Worse than any lateness: it will not happen at all. */
const NEVER_LEVEL = 1000;

export const ALARM_KINDS = ['piece-too-slow', 'chamber-drifting', 'probe-silent', 'round-overdue', 'cooling-too-slow'] as const;
export type AlarmKind = (typeof ALARM_KINDS)[number];

export interface Alarm {
  readonly kind: AlarmKind;
  /** Rises as it gets worse: an alarm that was acknowledged sounds again then. */
  readonly level: number;
  /** What is wrong, in a sentence. */
  readonly text: string;
  /** On what it rests. */
  readonly ground: string;
}

const BASIS: Readonly<Record<Trend['basis'], string>> = {
  'last-20-minutes': 'By a straight line through its last 20 minutes',
  'last-two-readings': 'By a straight line through its last two readings',
};

export interface PieceHeating {
  /** “Piece 1”, as a sentence begins with it. */
  readonly name: string;
  readonly readings: readonly ReadAt[];
  /** What the hold asks for. */
  readonly limitTicks: number;
  readonly limitText: string;
  readonly requiredMs: number;
  readonly provenMs: number;
  readonly inMs: number;
  /** When the load must be out so that its cooling ends before the kitchen closes; null where that is not known. */
  readonly latestOutMs: number | null;
  readonly nowMs: number;
}

/** A piece that will not be hot enough for long enough in time, if it goes on as it does. */
export function pieceTooSlow({ name, readings, limitTicks, limitText, requiredMs, provenMs, inMs, latestOutMs, nowMs }: PieceHeating, words: Words): Alarm | undefined {
  const trend = trendOf(readings);
  if (trend === undefined || provenMs >= requiredMs || trend.lastMs < inMs + SETTLING_MS) return undefined;
  const isHot = trend.lastTicks >= limitTicks;
  const hotMs = isHot ? trend.lastMs : reachMs(trend, limitTicks);
  const ground = `${BASIS[trend.basis]}. A core warms ever more slowly as it nears the chamber, so the line is the hopeful case.`;
  if (hotMs === Infinity) {
    return { kind: 'piece-too-slow', level: NEVER_LEVEL, ground, text: `${name} is at ${words.degrees(trend.lastTicks)} and rises no more: it will not reach ${limitText}.` };
  }
  if (latestOutMs === null) return undefined;
  const doneMs = Math.max(hotMs, nowMs) + requiredMs - (isHot ? provenMs : 0);
  if (doneMs <= latestOutMs) return undefined;
  return {
    kind: 'piece-too-slow', level: levelOf(doneMs - latestOutMs), ground: `${ground} Out by ${words.at(latestOutMs)}, so that the cooling ends before the kitchen closes.`,
    text: isHot
      ? `${name} has kept ${words.part(provenMs, requiredMs)}: done at ${words.at(doneMs)} at the earliest, and it must be out by ${words.at(latestOutMs)}.`
      : `${name} reaches ${limitText} at about ${words.at(roundMinute(hotMs))}: with ${words.lasting(requiredMs)} to keep it is done at ${words.at(roundMinute(doneMs))}, and it must be out by ${words.at(latestOutMs)}.`,
  };
}

export interface ChamberHot {
  readonly readings: readonly ReadAt[];
  readonly limitTicks: number;
  readonly limitText: string;
}

/** The air of a hot smoke while its hold is not kept: colder than the pieces must get, or losing its heat. */
export function hotChamberDrifting({ readings, limitTicks, limitText }: ChamberHot, words: Words): Alarm | undefined {
  const last = readings.at(-1);
  if (last === undefined) return undefined;
  const wasHot = readings.some((reading) => reading.ticks >= limitTicks);
  if (wasHot && last.ticks < limitTicks) {
    return {
      kind: 'chamber-drifting', level: 1 + Math.floor((limitTicks - last.ticks) / WORSE_EACH_TICKS),
      text: `The chamber has fallen to ${words.degrees(last.ticks)}, below the ${limitText} that the pieces must reach.`,
      ground: 'A piece can’t get hotter than the air about it.',
    };
  }
  const trend = trendOf(readings);
  if (trend === undefined || !wasHot) return undefined;
  const fallTicks = -trend.ticksPerMs * LOOK_BACK_MS;
  if (fallTicks < CHAMBER_FALL_TICKS) return undefined;
  return {
    kind: 'chamber-drifting', level: 1 + Math.floor((fallTicks - CHAMBER_FALL_TICKS) / WORSE_EACH_TICKS),
    text: `The chamber is losing heat: ${words.degrees(last.ticks)}, and ${words.difference(Math.round(fallTicks))} less every 20 minutes.`,
    ground: `${BASIS[trend.basis]}. A fall of 15 °F or more in 20 minutes is taken for a fire that goes out or a door that stands open.`,
  };
}

export interface ChamberCold {
  readonly readings: readonly ReadAt[];
  /** The warmest ceiling that the set offers. */
  readonly limitTicks: number;
  readonly limitText: string;
}

/** The air of a cold smoke: over its ceiling, or about to be. */
export function coldChamberDrifting({ readings, limitTicks, limitText }: ChamberCold, words: Words): Alarm | undefined {
  const last = readings.at(-1);
  if (last === undefined) return undefined;
  if (last.ticks > limitTicks) {
    return {
      kind: 'chamber-drifting', level: 1 + Math.floor((last.ticks - limitTicks) / WORSE_EACH_TICKS),
      text: `The chamber is at ${words.degrees(last.ticks)}, over ${limitText}.`, ground: 'Its last reading.',
    };
  }
  const trend = trendOf(readings);
  const overMs = trend === undefined ? Infinity : reachMs(trend, limitTicks);
  if (trend === undefined || overMs > trend.lastMs + LOOK_BACK_MS) return undefined;
  return {
    kind: 'chamber-drifting', level: 0,
    text: `The chamber is at ${words.degrees(last.ticks)} and will be over ${limitText} at about ${words.at(roundMinute(overMs))}.`,
    ground: `${BASIS[trend.basis]}, within the next 20 minutes.`,
  };
}

export interface PieceCooling {
  readonly name: string;
  /** Since it came out. */
  readonly readings: readonly ReadAt[];
  readonly goalTicks: number;
  readonly goalText: string;
  /** The last moment at which the goal must be shown. */
  readonly byMs: number;
  readonly nowMs: number;
}

/** A piece that will miss the next target of its cooling, if it goes on as it does. */
export function coolingTooSlow({ name, readings, goalTicks, goalText, byMs, nowMs }: PieceCooling, words: Words): Alarm | undefined {
  const last = readings.at(-1);
  if (last === undefined || last.ticks <= goalTicks) return undefined;
  const goal = `${goalText} by ${words.at(byMs)}`;
  if (nowMs > byMs) {
    return {
      kind: 'cooling-too-slow', level: levelOf(nowMs - byMs), ground: 'Its last reading, and the time by its limit set.',
      text: `${name} should have shown ${goal}; it was last read at ${words.degrees(last.ticks)}.`,
    };
  }
  const trend = trendOf(readings);
  if (trend === undefined) return undefined;
  const thereMs = reachMs(trend, goalTicks);
  if (thereMs <= byMs) return undefined;
  return {
    kind: 'cooling-too-slow', level: thereMs === Infinity ? NEVER_LEVEL : levelOf(thereMs - byMs),
    ground: `${BASIS[trend.basis]}. A piece cools ever more slowly as it nears the cold about it, so the line is the hopeful case.`,
    text: thereMs === Infinity
      ? `${name} is at ${words.degrees(last.ticks)} and falls no more: it will not show ${goal}.`
      : `${name} is at ${words.degrees(last.ticks)} and gets to ${goalText} at about ${words.at(roundMinute(thereMs))}: it must show ${goal}.`,
  };
}

export interface ProbeHeard {
  readonly name: string;
  readonly lastMs: number;
  /** From which step on nothing is known. */
  readonly gapMs: number;
  readonly nowMs: number;
}

/** A probe that sent readings and sends none any more. */
export function probeSilent({ name, lastMs, gapMs, nowMs }: ProbeHeard, words: Words): Alarm | undefined {
  const silentMs = nowMs - lastMs;
  if (silentMs <= gapMs) return undefined;
  return {
    kind: 'probe-silent', level: levelOf(silentMs - gapMs),
    text: `${name} has sent nothing since ${words.at(lastMs)}.`,
    ground: `Longer than ${words.lasting(gapMs)} without a reading is a gap in its record. Look at its plug and its link, or read it by hand.`,
  };
}

export interface RoundDue {
  readonly text: string;
  readonly dueMs: number;
  readonly nowMs: number;
}

/** A round by hand that was due. */
export function roundOverdue({ text, dueMs, nowMs }: RoundDue, words: Words): Alarm | undefined {
  if (nowMs <= dueMs) return undefined;
  return { kind: 'round-overdue', level: levelOf(nowMs - dueMs), text, ground: `Due at ${words.at(dueMs)}: later readings may not prove what it would have.` };
}

function levelOf(lateMs: number): number {
  return Math.floor(lateMs / WORSE_EACH_MS);
}

function roundMinute(atMs: number): number {
  return Math.round(atMs / MINUTE_MS) * MINUTE_MS;
}
