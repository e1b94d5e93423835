/** A load on its page: series, what each piece needs, the limits drawn in, and the verdict so far. */
import type { Output } from '../../../app/contract/contract.ts';
import type { LimitLine } from '../../../app/contract/requests/smokehouse.ts';
import { limitTicks } from '../../../app/limits/readings.ts';
import { figureText } from '../../../app/limits/words.ts';
import type { StoredLoad } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { viewBatch } from './batch-view.ts';
import { coolingGoals } from './judging/cooling-goals.ts';
import { judgeBatch, keepingOf } from './judging/judge-batch.ts';
import { needsOf, nextReadingsOf } from './judging/needs.ts';
import { readOnce } from './judging/points.ts';
import { runningBatches, type RunningBatch } from './judging/running-batch.ts';
import { lostWhileOff } from './load-off.ts';
import { loadOf } from './load-view.ts';
import { overviewOf } from './series-window.ts';

/** Everything a load's page shows, as of now. */
export function progressOf(room: BookRoom, load: StoredLoad): Output<'load.get'> {
  const batches = load.batchIds.map((batchId) => room.book.shelf('batches').need(batchId));
  const readingsAt = readOnce(room);
  const running = runningBatches(room, load, readingsAt);
  const off = lostWhileOff(room, load);
  return {
    load: loadOf(room, load),
    batches: batches.map((batch) => viewBatch(room, batch)),
    series: overviewOf(room, load.pointIds),
    needs: needsOf(room, load, running),
    nextReadings: nextReadingsOf(room, load, running),
    limitLines: limitLinesOf(running),
    results: batches.map((batch) => ({ batchId: batch.id, result: judgeBatch(room, batch, keepingOf(room, batch), readingsAt).deciding })),
    nowMs: room.clock.nowMs(),
    ...(off === undefined ? {} : { off }),
  };
}

/** The limits of the batches' deciding sets, each once; of a cooling target the deadline that comes first. */
function limitLinesOf(batches: readonly RunningBatch[]): LimitLine[] {
  const lines = new Map<string, LimitLine>();
  for (const line of batches.flatMap(linesOf)) {
    const key = `${line.checkId} ${line.kind} ${line.ticks}`;
    const before = lines.get(key);
    if (before === undefined || (line.byMs !== null && (before.byMs === null || line.byMs < before.byMs))) lines.set(key, line);
  }
  return [...lines.values()];
}

function linesOf(running: RunningBatch): LimitLine[] {
  const { hold, cooling, ceilings, pieces } = running;
  return [
    ...(hold === undefined ? [] : [{
      checkId: hold.id, ticks: limitTicks(hold.limit), kind: 'minimum' as const,
      text: `${figureText(hold.limit)} or above for ${hold.minutes} min`, byMs: null,
    }]),
    ...ceilings.map((check) => ({
      checkId: check.id, ticks: limitTicks(check.limit), kind: 'maximum' as const,
      text: `${figureText(check.limit)} or below${check.minutes === undefined ? '' : `, ${check.minutes / 60} h at most`}`, byMs: null,
    })),
    ...(cooling === undefined ? [] : pieces.flatMap((point) => coolingGoals(running, point).map((goal) => ({
      checkId: cooling.id, ticks: goal.ticks, kind: 'target' as const, text: goal.text, byMs: goal.byMs,
    })))),
  ];
}
