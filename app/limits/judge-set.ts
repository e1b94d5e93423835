/** Judging a batch by a whole set: every question it raises, either/or groups by their best option, silence as no figure. */
import { fitOf } from './conditions.ts';
import { plainFinding, type Finding, type JudgeContext } from './finding.ts';
import { holdsNamed, isPaper, judgeCheck, type CheckResult } from './judge.ts';
import type { JudgeCase } from './judge-case.ts';
import { findCheck, QUESTIONS, sourceOf, type Answer, type Check, type Gate, type LimitBook, type LimitSet, type Question } from './limit-set.ts';
import { judgeScheduledProcess, type ScheduledProcess } from './scheduled-process.ts';
import { isRaised, mustAnswer, QUESTION_GATES } from './questions.ts';
import { verdictWords } from './set-words.ts';
import { best, worst, type Verdict } from './verdict.ts';
import type { Words } from './words.ts';

export interface SetOptions {
  readonly words: Words;
  /** Whether records on paper (review, reuse of brine) are judged by the case's facts; else they are left out. */
  readonly paper: boolean;
  /** Questions that no record is kept for yet: named under “not judged here”. */
  readonly leaveOut?: readonly Question[] | undefined;
}

/** One limit of a set: a check, a group of options, or a silence. */
export interface SetUnit {
  readonly question: Question;
  readonly gate: Gate;
  readonly verdict: Verdict;
  /** The check, or the best option of the group. */
  readonly deciding: CheckResult;
  readonly checks: readonly CheckResult[];
}

export interface SetResult {
  readonly setId: string;
  readonly setName: string;
  readonly version: string;
  readonly verdict: Verdict;
  /** “Meets all 6 limits of …; not judged here: …” */
  readonly words: string;
  readonly units: readonly SetUnit[];
  /** Every check of every unit, in the order of the questions. */
  readonly checks: readonly CheckResult[];
  readonly notJudgedHere: readonly string[];
  readonly correctiveActs: readonly string[];
  /** The marks that a gate looks at. */
  readonly sealedMs?: number | undefined;
  readonly frozenMs?: number | undefined;
  readonly thawedMs?: number | undefined;
  readonly labelledAsSealed?: boolean | undefined;
}

/** Judges a batch by a set of the book. */
export function judgeSet(set: LimitSet, judged: JudgeCase, book: LimitBook, options: SetOptions): SetResult {
  const notJudgedHere: string[] = [];
  const context = contextOf(set, judged, book, options.words);
  const units = QUESTIONS.flatMap((question) => judgeQuestion(question, { set, judged, book, options, context, notJudgedHere }));
  const verdict = worst(units.map((unit) => unit.verdict));
  return {
    setId: set.id, setName: set.name, version: set.version, verdict,
    words: verdictWords(set, units.map((unit) => unit.verdict), verdict, notJudgedHere),
    units, checks: units.flatMap((unit) => unit.checks), notJudgedHere, correctiveActs: set.correctiveActs,
    sealedMs: judged.sealedMs, frozenMs: judged.frozenMs, thawedMs: judged.thawedMs, labelledAsSealed: judged.facts?.labelledAsSealed,
  };
}

/** How a set judges its checks: its hold, whether together, and how many pieces it asks. */
export function contextOf(set: LimitSet, judged: JudgeCase, book: LimitBook, words: Words): JudgeContext {
  const chamber = answersTo(set, 'chamber', judged);
  const ids = chamber.flatMap((answer) => [...(answer.checks ?? []), ...(answer.oneOf ?? [])]);
  const asked = ids.map((id) => findCheck(book, id)).flatMap((check) => (check?.kind === 'probe-count' ? [check.pieces] : []));
  return { words, alone: false, holds: holdsNamed(book, ids), together: chamber.some((answer) => answer.together === true), probesAsked: Math.max(1, ...asked) };
}

interface QuestionInput {
  readonly set: LimitSet;
  readonly judged: JudgeCase;
  readonly book: LimitBook;
  readonly options: SetOptions;
  readonly context: JudgeContext;
  readonly notJudgedHere: string[];
}

function judgeQuestion(question: Question, input: QuestionInput): SetUnit[] {
  const { set, judged, options, notJudgedHere } = input;
  const isOnPaper = question === 'record' && !options.paper;
  if (options.leaveOut?.includes(question) === true || isOnPaper) {
    notJudgedHere.push(question);
    return [];
  }
  const raised = isRaised(question, judged);
  const units: SetUnit[] = [];
  let isAnswered = false;
  for (const answer of answersTo(set, question, judged)) {
    if (answer.noFigure !== undefined) {
      if (!raised) continue;
      units.push(silence(question, answer.noFigure));
      isAnswered = true;
      continue;
    }
    const found = judgeAnswer(answer, input);
    units.push(...found.units);
    if (answer.besides !== true && (found.isLeftOut || found.units.some((unit) => unit.verdict !== 'does-not-apply'))) isAnswered = true;
  }
  if (isAnswered || !raised) return units;
  if (mustAnswer(question, judged)) return [...units, silence(question, `${set.name} gives no figure for this.`)];
  if (question !== 'pack' && question !== 'parasite' && units.every((unit) => unit.verdict === 'does-not-apply')) notJudgedHere.push(question);
  return units;
}

