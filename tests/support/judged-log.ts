/** Runs `log.judge` the way a caller does: input and output both checked against the contract. */
import { readdirSync, readFileSync } from 'node:fs';
import type { z } from 'zod';
import { bookOfLimits } from '../../app/contract/assets-limits.ts';
import { LogJudgeIn, LogJudgeOut } from '../../app/contract/requests/log-judge.ts';
import type { LimitBook } from '../../app/limits/limit-set.ts';
import { logJudgeServices } from '../../main/backroom/services/log-judge.ts';

const FOLDER = new URL('../../assets/limits/', import.meta.url);

/** The book of limits that comes with the program. */
export const limitBook: LimitBook = readBook();

export type LogInput = z.input<typeof LogJudgeIn>;
export type Places = LogInput['readings']['places'];
export type Points = [number, number][];

/** The answer to one request; throws a refusal for bad input. */
export function judgeLog(input: LogInput): LogJudgeOut {
  return LogJudgeOut.parse(logJudgeServices['log.judge']({ limits: limitBook }, LogJudgeIn.parse(input)));
}

/** One check of an answer; throws when it is not there. */
export function checkIn(answer: LogJudgeOut, checkId: string): LogJudgeOut['checks'][number] {
  const found = answer.checks.find((check) => check.checkId === checkId);
  if (found === undefined) throw new Error(`no ${checkId} in ${answer.checks.map((check) => check.checkId).join(', ')}`);
  return found;
}

/** One check judged alone over °F readings of one place. */
export function judgeOne(checkId: string, role: Places[number]['role'], points: Points, more: Partial<LogInput> = {}): LogJudgeOut['checks'][number] {
  return checkIn(judgeLog({ process: checkId.startsWith('COLD') ? 'cold' : 'hot', readings: { unit: 'F', places: [{ name: 'A', role, points }] }, checkIds: [checkId], ...more }), checkId);
}

/** The same value from one minute to another, a reading each step, both ends included. */
export function steady(value: number, from: number, to: number, step: number): Points {
  const points: Points = [];
  for (let minute = from; minute <= to + 1e-9; minute += step) points.push([minute, value]);
  return points;
}

/** Turning points in hours as points in minutes. */
export function inHours(points: Points): Points {
  return points.map(([hour, value]) => [hour * 60, value]);
}

/** Readings every `step` minutes on the straight lines between turning points in minutes; the turning points themselves are kept. */
export function onStraightLines(turns: Points, step: number): Points {
  return turns.flatMap(([minute, value], index): Points => {
    const next = turns[index + 1];
    if (next === undefined) return [[minute, value]];
    const line: Points = [];
    for (let at = minute; at < next[0] - 1e-9; at += step) {
      line.push([at, Math.round((value + ((next[1] - value) * (at - minute)) / (next[0] - minute)) * 1000) / 1000]);
    }
    return line;
  });
}

function readBook(): LimitBook {
  const read = (name: string): unknown => JSON.parse(readFileSync(new URL(name, FOLDER), 'utf8'));
  const names = readdirSync(FOLDER).filter((name) => name.endsWith('.json'));
  return bookOfLimits(read('checks.json'), names.filter((name) => name !== 'checks.json').map(read));
}
