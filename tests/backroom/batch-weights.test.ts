import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { HOUR_MS, makeBatch, receive } from './fish-and-brine.ts';
import { openSmokeKitchen, refusal, smokeAndCool, type SmokeKitchen } from './smoke-kitchen.ts';

const weighing = (smoke: SmokeKitchen, what: 'brined' | 'finished', text: string, more: Partial<Input<'batch.weigh'>> = {}): Input<'batch.weigh'> =>
  ({ batchId: smoke.batchId, what, mass: { text, unit: 'lb' }, atMs: smoke.kitchen.clock.nowMs(), ...more });

describe('weights of a batch on its way', () => {
  it('are kept as entered, in grams, with who and when; a second one stands beside the first', async () => {
    const smoke = await openSmokeKitchen();
    await smoke.kitchen.ask('batch.weigh', weighing(smoke, 'brined', '9.9'), 'HA');
    const { weights } = await smoke.kitchen.ask('batch.weigh', weighing(smoke, 'brined', '9.3'), 'HA');
    expect(weights.map(({ what, mass, initials }) => [what, mass.text, mass.unit, initials])).toEqual([['brined', '9.9', 'lb', 'HA'], ['brined', '9.3', 'lb', 'HA']]);
    expect(weights[1]?.mass.grams).toBeCloseTo(4218.41, 2);
    expect((await smoke.kitchen.ask('corrective.list', { batchId: smoke.batchId })).weights).toEqual(weights);
    expect((await smoke.kitchen.ask('record.batch', { batchId: smoke.batchId })).entries.filter((entry) => entry.kind === 'batch.weigh')).toHaveLength(2);
  });

  it('come after their step: brined after the soak, finished after the smoker', async () => {
    const smoke = await openSmokeKitchen();
    expect((await refusal(smoke.kitchen.reply('batch.weigh', weighing(smoke, 'finished', '6')))).message).toBe('WF 329 has not come out of the smoker.');
    expect((await refusal(smoke.kitchen.reply('batch.weigh', weighing(smoke, 'brined', '9', { atMs: smoke.readyMs - HOUR_MS })))).message).toContain('the end of the soak was at');
    const fresh = await makeBatch(smoke.kitchen, [(await receive(smoke.kitchen)).id]);
    expect((await refusal(smoke.kitchen.reply('batch.weigh', weighing(smoke, 'brined', '9', { batchId: fresh.id })))).message).toBe('WF 329 B has not come out of its brine.');
    await smokeAndCool(smoke);
    expect((await smoke.kitchen.ask('batch.weigh', weighing(smoke, 'finished', '6.4'))).weights.at(-1)?.what).toBe('finished');
  });

  it('can’t be more than the fish can weigh', async () => {
    const smoke = await openSmokeKitchen();
    expect(await refusal(smoke.kitchen.reply('batch.weigh', weighing(smoke, 'brined', '14')))).toMatchObject({ message: '14.00 lb can’t be: 9.00 lb of fillets went into the brine.', fields: [{ path: ['mass', 'text'] }] });
    await smoke.kitchen.ask('batch.weigh', weighing(smoke, 'brined', '9.3'));
    await smokeAndCool(smoke);
    expect((await refusal(smoke.kitchen.reply('batch.weigh', weighing(smoke, 'finished', '9.4')))).message).toBe('9.40 lb can’t be: it weighed 9.30 lb after the brine, and smoking only dries it.');
    expect((await refusal(smoke.kitchen.reply('batch.weigh', weighing(smoke, 'finished', '6,4')))).code).toBe('INVALID_INPUT');
    expect((await refusal(smoke.kitchen.reply('batch.weigh', weighing(smoke, 'finished', '6.4', { atMs: smoke.kitchen.clock.nowMs() + HOUR_MS })))).message).toContain('is still to come');
  });
});
