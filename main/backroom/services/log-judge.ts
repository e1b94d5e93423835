/** Judging a record without a book: minutes and degrees in, the judge's verdict out. Pure. */
import type { LogJudgeIn, LogJudgeOut } from '../../../app/contract/requests/log-judge.ts';
import { aloneContext, isPaper, judgeCheck, type CheckResult } from '../../../app/limits/judge.ts';
import type { JudgeCase, MeasuredPoint, Reading, RecordSpan } from '../../../app/limits/judge-case.ts';
import { judgeSet } from '../../../app/limits/judge-set.ts';
import { findCheck, findSet, type Check, type LimitBook } from '../../../app/limits/limit-set.ts';
import { worst } from '../../../app/limits/verdict.ts';
import { minuteWords } from '../../../app/limits/words.ts';
import { differenceTicks, ticksFromDecimal } from '../../../app/measures/temperature.ts';
import { refuseInput } from './field-refusal.ts';

const MINUTE_MS = 60_000;
const DEFAULT_SET = 'lodge-default';

/** What this service needs of the back room. */
export interface JudgeRoom {
  readonly limits: LimitBook;
}

export const logJudgeServices = { 'log.judge': judgeLog };

/** Judges by one set, or by single checks, each alone; `verdict` is the worst. */
function judgeLog(room: JudgeRoom, input: LogJudgeIn): LogJudgeOut {
  refuseBoth(input);
  const judged = caseOf(input);
  const words = minuteWords(input.readings.unit);
  if (input.checkIds !== undefined) {
    const checks = [...new Set(input.checkIds)].map((id) => chosenCheck(room.limits, id, input.checkIds?.indexOf(id) ?? 0));
    const results = checks.map((check) => judgeCheck(check, judged, aloneContext(room.limits, words)));
    return { verdict: worst(results.map((result) => result.verdict)), checks: results.map(shownResult) };
  }
  const setId = input.setId ?? DEFAULT_SET;
  const set = findSet(room.limits, setId);
  if (set === undefined) {
    refuseInput(`There is no limit set “${setId}”.`, ['setId'], `Choose one of ${room.limits.sets.map((one) => one.id).join(', ')}.`);
  }
  const { verdict, checks } = judgeSet(set, judged, room.limits, { words, paper: false });
  return { verdict, checks: checks.map(shownResult) };
}

function refuseBoth(input: LogJudgeIn): void {
  if (input.setId !== undefined && input.checkIds !== undefined) {
    refuseInput('A limit set and single checks are both given.', ['checkIds'], 'Give setId or checkIds, not both.');
  }
  const { inMinute, outMinute } = input.marks ?? {};
  if (inMinute !== undefined && outMinute !== undefined && outMinute < inMinute) {
    refuseInput(`The out mark (minute ${outMinute}) is before the in mark (minute ${inMinute}).`, ['marks', 'outMinute'], 'Give an out mark at or after the in mark.');
  }
  input.saltSamples?.forEach(({ saltPercent, moisturePercent }, index) => {
    if (moisturePercent === 0) refuseInput('A sample of fish is never without moisture.', ['saltSamples', index, 'moisturePercent'], 'Give the moisture in per cent of the finished fish.');
    if (saltPercent + moisturePercent > 100) refuseInput('Salt and moisture of a sample are more than 100 % together.', ['saltSamples', index], 'Give both in per cent of the finished fish.');
  });
}

function chosenCheck(limits: LimitBook, checkId: string, index: number): Check {
  const check = findCheck(limits, checkId);
  if (check === undefined) refuseInput(`There is no check “${checkId}”.`, ['checkIds', index], 'Use the ids of the checks in this program’s limit sets, such as HOT-145-30.');
  if (isPaper(check)) refuseInput(`${checkId} is judged by records on paper, which this request has no field for.`, ['checkIds', index], 'Leave it out.');
  return check;
}

/** The request as a case. Its marks are of whatever place is judged; the out mark closes all but the cooling. */
function caseOf(input: LogJudgeIn): JudgeCase {
  const marks = input.marks ?? {};
  const span: RecordSpan = { inMs: msOf(marks.inMinute), outMs: msOf(marks.outMinute), open: input.open === true };
  return {
    process: input.process,
    species: input.species,
    pack: input.pack,
    store: input.store,
    points: input.readings.places.map((place, index): MeasuredPoint => ({
      name: place.name, role: place.role, readings: place.points.map((point, at) => readingOf(point, input.readings.unit, ['readings', 'places', index, 'points', at])),
    })),
    records: { process: span, soak: span, freezer: span, store: span },
    endOfSmokingMs: msOf(marks.endOfSmokingMinute),
    sealedMs: msOf(marks.sealedMinute),
    frozenMs: msOf(marks.frozenMinute),
    nominalIntervalMs: msOf(input.nominalIntervalMinutes),
    maxGapMs: msOf(input.maxGapMinutes),
    errorTicks: differenceTicks(input.instrumentError ?? 0, input.readings.unit),
    saltSamples: (input.saltSamples ?? []).map((sample) => ({
      saltPercent: String(sample.saltPercent), moisturePercent: String(sample.moisturePercent),
      nitritePpm: sample.nitritePpm === undefined ? undefined : String(sample.nitritePpm),
    })),
    readingsStandForMarks: true,
  };
}

function readingOf([minute, value]: readonly [number, number], unit: 'F' | 'C', path: readonly (string | number)[]): Reading {
  const ticks = ticksFromDecimal(String(value), unit);
  if (!ticks.ok) refuseInput(ticks.problem.message, path, ticks.problem.remedy ?? 'Give a plain number.');
  return { atMs: Math.round(minute * MINUTE_MS), ...ticks.value };
}

function msOf(minutes: number | undefined): number | undefined {
  return minutes === undefined ? undefined : Math.round(minutes * MINUTE_MS);
}

function shownResult(result: CheckResult): LogJudgeOut['checks'][number] {
  const figure = <K extends 'provenMinutes' | 'possibleMinutes' | 'shortestMinutes' | 'longestMinutes'>(key: K) => (result[key] === undefined ? {} : { [key]: result[key] });
  return {
    checkId: result.checkId,
    verdict: result.verdict,
    reason: result.reason,
    ...figure('provenMinutes'), ...figure('possibleMinutes'), ...figure('shortestMinutes'), ...figure('longestMinutes'),
    spans: result.spans.map((span) => ({ fromMinute: span.fromMs / MINUTE_MS, toMinute: span.toMs / MINUTE_MS, counts: span.counts, why: span.why })),
  };
}
