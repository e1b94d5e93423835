/** A load fed by a Modbus TCP device that runs in a process of its own, by a library's server. */
import { describe, expect, it } from 'vitest';
import type { FeedLinkDraft } from '../../app/contract/requests/feeds.ts';
import { openModbusLink } from '../../main/backroom/feeds/modbus-link.ts';
import { feedNow, modbusLink, openFeedKitchen, pause, readingsOf, register, saveFeed, startForTest, waitForFeed } from './feed-kitchen.ts';
import { pointId } from './smoke-kitchen.ts';

/** Opens one link by itself until it is over. */
function heardOf(link: FeedLinkDraft): Promise<{ readonly why: string; readonly arrivals: number }> {
  if (link.kind !== 'modbus') throw new Error('not a Modbus link');
  const { promise, resolve } = Promise.withResolvers<{ why: string; arrivals: number }>();
  let arrivals = 0;
  openModbusLink(link, {
    clock: { nowMs: () => Date.now() },
    events: { up: () => undefined, arrived: (came) => { arrivals += came.length; }, other: () => undefined, down: (why) => resolve({ why, arrivals }) },
  });
  return promise;
}

const [FLOAT_HIGH, FLOAT_LOW] = [0x427b, 0x3333];

describe('a Modbus device', () => {
  it('is read exactly, each kind of register into the piece of its probe', async () => {
    const smoke = await openFeedKitchen();
    const device = await startForTest('modbus-device.ts');
    await device.tell({ set: { holding: { 0: 628, 5: FLOAT_LOW, 6: FLOAT_HIGH }, input: { 11: 1450 } } });
    const [one = '', two = '', three = ''] = smoke.probeIds;
    const feed = await saveFeed(smoke, modbusLink(device.port, [
      register(one, { register: 1 }), register(two, { register: 40_006, type: 'float32', order: 'word-swapped', scale: '1' }), register(three, { register: 30_012, table: 'input', unit: 'F' }),
    ], { countsFrom: 1 }));
    await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept >= 6);
    await device.tell({ set: { holding: { 0: -185 } } });
    await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept >= 12);
    const [first, second, third] = await Promise.all(['Thick end', 'Centre cut', 'Tail'].map((name) => readingsOf(smoke, pointId(smoke.load, name))));
    expect(new Set(first?.map(({ ticks }) => ticks))).toEqual(new Set([565_200, -166_500]));
    expect(new Set(second?.map(({ ticks }) => ticks))).toEqual(new Set([565_199]));
    expect(new Set(third?.map(({ ticks }) => ticks))).toEqual(new Set([565_000]));
    const times = first?.map(({ atMs }) => atMs) ?? [];
    expect(times.every((atMs, index) => index === 0 || (atMs > (times[index - 1] ?? 0) && atMs - (times[index - 1] ?? 0) < 1900))).toBe(true);
    const now = await feedNow(smoke, feed.id);
    expect(now.text).toMatch(/^Receiving: last value \d\d:\d\d:\d\d\.$/);
    expect(now.channels.map(({ where, keptIn, value }) => [where, keptIn, value?.text])).toEqual([
      ['register 1', `Thick end of load ${smoke.load.number}`, '-18.5'], ['register 40006', `Centre cut of load ${smoke.load.number}`, '62.799999237060546875'], ['register 30012', `Tail of load ${smoke.load.number}`, '145.0'],
    ]);
    expect(smoke.kitchen.faults).toEqual([]);
  });

  it('that is cut off leaves a gap, is asked again ever more slowly, and is read on', async () => {
    const smoke = await openFeedKitchen();
    const device = await startForTest('modbus-device.ts');
    await device.tell({ set: { holding: { 0: 628 } } });
    const feed = await saveFeed(smoke, modbusLink(device.port, [register(smoke.probeIds[0] ?? '')]));
    await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept >= 2);
    await device.tell({ cut: true });
    await waitForFeed(smoke, feed.id, ({ text }) => /^No answer since \d\d:\d\d:\d\d \(trying again every 2 s\): the connection was refused/.test(text));
    const before = (await feedNow(smoke, feed.id)).counts.kept;
    await device.tell({ set: { holding: { 0: 700 } }, cut: false });
    await waitForFeed(smoke, feed.id, ({ counts, state }) => state === 'connected' && counts.kept >= before + 2);
    const readings = await readingsOf(smoke, pointId(smoke.load, 'Thick end'));
    const steps = readings.map(({ atMs }, index) => atMs - (readings[index - 1]?.atMs ?? atMs));
    expect(Math.max(...steps)).toBeGreaterThan(2000);
    expect(readings.map(({ ticks }) => ticks).filter((ticks) => ticks !== 565_200 && ticks !== 630_000)).toEqual([]);
    expect(readings).toHaveLength((await feedNow(smoke, feed.id)).counts.kept);
    expect(smoke.kitchen.faults).toEqual([]);
  });

  it('whose register holds no sensor is told so, and nothing of it is kept', async () => {
    const smoke = await openFeedKitchen();
    const device = await startForTest('modbus-device.ts');
    await device.tell({ set: { holding: { 11: 32_767 } } });
    const feed = await saveFeed(smoke, modbusLink(device.port, [register(smoke.probeIds[0] ?? '', { register: 40_012 })], { countsFrom: 1 }));
    const now = await waitForFeed(smoke, feed.id, ({ counts }) => counts.nonsense >= 2);
    expect(now.text).toBe('The device answers, but register 40012 holds no temperature (32767).');
    expect(now.channels[0]).toMatchObject({ value: null, problem: 'no temperature (32767)', keptIn: null });
    expect(await readingsOf(smoke, pointId(smoke.load, 'Thick end'))).toEqual([]);
  });

  it('that refuses is told in words, and asked on over the same connection', async () => {
    const smoke = await openFeedKitchen();
    const device = await startForTest('modbus-device.ts');
    await device.tell({ refuse: 2, set: { holding: { 0: 628, 1: 630 } } });
    const feed = await saveFeed(smoke, modbusLink(device.port, [register(smoke.probeIds[0] ?? ''), register(smoke.probeIds[1] ?? '', { register: 1 })]));
    const now = await waitForFeed(smoke, feed.id, ({ counts }) => counts.nonsense >= 2);
    expect(now.text).toBe('The device answers, but register 0 holds no temperature (the device has no such register, refusal 2), and register 1 holds no temperature (the device has no such register, refusal 2).');
    await device.tell({ refuse: 0 });
    await waitForFeed(smoke, feed.id, ({ text, counts }) => text.startsWith('Receiving') && counts.kept >= 2);
  });

  it('mute, broken or no such device ends the connection with a reason, and throws nothing', async () => {
    const answers = await Promise.all(([
      ['mute', { mute: true }, /^it did not answer within 3 s; the unit number may be wrong$/],
      ['no Modbus', { garbage: 'ff'.repeat(40) }, /^it did not answer within 3 s; the unit number may be wrong$/],
      ['half an answer', { garbage: '00010000000501030202' }, /^it did not answer within 3 s; the unit number may be wrong$/],
      ['another number', { garbage: '7fff000000050103020274' }, /^its answer was broken$/],
      ['too many registers', { garbage: '00010000000701030402740275' }, /^its answer was broken$/],
      ['pouring out bytes', { garbage: '00'.repeat(9000) }, /^it sends without being asked/],
    ] as const).map(async ([what, told, reason]) => {
      const device = await startForTest('modbus-device.ts');
      await device.tell(told);
      const heard = await heardOf(modbusLink(device.port, [register('probe')]));
      return [what, reason.test(heard.why) ? 'as it should' : heard.why, heard.arrivals];
    }));
    expect(answers).toEqual(['mute', 'no Modbus', 'half an answer', 'another number', 'too many registers', 'pouring out bytes'].map((what) => [what, 'as it should', 0]));
  });

  it('that came to itself after a broken answer is read on', async () => {
    const smoke = await openFeedKitchen();
    const device = await startForTest('modbus-device.ts');
    await device.tell({ garbage: '00'.repeat(9000) });
    const feed = await saveFeed(smoke, modbusLink(device.port, [register(smoke.probeIds[0] ?? '')]));
    await waitForFeed(smoke, feed.id, ({ state }) => state === 'lost');
    await device.tell({ garbage: '', set: { holding: { 0: 628 } } });
    await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept >= 1);
    expect(smoke.kitchen.faults).toEqual([]);
  });

  it('of 24 probes at one a second loses nothing', async () => {
    const smoke = await openFeedKitchen();
    const device = await startForTest('modbus-device.ts');
    const extra = await Promise.all(Array.from({ length: 21 }, async (_, index) => (await smoke.kitchen.ask('office.addInstrument', { name: `Box ${index + 1}`, kind: 'wired-probe', error: null })).id));
    const [place] = (await smoke.kitchen.ask('office.get', {})).places;
    const channels = [...smoke.probeIds, ...extra].map((id, index) => register(id, { register: index, placeId: index < 3 ? null : (place?.id ?? null) }));
    await device.tell({ set: { holding: Object.fromEntries(channels.map((_, index) => [index, 600 + index])) } });
    const feed = await saveFeed(smoke, modbusLink(device.port, channels));
    const now = await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept >= 24 * 4);
    const { asked } = await device.tell({});
    await smoke.kitchen.ask('feed.switch', { feedId: feed.id, isOn: false });
    await pause(1200);
    expect(now.counts).toMatchObject({ repeated: 0, homeless: 0, nonsense: 0 });
    const perPiece = await Promise.all(['Thick end', 'Centre cut', 'Tail'].map(async (name) => (await readingsOf(smoke, pointId(smoke.load, name))).length));
    const inPlace = (await readingsOf(smoke, place?.id ?? '')).length;
    // Every question was answered with 24 values, and each was kept; at the most one more poll came before the feed was off.
    expect(perPiece[0]).toBeGreaterThanOrEqual(asked ?? 0);
    expect(perPiece[0]).toBeLessThanOrEqual((asked ?? 0) + 1);
    expect(new Set(perPiece).size).toBe(1);
    expect(inPlace).toBe(21 * (perPiece[0] ?? 0));
  });
});
