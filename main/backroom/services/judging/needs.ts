/** What each piece of a running load still needs, and when it must be read next where it is read by hand. */
import { heatRule, measurePlace } from '../../../../app/limits/hold-rule.ts';
import type { MeasuredPoint, Reading } from '../../../../app/limits/judge-case.ts';
import { limitTicks, mergeReadings } from '../../../../app/limits/readings.ts';
import { intersect, lengthOf, longest } from '../../../../app/limits/stretches.ts';
import { figureText } from '../../../../app/limits/words.ts';
import type { Need } from '../../../../app/contract/requests/smokehouse.ts';
import { degreesFromTicks, type TemperatureUnit } from '../../../../app/measures/temperature.ts';
import type { StoredLoad } from '../../book/stored.ts';
import type { BookRoom } from '../../room.ts';
import { kitchenOf } from '../kitchen.ts';
import { coolingGoals } from './cooling-goals.ts';
import { asPiece, runningBatches, type RunningBatch } from './running-batch.ts';

export { nextReadingsOf } from './next-readings.ts';

const MINUTE_MS = 60_000;

/** One need a piece; a cold smoke is asked of its chamber instead. */
export function needsOf(room: BookRoom, load: StoredLoad, batches: readonly RunningBatch[] = runningBatches(room, load)): Need[] {
  const unit = kitchenOf(room.book).temperatureUnit;
  const inside = Math.max(0, batches.findIndex((running) => running.load.outAtMs === null));
  return batches.flatMap((running, index) => [
    ...running.pieces.map((point) => pieceNeed(asPiece(running, load, point), load, point, unit)),
    // The chamber is every batch's; once is enough.
    ...(load.process === 'cold' && index === inside ? running.chamber.map((point) => chamberNeed(running, load, point)) : []),
  ]);
}

function pieceNeed(running: RunningBatch, load: StoredLoad, point: MeasuredPoint, unit: TemperatureUnit): Need {
  const last = lastOf(point);
  const need = { pointId: point.id ?? '', lastTicks: last?.lowTicks ?? null, lastAtMs: last?.atMs ?? null, provenMinutes: null, requiredMinutes: null };
  const { hold, load: { outAtMs } } = running;
  if (hold === undefined) return { ...need, text: load.process === 'cold' ? 'No core limit in a cold smoke.' : '' };
  const required = { provenMinutes: keptMinutes(running, point), requiredMinutes: hold.minutes };
  if (last === undefined) return { ...need, ...required, text: 'not read yet' };
  if (outAtMs !== null && required.provenMinutes >= hold.minutes) return { ...need, ...required, text: coolingText(running, point) };
  const missingTicks = limitTicks(hold.limit) - last.lowTicks;
  const kept = `kept ${required.provenMinutes} of ${hold.minutes} min${running.context.together && running.pieces.length > 1 ? ', all pieces together' : ''}`;
  const isBelow = missingTicks > 0 && required.provenMinutes < hold.minutes;
  if (load.outAtMs !== null) return { ...need, ...required, text: `${kept}; the load is out` };
  if (outAtMs !== null) return { ...need, ...required, text: `${kept}; taken out at ${running.context.words.at(outAtMs)}` };
  return { ...need, ...required, text: isBelow ? `${degreesToGo(missingTicks, unit)} to go` : kept };
}

/**
 * Whole minutes proven: of all pieces at once where the set asks them together, else of this piece. While the
 * load is in and the hold isn't done, only the run that still goes on counts: what a gap or a cold reading broke starts again.
 */
function keptMinutes(batch: RunningBatch, point: MeasuredPoint): number {
  const { hold, judged, context, pieces } = batch;
  if (hold === undefined) return 0;
  const rule = heatRule(hold, 0);
  const measured = (context.together ? pieces : [point]).map((one) => measurePlace(one, rule, judged, judged.records.process));
  const full = measured.filter((one) => one.recordMs >= rule.requiredMs);
  // A short record is a spot check once enough others run through: it doesn't hold up the common clock.
  const [first, ...others] = full.length >= context.probesAsked ? full : measured;
  if (first === undefined) return 0;
  const shared = others.reduce<typeof first.stretches.proven>((stretches, one) => intersect(stretches, one.stretches.proven), first.stretches.proven);
  const longestMs = lengthOf(longest(shared));
  if (longestMs >= rule.requiredMs || judged.records.process.outMs !== undefined) return Math.floor(longestMs / MINUTE_MS);
  const latestMs = Math.min(...[first, ...others].map((one) => one.readings.at(-1)?.atMs ?? 0));
  const running = shared.at(-1);
  return running !== undefined && running.toMs >= latestMs ? Math.floor(lengthOf(running) / MINUTE_MS) : 0;
}

function coolingText(running: RunningBatch, point: MeasuredPoint): string {
  const goals = coolingGoals(running, point);
  const next = goals.find((goal) => !goal.isReached);
  if (next === undefined) return goals.length === 0 ? 'kept long enough' : `cooled to ${goals.at(-1)?.text ?? ''}`;
  return next.byMs === null ? `to cool: ${next.text}` : `${next.text} by ${running.context.words.at(next.byMs)}`;
}

/** The chamber's ceiling and how long it may go on. Of several ceilings the one with most time that isn't broken. */
function chamberNeed(running: RunningBatch, load: StoredLoad, point: MeasuredPoint): Need {
  const readings = mergeReadings(point.readings, 'higher').filter((reading) => load.inAtMs === null || reading.atMs >= load.inAtMs);
  const last = readings.at(-1);
  const need = { pointId: point.id ?? '', lastTicks: last?.highTicks ?? null, lastAtMs: last?.atMs ?? null, provenMinutes: null, requiredMinutes: null };
  const possible = running.ceilings.filter((check) => readings.every((reading) => reading.highTicks <= limitTicks(check.limit)));
  const choice = possible.toSorted((one, other) => (other.minutes ?? Infinity) - (one.minutes ?? Infinity)).at(0);
  if (choice === undefined) return { ...need, text: running.ceilings.length === 0 ? '' : 'over every limit of its set' };
  const until = choice.minutes === undefined || load.inAtMs === null || load.outAtMs !== null ? '' : `; out by ${running.context.words.at(load.inAtMs + choice.minutes * MINUTE_MS)}`;
  return { ...need, text: `keep at ${figureText(choice.limit)} or below${until}` };
}

function lastOf(point: MeasuredPoint): Reading | undefined {
  return mergeReadings(point.readings, 'lower').at(-1);
}

/** Rounded up to a tenth: a piece a hair below its limit is not at it. */
function degreesToGo(ticks: number, unit: TemperatureUnit): string {
  const degrees = degreesFromTicks(ticks, unit) - degreesFromTicks(0, unit);
  return `${(Math.ceil(degrees * 10 - 1e-9) / 10).toFixed(1)} °${unit}`;
}
