import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { HOUR_MS, makeBatch, MINUTE_MS, receive, soakInput } from './fish-and-brine.ts';

type Batch = Output<'batch.get'>['batch'];

async function kitchenWithBatch(): Promise<{ kitchen: TestKitchen; batch: Batch; startMs: number }> {
  const kitchen = await openTestKitchen();
  const lot = await receive(kitchen);
  const batch = await makeBatch(kitchen, [lot.id]);
  return { kitchen, batch, startMs: kitchen.clock.nowMs() };
}

describe('the log of a soak', () => {
  it('goes from ready through soaking to drying, with what was read and who read it', async () => {
    const { kitchen, batch, startMs } = await kitchenWithBatch();
    kitchen.clock.advance(3 * HOUR_MS);
    const stages = [batch.stage];
    for (const [what, hours] of [['start', 0], ['turn', 1], ['end', 2]] as const) {
      const logged = await kitchen.ask('soak.log', soakInput(batch.id, what, startMs + hours * HOUR_MS, { room: { text: '36', unit: 'F' } }), 'HA');
      stages.push(logged.batch.stage);
    }
    expect(stages).toEqual(['ready', 'soaking', 'soaking', 'drying']);
    const { soak } = (await kitchen.ask('batch.get', { batchId: batch.id })).batch;
    expect(soak.map((event) => event.what)).toEqual(['start', 'turn', 'end']);
    expect(soak[0]).toEqual({ what: 'start', atMs: startMs, brineTicks: 30_000, roomTicks: 20_000, initials: 'HA', enteredAtMs: startMs + 3 * HOUR_MS });
  });

  it('wants the brine’s temperature at the start, and neither temperature at a turn', async () => {
    const { kitchen, batch, startMs } = await kitchenWithBatch();
    const refused = await kitchen.reply('soak.log', soakInput(batch.id, 'start', startMs, { brine: null }));
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['brine'] }] } });
    await kitchen.ask('soak.log', soakInput(batch.id, 'start', startMs));
    expect(await kitchen.reply('soak.log', soakInput(batch.id, 'turn', startMs, { brine: null }))).toMatchObject({ ok: true });
  });

  it('starts once and ends once', async () => {
    const { kitchen, batch, startMs } = await kitchenWithBatch();
    kitchen.clock.advance(3 * HOUR_MS);
    await kitchen.ask('soak.log', soakInput(batch.id, 'start', startMs));
    expect(await kitchen.reply('soak.log', soakInput(batch.id, 'start', startMs + HOUR_MS))).toMatchObject({ ok: false, error: { code: 'CONFLICT' } });
    await kitchen.ask('soak.log', soakInput(batch.id, 'end', startMs + 2 * HOUR_MS));
    for (const what of ['turn', 'end'] as const) {
      expect(await kitchen.reply('soak.log', soakInput(batch.id, what, startMs + 2.5 * HOUR_MS))).toMatchObject({ ok: false, error: { code: 'CONFLICT' } });
    }
  });

  it('has neither turn nor end before its start', async () => {
    const { kitchen, batch, startMs } = await kitchenWithBatch();
    for (const what of ['turn', 'end'] as const) {
      expect(await kitchen.reply('soak.log', soakInput(batch.id, what, startMs))).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringContaining('has not started') } });
    }
  });

  it('refuses a start before the fish was received, a step before the one before it, and a step to come', async () => {
    const { kitchen, batch, startMs } = await kitchenWithBatch();
    const early = await kitchen.reply('soak.log', soakInput(batch.id, 'start', startMs - 2 * HOUR_MS));
    expect(early).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringContaining('receiving of lot'), fields: [{ path: ['atMs'] }] } });
    kitchen.clock.advance(HOUR_MS);
    await kitchen.ask('soak.log', soakInput(batch.id, 'start', startMs + 10 * MINUTE_MS));
    for (const [what, atMs] of [['turn', startMs], ['end', startMs + 10 * MINUTE_MS], ['end', startMs + 2 * HOUR_MS]] as const) {
      expect(await kitchen.reply('soak.log', soakInput(batch.id, what, atMs))).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['atMs'] }] } });
    }
    expect((await kitchen.ask('batch.get', { batchId: batch.id })).batch.soak).toHaveLength(1);
  });

  it('refuses temperatures that are none, or not of a brine or a room', async () => {
    const { kitchen, batch, startMs } = await kitchenWithBatch();
    for (const brine of [{ text: 'cold', unit: 'F' }, { text: '38,2', unit: 'F' }, { text: '380', unit: 'F' }] as const) {
      expect(await kitchen.reply('soak.log', soakInput(batch.id, 'start', startMs, { brine }))).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['brine'] }] } });
    }
    expect(await kitchen.reply('soak.log', soakInput(batch.id, 'start', startMs, { room: { text: '140', unit: 'F' } }))).toMatchObject({ ok: false, error: { fields: [{ path: ['room'] }] } });
  });

  it('keeps a temperature between two ticks as the warmer one', async () => {
    const { kitchen, batch, startMs } = await kitchenWithBatch();
    const { batch: logged } = await kitchen.ask('soak.log', soakInput(batch.id, 'start', startMs, { brine: { text: '3.99999', unit: 'C' } }));
    expect(logged.soak[0]?.brineTicks).toBe(36_000);
  });

  it('refuses a batch that is not there', async () => {
    const { kitchen, startMs } = await kitchenWithBatch();
    expect(await kitchen.reply('soak.log', soakInput('nowhere', 'start', startMs))).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
  });

  it('stands in the record in words', async () => {
    const { kitchen, batch, startMs } = await kitchenWithBatch();
    await kitchen.ask('soak.log', soakInput(batch.id, 'start', startMs, { room: { text: '36.5', unit: 'F' } }));
    const { entries } = await kitchen.ask('record.batch', { batchId: batch.id });
    expect(entries.at(-1)).toMatchObject({ kind: 'soak.start', happenedAtMs: startMs, summary: 'WF 329 went into the brine at 08:00 on 25 Nov 2026, brine 38 °F, room 36.5 °F; new brine.' });
  });
});
