/** What is wrong with a load as it runs: the rules asked of each of its pieces and its chamber. */
import { heatRule, measurePlace } from '../../../app/limits/hold-rule.ts';
import type { MeasuredPoint } from '../../../app/limits/judge-case.ts';
import { limitTicks, mergeReadings } from '../../../app/limits/readings.ts';
import { lengthOf } from '../../../app/limits/stretches.ts';
import { figureText, nameText, type Words } from '../../../app/limits/words.ts';
import { coldChamberDrifting, coolingTooSlow, hotChamberDrifting, pieceTooSlow, probeSilent, roundOverdue, type Alarm } from '../../../app/probes/alarm-rules.ts';
import type { ReadAt } from '../../../app/probes/alarm-trend.ts';
import { gapMsOf } from '../../../app/probes/envelope-gaps.ts';
import type { StoredLoad } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { latestOutMs } from './alarm-time.ts';
import { coolingGoals } from './judging/cooling-goals.ts';
import { nextReadingsOf } from './judging/next-readings.ts';
import { asPiece, runningBatches, type RunningBatch } from './judging/running-batch.ts';
import { pointsOf } from './load-view.ts';
import { loadAsPoint } from './taken-out.ts';

const MINUTE_MS = 60_000;

export interface FoundAlarm extends Alarm {
  readonly key: string;
  readonly pointId: string | null;
}

/** The alarms of a load, the worst first; none before it is in and none once its record is closed. */
export function findAlarms(room: BookRoom, load: StoredLoad): FoundAlarm[] {
  if (load.inAtMs === null || load.cooledAtMs !== null) return [];
  const running = runningBatches(room, load);
  const [first] = running;
  if (first === undefined) return [];
  const nowMs = room.clock.nowMs();
  const found = [
    ...running.flatMap((batch) => batch.pieces.flatMap((piece) => pieceAlarms(room, asPiece(batch, load, piece), piece, nowMs))),
    ...chamber(load, running),
    ...silent(room, load, first.context.words, nowMs),
    ...rounds(room, load, running, nowMs),
  ];
  // A chamber that serves several batches is one chamber.
  return [...new Map(found.map((alarm) => [alarm.key, alarm])).values()].toSorted((one, other) => other.level - one.level);
}

function named(pointId: string | null | undefined, alarm: Alarm | undefined): FoundAlarm[] {
  return alarm === undefined ? [] : [{ ...alarm, pointId: pointId ?? null, key: `${alarm.kind} ${pointId ?? ''}`.trim() }];
}

function pieceAlarms(room: BookRoom, batch: RunningBatch, piece: MeasuredPoint, nowMs: number): FoundAlarm[] {
  return [...heating(room, batch, piece, nowMs), ...cooling(batch, piece, nowMs)];
}

function heating(room: BookRoom, { load, hold, cooling: descent, judged, context }: RunningBatch, piece: MeasuredPoint, nowMs: number): FoundAlarm[] {
  if (hold === undefined || load.inAtMs === null || load.outAtMs !== null) return [];
  const rule = heatRule(hold, 0);
  const measured = measurePlace(piece, rule, judged, judged.records.process);
  const last = measured.readings.at(-1);
  const run = measured.stretches.proven.at(-1);
  // Only a run that still goes on counts towards the time, unless it is already long enough.
  const provenMs = measured.provenMs >= rule.requiredMs ? measured.provenMs : run !== undefined && run.toMs === last?.atMs ? lengthOf(run) : 0;
  return named(piece.id, pieceTooSlow({
    name: nameText('piece', piece.name), readings: measured.readings.map(({ atMs, lowTicks }) => ({ atMs, ticks: lowTicks })),
    limitTicks: limitTicks(hold.limit), limitText: figureText(hold.limit), requiredMs: rule.requiredMs, provenMs,
    inMs: load.inAtMs, latestOutMs: latestOutMs(room, load.inAtMs, hold.minutes, descent), nowMs,
  }, context.words));
}

