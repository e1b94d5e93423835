/** Raw and thawing fish: the pieces' readings before they were brined or went into the chamber, under a ceiling. */
import { judgePlacesBelow, type CeilingRule } from './ceiling.ts';
import type { Finding, JudgeContext } from './finding.ts';
import type { JudgeCase, Reading } from './judge-case.ts';
import type { CeilingCheck } from './limit-set.ts';
import { limitTicks, pointsOf } from './readings.ts';
import { figureText } from './words.ts';

/**
 * Without an in mark nothing tells raw fish from fish in the smoker. Judged alone, the record given
 * is the raw record. In a set, a reading over the limit then proves no miss (it may be of the
 * smoker), and a record wholly at or below the limit meets.
 */
export function judgeRaw(check: CeilingCheck, judged: JudgeCase, context: JudgeContext, shiftTicks: number): Finding {
  const { inMs, open } = judged.records.process;
  const law = limitTicks(check.limit);
  const points = pointsOf(judged, 'piece', check.record).map((point) => ({
    ...point, readings: point.readings.filter((reading) => isRaw(reading, judged)),
  }));
  const isOpen = open && inMs === undefined;
  const rule: CeilingRule = {
    limitTicks: law - shiftTicks,
    chilledTicks: check.stretch === 'before-process-once-chilled' ? law : undefined,
    text: `${figureText(check.limit)} or below`,
    gap: { kind: check.gap },
    // The raw hold ends when the fish is brined, some time before the in mark: that stretch is no gap of it.
    span: { open: isOpen },
    isOpen,
  };
  const read = points.filter((point) => point.readings.length > 0);
  const found = judgePlacesBelow(read, rule, judged, context.words);
  if (inMs !== undefined || context.alone || found.verdict !== 'misses') return found;
  return { ...found, verdict: isOpen ? 'open' : 'not-proven', reason: `When the fish went in is not marked, so its raw record can’t be told apart. ${found.reason}` };
}

/** Raw up to going into the brine, where that is marked before the chamber; else before the in mark, whose own reading is the smoker's. */
function isRaw({ atMs }: Reading, judged: JudgeCase): boolean {
  const inMs = judged.records.process.inMs;
  const soakMs = judged.records.soak.inMs;
  if (inMs === undefined) return true;
  return soakMs !== undefined && soakMs < inMs ? atMs <= soakMs : atMs < inMs;
}
