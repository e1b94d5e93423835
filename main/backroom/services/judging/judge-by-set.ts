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
 * What comes before the smoker and often has no record of its own. Where what was read breaks a limit, or proves
 * it, it is judged; where too little was read to say either, it is named under “not judged here” and keeps
 * nothing back: no kitchen is asked for a record that it was never told to keep.
 */
const JUDGED_WHERE_SHOWN: readonly Question[] = ['raw', 'thaw', 'dry'];

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
    judgeSet(set, { ...judgeCase, errorTicks }, book, { words, paper: true, leaveOut });
  const base = judgeWith(errors.piece, []);
  const again = new Map<number, SetResult>();
  const units = base.units.map((unit) => {
    const errorTicks = errorOf(unit);
    if (errorTicks === errors.piece) return unit;
    const asked = new Set(base.units.filter((one) => errorOf(one) === errorTicks).map((one) => one.question));
    const result = again.get(errorTicks) ?? judgeWith(errorTicks, QUESTIONS.filter((question) => !asked.has(question)));
    again.set(errorTicks, result);
    return result.units.find((one) => one.checks[0]?.checkId === unit.checks[0]?.checkId) ?? unit;
  }).map((unit) => withNeeded(book, unit, { ...judgeCase, errorTicks: 0 }, words)).filter((unit) => !isUnshown(unit));
  const unshown = [...new Set(base.units.filter(isUnshown).map((unit) => unit.question))].filter((question) => !units.some((unit) => unit.question === question));
  const notJudgedHere = [...unshown, ...base.notJudgedHere.filter((name) => !unshown.some((question) => question === name))].sort(inOrderOfQuestions);
  const verdicts = units.map((unit) => unit.verdict);
  const verdict = worst(verdicts);
  return { ...base, verdict, units, checks: units.flatMap((unit) => unit.checks), notJudgedHere, words: verdictWords(set, verdicts, verdict, notJudgedHere) };
}

/** Too little was read to say either way. */
function isUnshown({ question, verdict }: SetUnit): boolean {
  return JUDGED_WHERE_SHOWN.includes(question) && (verdict === 'not-proven' || verdict === 'open' || verdict === 'no-figure');
}

/** Titles of papers stay behind the questions. */
function inOrderOfQuestions(left: string, right: string): number {
  const place = (name: string) => (QUESTIONS.findIndex((question) => question === name) + QUESTIONS.length + 1) % (QUESTIONS.length + 1);
  return place(left) - place(right);
}

/** The kind of place whose thermometers a check reads; what reads none is the same under every error. */
function roleRead(check: Check | undefined): keyof RecordErrors {
  switch (check?.kind) {
    case 'ceiling': return check.reads === 'water' ? 'piece' : check.reads === 'piece' && (check.record === 'raw' || check.record === 'thaw') ? 'raw' : check.reads;
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
