import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { exactTicks } from '../../app/measures/temperature.ts';
import { HOUR_MS, MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId, refusal, type SmokeKitchen } from './smoke-kitchen.ts';

type Typed = Input<'readings.enter'>['readings'][number];

function typed(pointIdOfReading: string, atMs: number, text: string, unit: 'F' | 'C' = 'F', instrumentId: string | null = null): Typed {
  return { pointId: pointIdOfReading, atMs, value: { text, unit }, instrumentId };
}

async function ticksOf(smoke: SmokeKitchen, loadId: string, point: string): Promise<number[]> {
  const { series } = await smoke.kitchen.ask('load.get', { loadId });
  const found = series.find((one) => one.pointId === point)?.series;
  if (found === undefined) throw new Error('no such series');
  const view = new DataView(Uint8Array.from(atob(found.ticks), (letter) => letter.charCodeAt(0)).buffer);
  return Array.from({ length: found.length }, (_value, index) => view.getInt32(4 * index, true));
}

describe('typed readings', () => {
  it('are kept exactly, in either scale, and a repeated one is kept once', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const [thick, tail] = [pointId(load, 'Thick end'), pointId(load, 'Tail')];
    const nowMs = smoke.kitchen.clock.nowMs();
    const readings = [typed(thick, nowMs, '41.3'), typed(thick, nowMs + MINUTE_MS, '62.8', 'C', smoke.handId), typed(tail, nowMs, '-4')];
    expect((await smoke.kitchen.ask('readings.enter', { readings, how: 'by-hand' })).kept).toBe(3);
    expect((await smoke.kitchen.ask('readings.enter', { readings, how: 'by-hand' })).kept).toBe(0);
    expect(await ticksOf(smoke, load.id, thick)).toEqual([exactTicks(41.3, 'F'), exactTicks(62.8, 'C')]);
    expect(await ticksOf(smoke, load.id, tail)).toEqual([exactTicks(-4, 'F')]);
  });

  it('may come late, in any order, and are drawn in order of time', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const thick = pointId(load, 'Thick end');
    smoke.kitchen.clock.advance(3 * HOUR_MS);
    const nowMs = smoke.kitchen.clock.nowMs();
    await smoke.kitchen.ask('readings.enter', { how: 'by-hand', readings: [typed(thick, nowMs, '120')] });
    await smoke.kitchen.ask('readings.enter', { how: 'copied-from-paper', readings: [typed(thick, nowMs - HOUR_MS, '80'), typed(thick, nowMs - 2 * HOUR_MS, '60')] });
    expect(await ticksOf(smoke, load.id, thick)).toEqual([60, 80, 120].map((degrees) => exactTicks(degrees, 'F')));
  });

  it('write one line of the record for each load or place, with who typed them', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const nowMs = smoke.kitchen.clock.nowMs();
    await smoke.kitchen.ask('readings.enter', {
      how: 'copied-from-paper', readings: [typed(pointId(load, 'Thick end'), nowMs, '41.3'), typed(pointId(load, 'Tail'), nowMs, '40'), typed(smoke.freezerId, nowMs, '-6')],
    }, 'HA');
    const { entries, chain } = await smoke.kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.filter((entry) => entry.kind === 'readings.enter')).toMatchObject([{ subjectId: load.id, person: 'HA', summary: 'Copied from paper: Thick end 41.3 °F, Tail 40 °F.' }]);
    expect(chain.intact).toBe(true);
  });

  it('of a place are the place’s own record', async () => {
    const smoke = await openSmokeKitchen();
    const nowMs = smoke.kitchen.clock.nowMs();
    expect((await smoke.kitchen.ask('place.get', { placeId: smoke.freezerId })).series.length).toBe(0);
    await smoke.kitchen.ask('readings.enter', { how: 'by-hand', readings: [typed(smoke.freezerId, nowMs - HOUR_MS, '-5.5'), typed(smoke.freezerId, nowMs, '-6')] });
    expect(await smoke.kitchen.ask('place.get', { placeId: smoke.freezerId })).toMatchObject({ pointId: smoke.freezerId, name: 'Chest freezer', kind: 'freezer', series: { length: 2 } });
    const office = await smoke.kitchen.ask('office.get', {});
    expect(office.places.find((place) => place.id === smoke.freezerId)).toMatchObject({ lastTicks: exactTicks(-6, 'F'), lastAtMs: nowMs });
  });

  it.each([
    ['12,5', 'F', '“12,5” has a comma, which can mean a decimal or a thousand.', 'Write 12.5 with a point.'],
    ['', 'F', 'The temperature is empty.', 'Read the thermometer and type the figure.'],
    ['warm', 'C', '“warm” is not a temperature.', 'Type a number of °C, such as 62.8.'],
    ['1e2', 'F', '“1e2” is not a temperature.', 'Type a number of °F, such as 145.'],
    ['1450', 'F', '1450 °F is not a temperature that a smokehouse, cooler or freezer has.', 'Check the unit and the point.'],
    ['-61', 'F', '-61 °F is not a temperature that a smokehouse, cooler or freezer has.', 'Check the unit and the point.'],
    ['372', 'C', '372 °C is not a temperature that a smokehouse, cooler or freezer has.', 'Check the unit and the point.'],
  ] as const)('are refused with a sentence, and none of the others kept: %s °%s', async (text, unit, message, remedy) => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const thick = pointId(load, 'Thick end');
    const nowMs = smoke.kitchen.clock.nowMs();
    const error = await refusal(smoke.kitchen.reply('readings.enter', { how: 'by-hand', readings: [typed(thick, nowMs, '145'), typed(thick, nowMs, text, unit)] }));
    expect(error).toEqual({ code: 'INVALID_INPUT', message, remedy, fields: [{ path: ['readings', 1, 'value'], message }], retryable: false });
    expect(await ticksOf(smoke, load.id, thick)).toEqual([]);
  });

  it('are refused when they are still to come, or of nothing in the book', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const nowMs = smoke.kitchen.clock.nowMs();
    const thick = pointId(load, 'Thick end');
    const enter = (reading: Typed) => smoke.kitchen.reply('readings.enter', { how: 'by-hand', readings: [reading] });
    expect((await refusal(enter(typed(thick, nowMs + 6 * MINUTE_MS, '120')))).message).toBe('10:06 on 25 Nov 2026 is still to come.');
    expect((await enter(typed(thick, nowMs + 4 * MINUTE_MS, '120'))).ok).toBe(true);
    expect(await refusal(enter(typed('nowhere', nowMs, '120')))).toMatchObject({ code: 'NOT_FOUND', message: 'That measuring point is not in this book.' });
    expect((await refusal(enter(typed(thick, nowMs, '120', 'F', 'no-such')))).code).toBe('NOT_FOUND');
  });
});
