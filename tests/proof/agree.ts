/** One drawn case judged twice: by the program, and by the second opinion. */
import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { holdsNamed, judgeCheck, type CheckResult } from '../../app/limits/judge.ts';
import type { JudgeContext } from '../../app/limits/finding.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { needCheck } from '../support/judge-cases.ts';
import { limitBook } from '../support/judged-log.ts';
import { caseSeed, Dice } from './dice.ts';
import { PROOF_KINDS, type ProofCase, type ProofKind } from './kinds.ts';
import type { Opinion } from './naive/record.ts';

/** Two results that differ, with all that is needed to see why. */
export interface Disagreement {
  readonly kind: string;
  readonly seed: number;
  readonly drawn: ProofCase;
  /** Undefined where the judge threw: then the reason says what. */
  readonly judge: Opinion | undefined;
  readonly again: Opinion;
  readonly reason: string;
}

const FIGURES = ['provenMinutes', 'possibleMinutes', 'shortestMinutes', 'longestMinutes'] as const;
const HOLDS = holdsNamed(limitBook, ['HOT-145-30']);

/** Seeds that failed once and are tried first for ever after. */
export const KEPT_SEEDS = z.array(z.strictObject({ kind: z.string(), seed: z.int(), why: z.string() }))
  .parse(JSON.parse(readFileSync(new URL('kept-seeds.json', import.meta.url), 'utf8')));

/** The kind of this name; throws for an unknown one. */
export function needKind(name: string): ProofKind {
  const kind = PROOF_KINDS.find((one) => one.name === name);
  if (kind === undefined) throw new Error(`no kind ${name} among ${PROOF_KINDS.map((one) => one.name).join(', ')}`);
  return kind;
}

/** Draws the case of one seed and compares both results; undefined where they agree. */
export function compareSeed(kind: ProofKind, seed: number): Disagreement | undefined {
  const drawn = kind.draw(new Dice(seed));
  const context: JudgeContext = { words: minuteWords('F'), alone: true, holds: HOLDS, together: drawn.together, probesAsked: drawn.piecesAsked };
  const again = withinError(kind, drawn);
  let judge: CheckResult;
  try {
    judge = judgeCheck(needCheck(drawn.checkId), drawn.batch, context);
  } catch (fault) {
    return { kind: kind.name, seed, drawn, again, judge: undefined, reason: fault instanceof Error ? fault.stack ?? fault.message : String(fault) };
  }
  const agrees = judge.verdict === again.verdict && FIGURES.every((figure) => again[figure] === undefined || again[figure] === judge[figure]);
  if (agrees) return undefined;
  return { kind: kind.name, seed, drawn, again, reason: judge.reason, judge: { verdict: judge.verdict, ...Object.fromEntries(FIGURES.map((figure) => [figure, judge[figure]])) } };
}

/** The cases of a kind that a run draws: the kept ones first, then so many by number. */
export function seedsOf(kindName: string, runSeed: number, from: number, to: number): number[] {
  const fresh = Array.from({ length: Math.max(0, to - from) }, (_, index) => caseSeed(kindName, runSeed, from + index));
  return from === 0 ? [...KEPT_SEEDS.filter(({ kind }) => kind === kindName).map(({ seed }) => seed), ...fresh] : fresh;
}

/** A case that meets is judged again with the thermometer's error. */
function withinError(kind: ProofKind, drawn: ProofCase): Opinion {
  const plain = kind.judgeAgain(drawn, 0);
  const { errorTicks } = drawn.batch;
  if (plain.verdict !== 'meets' || errorTicks === 0) return plain;
  return kind.judgeAgain(drawn, errorTicks).verdict === 'meets' ? plain : { ...plain, verdict: 'meets-within-error' };
}
