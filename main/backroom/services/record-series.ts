/** What was measured of a batch, as numbers: its pieces and their chamber, and every place that it is judged by, each for its own time. */
import type { StoredBatch, StoredLoad } from '../book/stored.ts';
import type { BookRoom, ReadingNumbers } from '../room.ts';
import { plansOf } from './judging/compose.ts';
import { keepingOf } from './judging/judge-batch.ts';
import { pointsOf } from './load-view.ts';

/** The readings of one point that are of this batch. */
export interface MeasuredPoint {
  readonly pointId: string;
  readonly name: string;
  readonly numbers: ReadingNumbers;
  /** Of its load, and so a column of the table. */
  readonly isOfLoad: boolean;
}

interface Stay {
  readonly name: string;
  readonly role: string;
  readonly fromMs: number;
  readonly toMs: number;
}

const NEVER_MS = 8_640_000_000_000_000;

/** A brining room that was not read then is left out; a store or a probe that wasn't says so. */
export function measuredPoints(room: BookRoom, batch: StoredBatch, load: StoredLoad | null): MeasuredPoint[] {
  const { book } = room;
  const ofLoad = load === null ? [] : pointsOf(room, load).filter((point) => point.batchId === null || point.batchId === batch.id);
  const stays = [...staysOf(room, batch)].map(([pointId, stay]) => ({ pointId, name: stay.name, role: stay.role, numbers: book.seriesOf(pointId, stay), isOfLoad: false }));
  return [
    ...ofLoad.map(({ id, name }): MeasuredPoint => ({ pointId: id, name, numbers: book.seriesOf(id), isOfLoad: true })),
    ...stays.filter(({ role, numbers }) => role !== 'room' || numbers.atMs.length > 0).map(({ role: _role, ...point }): MeasuredPoint => point),
  ];
}

/** From when until when the batch's judge reads each place and each tray's probe; of a point that counts twice, both together. */
function staysOf(room: BookRoom, batch: StoredBatch): Map<string, Stay> {
  const stays = new Map<string, Stay>();
  for (const { taken, name, role } of plansOf(room, batch, keepingOf(room, batch))) {
    if (taken?.fromMs === undefined) continue;
    const known = stays.get(taken.pointId);
    const toMs = taken.toMs ?? NEVER_MS;
    stays.set(taken.pointId, known === undefined ? { name, role, fromMs: taken.fromMs, toMs } : { ...known, fromMs: Math.min(known.fromMs, taken.fromMs), toMs: Math.max(known.toMs, toMs) });
  }
  return stays;
}
