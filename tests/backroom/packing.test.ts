import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { HOUR_MS, MINUTE_MS } from './fish-and-brine.ts';
import { openSmokeKitchen, refusal, releaseInput, smokeAndCool, type SmokeKitchen } from './smoke-kitchen.ts';

/** A whitefish batch of 9 lb of fillets, smoked, cooled and released. */
async function released(more: Partial<Input<'batch.decide'>> = {}): Promise<SmokeKitchen> {
  const smoke = await openSmokeKitchen();
  await smokeAndCool(smoke);
  await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId, more));
  return smoke;
}

function sealInput(smoke: SmokeKitchen, texts: readonly string[], unit: 'lb' | 'g' = 'lb'): Input<'pack.seal'> {
  return { batchId: smoke.batchId, weights: texts.map((text) => ({ text, unit })), sealedAtMs: smoke.kitchen.clock.nowMs() };
}

describe('sealing packs', () => {
  it('numbers them after the lot, keeps the weight as typed, and marks the batch sealed', async () => {
    const smoke = await released();
    const first = await smoke.kitchen.ask('pack.seal', sealInput(smoke, ['1.21', '1.18']), 'HA');
    expect(first.packs).toMatchObject([
      { serial: 1, code: expect.stringMatching(/^WF26329A\w-001$/), net: { text: '1.21', unit: 'lb' }, sealedBy: 'HA', printedCount: 0 },
      { serial: 2, code: expect.stringMatching(/^WF26329A\w-002$/), net: { text: '1.18' } },
    ]);
    const sealedAtMs = smoke.kitchen.clock.nowMs();
    smoke.kitchen.clock.advance(HOUR_MS);
    const later = await smoke.kitchen.ask('pack.seal', sealInput(smoke, ['500'], 'g'));
    expect(later.packs).toMatchObject([{ serial: 3, net: { grams: 500, unit: 'g' } }]);
    expect((await smoke.kitchen.ask('pack.list', { batchId: smoke.batchId })).packs.map((pack) => pack.serial)).toEqual([1, 2, 3]);
    expect((await smoke.kitchen.ask('batch.get', { batchId: smoke.batchId })).batch.sealedAtMs).toBe(sealedAtMs);
  });

  it('is only for a released batch: not before, not on HOLD, not after a rejection', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    const seal = () => refusal(smoke.kitchen.reply('pack.seal', sealInput(smoke, ['1'])));
    expect(await seal()).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringMatching(/^WF26329A\w has not been released\.$/) });
    await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId, { decision: 'hold', reason: 'Probe in doubt.', keptWhere: 'red tub' }));
    expect(await seal()).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('is on HOLD (MG: Probe in doubt.).'), remedy: 'Keep it at 38 °F or below in red tub; do not pack, serve, label, hand over or mix it until a manager releases it.' });
    await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId, { decision: 'reject', reason: 'Not proven.' }));
    expect((await seal()).message).toContain('was rejected (MG: Not proven.)');
  });

  it('never makes more smoked fish than fillets went in', async () => {
    const smoke = await released();
    await smoke.kitchen.ask('pack.seal', sealInput(smoke, ['4', '4']));
    const error = await refusal(smoke.kitchen.reply('pack.seal', sealInput(smoke, ['1.01'])));
    expect(error.message).toMatch(/^The packs of WF26329A\w would weigh 9\.01 lb together, but only 9\.00 lb of fillets went into it\.$/);
    expect((await smoke.kitchen.ask('pack.list', { batchId: smoke.batchId })).packs).toHaveLength(2);
  });

  it('leaves no more over, and trims no more off, than fillets went in, whatever the reason given', async () => {
    const smoke = await released();
    await smoke.kitchen.ask('pack.seal', sealInput(smoke, ['4']));
    const close = (trim: string, remainder: string) => smoke.kitchen.reply('portion.close', {
      batchId: smoke.batchId, trim: { text: trim, unit: 'lb' }, remainder: { text: remainder, unit: 'lb' }, target: null, tare: null, atMs: smoke.kitchen.clock.nowMs(), why: 'The scale was off.',
    });
    expect((await refusal(close('3', '2.01'))).message).toMatch(/^Packs, trim and what is left would weigh 9\.01 lb together, but only 9\.00 lb of fillets went into WF26329A\w\.$/);
    expect((await close('3', '2')).ok).toBe(true);
  });

  it('refuses weights that can’t be, naming the pack', async () => {
    const smoke = await released();
    for (const [text, message] of [['0', 'A weight of 0 lb can’t be.'], ['1,2', '“1,2” has a comma, which can mean a decimal or a thousand.'], ['x', '“x” is not a weight.']] as const) {
      const error = await refusal(smoke.kitchen.reply('pack.seal', sealInput(smoke, ['1', text])));
      expect(error).toMatchObject({ code: 'INVALID_INPUT', message, fields: [{ path: ['weights', '1', 'text'], message }] });
    }
  });

  it('comes after the release and not in the future; a batch to be served is not packed', async () => {
    const smoke = await released();
    const nowMs = smoke.kitchen.clock.nowMs();
    expect((await refusal(smoke.kitchen.reply('pack.seal', { ...sealInput(smoke, ['1']), sealedAtMs: nowMs - MINUTE_MS }))).message).toContain('the release was at');
    expect((await refusal(smoke.kitchen.reply('pack.seal', { ...sealInput(smoke, ['1']), sealedAtMs: nowMs + HOUR_MS }))).message).toContain('is still to come');
    const served = await released({ pack: 'unpacked', store: 'refrigerated' });
    expect((await refusal(served.kitchen.reply('pack.seal', sealInput(served, ['1'])))).message).toContain('was released to be served unpacked');
  });

  it('binds the batch to that kind of pack', async () => {
    const smoke = await released();
    await smoke.kitchen.ask('pack.seal', sealInput(smoke, ['1']));
    const error = await refusal(smoke.kitchen.reply('batch.decide', releaseInput(smoke.batchId, { pack: 'unpacked', store: 'refrigerated' })));
    expect(error.message).toMatch(/^1 packs? of WF26329A\w (was|were) sealed as vacuum packed, frozen\.$/);
  });
});

describe('label stocks', () => {
  it('are those that come with the program', async () => {
    const smoke = await openSmokeKitchen();
    const { stocks } = await smoke.kitchen.ask('stock.list', {});
    expect(stocks).toContainEqual({ id: '4x3in', name: '4 × 3 in', widthMm: 101.6, heightMm: 76.2 });
  });
});
