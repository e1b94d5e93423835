/** Racks taken out early: the out mark of a batch, or of one piece of it, while the rest of the load stays in. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { TakenOut } from '../../../app/contract/requests/taken-out.ts';
import type { StoredBatch, StoredLoad, StoredPoint } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { refuseInput } from './field-refusal.ts';
import { pointsOf } from './load-view.ts';
import { renewLotCodes } from './lot-letters.ts';
import { rejudge, releasedOf } from './rejudging.ts';
import { loadAsOf, outEarlyMs } from './taken-out.ts';
import { refuseBefore, refuseFuture, sayInstant } from './when.ts';

export const takingOutServices = { 'load.takeOut': takeOut } satisfies Services<'load.takeOut'>;

type Taking = Parsed<'load.takeOut'>;

/** The load with the batch that is spoken of; `piece` is undefined for all of it. */
interface Asked {
  readonly load: StoredLoad;
  readonly batch: StoredBatch;
  readonly piece: StoredPoint | undefined;
  /** “LT-1”, “Tail of LT-1”. */
  readonly name: string;
}

/**
 * Sets or takes back an out mark of its own. With the last piece of a batch the batch is out.
 * @throws Refusal: not in this load, not in the smoker, marked already, the last fish in it, a time to come or on the
 *   wrong side of another step, nothing to take back, packs sealed
 */
function takeOut(room: BookRoom, input: Taking): Output<'load.takeOut'> {
  const asked = askedOf(room, input);
  const { load, batch, name } = asked;
  if (load.cooledAtMs !== null) throw new Refusal('RULE_BLOCKS', `The record of load ${load.number} is closed.`, { remedy: 'Write what is wrong with a time in the reason when you hold or release the batch.' });
  const takenOut = input.atMs === null ? withoutMark(room, asked) : withMark(room, asked, input.atMs);
  const kept = renewLotCodes(room, load, { ...load, takenOut });
  room.book.shelf('loads').put(kept);
  room.book.record({
    kind: 'load.takeOut', subjectId: load.id, happenedAtMs: input.atMs, why: input.why,
    summary: input.atMs === null
      ? `${name} was not taken out of load ${load.number} early: the mark was wrong.`
      : `${name} came out of load ${load.number} at ${sayInstant(room, input.atMs)}, before the rest.`,
    before: { takenOut: load.takenOut ?? [] }, after: { takenOut },
  });
  room.changed('load', [load.id]);
  room.changed('batch', [batch.id]);
  room.changed('verdict', [batch.id]);
  rejudge(room, releasedOf(room, [batch.id]), 'coming out early was marked');
  return { takenOut };
}

function askedOf(room: BookRoom, { loadId, batchId, pointId }: Taking): Asked {
  const load = room.book.shelf('loads').need(loadId);
  const batch = room.book.shelf('batches').need(batchId);
  if (!load.batchIds.includes(batchId)) refuseInput(`${batch.shortName} is not in load ${load.number}.`, ['batchId'], 'Choose a batch of this load.');
  if (pointId === null) return { load, batch, piece: undefined, name: batch.shortName };
  const piece = pointsOf(room, load).find((point) => point.id === pointId && point.batchId === batchId);
  if (piece === undefined) refuseInput(`That piece is not of ${batch.shortName} in load ${load.number}.`, ['pointId'], 'Choose a piece of this batch.');
  return { load, batch, piece, name: `${piece.name} of ${batch.shortName}` };
}

