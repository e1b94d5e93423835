import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { addLetter } from './paper-drafts.ts';
import { openSmokeKitchen, refusal, releaseInput, smokeAndCool, soakedBatch, type SmokeKitchen } from './smoke-kitchen.ts';

/** A second batch, made under a set of the kitchen's own whose hold is at another temperature, smoked and cooled. */
async function smokedUnder(fahrenheit: string): Promise<SmokeKitchen & { readonly setId: string }> {
  const smoke = await openSmokeKitchen();
  const { set } = await smoke.kitchen.ask('limits.addSet', {
    baseSetId: 'lodge-default', name: 'Our plan', effectiveFrom: '2026-11-25', paperId: null, changes: [{ checkId: 'HOT-145-30', value: fahrenheit }],
  });
  const batchId = await soakedBatch(smoke.kitchen, { setId: set.setId });
  const own = { ...smoke, batchId, readyMs: smoke.kitchen.clock.nowMs(), setId: set.setId };
  await smokeAndCool(own);
  return own;
}

function holdOf(result: Output<'batch.verdict'>): Output<'batch.verdict'>['deciding']['checks'][number] | undefined {
  return result.deciding.checks.find((check) => check.checkId.startsWith('HOT-145-30'));
}

describe('a batch under a set of the kitchen’s own', () => {
  it('is judged by the changed figure, on the load, on the shelf and in the verdict', async () => {
    const own = await smokedUnder('155');
    const verdict = await own.kitchen.ask('batch.verdict', { batchId: own.batchId });
    expect(verdict.deciding).toMatchObject({ setId: own.setId, setName: 'Our plan' });
    expect(holdOf(verdict)).toMatchObject({ checkId: 'HOT-145-30.OWN-1', verdict: 'meets', reason: expect.stringContaining('155 °F') });
    const record = await own.kitchen.ask('record.batch', { batchId: own.batchId });
    expect(record.deciding.setId).toBe(own.setId);
    const load = await own.kitchen.ask('load.get', { loadId: record.load?.id ?? '' });
    expect(load.limitLines.map((line) => line.text).join()).toContain('155 °F');
    await own.kitchen.ask('batch.decide', releaseInput(own.batchId));
  });

  it('misses it where the fish met the published one', async () => {
    const own = await smokedUnder('184.9');
    const verdict = await own.kitchen.ask('batch.verdict', { batchId: own.batchId });
    expect(holdOf(verdict)).toMatchObject({ verdict: 'misses' });
    const published = verdict.others.find((set) => set.setId === 'lodge-default');
    expect(published?.checks.find((check) => check.checkId === 'HOT-145-30')?.verdict).toBe('meets');
  });

  it('under a looser figure is packed only while the variance that loosened it is on file', async () => {
    const smoke = await openSmokeKitchen();
    const variance = await addLetter(smoke.kitchen, 'variance', { number: 'V-2' });
    const { set } = await smoke.kitchen.ask('limits.addSet', {
      baseSetId: 'lodge-default', name: 'By variance', effectiveFrom: '2026-11-25', paperId: variance.id, changes: [{ checkId: 'HOT-145-30', minutes: 20 }],
    });
    const batchId = await soakedBatch(smoke.kitchen, { setId: set.setId });
    const own = { ...smoke, batchId, readyMs: smoke.kitchen.clock.nowMs() };
    await smokeAndCool(own);
    const checkIn = (result: Output<'batch.verdict'>) => result.deciding.checks.find((check) => check.checkId === 'VARIANCE.OWN-1');
    const before = await own.kitchen.ask('batch.verdict', { batchId });
    expect(checkIn(before)).toMatchObject({ verdict: 'meets' });
    expect(before.gates[2]).toMatchObject({ gate: 'pack', state: 'may' });
    await own.kitchen.ask('paper.strike', { paperId: variance.id, why: 'Withdrawn by the authority.' });
    const after = await own.kitchen.ask('batch.verdict', { batchId });
    expect(checkIn(after)).toMatchObject({ verdict: 'not-proven' });
    expect((await refusal(own.kitchen.reply('batch.decide', releaseInput(batchId)))).code).toBe('RULE_BLOCKS');
  });

  it('shows what the kitchen confirmed of the published limit that a changed one stands for', async () => {
    const smoke = await openSmokeKitchen();
    const { set } = await smoke.kitchen.ask('limits.addSet', {
      baseSetId: 'lodge-default', name: 'Our plan', effectiveFrom: '2026-11-25', paperId: null, changes: [{ checkId: 'COOL-AFDO', field: 'target-1-minutes', value: '100' }],
    });
    await smoke.kitchen.ask('limits.confirm', { checkId: 'COOL-AFDO', document: 'Our plan, page 4.' });
    const batchId = await soakedBatch(smoke.kitchen, { setId: set.setId });
    const cooling = (await smoke.kitchen.ask('batch.verdict', { batchId })).deciding.checks.find((check) => check.checkId === 'COOL-AFDO.OWN-1');
    expect(cooling?.confirmation).toMatchObject({ checkId: 'COOL-AFDO', document: 'Our plan, page 4.' });
  });
});
