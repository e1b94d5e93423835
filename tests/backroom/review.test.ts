import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { openLoad, openSmokeKitchen, refusal, smokeAndCool, type SmokeKitchen } from './smoke-kitchen.ts';

const TRAINING: Input<'paper.add'> = {
  kind: 'training', subject: 'record-review', what: 'Course in reviewing records', number: 'T-17', issuedBy: 'Harbour College', holder: 'CH',
  validFrom: '2025-01-01', validUntil: null, fileId: null,
};

async function finished(): Promise<SmokeKitchen> {
  const smoke = await openSmokeKitchen();
  await smokeAndCool(smoke);
  return smoke;
}

describe('the review of a record', () => {
  it('is one act by name, kept with its remark', async () => {
    const smoke = await finished();
    const { review } = await smoke.kitchen.ask('record.review', { batchId: smoke.batchId, remark: 'Read through, nothing missing.' }, 'CH');
    expect(review).toMatchObject({ batchId: smoke.batchId, initials: 'CH', atMs: smoke.kitchen.clock.nowMs(), remark: 'Read through, nothing missing.', trained: false });
    expect((await smoke.kitchen.ask('corrective.list', { batchId: smoke.batchId })).reviews).toEqual([review]);
    const entry = (await smoke.kitchen.ask('record.batch', { batchId: smoke.batchId })).entries.find((one) => one.kind === 'record.review');
    expect(entry?.summary).toMatch(/^CH reviewed the record of WF26329A\w; no training paper of theirs is on file\.$/);
  });

  it('is by a trained person where that person’s training paper is on file and in force', async () => {
    const smoke = await finished();
    const trainedNow = async (as: string): Promise<boolean> => (await smoke.kitchen.ask('record.review', { batchId: smoke.batchId, remark: '' }, as)).review.trained;
    await smoke.kitchen.ask('paper.add', { ...TRAINING, validFrom: '2024-01-01', validUntil: '2024-12-31' });
    expect(await trainedNow('CH')).toBe(false);
    const { paper } = await smoke.kitchen.ask('paper.add', { ...TRAINING, holder: 'ch', number: 'T-18' });
    expect(await trainedNow('CH')).toBe(true);
    expect(await trainedNow('MG')).toBe(false);
    await smoke.kitchen.ask('paper.strike', { paperId: paper.id, why: 'Wrong course.' });
    expect(await trainedNow('CH')).toBe(false);
  });

  it('waits until the record is finished', async () => {
    const smoke = await openSmokeKitchen();
    const review = () => smoke.kitchen.reply('record.review', { batchId: smoke.batchId, remark: '' });
    expect(await refusal(review())).toMatchObject({ code: 'RULE_BLOCKS', message: 'The record of WF 329 is not finished.' });
    const load = await openLoad(smoke);
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: smoke.readyMs });
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'out', atMs: smoke.readyMs });
    expect((await refusal(review())).remedy).toBe('Review it once the cooling record is closed.');
  });
});