function cooling(batch: RunningBatch, piece: MeasuredPoint, nowMs: number): FoundAlarm[] {
  const { outAtMs } = batch.load;
  if (outAtMs === null) return [];
  const goal = coolingGoals(batch, piece).find((each) => !each.isReached);
  if (goal === undefined || goal.byMs === null) return [];
  const readings = highOf(piece).filter((reading) => reading.atMs >= outAtMs);
  return named(piece.id, coolingTooSlow({ name: nameText('piece', piece.name), readings, goalTicks: goal.ticks, goalText: goal.text, byMs: goal.byMs, nowMs }, batch.context.words));
}

/** The chamber is every batch's: in a hot smoke the hottest hold is asked of it, in a cold one the warmest ceiling. */
function chamber(load: StoredLoad, batches: readonly RunningBatch[]): FoundAlarm[] {
  const { inAtMs, outAtMs } = load;
  // What came out before the rest asks nothing of it any more.
  const running = batches.filter((batch) => batch.load.outAtMs === null);
  const [first] = running;
  if (inAtMs === null || outAtMs !== null || first === undefined) return [];
  const hottest = running.flatMap(({ hold }) => hold ?? []).toSorted((one, other) => limitTicks(other.limit) - limitTicks(one.limit))[0];
  const warmest = running.flatMap(({ ceilings }) => ceilings).toSorted((one, other) => limitTicks(other.limit) - limitTicks(one.limit))[0];
  return first.chamber.flatMap((point) => {
    if (load.process === 'hot') {
      if (hottest === undefined || running.every(isHeld)) return [];
      const readings = mergeReadings(point.readings, 'lower').map(({ atMs, lowTicks }) => ({ atMs, ticks: lowTicks })).filter(({ atMs }) => atMs >= inAtMs);
      return named(point.id, hotChamberDrifting({ readings, limitTicks: limitTicks(hottest.limit), limitText: figureText(hottest.limit) }, first.context.words));
    }
    if (warmest === undefined) return [];
    return named(point.id, coldChamberDrifting({ readings: highOf(point).filter(({ atMs }) => atMs >= inAtMs), limitTicks: limitTicks(warmest.limit), limitText: figureText(warmest.limit) }, first.context.words));
  });
}

function isHeld({ hold, judged, pieces }: RunningBatch): boolean {
  if (hold === undefined) return true;
  const rule = heatRule(hold, 0);
  return pieces.every((piece) => measurePlace(piece, rule, judged, judged.records.process).provenMs >= rule.requiredMs);
}

/** Only what sends by itself can fall silent; a probe that was pulled as the load came out has not. */
function silent(room: BookRoom, load: StoredLoad, words: Words, nowMs: number): FoundAlarm[] {
  return pointsOf(room, load).flatMap((point) => {
    const { outAtMs } = loadAsPoint(load, point);
    const last = room.book.lastReading(point.id);
    if (last === undefined || last.how !== 'instrument' || (outAtMs !== null && (point.role === 'chamber' || last.atMs <= outAtMs))) return [];
    const since = room.book.seriesOf(point.id, { fromMs: last.atMs - 60 * MINUTE_MS, toMs: last.atMs });
    return named(point.id, probeSilent({ name: nameText(point.role, point.name), lastMs: last.atMs, gapMs: gapMsOf(since.atMs), nowMs }, words));
  });
}

function rounds(room: BookRoom, load: StoredLoad, running: readonly RunningBatch[], nowMs: number): FoundAlarm[] {
  const words = running[0]?.context.words;
  if (words === undefined) return [];
  return nextReadingsOf(room, load, running).filter((next) => next.overdue)
    .flatMap((next) => named(next.pointId, roundOverdue({ text: next.text, dueMs: next.atMs, nowMs }, words)));
}

function highOf(point: MeasuredPoint): ReadAt[] {
  return mergeReadings(point.readings, 'higher').map(({ atMs, highTicks }) => ({ atMs, ticks: highTicks }));
}
