import { expect, it } from 'vitest';
import { openLoad, openSmokeKitchen, smokeAndCool, soakedBatch } from './smoke-kitchen.ts';

it('The list of loads has those that run and the newest of the others, the list of batches those that were in no smoker yet', async () => {
  const smoke = await openSmokeKitchen();
  const { kitchen } = smoke;
  const first = (await smokeAndCool(smoke)).load;
  const secondBatch = await soakedBatch(kitchen);
  const second = (await smokeAndCool({ ...smoke, batchId: secondBatch, readyMs: kitchen.clock.nowMs() })).load;
  const thirdBatch = await soakedBatch(kitchen);
  const third = await openLoad({ ...smoke, batchId: thirdBatch });
  const waiting = await soakedBatch(kitchen);
  const idsOf = async (input: { newest?: number }): Promise<string[]> => (await kitchen.ask('load.list', input)).loads.map(({ id }) => id);
  expect(await idsOf({})).toEqual([first.id, second.id, third.id]);
  expect(await idsOf({ newest: 1 })).toEqual([second.id, third.id]);
  expect(await idsOf({ newest: 2 })).toEqual([first.id, second.id, third.id]);
  expect((await kitchen.ask('batch.list', { withoutLoad: true })).batches.map(({ id }) => id)).toEqual([waiting]);
  expect((await kitchen.ask('batch.list', {})).batches).toHaveLength(4);
});
