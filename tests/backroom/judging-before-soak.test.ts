import { describe, expect, it } from 'vitest';
import { makeBatch, receive, soakInput } from './fish-and-brine.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';

describe('a batch that has not been in brine', () => {
  it('is not said to have had new brine until its soak began', async () => {
    const kitchen = await openTestKitchen();
    const { id: batchId } = await makeBatch(kitchen, [(await receive(kitchen)).id]);
    const reuse = async () => (await kitchen.ask('batch.verdict', { batchId })).deciding.checks.find((check) => check.checkId === 'BRINE-REUSE')?.verdict;
    expect(await reuse()).toBe('open');
    await kitchen.ask('soak.log', soakInput(batchId, 'start', kitchen.clock.nowMs()));
    expect(await reuse()).toBe('meets');
  });
});
