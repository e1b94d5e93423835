/** The verdict of a batch: its judgement, laboratory results, marks after the smoker, and what a manager decides. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Recall } from '../../../app/contract/requests/trace-shapes.ts';
import { isMet } from '../../../app/limits/verdict.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { exposureOf } from './exposure.ts';
import { lethalityOf } from './lethality.ts';
import { markBatch } from './batch-marks.ts';
import { decideBatch } from './deciding.ts';
import { composeCase, plansOf } from './judging/compose.ts';
import { warmDoubts } from './judging/doubt-evidence.ts';
import { gateLines, judgeBatch, judgeByOtherSets, keepingOf, wordsOf } from './judging/judge-batch.ts';
import { withoutExcluded } from './judging/judge-composed.ts';
import { readOnce } from './judging/points.ts';
import { labResultsOf, recordLabResult } from './lab-results.ts';
import { pointsOf } from './load-view.ts';
import { recallOf, refuseRecalled } from './recall-ticks.ts';
import { decisionsOf } from './release.ts';

export const verdictServices = {
  'batch.verdict': getVerdict,
  'lab.record': (room: BookRoom, input: Parsed<'lab.record'>): Output<'lab.record'> => ({ result: recordLabResult(room, input) }),
  'batch.mark': (room: BookRoom, input: Parsed<'batch.mark'>): Output<'batch.mark'> => {
    markBatch(room, input);
    return { batchId: input.batchId };
  },
  'batch.decide': {
    prepare: async (room: BookRoom, { batchId, decision }: Parsed<'batch.decide'>): Promise<Recall | null> => (decision === 'release' ? recallOf(room, batchId) : null),
    commit(room: BookRoom, input: Parsed<'batch.decide'>, recall: Recall | null): Output<'batch.decide'> {
      refuseRecalled(room, room.book.shelf('batches').need(input.batchId), recall);
      return { decision: decideBatch(room, input) };
    },
  },
} satisfies Services<'batch.verdict' | 'lab.record' | 'batch.mark' | 'batch.decide'>;

async function getVerdict(room: BookRoom, { batchId, pack, store }: Parsed<'batch.verdict'>): Promise<Output<'batch.verdict'>> {
  const batch = room.book.shelf('batches').need(batchId);
  const stands = keepingOf(room, batch);
  const keeping = { pack: pack ?? stands.pack, store: store ?? stands.store };
  const readingsAt = readOnce(room);
  await warmDoubts(room, plansOf(room, batch, keeping), readingsAt);
  const { deciding, asRecorded, gates, unconfirmed } = judgeBatch(room, batch, keeping, readingsAt);
  const composed = withoutExcluded(composeCase(room, batch, keeping, readingsAt));
  const heat = deciding.checks.filter((check) => check.question === 'chamber' && check.verdict !== 'does-not-apply');
  const isHeatMet = batch.process === 'hot' && heat.length > 0 && heat.every((check) => isMet(check.verdict));
  return {
    deciding, asRecorded, gates: gateLines(gates), unconfirmed,
    exposure: await exposureOf(room, batch, composed.judgeCase, isHeatMet, wordsOf(room, composed)),
    lethality: isHeatMet ? await lethalityOf({ ...composed.judgeCase, errorTicks: 0 }) : null,
    others: await judgeByOtherSets(room, batch, keeping),
    labResults: labResultsOf(room, batchId),
    decisions: decisionsOf(room, batchId),
    process: batch.process,
    coldest: coldestTicks(room, batch),
  };
}

/** The lowest of the latest readings of the batch's pieces; null before any. */
function coldestTicks(room: BookRoom, batch: StoredBatch): number | null {
  if (batch.loadId === null) return null;
  const load = room.book.shelf('loads').need(batch.loadId);
  const latest = pointsOf(room, load).filter((point) => point.batchId === batch.id).flatMap((point) => room.book.lastReading(point.id)?.lowTicks ?? []);
  return latest.length === 0 ? null : Math.min(...latest);
}
