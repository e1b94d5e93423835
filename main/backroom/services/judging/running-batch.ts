/** A batch of a load with the limits of its set that tell the cook what to do next. */
import { limitsOf } from '../own-set-book.ts';
import { fitOf } from '../../../../app/limits/conditions.ts';
import { measureDescent, type PieceDescent } from '../../../../app/limits/descent.ts';
import type { JudgeContext } from '../../../../app/limits/finding.ts';
import type { JudgeCase, MeasuredPoint } from '../../../../app/limits/judge-case.ts';
import { contextOf } from '../../../../app/limits/judge-set.ts';
import { checkIdsOf, findCheck, type CeilingCheck, type Check, type DescentCheck, type FreezeCheck, type HoldCheck } from '../../../../app/limits/limit-set.ts';
import { pointsOf } from '../../../../app/limits/readings.ts';
import type { StoredBatch, StoredLoad } from '../../book/stored.ts';
import type { BookRoom } from '../../room.ts';
import { composeCase } from './compose.ts';
import { loadAsOf, loadAsPoint } from '../taken-out.ts';
import { keepingOf, setOf, wordsOf } from './judge-batch.ts';
import { type ReadingsAt, readOnce } from './points.ts';

export interface RunningBatch {
  readonly batch: StoredBatch;
  /** The load with the batch's own out mark where it came out before the rest. */
  readonly load: StoredLoad;
  readonly judged: JudgeCase;
  readonly context: JudgeContext;
  readonly pieces: readonly MeasuredPoint[];
  readonly chamber: readonly MeasuredPoint[];
  /** The set's own checks that apply to this batch. */
  readonly hold: HoldCheck | undefined;
  readonly cooling: DescentCheck | undefined;
  readonly ceilings: readonly CeilingCheck[];
  readonly freezing: FreezeCheck | undefined;
}

/** The batches of a load as they run now, judged without the thermometers' error: what the cook sees is what was read. */
export function runningBatches(room: BookRoom, load: StoredLoad, readingsAt: ReadingsAt = readOnce(room)): RunningBatch[] {
  return load.batchIds.map((batchId) => {
    const batch = room.book.shelf('batches').need(batchId);
    const set = setOf(room, batch.setId);
    const composed = composeCase(room, batch, keepingOf(room, batch), readingsAt);
    const judged: JudgeCase = { ...composed.judgeCase, errorTicks: 0 };
    const applying = checkIdsOf(set).flatMap((id) => findCheck(limitsOf(room), id) ?? []).filter((check) => isUsed(check, judged));
    return {
      batch, load: loadAsOf(load, batchId), judged, context: contextOf(set, judged, limitsOf(room), wordsOf(room, composed)),
      pieces: pointsOf(judged, 'piece', 'process'),
      chamber: pointsOf(judged, 'chamber', 'process'),
      hold: applying.find((check): check is HoldCheck => check.kind === 'hold' && check.question === 'chamber'),
      cooling: applying.find((check): check is DescentCheck => check.kind === 'descent'),
      ceilings: applying.filter((check): check is CeilingCheck => check.kind === 'ceiling' && check.question === 'chamber'),
      freezing: batch.process === 'cold' ? applying.find((check): check is FreezeCheck => check.kind === 'freeze' && check.untilSolid === undefined) : undefined,
    };
  });
}

/** The batch as one of its pieces sees it: one that was taken out before the rest is out, and its cooling began. */
export function asPiece(running: RunningBatch, load: StoredLoad, point: MeasuredPoint): RunningBatch {
  const { batch, judged } = running;
  const own = loadAsPoint(load, { id: point.id ?? '', batchId: batch.id });
  if (own.outAtMs === running.load.outAtMs) return running;
  const process = { ...judged.records.process, outMs: own.outAtMs ?? undefined };
  return { ...running, load: own, judged: { ...judged, endOfSmokingMs: own.endOfSmokingAtMs ?? undefined, records: { ...judged.records, process } } };
}

/** A piece's cooling as it stands; undefined where nothing of it was read. */
export function coolingOf(running: RunningBatch, point: MeasuredPoint): PieceDescent | undefined {
  return running.cooling === undefined ? undefined : measureDescent(running.cooling, point, running.judged, running.context, 0);
}

/** A check that only relaxes counts only where its conditions are known to hold. */
function isUsed(check: Check, judged: JudgeCase): boolean {
  const { fit } = fitOf(check.conditions, judged);
  return fit === 'holds' || (fit === 'not-given' && check.relaxes !== true);
}
