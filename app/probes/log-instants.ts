/** From the rows' written times to instants, by zone, start and clock changes; or the questions that are still open. */
import { good, type Outcome } from '../measures/outcome.ts';
import { readStart, type Answers } from './log-answers.ts';
import { resolveWalls } from './log-clock-changes.ts';
import { DAY_MS, type Moment } from './log-moments.ts';
import { askStart, askTimeZone } from './log-questions.ts';
import type { LogRows } from './log-rows.ts';
import type { TimePlan } from './log-time-columns.ts';
import type { LogQuestion } from './log-types.ts';
import { openZone, type LogZone } from './log-zone.ts';

export interface Instants {
  /** UTC ms by row; meaningless while a question is open. */
  readonly atMs: readonly number[];
  readonly refused: ReadonlyMap<number, string>;
  readonly questions: readonly LogQuestion[];
  /** Rows by channel in the order of time: turned round where the log is written newest first. */
  readonly tracks: readonly (readonly number[])[];
}

interface InstantContext {
  readonly plan: TimePlan;
  readonly heading: string;
  readonly opening: readonly string[];
  readonly timeZone: string | undefined;
  readonly answers: Answers;
  /** The order of numeric dates is still open: wall times mean nothing yet. */
  readonly isOrderOpen: boolean;
}

/** Resolves the time of every row. */
export function findInstants(rows: LogRows, context: InstantContext): Outcome<Instants> {
  const { plan, answers } = context;
  const tracks = rows.tracks.map((track) => inOrderOfTime(track, rows.ms));
  const zone = zoneOf(context);
  if (zone !== undefined && !zone.ok) return zone;
  const needsStart = plan.kind === 'clock-only' || plan.kind.startsWith('elapsed');
  const answer = answers['start'];
  if (needsStart && answer === undefined) {
    return good({ atMs: [], refused: new Map(), questions: [askStart(plan, context.heading, context.opening)], tracks });
  }
  if (answer === undefined || !needsStart) return resolve(rows, rows.ms, tracks, zone?.value, context, (row) => rows.kinds[row] === 'wall');
  const start = readStart(answer, plan.kind === 'clock-only');
  if (!start.ok) return start;
  if (plan.kind === 'clock-only') return resolveClocks(rows, tracks, start.value, zone?.value, context);
  return resolveElapsed(rows, tracks, start.value, zone?.value, context);
}

/** The zone that was answered, or given with the file. */
export function zoneOf(context: Pick<InstantContext, 'answers' | 'timeZone'>): Outcome<LogZone> | undefined {
  const answer = context.answers['timeZone'];
  if (answer !== undefined) return openZone(answer, 'answers.timeZone');
  return context.timeZone === undefined ? undefined : openZone(context.timeZone, 'timeZone');
}

function resolve(
  rows: LogRows,
  ms: readonly number[],
  tracks: readonly (readonly number[])[],
  zone: LogZone | undefined,
  context: InstantContext,
  isWall: (row: number) => boolean,
): Outcome<Instants> {
  if (!rows.kinds.some((_, row) => isWall(row))) return good({ atMs: ms, refused: new Map(), questions: [], tracks });
  if (zone === undefined) return good({ atMs: ms, refused: new Map(), questions: [askTimeZone(context.plan.column)], tracks });
  if (context.isOrderOpen) return good({ atMs: ms, refused: new Map(), questions: [], tracks });
  const resolved = resolveWalls({ ms, isWall, lines: rows.lines, tracks }, zone, context.answers['clockChange']);
  if (!resolved.ok) return resolved;
  const { atMs, refused, question } = resolved.value;
  return good({ atMs, refused, questions: question === undefined ? [] : [question], tracks });
}

/** Elapsed times run on through clock changes: only the start is resolved in the zone. */
function resolveElapsed(rows: LogRows, tracks: readonly (readonly number[])[], start: Moment, zone: LogZone | undefined, context: InstantContext): Outcome<Instants> {
  if (start.isInstant) return good({ atMs: rows.ms.map((ms) => start.ms + ms), refused: new Map(), questions: [], tracks });
  if (zone === undefined) return good({ atMs: [], refused: new Map(), questions: [askTimeZone(context.plan.column)], tracks });
  const meaning = zone.meaningOf(start.ms);
  if (meaning.kind !== 'one') {
    const what = meaning.kind === 'repeated' ? 'came twice: the clocks went back' : 'did not exist: the clocks went forward';
    return {
      ok: false,
      problem: { message: `The start “${context.answers['start']}” ${what}.`, field: 'answers.start', remedy: 'Write it with its offset from UTC, such as 2026-11-01T01:30-05:00.' },
    };
  }
  return good({ atMs: rows.ms.map((ms) => meaning.atMs + ms), refused: new Map(), questions: [], tracks });
}

/** Clock times without dates: a fall of more than half a day is midnight. */
function resolveClocks(rows: LogRows, tracks: readonly (readonly number[])[], start: Moment, zone: LogZone | undefined, context: InstantContext): Outcome<Instants> {
  const offsetMs = context.plan.kind === 'clock-only' && context.plan.offsetMinutes !== undefined ? context.plan.offsetMinutes * 60_000 : undefined;
  const ownOffsetMs = start.isInstant && offsetMs === undefined ? writtenOffsetMs(context.answers['start'] ?? '', start) : offsetMs;
  const firstDayMs = Math.floor((start.ms + (start.isInstant ? (ownOffsetMs ?? 0) : 0)) / DAY_MS) * DAY_MS;
  const wallMs = [...rows.ms];
  for (const track of tracks) {
    let dayMs = firstDayMs;
    track.forEach((row, index) => {
      const before = track[index - 1];
      if (before !== undefined && (rows.ms[row] ?? 0) < (rows.ms[before] ?? 0) - DAY_MS / 2) dayMs += DAY_MS;
      wallMs[row] = dayMs + (rows.ms[row] ?? 0) - (ownOffsetMs ?? 0);
    });
  }
  return resolve(rows, wallMs, tracks, zone, context, () => ownOffsetMs === undefined);
}

/** The offset that a start was written with, from the difference of its figures to its instant. */
function writtenOffsetMs(text: string, start: Moment): number {
  const read = readStart(text.trim().replace(/\s*(?:Z|UTC|GMT|[+-]\d{2}:?(?:\d{2})?)$/i, ''), true);
  return read.ok && !read.value.isInstant ? read.value.ms - start.ms : 0;
}

/** A channel's rows in the order of time: turned round when nearly every step goes backward. */
function inOrderOfTime(track: readonly number[], ms: readonly number[]): readonly number[] {
  let up = 0;
  let down = 0;
  track.forEach((row, index) => {
    const step = index === 0 ? 0 : (ms[row] ?? 0) - (ms[track[index - 1] ?? 0] ?? 0);
    if (step > 0) up += 1;
    else if (step < 0) down += 1;
  });
  return down >= 3 && down > 3 * up ? track.toReversed() : track;
}
