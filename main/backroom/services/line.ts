/** The line: the hours around now with each batch as a bar of steps, its turns, and what is due. */
import type { Output } from '../../../app/contract/contract.ts';
import type { LineBar } from '../../../app/contract/requests/record.ts';
import type { StoredBatch, StoredLoad } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { stageOf } from './batch-view.ts';
import { nextReadingsOf } from './judging/needs.ts';
import { soakDues, stepsOf, turnsOf } from './line-steps.ts';
import { speciesOf } from './species.ts';
import { loadOfBatch } from './taken-out.ts';

export const lineServices = { 'line.get': getLine } satisfies Services<'line.get'>;

const HOUR_MS = 3_600_000;
const HOURS_BACK = 12;
const HOURS_AHEAD = 60;

/** 72 hours: what was, from 12 hours back, and what is planned or due, up to 60 hours ahead. */
function getLine(room: BookRoom): Output<'line.get'> {
  const nowMs = room.clock.nowMs();
  const [fromMs, toMs] = [nowMs - HOURS_BACK * HOUR_MS, nowMs + HOURS_AHEAD * HOUR_MS];
  const bars = room.book.shelf('batches').all().flatMap((batch) => {
    const bar = barOf(room, batch, nowMs);
    return isOnLine(room, batch, bar, fromMs, toMs) ? [bar] : [];
  });
  return { nowMs, fromMs, toMs, bars };
}

function barOf(room: BookRoom, batch: StoredBatch, nowMs: number): LineBar {
  const load = loadOfBatch(room, batch);
  return {
    batchId: batch.id,
    name: `${batch.shortName} ${speciesOf(room, batch.speciesId).commonName}`,
    steps: stepsOf(batch, load, nowMs),
    turns: turnsOf(batch),
    dues: [...soakDues(batch, nowMs), ...readingDues(room, batch, load)].toSorted((one, other) => one.atMs - other.atMs),
  };
}

/** Work that isn't done yet is always there; what is done leaves the line when its steps do. */
function isOnLine(room: BookRoom, batch: StoredBatch, bar: LineBar, fromMs: number, toMs: number): boolean {
  const stage = stageOf(room, batch);
  if (stage === 'rejected') return false;
  if (stage === 'ready' || stage === 'soaking' || stage === 'drying' || stage === 'smoking' || stage === 'cooling') return true;
  return bar.steps.some((step) => step.toMs >= fromMs && step.fromMs <= toMs);
}

/** The readings that the record of a running load needs next, for this batch's pieces and its chamber. */
function readingDues(room: BookRoom, batch: StoredBatch, load: StoredLoad | undefined): LineBar['dues'] {
  if (load === undefined || load.inAtMs === null || load.cooledAtMs !== null) return [];
  if (stageOf(room, batch) === 'rejected') return [];
  const own = new Set(room.book.shelf('points').where('loadId', load.id)
    .filter((point) => point.batchId === batch.id || point.batchId === null).map((point) => point.id));
  return nextReadingsOf(room, load)
    .filter(({ pointId }) => pointId === null || own.has(pointId))
    .map(({ atMs, text, overdue }) => ({ atMs, text, overdue, what: 'reading' }));
}
