/** The other route to a salt minimum: inside a process authority's window, by its letter, with a laboratory verification that is current. */
import { compareDecimals, decimalFrom, isDecimal } from './decimals.ts';
import { plainFinding, type Finding, type JudgeContext } from './finding.ts';
import type { JudgeCase } from './judge-case.ts';
import { batchSpan } from './on-file.ts';

/** One limit of a process authority's window and what this batch was; decimals as text. */
export interface WindowItem {
  readonly what: string;
  readonly limit: string;
  readonly side: 'at-least' | 'at-most' | 'exactly';
  /** Absent: not recorded, which is outside. */
  readonly actual?: string | undefined;
}
export interface ScheduledProcess {
  readonly name: string;
  readonly window: readonly WindowItem[];
  /** The letter it rests on: whose, its number, and the file kept with it. */
  readonly letter?: { readonly authority: string; readonly number: string; readonly fileId: string } | undefined;
  /** The laboratory's verification of this window: from its result, until the last moment it counts. */
  readonly verifiedFromMs?: number | undefined;
  readonly verifiedUntilMs?: number | undefined;
}

const SIDES: Readonly<Record<WindowItem['side'], string>> = { 'at-least': 'at least', 'at-most': 'at most', exactly: 'exactly' };

/** Inside with letter and verification: meets. Anything else proves nothing, each item outside by name. */
export function judgeScheduledProcess(process: ScheduledProcess, judged: JudgeCase, { words }: JudgeContext): Finding {
  const { name, letter, window: items } = process;
  if (items.length === 0) return plainFinding('not-proven', `${name} has no window.`, 'The process authority’s window.');
  const outside = items.filter((item) => !isInside(item));
  if (outside.length > 0) {
    return plainFinding('not-proven', `Outside ${name}: ${outside.map((item) => `${item.what} ${item.actual ?? 'not recorded'}, ${asked(item)} asked`).join('; ')}.`, `${outside.map((item) => `${item.what} ${asked(item)}`).join('; ')}.`);
  }
  if (letter === undefined || letter.fileId === '') return plainFinding('not-proven', `Inside ${name}, but the letter it rests on is not on file.`, 'The process authority’s letter, with its file.');
  const by = `${name} (${letter.authority}, ${letter.number})`;
  const span = batchSpan(judged);
  const { verifiedFromMs, verifiedUntilMs } = process;
  if (verifiedUntilMs === undefined) return plainFinding('not-proven', `Inside ${by}, but no laboratory verification is on file.`, 'A current laboratory verification.');
  if (span === undefined) return plainFinding('not-proven', `Inside ${by}, but when the batch was made is not recorded, so nothing tells whether the verification was current.`, 'The time it went in.');
  if (span.toMs > verifiedUntilMs) return plainFinding('not-proven', `Inside ${by}, but its laboratory verification was current only until ${words.day(verifiedUntilMs)}.`, 'A current laboratory verification.');
  if (verifiedFromMs !== undefined && span.fromMs < verifiedFromMs) return plainFinding('not-proven', `Inside ${by}, but its laboratory verification is of ${words.day(verifiedFromMs)}, after the batch was begun.`, 'A laboratory verification from before the batch.');
  return plainFinding('meets', `Inside ${by}, with a laboratory verification current until ${words.day(verifiedUntilMs)}.`);
}

/** “at most 30”. */
export function asked({ side, limit }: WindowItem): string {
  return `${SIDES[side]} ${limit}`;
}

/** Figures are compared as exact decimals; words, such as a recipe's version, as they stand. What is no figure is inside no bound. */
export function isInside({ actual, side, limit }: WindowItem): boolean {
  if (actual === undefined) return false;
  if (!isDecimal(actual) || !isDecimal(limit)) return side === 'exactly' && actual.trim() === limit.trim();
  const order = compareDecimals(decimalFrom(actual), decimalFrom(limit));
  return side === 'exactly' ? order === 0 : side === 'at-least' ? order >= 0 : order <= 0;
}
