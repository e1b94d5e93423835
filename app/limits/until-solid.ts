/** The stage of a freezing from going in until frozen solid. */
import { plainFinding, type Finding } from './finding.ts';
import type { JudgeCase, MeasuredPoint, Reading } from './judge-case.ts';
import type { Figure } from './limit-set.ts';
import { betweenMarks, isGap, maxGapMs, mergeReadings } from './readings.ts';
import { findStretches } from './stretches.ts';
import { figureText, nameText, type Words } from './words.ts';

export interface SolidStage {
  readonly judged: JudgeCase;
  readonly words: Words;
  readonly limit: Figure;
  /** The limit with the instrument's error taken off. */
  readonly limitTicks: number;
  /** The time asked after it, which bounds the gaps. */
  readonly requiredMs: number;
}

/** Every reading from the in mark to frozen solid at or below, at least one of them, and no gap. */
export function judgeUntilSolid(point: MeasuredPoint, frozenMs: number, stage: SolidStage): Finding {
  const { words } = stage;
  const all = recordOf(point, stage);
  const before = all.filter((reading) => reading.atMs < frozenMs);
  const atMark = all.filter((reading) => reading.atMs === frozenMs && reading.highTicks <= stage.limitTicks);
  const name = nameText(point.role, point.name);
  const text = `${figureText(stage.limit)} or below`;
  const needed = `${text} from going in until frozen solid.`;
  const over = before.find((reading) => reading.highTicks > stage.limitTicks);
  if (over !== undefined) {
    // A core above the limit says nothing of the air around it.
    const verdict = point.role === 'piece' ? 'not-proven' : 'misses';
    return plainFinding(verdict, `${name} read ${words.degrees(over.highTicks)} at ${words.at(over.atMs)}, before the fish was frozen solid.`, needed);
  }
  const doubted = before.find((reading) => reading.doubt !== undefined);
  if (doubted !== undefined) return plainFinding('not-proven', `${name}: the reading at ${words.at(doubted.atMs)}, before the fish was frozen solid, is in doubt.`, needed);
  if (before.length + atMark.length === 0) return plainFinding('not-proven', `${name}: no reading shows ${text} until the fish was frozen solid.`, needed);
  const ends = atMark.length > 0 ? atMark : all.filter((reading) => reading.atMs >= frozenMs).slice(0, 1);
  return isBroken([...before, ...ends], frozenMs, maxGapMs({ kind: 'freeze-hold', requiredMs: stage.requiredMs }, all, stage.judged), stage)
    ? plainFinding('not-proven', `${name}: a gap in the record before the fish was frozen solid.`, needed)
    : plainFinding('meets', `${name}: ${text} until frozen solid.`);
}

/** Whether a freezer's whole record rules out that it was ever at or below the limit. A core can't rule it out. */
export function isNeverCold(point: MeasuredPoint, stage: SolidStage): boolean {
  const readings = recordOf(point, stage);
  const first = readings[0];
  const last = readings.at(-1);
  if (point.role === 'piece' || first === undefined || last === undefined) return false;
  const span = stage.judged.records.freezer;
  const longestMs = maxGapMs({ kind: 'freeze-hold', requiredMs: stage.requiredMs }, readings, stage.judged);
  const hidesEnds = (span.inMs !== undefined && first.atMs - span.inMs > longestMs) || (span.outMs !== undefined && span.outMs - last.atMs > longestMs);
  return !hidesEnds && findStretches(readings, { isIn: (reading) => reading.highTicks <= stage.limitTicks, maxGapMs: longestMs }).possible.length === 0;
}

function recordOf(point: MeasuredPoint, { judged }: SolidStage): readonly Reading[] {
  const span = judged.records.freezer;
  return betweenMarks(mergeReadings(point.readings, 'higher'), span.inMs, point.role === 'piece' ? undefined : span.outMs);
}

function isBroken(readings: readonly Reading[], frozenMs: number, longestMs: number, { judged }: SolidStage): boolean {
  const inMs = judged.records.freezer.inMs;
  const first = readings[0];
  const last = readings.at(-1);
  if (first === undefined || last === undefined) return true;
  if (inMs !== undefined && first.atMs - inMs > longestMs) return true;
  if (frozenMs - last.atMs > longestMs) return true;
  return readings.some((reading, index) => {
    const before = readings[index - 1];
    return before !== undefined && isGap(before, reading, longestMs);
  });
}
