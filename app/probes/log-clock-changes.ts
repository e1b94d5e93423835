/**
 * Wall times of rows to instants. Where a clock was put back, the same times come twice; a single
 * jump back in a log that otherwise goes on evenly shows where the second pass begins. Whatever
 * the rows don't show is asked.
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import type { LogQuestion } from './log-types.ts';
import { countOf, describeDay, describeWall } from './log-words.ts';
import type { LogZone } from './log-zone.ts';

export const CLOCK_CHANGE_CHOICES = ['first', 'second', 'repeat', 'not-changed', 'refuse'] as const;

interface WallRows {
  /** Wall time in ms; instants are left as they are. */
  readonly ms: readonly number[];
  readonly isWall: (row: number) => boolean;
  readonly lines: readonly number[];
  /** Rows of each channel in the order of time (a log written newest first is turned round before). */
  readonly tracks: readonly (readonly number[])[];
}

interface ResolvedRows {
  readonly atMs: number[];
  /** Rows left out on a person's word, with the reason. */
  readonly refused: ReadonlyMap<number, string>;
  readonly question: LogQuestion | undefined;
}

/** Rows in an hour that came twice, in the order of their track. */
interface Repeated {
  readonly rows: number[];
  readonly positions: number[];
  readonly track: readonly number[];
}

/**
 * Resolves all wall times of a log in a zone.
 * @param answer a person's answer to the question `clockChange`
 * @returns instants, or a problem when the answer isn't one of the choices
 */
export function resolveWalls(input: WallRows, zone: LogZone, answer: string | undefined): Outcome<ResolvedRows> {
  const atMs = [...input.ms];
  const repeated: Repeated[] = [];
  const skipped: number[] = [];
  let steadyOffsetMs: number | undefined;
  for (const track of input.tracks) {
    let group: Repeated | undefined;
    track.forEach((row, position) => {
      if (!input.isWall(row)) return;
      const wallMs = input.ms[row] ?? 0;
      const meaning = zone.meaningOf(wallMs);
      if (meaning.kind === 'one') {
        atMs[row] = meaning.atMs;
        steadyOffsetMs ??= wallMs - meaning.atMs;
      } else if (meaning.kind === 'skipped') {
        skipped.push(row);
      } else {
        atMs[row] = meaning.earlierMs;
        if (group === undefined || Math.abs((input.ms[group.rows[0] ?? 0] ?? 0) - wallMs) > 3 * 3_600_000) {
          group = { rows: [], positions: [], track };
          repeated.push(group);
        }
        group.rows.push(row);
        group.positions.push(position);
      }
    });
  }
  const open = repeated.filter((group) => !settleByJump(group, input, atMs, zone));
  if (open.length === 0 && skipped.length === 0) return good({ atMs, refused: new Map(), question: undefined });
  const question = askClockChange(open, skipped, input, steadyOffsetMs !== undefined);
  if (answer === undefined) return good({ atMs, refused: new Map(), question });
  if (!question.choices.some((choice) => choice.id === answer)) {
    return bad(`“${answer.slice(0, 40)}” is not one of the choices for the clock change.`, 'answers.clockChange', `Choose one of: ${question.choices.map((choice) => choice.id).join(', ')}.`);
  }
  return good(applyAnswer(answer, open, skipped, { ...input, atMs, zone, steadyOffsetMs: steadyOffsetMs ?? 0 }));
}

/** Settles a repeated hour by its one jump back, if everything fits: `true` when settled. */
function settleByJump(group: Repeated, input: WallRows, atMs: number[], zone: LogZone): boolean {
  const { rows, positions, track } = group;
  const jumps = jumpsBack(group, input.ms);
  const [jump] = jumps;
  if (jump === undefined || jumps.length > 1) return false;
  if ((positions.at(-1) ?? 0) - (positions[0] ?? 0) !== rows.length - 1) return false;
  const later = rows.map((row, index) => (index < jump ? (atMs[row] ?? 0) : laterOf(zone, input.ms[row] ?? 0)));
  const step = (later[jump] ?? 0) - (later[jump - 1] ?? 0);
  const usual = usualStepMs(track, input.ms);
  if (usual !== undefined && step > 3 * usual + 60_000) return false;
  const before = track[(positions[0] ?? 0) - 1];
  const after = track[(positions.at(-1) ?? 0) + 1];
  if (before !== undefined && (atMs[before] ?? 0) > (later[0] ?? 0)) return false;
  if (after !== undefined && (atMs[after] ?? 0) < (later.at(-1) ?? 0)) return false;
  rows.forEach((row, index) => (atMs[row] = later[index] ?? 0));
  return true;
}

