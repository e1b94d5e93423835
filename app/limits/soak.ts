/** The soak: the brine when the fish goes in, and the room of a long soak. */
import { judgePlacesBelow } from './ceiling.ts';
import { compareNames, plainFinding, worstBy, type Finding, type JudgeContext } from './finding.ts';
import type { JudgeCase, MeasuredPoint } from './judge-case.ts';
import type { BrineStartCheck, SoakRoomCheck } from './limit-set.ts';
import { betweenMarks, limitTicks, maxGapMs, mergeReadings, pointsOf, spanMs } from './readings.ts';
import { figureText, nameText } from './words.ts';

const MINUTE_MS = 60_000;
/** How late a brine read once only may be read: the widest gap a ceiling allows. */
const LATEST_START_MS = 120 * MINUTE_MS;

/** The first reading of each brine; `shiftTicks` moves the limit down by the instrument's error. */
export function judgeBrineStart(check: BrineStartCheck, judged: JudgeCase, context: JudgeContext, shiftTicks: number): Finding {
  const brines = pointsOf(judged, 'brine', 'soak');
  const span = judged.records.soak;
  const needed = `The brine read at ${figureText(check.limit)} or below when the fish goes in.`;
  const isOpen = span.open && span.outMs === undefined;
  if (brines.length === 0) return plainFinding(isOpen ? 'open' : 'not-proven', 'The brine was not measured.', needed);
  const ticks = limitTicks(check.limit) - shiftTicks;
  const places = brines.map((point) => {
    const readings = betweenMarks(mergeReadings(point.readings, 'higher'), span.inMs, span.outMs);
    const name = nameText('brine', point.name);
    const first = readings[0];
    const place = { name: point.name, pointId: point.id, spans: [] };
    if (first === undefined) return { ...place, verdict: isOpen ? 'open' as const : 'not-proven' as const, text: `${name}: no reading.` };
    const isOver = first.highTicks > ticks;
    const text = `${name}: ${context.words.degrees(first.highTicks)} at ${context.words.at(first.atMs)}, ${isOver ? 'over' : 'at or below'} ${figureText(check.limit)}.`;
    const spans = [{ fromMs: first.atMs, toMs: first.atMs, counts: !isOver, why: isOver ? `over ${figureText(check.limit)}` : `${figureText(check.limit)} or below`, pointId: point.id }];
    if (isOver) return { ...place, verdict: 'misses' as const, text, spans };
    // Read long after the fish went in, it no longer tells how the brine was at the start.
    if (span.inMs !== undefined && first.atMs - span.inMs > latestStartMs(point, judged)) {
      return { ...place, verdict: 'not-proven' as const, text: `${name}: first read ${context.words.lasting(first.atMs - span.inMs)} after the fish went in.`, spans };
    }
    return { ...place, verdict: 'meets' as const, text, spans };
  });
  const worst = worstBy(places, (left, right) => compareNames(left.name, right.name));
  return {
    verdict: worst.verdict, reason: worst.text, needed: worst.verdict === 'meets' ? '' : needed, spans: worst.spans,
    places: places.map(({ name, pointId, verdict, text }) => ({ name, pointId, verdict, text })),
  };
}

/** The room under a ceiling over its own record, for a soak longer than the check allows outside the cold. */
export function judgeSoakRoom(check: SoakRoomCheck, judged: JudgeCase, context: JudgeContext, shiftTicks: number): Finding {
  const span = judged.records.soak;
  const isOpen = span.open && span.outMs === undefined;
  const overMs = check.overMinutes * MINUTE_MS;
  const lengthMs = soakMs(judged);
  if (lengthMs !== undefined && lengthMs <= overMs) {
    const said = `The soak took ${context.words.lasting(lengthMs)}`;
    return isOpen
      ? plainFinding('open', `${said} so far; over ${context.words.lasting(overMs)} the room must be at ${figureText(check.limit)} or below.`, `Out by ${context.words.lasting(overMs)}, or the room at ${figureText(check.limit)} or below.`)
      : plainFinding('does-not-apply', `${said}, not over ${context.words.lasting(overMs)}.`);
  }
  return judgePlacesBelow(pointsOf(judged, 'room', 'soak'), {
    limitTicks: limitTicks(check.limit) - shiftTicks, text: `${figureText(check.limit)} or below`, gap: { kind: 'ceiling' }, span, isOpen,
  }, judged, context.words);
}

/**
 * From the in to the out mark, else from the first to the last brine reading (from the in mark where
 * it is known). A single reading without marks tells no length: undefined, and the room is judged.
 */
function soakMs(judged: JudgeCase): number | undefined {
  const { inMs, outMs } = judged.records.soak;
  if (inMs !== undefined && outMs !== undefined) return outMs - inMs;
  const lengths = pointsOf(judged, 'brine', 'soak')
    .map((point) => betweenMarks(mergeReadings(point.readings, 'higher'), inMs, outMs))
    // A brine that nobody read tells no length.
    .flatMap((readings) => readings.slice(-1).map(({ atMs }) => Math.max(spanMs(readings), atMs - (inMs ?? atMs))))
    .filter((lengthMs) => lengthMs > 0);
  return lengths.length === 0 ? undefined : Math.max(...lengths);
}

function latestStartMs(point: MeasuredPoint, judged: JudgeCase): number {
  const readings = mergeReadings(point.readings, 'higher');
  return readings.length < 2 && judged.maxGapMs === undefined && judged.nominalIntervalMs === undefined ? LATEST_START_MS : maxGapMs({ kind: 'ceiling' }, readings, judged);
}
