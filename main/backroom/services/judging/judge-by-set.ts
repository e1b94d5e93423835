/** Judging a composed case by one set, each limit with the error of the thermometers it reads. */
import type { CheckResult } from '../../../../app/limits/judge.ts';
import type { JudgeCase } from '../../../../app/limits/judge-case.ts';
import { judgeSet, type SetResult, type SetUnit } from '../../../../app/limits/judge-set.ts';
import { findCheck, QUESTIONS, type Check, type LimitBook, type LimitSet, type Question } from '../../../../app/limits/limit-set.ts';
import { verdictWords } from '../../../../app/limits/set-words.ts';
import { worst } from '../../../../app/limits/verdict.ts';
import type { Words } from '../../../../app/limits/words.ts';
import type { ComposedCase } from './compose.ts';
import type { RecordErrors } from './instrument-errors.ts';
import { neededSentence } from './needed.ts';

/**
 * What no record is judged for yet: fish as received and thawed, the room it dried in, and the review of the
 * finished record. They are recorded, named under “not judged here”, and keep nothing from being packed.
 */
const NOT_JUDGED_YET: readonly Question[] = ['raw', 'thaw', 'dry', 'record'];

/**
 * Judges a case by a set.
 *
 * The judge takes one error for a whole case, but a freezer's thermometer says nothing of a probe in fish. So the
 * set is judged with the error of the pieces, and the questions that read other places once more with theirs; each
 * limit is taken from the judging with the error of the places it reads: the largest of theirs, the strict side.
 */
export function judgeBySet(book: LimitBook, set: LimitSet, { judgeCase, errors }: ComposedCase, words: Words): SetResult {
  const errorOf = (unit: SetUnit): number => errors[roleRead(findCheck(book, unit.deciding.checkId))];
  const judgeWith = (errorTicks: number, leaveOut: readonly Question[]): SetResult =>
    judgeSet(set, { ...judgeCase, errorTicks }, book, { words, paper: true, leaveOut: [...NOT_JUDGED_YET, ...leaveOut] });
  const base = judgeWith(errors.piece, []);
  const again = new Map<number, SetResult>();
  const units = base.units.map((unit) => {
    const errorTicks = errorOf(unit);
    if (errorTicks === errors.piece) return unit;
    const asked = new Set(base.units.filter((one) => errorOf(one) === errorTicks).map((one) => one.question));
    const result = again.get(errorTicks) ?? judgeWith(errorTicks, QUESTIONS.filter((question) => !asked.has(question)));
    again.set(errorTicks, result);
    return result.units.find((one) => one.checks[0]?.checkId === unit.checks[0]?.checkId) ?? unit;
  }).map((unit) => withNeeded(book, unit, { ...judgeCase, errorTicks: 0 }, words));
  const verdicts = units.map((unit) => unit.verdict);
  const verdict = worst(verdicts);
  return { ...base, verdict, units, checks: units.flatMap((unit) => unit.checks), words: verdictWords(set, verdicts, verdict, base.notJudgedHere) };
}

/** The kind of place whose thermometers a check reads; what reads none is the same under every error. */
function roleRead(check: Check | undefined): keyof RecordErrors {
  switch (check?.kind) {
    case 'ceiling': return check.reads === 'water' ? 'piece' : check.reads;
    case 'freeze': return 'store';
    case 'brine-start': return 'brine';
    case 'soak-room': return 'room';
    default: return 'piece';
  }
}

function withNeeded(book: LimitBook, unit: SetUnit, judged: JudgeCase, words: Words): SetUnit {
  const dress = (result: CheckResult): CheckResult => ({ ...result, needed: neededSentence(findCheck(book, result.checkId), result, judged, words) });
  return { ...unit, deciding: dress(unit.deciding), checks: unit.checks.map(dress) };
}