function withMark(room: BookRoom, asked: Asked, atMs: number): TakenOut[] {
  const { load, batch, piece, name } = asked;
  const whole = outEarlyMs(load, batch.id, null);
  const setAtMs = whole ?? (piece === undefined ? undefined : outEarlyMs(load, batch.id, piece.id));
  if (setAtMs !== undefined) {
    throw new Refusal('CONFLICT', `${name} came out at ${sayInstant(room, setAtMs)}; that is marked already.`, { remedy: 'If that is wrong, take the mark back first, with the reason.' });
  }
  if (load.inAtMs === null) refuseInput(`Load ${load.number} has no mark for going in.`, ['atMs'], 'Mark when it went in first.');
  refuseFuture(room, atMs, ['atMs']);
  refuseBefore(room, atMs, `${name} coming out`, { what: `load ${load.number} going in`, atMs: load.inAtMs }, ['atMs']);
  if (load.outAtMs !== null && atMs > load.outAtMs) {
    refuseInput(`${name} can’t have come out at ${sayInstant(room, atMs)}, after the rest at ${sayInstant(room, load.outAtMs)}.`, ['atMs'], 'Check both times.');
  }
  const before = load.takenOut ?? [];
  const pieces = before.filter((one) => one.batchId === batch.id);
  if (piece === undefined) refuseBefore(room, atMs, `${name} coming out`, { what: 'the last of its pieces taken out', atMs: pieces.reduce<number | null>((last, one) => Math.max(last ?? 0, one.atMs), null) }, ['atMs']);
  const marked = [...before, { batchId: batch.id, pointId: piece?.id ?? null, atMs }];
  const own = pointsOf(room, load).filter((point) => point.batchId === batch.id);
  const isLast = piece !== undefined && own.every((point) => outEarlyMs({ ...load, takenOut: marked }, batch.id, point.id) !== undefined);
  const lastMs = [...pieces.map((one) => one.atMs), atMs].reduce((last, one) => Math.max(last, one));
  const takenOut = isLast ? [...marked, { batchId: batch.id, pointId: null, atMs: lastMs }] : marked;
  if (load.outAtMs === null) refuseLastFish({ ...load, takenOut }, name);
  refuseSealed(room, asked, takenOut);
  return takenOut;
}

/** The load itself comes out with the last of its fish: its chamber is no longer asked anything. */
function refuseLastFish(load: StoredLoad, name: string): void {
  if (load.batchIds.some((batchId) => loadAsOf(load, batchId).outAtMs === null)) return;
  throw new Refusal('RULE_BLOCKS', `${name} is the last fish in load ${load.number}.`, { remedy: 'Mark the load out instead.' });
}

function withoutMark(room: BookRoom, asked: Asked): TakenOut[] {
  const { load, batch, piece, name } = asked;
  const before = load.takenOut ?? [];
  const pointId = piece?.id ?? null;
  const own = before.filter((one) => one.batchId === batch.id);
  if (!own.some((one) => one.pointId === pointId)) throw new Refusal('CONFLICT', `${name} has no mark of its own for coming out early.`, { remedy: 'Look at the load again.' });
  const pieces = own.filter((one) => one.pointId !== null);
  // Where each piece has a mark, the batch is out by its last: it is in again with any of them, and none of them is out of a batch that is in.
  const areAll = pieces.length === pointsOf(room, load).filter((point) => point.batchId === batch.id).length;
  const left = !areAll ? own : piece === undefined ? [] : pieces;
  const takenOut = [...before.filter((one) => one.batchId !== batch.id), ...left.filter((one) => one.pointId !== pointId)];
  refuseSealed(room, asked, takenOut);
  return takenOut;
}

/** Packs carry the day on which smoking ended, and were sealed by what was on record then. */
function refuseSealed(room: BookRoom, { load, batch }: Asked, takenOut: readonly TakenOut[]): void {
  if (room.book.shelf('packs').where('batchId', batch.id).length === 0 || loadAsOf(load, batch.id).outAtMs === loadAsOf({ ...load, takenOut: [...takenOut] }, batch.id).outAtMs) return;
  throw new Refusal('RULE_BLOCKS', `Packs of ${batch.shortName} are sealed, with the day on which it came out.`, { remedy: 'Write what is wrong with the time in the reason when you hold or release the batch.' });
}
