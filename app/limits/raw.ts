/** Raw and thawing fish, under a ceiling: their own records, and the pieces' readings before they were brined or went into the chamber. */
import { judgePlacesBelow, type CeilingRule } from './ceiling.ts';
import { plainFinding, type Finding, type JudgeContext } from './finding.ts';
import type { JudgeCase, MeasuredPoint, Reading, RecordSpan } from './judge-case.ts';
import type { CeilingCheck } from './limit-set.ts';
import { factsOfRow, firstPlace, partOfRow } from './reading-order.ts';
import { joinPoints, limitTicks } from './readings.ts';
import { figureText } from './words.ts';

/**
 * A record kept of the raw or the thawing fish is judged as it stands, between its own marks. The
 * readings of a piece that later went into the chamber count as long as it was raw. Without an in
 * mark nothing tells raw fish from fish in the smoker. Judged alone, the record given is then the raw
 * record. In a set, a reading over the limit proves no miss (it may be of the smoker), and a record
 * wholly at or below the limit meets.
 */
export function judgeRaw(check: CeilingCheck, judged: JudgeCase, context: JudgeContext, shiftTicks: number): Finding {
  if (check.reads === 'water' && judged.readingsStandForMarks === true) return plainFinding('not-proven', 'No record of ours holds the water’s temperature.', `${figureText(check.limit)} or below, measured.`);
  const { inMs, open } = judged.records.process;
  const law = limitTicks(check.limit);
  const own = judged.records[check.record === 'thaw' ? 'thaw' : 'raw'];
  const kept = judged.points.filter((point) => point.role === check.reads && point.record === check.record).map((point) => ({ ...point, readings: point.readings.filter((reading) => own?.outMs === undefined || reading.atMs <= own.outMs) }));
  const mayBeSmoked = inMs === undefined && kept.length === 0;
  const points = [...kept, ...(kept.length > 0 && (inMs === undefined || check.record === 'thaw') ? [] : rawOfOthers(check, judged))];
  const isPiece = check.reads === 'piece';
  const span = own ?? spanOfOthers(check, judged, open && inMs === undefined);
  const isOpen = span.open && span.outMs === undefined;
  const rule: CeilingRule = {
    limitTicks: law - shiftTicks,
    chilledTicks: check.stretch === 'whole' ? undefined : law,
    text: `${figureText(check.limit)} or below`,
    gap: { kind: check.gap },
    span, isOpen,
  };
  const found = judgePlacesBelow(joinPoints(points), rule, judged, context.words);
  if (!mayBeSmoked || !isPiece || context.alone || found.verdict !== 'misses') return found;
  return { ...found, verdict: isOpen ? 'open' : 'not-proven', reason: `When the fish went in is not marked, so its raw record can’t be told apart. ${found.reason}` };
}

/** Points of no record of their own: pieces as long as they were raw, places as they stand. */
function rawOfOthers(check: CeilingCheck, judged: JudgeCase): MeasuredPoint[] {
  return judged.points.filter((point) => point.role === check.reads && (point.record === undefined || (check.reads === 'piece' && point.record === 'process')))
    .map((point) => (check.reads === 'piece' ? { ...point, readings: rawOf(point.readings, judged) } : point))
    // A piece without a raw reading is one that was only smoked; a place without a reading is one that should have been read.
    .filter((point) => check.reads !== 'piece' || point.readings.length > 0);
}

/**
 * The raw hold of a piece ends when the fish is brined, some time before the in mark: that stretch is
 * no gap of it. Where readings alone were given, the marks are of whatever place is judged.
 */
function spanOfOthers(check: CeilingCheck, judged: JudgeCase, isOpen: boolean): RecordSpan {
  return check.reads !== 'piece' && judged.readingsStandForMarks === true ? judged.records.process : { open: isOpen };
}

function rawOf(readings: readonly Reading[], judged: JudgeCase): readonly Reading[] {
  if (!factsOfRow(readings).isPlain) return readings.filter((reading) => isRaw(reading, judged));
  // In order of time the raw ones come first.
  return partOfRow(readings, 0, firstPlace(readings, (reading) => !isRaw(reading, judged)));
}

/** Raw up to going into the brine, where that is marked before the chamber; else before the in mark, whose own reading is the smoker's. */
function isRaw({ atMs }: Reading, judged: JudgeCase): boolean {
  const inMs = judged.records.process.inMs;
  const soakMs = judged.records.soak.inMs;
  if (inMs === undefined) return true;
  return soakMs !== undefined && soakMs < inMs ? atMs <= soakMs : atMs < inMs;
}
