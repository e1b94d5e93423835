/** When a piece or freezer that is read by hand must be read next. */
import type { MeasuredPoint } from '../../../../app/limits/judge-case.ts';
import { nextCoolingReading, nextFreezerReading, nextHoldReading, type NextReading as DueReading } from '../../../../app/limits/next-reading.ts';
import { pointsOf } from '../../../../app/limits/readings.ts';
import type { NextReading } from '../../../../app/contract/requests/smokehouse.ts';
import type { StoredLoad, StoredPoint } from '../../book/stored.ts';
import type { BookRoom } from '../../room.ts';
import { asPiece, runningBatches, type RunningBatch } from './running-batch.ts';

const MINUTE_MS = 60_000;
/** Steps longer than this are a person's, not a logger's. */
const LOGGER_STEP_MS = 5 * MINUTE_MS;
/** How soon to look again at a piece that isn't hot enough yet. */
const LOOK_AGAIN_MS = 10 * MINUTE_MS;

/** The moments in order of time; nothing for what a logger records, and nothing before the load went in. */
export function nextReadingsOf(room: BookRoom, load: StoredLoad, batches?: readonly RunningBatch[]): NextReading[] {
  if (load.inAtMs === null) return [];
  const nowMs = room.clock.nowMs();
  const due = (batches ?? runningBatches(room, load)).flatMap((running) => [
    ...(load.cooledAtMs === null ? running.pieces.flatMap((point) => pieceDue(room, asPiece(running, load, point), point, nowMs)) : []),
    ...freezerDue(room, running, nowMs),
  ]);
  return due.toSorted((one, other) => one.atMs - other.atMs);
}

function pieceDue(room: BookRoom, running: RunningBatch, point: MeasuredPoint, nowMs: number): NextReading[] {
  const { hold, cooling, judged, context, load } = running;
  if (point.id === undefined || !isReadByHand(room, load, room.book.shelf('points').need(point.id))) return [];
  const inHold = hold === undefined ? undefined : nextHoldReading(hold, point, judged, context, nowMs);
  const due = inHold ?? (cooling === undefined ? undefined : nextCoolingReading(cooling, point, judged, context, nowMs));
  return due === undefined ? [] : [wire(due, point.id, lastMs(point) ?? nowMs)];
}

/** Without readings the thermometer tells; else how the last ones came. A logger whose record ends at the out mark went out with the load. */
function isReadByHand(room: BookRoom, load: StoredLoad, point: StoredPoint): boolean {
  const [before, last] = room.book.readings(point.id).slice(-2);
  if (before === undefined) return point.instrumentId === null || room.book.shelf('instruments').get(point.instrumentId)?.kind === 'hand-thermometer';
  const latest = last ?? before;
  if (load.outAtMs !== null && latest.atMs <= load.outAtMs) return true;
  if (latest.how === 'by-hand' || latest.how === 'copied-from-paper') return true;
  return last !== undefined && last.atMs - before.atMs > LOGGER_STEP_MS;
}

function freezerDue(room: BookRoom, { freezing, judged, context }: RunningBatch, nowMs: number): NextReading[] {
  if (freezing === undefined) return [];
  return pointsOf(judged, 'store', 'freezer').flatMap((point) => {
    const [before, last] = point.id === undefined ? [] : room.book.readings(point.id).slice(-2);
    if (last?.how === 'file' && before !== undefined && last.atMs - before.atMs <= LOGGER_STEP_MS) return [];
    const due = nextFreezerReading(freezing, point, judged, context, nowMs);
    // A freezer is no point of the load.
    return due === undefined ? [] : [wire(due, null, lastMs(point) ?? nowMs)];
  });
}

function wire(due: DueReading, pointId: string | null, lastAtMs: number): NextReading {
  return { pointId, atMs: due.dueMs ?? lastAtMs + LOOK_AGAIN_MS, text: due.text, overdue: due.isOverdue };
}

function lastMs(point: MeasuredPoint): number | undefined {
  return point.readings.reduce<number | undefined>((latest, { atMs }) => (latest === undefined || atMs > latest ? atMs : latest), undefined);
}
