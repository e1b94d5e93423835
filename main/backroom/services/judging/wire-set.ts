/** A set's result as it crosses the contract. */
import type { Confirmation } from '../../../../app/contract/requests/limits.ts';
import type { CheckResultWire, SetResultWire } from '../../../../app/contract/requests/verdict.ts';
import type { CheckResult } from '../../../../app/limits/judge.ts';
import type { SetResult, SetUnit } from '../../../../app/limits/judge-set.ts';
import { findCheck, type LimitBook, type LimitSet, type Source } from '../../../../app/limits/limit-set.ts';
import { isMet } from '../../../../app/limits/verdict.ts';
import { publishedIdOf } from '../own-set-book.ts';

/** Every limit of the set in the order of its questions, with its evidence and source. */
export function wireSet(book: LimitBook, set: LimitSet, result: SetResult, confirmed: ReadonlyMap<string, Confirmation>): SetResultWire {
  return {
    setId: result.setId, setName: result.setName, version: result.version, verdict: result.verdict, words: result.words,
    checks: result.units.flatMap(shownChecks).map((check) => wireCheck(book, set, check, confirmed)),
    notJudgedHere: [...result.notJudgedHere],
  };
}

/**
 * Of a choice between limits only the one that decides is shown once it is met or can't apply: a limit that
 * wasn't chosen is not one the batch fails. While none is met, every choice that applies is shown.
 */
function shownChecks(unit: SetUnit): readonly CheckResult[] {
  if (unit.checks.length === 1 || isMet(unit.verdict) || unit.verdict === 'does-not-apply') return [unit.deciding];
  const applying = unit.checks.filter((check) => check.verdict !== 'does-not-apply');
  return [unit.deciding, ...applying.filter((check) => check.checkId !== unit.deciding.checkId)];
}

function wireCheck(book: LimitBook, set: LimitSet, check: CheckResult, confirmed: ReadonlyMap<string, Confirmation>): CheckResultWire {
  return {
    checkId: check.checkId, title: check.title, question: check.question, gate: check.gate, verdict: check.verdict, reason: check.reason,
    ...minutesOf(check),
    spans: check.spans.map(({ fromMs, toMs, counts, why, pointId }) => ({ fromMs, toMs, counts, why, pointId: pointId ?? null })),
    pieces: check.pieces.map(({ name, pointId, verdict, text, provenMs }) => ({
      pointId: pointId ?? null, name, verdict, text, ...(provenMs === undefined ? {} : { provenMinutes: provenMs / 60_000 }),
    })),
    needed: check.needed,
    source: check.source === undefined ? 'the set is silent here' : sayingSource(check.source),
    mark: check.source?.mark ?? (set.readInFull ? 'read' : 'second-hand'),
    confirmation: findCheck(book, check.checkId) === undefined ? null : (confirmed.get(publishedIdOf(set, check.checkId)) ?? null),
  };
}

type MinuteKey = 'provenMinutes' | 'possibleMinutes' | 'requiredMinutes' | 'shortestMinutes' | 'longestMinutes';
const MINUTE_KEYS: readonly MinuteKey[] = ['provenMinutes', 'possibleMinutes', 'requiredMinutes', 'shortestMinutes', 'longestMinutes'];

function minutesOf(check: CheckResult): Partial<Record<MinuteKey, number>> {
  const minutes: Partial<Record<MinuteKey, number>> = {};
  for (const key of MINUTE_KEYS) {
    const value = check[key];
    if (value !== undefined) minutes[key] = value;
  }
  return minutes;
}

/** Publisher, title, section and, where it is known, the year. */
export function sayingSource({ publisher, title, section, year }: Source): string {
  return [publisher, title, section, year === null ? '' : String(year)].filter((part) => part !== '').join(', ');
}
