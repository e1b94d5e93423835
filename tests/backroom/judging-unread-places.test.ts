import { describe, expect, it } from 'vitest';
import { HOUR_MS, makeBatch, MINUTE_MS, receive, soakInput } from './fish-and-brine.ts';
import { openSmokeKitchen, releaseInput, smokeAndCool, reviewed } from './smoke-kitchen.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';

describe('a kitchen with two places where the fish may lie', () => {
  it('proves a chilled store only by the record of every cooler', async () => {
    const smoke = await openSmokeKitchen({ store: 'refrigerated' });
    const { kitchen, batchId } = smoke;
    const { id: barId } = await kitchen.ask('office.addPlace', { name: 'Bar cooler', kind: 'cooler' });
    const { cooledMs } = await smokeAndCool(smoke);
    await kitchen.ask('lab.record', { batchId, sampledOn: '2026-11-25', sample: 'loin', laboratory: 'Harbour Laboratory', saltPercent: '2.40', moisturePercent: '64.1', nitritePpm: null });
    await kitchen.ask('batch.decide', releaseInput(batchId, { store: 'refrigerated' }));
    const { packs } = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: cooledMs });
    await kitchen.ask('label.printed', { packIds: packs.map((pack) => pack.id), stockId: '4x3in' });
    kitchen.clock.set(cooledMs + 4 * HOUR_MS);
    const read = async (pointId: string) => {
      const readings = [0, 1, 2, 3, 4].map((hour) => ({ pointId, atMs: cooledMs + hour * HOUR_MS, value: { text: '34', unit: 'F' as const }, instrumentId: smoke.handId }));
      await kitchen.ask('readings.enter', { how: 'by-hand', readings });
    };
    const leave = async () => (await kitchen.ask('batch.verdict', { batchId })).gates.at(3);
    await reviewed(smoke);
    await read(smoke.coolerId);
    expect(await leave()).toMatchObject({ state: 'blocked', blocking: [expect.objectContaining({ checkId: 'STORE-38', reason: expect.stringContaining('Bar cooler') })] });
    await read(barId);
    expect(await leave()).toMatchObject({ state: 'may' });
  });

  it('proves the room of a long soak only by the record of every brining room', async () => {
    const kitchen = await openTestKitchen();
    const roomIds = [(await kitchen.ask('office.addPlace', { name: 'North room', kind: 'brining-room' })).id, (await kitchen.ask('office.addPlace', { name: 'South room', kind: 'brining-room' })).id];
    const lot = await receive(kitchen);
    const { id: batchId } = await makeBatch(kitchen, [lot.id], { recipeId: 'dill-lemon-brine' });
    const startMs = kitchen.clock.nowMs();
    await kitchen.ask('soak.log', soakInput(batchId, 'start', startMs));
    kitchen.clock.advance(5 * HOUR_MS);
    await kitchen.ask('soak.log', soakInput(batchId, 'end', kitchen.clock.nowMs()));
    const read = async (pointId: string) => {
      const readings = Array.from({ length: 31 }, (_value, step) => ({ pointId, atMs: startMs + step * 10 * MINUTE_MS, value: { text: '35', unit: 'F' as const }, instrumentId: null }));
      await kitchen.ask('readings.enter', { how: 'by-hand', readings });
    };
    const room = async () => (await kitchen.ask('batch.verdict', { batchId })).deciding.checks.find((check) => check.checkId === 'BRINE-4H-38')?.verdict;
    await read(roomIds[0] ?? '');
    expect(await room()).toBe('not-proven');
    await read(roomIds[1] ?? '');
    expect(await room()).toBe('meets');
  });
});