function jumpsBack(group: Repeated, wallMs: readonly number[], orSame = false): number[] {
  return group.rows.flatMap((row, index) => {
    const step = (wallMs[row] ?? 0) - (wallMs[group.rows[index - 1] ?? row] ?? 0);
    return index > 0 && (step < 0 || (orSame && step === 0)) ? [index] : [];
  });
}

function laterOf(zone: LogZone, wallMs: number): number {
  const meaning = zone.meaningOf(wallMs);
  return meaning.kind === 'repeated' ? meaning.laterMs : meaning.kind === 'one' ? meaning.atMs : wallMs;
}

/** The median of a track's steps above zero; `undefined` with fewer than two of them. */
function usualStepMs(track: readonly number[], wallMs: readonly number[]): number | undefined {
  const steps = track.flatMap((row, index) => {
    const step = index === 0 ? 0 : (wallMs[row] ?? 0) - (wallMs[track[index - 1] ?? 0] ?? 0);
    return step > 0 ? [step] : [];
  });
  return steps.length < 2 ? undefined : steps.toSorted((left, right) => left - right)[Math.floor((steps.length - 1) / 2)];
}

function askClockChange(open: readonly Repeated[], skipped: readonly number[], input: WallRows, canStay: boolean): LogQuestion {
  const stay = canStay ? [{ id: 'not-changed', text: 'The logger’s clock was not changed: it went on with the time from before' }] : [];
  const refuse = { id: 'refuse', text: 'Leave these rows out' };
  const [lost] = skipped;
  if (lost !== undefined) {
    const rows = countOf(skipped.length, 'row');
    const text = `${describeWall(input.ms[lost] ?? 0)} on line ${input.lines[lost]} did not exist: the clocks went forward over it (${rows}). How did the logger’s clock go?`;
    return { id: 'clockChange', text, choices: [...stay, refuse] };
  }
  const rows = open.flatMap((group) => group.rows);
  const first = rows[0] ?? 0;
  const jumps = open.map((group) => jumpsBack(group, input.ms, true)[0]);
  const [group] = open;
  const jumpRow = group?.rows[jumps[0] ?? -1];
  const repeat =
    jumpRow === undefined || jumps.includes(undefined)
      ? []
      : [{ id: 'repeat', text: `Up to line ${(input.lines[jumpRow] ?? 0) - 1} the first time, from line ${input.lines[jumpRow]} on the second` }];
  return {
    id: 'clockChange',
    text: `On ${describeDay(input.ms[first] ?? 0)} the clocks went back, so the times of ${countOf(rows.length, 'row')} from line ${input.lines[first]} on came twice. Which are these?`,
    choices: [
      { id: 'first', text: 'All are the first time, before the clocks went back' },
      { id: 'second', text: 'All are the second time, after the clocks went back' },
      ...repeat,
      ...stay,
      refuse,
    ],
  };
}

interface Answered extends WallRows {
  readonly atMs: number[];
  readonly zone: LogZone;
  readonly steadyOffsetMs: number;
}

function applyAnswer(answer: string, open: readonly Repeated[], skipped: readonly number[], input: Answered): ResolvedRows {
  const { atMs, ms, zone } = input;
  const refused = new Map<number, string>();
  if (answer === 'not-changed') {
    for (const row of input.tracks.flat()) if (input.isWall(row)) atMs[row] = (ms[row] ?? 0) - input.steadyOffsetMs;
    return { atMs, refused, question: undefined };
  }
  for (const row of skipped) refused.set(row, `${describeWall(ms[row] ?? 0)} did not exist: the clocks went forward over it.`);
  for (const group of open) {
    const jump = jumpsBack(group, ms, true)[0] ?? 0;
    group.rows.forEach((row, index) => {
      if (answer === 'refuse') refused.set(row, `${describeWall(ms[row] ?? 0)} came twice, and the file doesn’t say which it was.`);
      else if (answer === 'second' || (answer === 'repeat' && index >= jump)) atMs[row] = laterOf(zone, ms[row] ?? 0);
    });
  }
  return { atMs, refused, question: undefined };
}
