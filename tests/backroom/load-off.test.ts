import { describe, expect, it } from 'vitest';
import { openTestKitchen } from '../support/test-kitchen.ts';
import { MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId, takeOver } from './smoke-kitchen.ts';
import { csvOf, type MinuteSeries } from './smoke-log.ts';

const rising: MinuteSeries = Array.from({ length: 121 }, (_, minute) => 60 + minute / 2);

/** A load logged for two hours; then the power goes, and the book is opened again so many minutes after. */
async function afterPowerCut(offMinutes: number) {
  const smoke = await openSmokeKitchen();
  const load = await openLoad(smoke);
  const inMs = smoke.readyMs + 10 * MINUTE_MS;
  const lastMs = inMs + 120 * MINUTE_MS;
  smoke.kitchen.clock.set(lastMs);
  await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
  await takeOver(smoke, load, 'so-far.csv', csvOf(inMs, { 'Probe 1': rising, 'Probe 2': rising, 'Probe 3': rising, Chamber: rising }), false);
  expect((await smoke.kitchen.ask('load.get', { loadId: load.id })).off).toBeUndefined();
  await smoke.kitchen.close();
  const kitchen = await openTestKitchen({ bookFile: smoke.kitchen.file, nowMs: lastMs + offMinutes * MINUTE_MS });
  const read = (names: readonly string[], atMs: number) => kitchen.ask('readings.enter', {
    how: 'by-hand', readings: names.map((name) => ({ pointId: pointId(load, name), atMs, value: { text: '140', unit: 'F' as const }, instrumentId: smoke.handId })),
  });
  const off = async () => (await kitchen.ask('load.get', { loadId: load.id })).off;
  return { kitchen, load, lastMs, openedMs: lastMs + offMinutes * MINUTE_MS, off, read };
}

describe('a load that ran while the program was off', () => {
  it('tells the stretch from its last reading to the opening of the book, and what is to be read now', async () => {
    const { load, lastMs, openedMs, off } = await afterPowerCut(40);
    expect(await off()).toEqual({ fromMs: lastMs, toMs: openedMs, pointIds: ['Thick end', 'Centre cut', 'Tail', 'Chamber'].map((name) => pointId(load, name)) });
  });

  it('asks for each point until it is read, and not by a reading of the time before', async () => {
    const { kitchen, load, openedMs, off, read } = await afterPowerCut(40);
    await read(['Tail'], openedMs - 20 * MINUTE_MS);
    expect((await off())?.pointIds).toHaveLength(4);
    kitchen.clock.advance(MINUTE_MS);
    await read(['Tail', 'Chamber'], openedMs + MINUTE_MS);
    expect((await off())?.pointIds).toEqual(['Thick end', 'Centre cut'].map((name) => pointId(load, name)));
    await read(['Thick end', 'Centre cut'], openedMs + MINUTE_MS);
    expect(await off()).toBeUndefined();
  });

  it('lost nothing where it was off no longer than a gap of the record, and nothing more once the load is closed', async () => {
    expect(await (await afterPowerCut(1)).off()).toBeUndefined();
    const { kitchen, load, openedMs, off } = await afterPowerCut(40);
    await kitchen.ask('load.mark', { loadId: load.id, what: 'out', atMs: openedMs });
    expect((await off())?.pointIds).toHaveLength(3);
    await kitchen.ask('load.mark', { loadId: load.id, what: 'cooled', atMs: openedMs });
    expect(await off()).toBeUndefined();
  });
});
