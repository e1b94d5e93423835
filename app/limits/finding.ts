/** What judging one check finds, before it is dressed as a result. */
import type { Verdict } from './verdict.ts';
import { compareVerdicts } from './verdict.ts';
import type { HoldCheck } from './limit-set.ts';
import type { Words } from './words.ts';

/** A stretch of the record, and whether it speaks for the limit. */
export interface Span {
  readonly fromMs: number;
  readonly toMs: number;
  readonly counts: boolean;
  readonly why: string;
  readonly pointId?: string | undefined;
}

/** One piece's or place's share of a check. */
export interface PlaceFinding {
  readonly name: string;
  readonly pointId?: string | undefined;
  readonly verdict: Verdict;
  readonly text: string;
  readonly provenMs?: number | undefined;
  readonly possibleMs?: number | undefined;
  readonly shortestMs?: number | undefined;
  readonly longestMs?: number | undefined;
}

export interface Finding {
  readonly verdict: Verdict;
  /** A plain sentence with the figures. */
  readonly reason: string;
  /** What would have been needed, or still is; empty when met. */
  readonly needed: string;
  readonly spans: readonly Span[];
  readonly places: readonly PlaceFinding[];
  readonly requiredMs?: number | undefined;
  readonly provenMs?: number | undefined;
  readonly possibleMs?: number | undefined;
  readonly shortestMs?: number | undefined;
  readonly longestMs?: number | undefined;
  /** A relaxing check whose conditions are not known: no part of a group. */
  readonly takesNoPart?: boolean | undefined;
}

/** How a check is judged beside the record itself. */
export interface JudgeContext {
  readonly words: Words;
  /** Judged alone, by its id; else as part of a set. */
  readonly alone: boolean;
  /** The holds that a descent starts after and a probe count spans: the deciding set's, alone HOT-145-30. */
  readonly holds: readonly HoldCheck[];
  /** The hold is one common stretch of all pieces. */
  readonly together: boolean;
  /** How many pieces the set asks; 1 where it asks none. */
  readonly probesAsked: number;
}

/** A finding without spans or places. */
export function plainFinding(verdict: Verdict, reason: string, needed = ''): Finding {
  return { verdict, reason, needed, spans: [], places: [] };
}

/** Code-unit order, so that the order of input never decides between equals. */
export function compareNames(left: string, right: string): number {
  return left < right ? -1 : left > right ? 1 : 0;
}

/** The worst of several by verdict, then by `tie` (below zero: the first is worse); throws for none. */
export function worstBy<T extends { readonly verdict: Verdict }>(items: readonly T[], tie: (left: T, right: T) => number): T {
  const [first, ...rest] = items;
  if (first === undefined) throw new Error('nothing to choose the worst of');
  return rest.reduce((found, next) => ((compareVerdicts(next.verdict, found.verdict) || tie(next, found)) < 0 ? next : found), first);
}