function answersTo(set: LimitSet, question: Question, judged: JudgeCase): Answer[] {
  return set.answers.filter((answer) => answer.question === question && fitOf(answer.when, judged).fit !== 'contradicted');
}

/** The units of one answer; `isLeftOut` when a check of it is on paper and judged elsewhere. */
function judgeAnswer(answer: Answer, input: QuestionInput): { units: SetUnit[]; isLeftOut: boolean } {
  const { set, judged, options, context, notJudgedHere } = input;
  let isLeftOut = false;
  const checks = (answer.checks ?? answer.oneOf ?? []).map((id) => needCheck(input.book, id)).filter((check) => {
    const isKept = check.kind === 'presence' || check.kind === 'review' || judged.facts?.onFile !== undefined;
    const isHere = !isPaper(check) || (options.paper && isKept);
    if (!isHere) {
      isLeftOut = true;
      // A request without a book has no paper at all: there the whole kind goes unnamed. An exemption that can't be shown is no limit.
      if (options.paper && check.relaxes !== true && fitOf(check.conditions, judged).fit !== 'contradicted') notJudgedHere.push(check.title);
    }
    return isHere;
  });
  const results = checks.map((check) => judgeCheck(check, judged, context, sourceOf(check, set)));
  if (answer.oneOf === undefined) return { units: results.map((result) => withScheduled([result], judged, context)), isLeftOut };
  return { units: results.length === 0 ? [] : [withScheduled(results, judged, context)], isLeftOut };
}

/** A group's verdict is its best option; a scheduled process is one more option for a salt minimum. */
function withScheduled(results: readonly CheckResult[], judged: JudgeCase, context: JudgeContext): SetUnit {
  const first = results[0];
  if (first === undefined) throw new Error('a group without options');
  const asked = results.filter((result) => (result.kind === 'water-phase-salt' || result.kind === 'total-salt') && result.verdict !== 'does-not-apply');
  const route = asked.length > 0 && judged.scheduledProcess !== undefined ? routeOf(judged.scheduledProcess, asked, judged, context) : undefined;
  const scheduled: CheckResult[] = route === undefined ? [] : [{
    ...first, checkId: 'SCHEDULED', title: judged.scheduledProcess?.name ?? 'Scheduled process', verdict: route.verdict, reason: route.reason, needed: route.needed, takesNoPart: false, source: undefined,
  }];
  const options = [...results, ...scheduled];
  const taking = options.filter((option) => !option.takesNoPart);
  const verdict = best(taking.map((option) => option.verdict)) ?? worstLeft(options);
  const deciding = taking.find((option) => option.verdict === verdict) ?? first;
  return { question: first.question, gate: first.gate, verdict, deciding, checks: options };
}

/** The window verified by a laboratory is no proof where the batch's own sample misses every option. */
function routeOf(process: ScheduledProcess, asked: readonly CheckResult[], judged: JudgeCase, context: JudgeContext): Finding {
  const isContradicted = asked.every((result) => result.takesNoPart || result.verdict === 'misses') && asked.some((result) => result.verdict === 'misses' && !result.takesNoPart);
  if (!isContradicted) return judgeScheduledProcess(process, judged, context);
  return plainFinding('not-proven', `A laboratory sample of this batch misses the salt that ${process.name} promises.`, 'Samples of this batch at or above the limit.');
}

/** No option takes part: not proven where one might, else the group does not apply. */
function worstLeft(options: readonly CheckResult[]): Verdict {
  return options.some((option) => option.takesNoPart) ? 'not-proven' : 'does-not-apply';
}

function silence(question: Question, why: string): SetUnit {
  const gate = QUESTION_GATES[question];
  const result: CheckResult = {
    checkId: question, title: `No figure for ${question}`, question, gate, kind: 'no-figure', verdict: 'no-figure',
    reason: `${why} Silence is not a pass.`, needed: 'A figure of your own, from your process authority.', spans: [], pieces: [], takesNoPart: false, frozenStandsIn: false,
  };
  return { question, gate, verdict: 'no-figure', deciding: result, checks: [result] };
}

function needCheck(book: LimitBook, checkId: string): Check {
  const check = findCheck(book, checkId);
  if (check === undefined) throw new Error(`no check ${checkId}`);
  return check;
}
