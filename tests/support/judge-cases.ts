/** Builds cases for the judge from readings in minutes and °F. */
import { aloneContext, judgeCheck, type CheckResult } from '../../app/limits/judge.ts';
import type { JudgeCase, MeasuredPoint, Reading } from '../../app/limits/judge-case.ts';
import { findCheck, findSet, type Check, type LimitSet } from '../../app/limits/limit-set.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { ticksFromNumber } from '../../app/measures/temperature.ts';
import { limitBook, type Points } from './judged-log.ts';

const CLOSED = { open: false };

/** Milliseconds of so many minutes. */
export function minutes(count: number): number {
  return Math.round(count * 60_000);
}

export function ticksF(fahrenheit: number): number {
  return ticksFromNumber(fahrenheit, 'F').lowTicks;
}

export function readingsF(points: Points): Reading[] {
  return points.map(([minute, value]) => ({ atMs: minutes(minute), ...ticksFromNumber(value, 'F') }));
}

export function pieceF(name: string, points: Points, more: Partial<MeasuredPoint> = {}): MeasuredPoint {
  return { name, role: 'piece', readings: readingsF(points), ...more };
}

/** A closed hot batch with nothing known but its points. */
export function batchOf(points: readonly MeasuredPoint[], more: Partial<JudgeCase> = {}): JudgeCase {
  return { process: 'hot', points, records: { process: CLOSED, soak: CLOSED, freezer: CLOSED, store: CLOSED }, errorTicks: 0, saltSamples: [], ...more };
}

/** The same batch with its process record running. */
export function running(batch: JudgeCase): JudgeCase {
  return { ...batch, records: { ...batch.records, process: { ...batch.records.process, open: true } } };
}

export function needCheck(checkId: string): Check {
  const check = findCheck(limitBook, checkId);
  if (check === undefined) throw new Error(`no check ${checkId}`);
  return check;
}

export function needSet(setId: string): LimitSet {
  const set = findSet(limitBook, setId);
  if (set === undefined) throw new Error(`no set ${setId}`);
  return set;
}

/** One check judged alone, in minutes. */
export function judgeAlone(checkId: string, batch: JudgeCase): CheckResult {
  return judgeCheck(needCheck(checkId), batch, aloneContext(limitBook, minuteWords('F')));
}
